// Makes a piece of the page into a newer one and leaves alone what is the same: where the cursor is, what is half typed,
// what was opened. A field takes a new value only when the one that the program knows has changed.

function valueOf(field) {
  if (field.nodeName === "SELECT") {
    const options = [...field.options];
    return (options.find((o) => o.defaultSelected) ?? options[0])?.value ?? "";
  }
  if (field.type === "checkbox" || field.type === "radio") return field.defaultChecked;
  return field.defaultValue;
}

function nowOf(field) {
  return field.type === "checkbox" || field.type === "radio" ? field.checked : field.value;
}

export function isBeingTyped(field) {
  return isField(field) && field === document.activeElement && nowOf(field) !== valueOf(field);
}

function isField(node) {
  return node.nodeName === "INPUT" || node.nodeName === "SELECT" || node.nodeName === "TEXTAREA";
}

// What somebody opened stays open, unless the program opens or closes it itself.
function attributes(old, fresh) {
  if (fresh.dataset?.open && old.dataset.open !== fresh.dataset.open) old.open = fresh.open;
  for (const { name } of [...old.attributes]) {
    const theirs = name === "open" && old.nodeName === "DETAILS";
    if (!theirs && !fresh.hasAttribute(name)) old.removeAttribute(name);
  }
  for (const { name, value } of fresh.attributes) {
    if (name === "open" && old.nodeName === "DETAILS") continue;
    if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }
}

function children(old, fresh) {
  const wanted = [...fresh.childNodes];
  wanted.forEach((child, i) => {
    const there = old.childNodes[i];
    if (there) morph(there, child);
    else old.append(document.adoptNode(child));
  });
  while (old.childNodes.length > wanted.length) old.lastChild.remove();
}

// A drawing is put in place of the old one as a whole; what had the focus in it has it again.
function drawing(old, fresh) {
  if (old.isEqualNode(fresh)) return;
  const focused = old.contains(document.activeElement) ? document.activeElement.closest("[data-of], [data-path]") : null;
  const key = focused?.dataset.of ? `[data-of="${CSS.escape(focused.dataset.of)}"]` : `[data-path="${CSS.escape(focused?.dataset.path ?? "")}"]`;
  const now = document.adoptNode(fresh);
  old.replaceWith(now);
  if (focused) now.querySelector(key)?.focus();
}

export function morph(old, fresh) {
  const other = old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName;
  // By attribute: a field called "id" would hide the form's own.
  const differs = (name) => old.getAttribute?.(name) !== fresh.getAttribute?.(name);
  if (other || differs("type") || (old.getAttribute?.("id")?.startsWith("part-") && differs("id"))) {
    old.replaceWith(document.adoptNode(fresh));
    return;
  }
  if (old.nodeType !== Node.ELEMENT_NODE) {
    if (old.data !== fresh.data) old.data = fresh.data;
    return;
  }
  if (old.nodeName === "svg") {
    drawing(old, fresh);
    return;
  }
  // What can't be drawn just now leaves the last drawing where it is.
  if (fresh.dataset?.stays && old.querySelector("svg")) {
    old.classList.add("of-before");
    return;
  }
  old.classList.remove("of-before");
  if (!isField(old)) {
    attributes(old, fresh);
    children(old, fresh);
    return;
  }
  const [was, is] = [valueOf(old), valueOf(fresh)];
  // What is being typed and is not sent yet stays.
  const mine = isBeingTyped(old);
  const renamed = old.name !== fresh.name && old !== document.activeElement;
  attributes(old, fresh);
  if (old.nodeName !== "INPUT") children(old, fresh);
  if (mine || (was === is && !renamed)) return;
  if (old.type === "checkbox" || old.type === "radio") old.checked = is;
  else old.value = is;
}
