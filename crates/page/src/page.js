// Follows presses and what is typed without leaving the page: asks for its parts as they then are, and changes what differs.
// Without this script every press is a link or a form, and the page is loaded anew.

import { drags } from "./drag.js";
import { isBeingTyped, morph } from "./morph.js";

const waiting = new Map();
let busy = false;
let stopped = false;
let wanted = 0;
let whenDone = null;

function say(words) {
  const said = document.querySelector("#said");
  if (said) said.textContent = words;
}

function address() {
  return location.pathname + location.search;
}

// Two changed the same, or something failed: that page is shown instead, with nothing lost.
function instead(text) {
  const other = new DOMParser().parseFromString(text, "text/html");
  stopped = true;
  document.title = other.title;
  document.body.replaceChildren(...[...other.body.childNodes].map((n) => document.adoptNode(n)));
}

async function take(answer, keep, mine) {
  const text = await answer.text();
  if (mine !== undefined && mine !== wanted) return;
  if (!answer.headers.has("X-Now")) {
    instead(text);
    return;
  }
  const fresh = new DOMParser().parseFromString(text, "text/html").querySelector("#page");
  morph(document.querySelector("#page"), fresh);
  document.querySelector("form.new [role=alert]")?.scrollIntoView({ block: "nearest" });
  document.title = document.querySelector("#head h1").textContent;
  const now = location.pathname + (answer.headers.get("X-Now") === "?" ? "" : answer.headers.get("X-Now"));
  if (keep) history.pushState(null, "", now);
  else if (now !== address()) history.replaceState(null, "", now);
  lag.settle();
}

const lag = {
  timer: 0,
  begin() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => document.querySelector("#page")?.setAttribute("aria-busy", "true"), 250);
  },
  settle() {
    clearTimeout(this.timer);
    document.querySelector("#page")?.removeAttribute("aria-busy");
  },
};

async function show(where, keep) {
  const mine = ++wanted;
  lag.begin();
  let answer;
  try {
    answer = await fetch(where, { headers: { "X-Wants": "parts" } });
  } catch {
    say("The program does not answer: is it still running?");
    return;
  }
  await take(answer, keep, mine);
}

// Sends a form; true once it was answered.
async function send(action, fields) {
  wanted++;
  lag.begin();
  const where = action.includes("?") ? action : action + location.search;
  let answer;
  try {
    answer = await fetch(where, { method: "POST", headers: { "X-Wants": "parts" }, body: new URLSearchParams(fields) });
  } catch {
    say("The program does not answer. What you typed stays here, and is sent once it does.");
    return false;
  }
  await take(answer, false);
  whenDone?.();
  whenDone = null;
  return true;
}

// One change after the other, each of what a field holds by then.
async function pump() {
  if (busy || stopped) return;
  busy = true;
  while (waiting.size && !stopped) {
    const [key, fields] = waiting.entries().next().value;
    waiting.delete(key);
    const made = fields();
    if (made && !await send(...made)) {
      if (!waiting.has(key)) waiting.set(key, fields);
      await new Promise((done) => setTimeout(done, 1000));
    }
  }
  busy = false;
}

function queue(key, fields) {
  waiting.set(key, fields);
  pump();
}

function isName(path) {
  return path.endsWith("]") || path.endsWith("].name");
}

function changed(event) {
  const field = event.target;
  if (field.id === "words" && field.closest("#page")) {
    queue("text", () => ["text", [["seen", field.form.elements.seen.value], ["text", field.value]]]);
    return;
  }
  const form = field.closest?.("#page form.set");
  if (!form || !field.name || field.type === "hidden") return;
  // A name is taken when it is whole: it is followed to wherever it is used.
  if (event.type === "input" && isName(field.name)) return;
  queue(field.name, () => {
    if (!field.isConnected) return null;
    const of = new FormData(form);
    const name = field.name;
    const fields = [["seen", of.get("seen")], [`was.${name}`, of.get(`was.${name}`) ?? ""]];
    return ["set", fields.concat(of.getAll(name).map((v) => [name, v]))];
  });
}
document.addEventListener("input", changed);
document.addEventListener("change", changed);

