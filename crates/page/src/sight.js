// Brings what a drawing marks into its sight: on a narrow screen it would lie beside it.
for (const drawing of document.querySelectorAll(".drawing[data-marks]")) {
  const names = drawing.dataset.marks.split("|");
  const marked = names.map((n) => drawing.querySelector(`[data-of="${CSS.escape(n)}"]`)).filter((e) => e);
  const box = drawing.getBoundingClientRect();
  const lefts = marked.map((e) => e.getBoundingClientRect());
  if (!lefts.length) continue;
  const middle = (Math.min(...lefts.map((r) => r.left)) + Math.max(...lefts.map((r) => r.right))) / 2;
  drawing.scrollLeft += middle - box.left - box.width / 2;
}
