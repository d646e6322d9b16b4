// Follows presses without leaving the page: fetches the part that shows the new state and puts it in place of the old.
// Without this script every press is a link, and the page is loaded anew.

const point = document.querySelector("#point");
let wanted = 0;

async function show(address, keep) {
  const mine = ++wanted;
  const focus = document.activeElement?.closest("a")?.closest("[data-of]")?.dataset.of;
  const scrolls = [...document.querySelectorAll("#state .drawing")].map((d) => d.scrollLeft);
  let answer;
  try {
    answer = await fetch(address, { headers: { "X-Wants": "state" } });
  } catch {
    point.textContent = "The program does not answer: is it still running?";
    return;
  }
  const text = await answer.text();
  // A later press has overtaken this one.
  if (mine !== wanted) return;
  if (!answer.ok) {
    location.assign(address);
    return;
  }
  const found = new DOMParser().parseFromString(text, "text/html").querySelector("#state");
  document.querySelector("#state").replaceWith(document.adoptNode(found));
  document.querySelectorAll("#state .drawing").forEach((d, i) => { d.scrollLeft = scrolls[i] ?? 0; });
  if (focus) document.querySelector(`#state a[data-of="${CSS.escape(focus)}"]`)?.focus();
  if (keep) history.pushState(null, "", address);
}

document.addEventListener("click", (event) => {
  const link = event.target.closest("#state a");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  // A link in a drawing holds its address in an object.
  show(link.href.baseVal ?? link.getAttribute("href"), true);
});

function told(event) {
  const of = event.target.closest?.("#state [data-of]");
  const says = of?.querySelector(":scope > title")?.textContent;
  if (says) point.textContent = says;
}
document.addEventListener("pointerover", told);
document.addEventListener("focusin", told);
document.addEventListener("pointerdown", told);
addEventListener("popstate", () => show(location.pathname + location.search, false));