document.addEventListener("submit", (event) => {
  const form = event.target.closest("#page form");
  if (!form || stopped) return;
  event.preventDefault();
  const by = event.submitter;
  const action = by?.getAttribute("formaction") ?? form.getAttribute("action");
  const fields = [...new FormData(form, by)];
  const list = form.dataset.new;
  if (list) whenDone = () => document.getElementById(`part-${list.split("[")[0]}`)?.scrollIntoView({ block: "nearest" });
  queue(`form ${action}`, () => [action, fields.map(([k, v]) => [k, k === "seen" ? (form.elements.seen?.value ?? v) : v])]);
});

document.addEventListener("click", (event) => {
  const link = event.target.closest("#page a");
  if (!link || stopped || event.ctrlKey || event.metaKey || event.shiftKey) return;
  // A link in a drawing holds its address in an object.
  const where = link.href.baseVal ?? link.getAttribute("href");
  if (where === "#found") document.querySelector("#found > details").open = true;
  if (!where.startsWith("?")) return;
  event.preventDefault();
  const [query, part] = where.split("#");
  show(location.pathname + query, true).then(() => {
    if (part) toField(document.getElementById(part) ?? document.querySelector("#plan .entry"));
    else if (link.closest("#found") && where.includes("find=")) toShown(where);
    else if (link.classList.contains("line")) link.scrollIntoView({ block: "nearest" });
  });
});
// The sheet that what is shown stands on is brought into sight.
function toShown(where) {
  const names = (new URLSearchParams(where.split("#")[0]).get("find") ?? "").split("|");
  const there = names.map((n) => document.querySelector(`#drawn [data-of="${CSS.escape(n.split(":")[0])}"]`)).find((e) => e);
  (there ?? document.querySelector("#drawn"))?.scrollIntoView({ block: "center", inline: "center" });
}

// A field that is led to is in sight, and typed in at once.
function toField(field) {
  if (!field) return;
  for (let fold = field.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  const one = field.matches("input, select, fieldset");
  field.scrollIntoView({ block: one ? "center" : "nearest" });
  if (one) field.focus({ preventScroll: true });
}
addEventListener("popstate", () => { if (!stopped) show(address(), false); });

document.addEventListener("keydown", (event) => {
  const typing = event.target.closest?.("input, select, textarea");
  if (typing || event.altKey || !(event.ctrlKey || event.metaKey)) return;
  const turn = { z: event.shiftKey ? "redo" : "undo", y: "redo" }[event.key.toLowerCase()];
  const button = document.querySelector(`button[data-turn="${turn}"]:not(:disabled)`);
  if (!button) return;
  event.preventDefault();
  button.click();
});

function told(event) {
  const of = event.target.closest?.("#state [data-of]");
  const says = of?.querySelector(":scope > title")?.textContent;
  if (says) document.querySelector("#point").textContent = says;
}
for (const kind of ["pointerover", "focusin", "pointerdown"]) document.addEventListener(kind, told);

drags((action, fields) => queue("drag", () => {
  const now = fields();
  return now && [action, now];
}));

// Somebody else, or an editor, changed the plan; or the best sizes are known.
const events = new EventSource("events");
events.addEventListener("message", (event) => {
  // What is being typed is sent first: then it is seen whether both can stand.
  if (stopped || busy || waiting.size || isBeingTyped(document.activeElement)) return;
  if (event.data !== document.querySelector("#head")?.dataset.tag) show(address(), false);
});
document.documentElement.classList.add("follows");

if (new URLSearchParams(location.search).has("find")) toShown(location.search);

function toOpen() {
  const right = document.querySelector(".right");
  const open = document.querySelector("#plan .entry");
  if (open && right.scrollHeight > right.clientHeight) right.scrollTop += open.getBoundingClientRect().top - right.getBoundingClientRect().top - 160;
}
toOpen();
