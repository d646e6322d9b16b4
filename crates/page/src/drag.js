// Places on the vehicle, dragged or moved with the arrow keys.

const STEP = 2;

function percent(handle, x, y) {
  const of = handle.closest(".handles").dataset;
  const within = (v) => Math.round(Math.min(Math.max(v, 0), 1) * 100);
  return { along: within((x - of.left) / of.long), across: within((y - of.top) / of.wide) };
}

function put(handle, { along, across }) {
  const of = handle.closest(".handles").dataset;
  const x = Number(of.left) + (along / 100) * of.long;
  const y = Number(of.top) + (across / 100) * of.wide;
  handle.setAttribute("transform", `translate(${x} ${y})`);
}

// What is to be sent, by what the page knows when it is sent.
function fields(path, { along, across }) {
  const handle = document.querySelector(`.handle[data-path="${CSS.escape(path)}"]`);
  if (!handle) return null;
  const { wasAlong, wasAcross } = handle.dataset;
  return [
    ["seen", handle.closest(".handles").dataset.seen],
    [`was.${path}.along`, wasAlong], [`${path}.along`, `${along} %`],
    [`was.${path}.across`, wasAcross], [`${path}.across`, `${across} %`],
  ];
}

export function drags(send) {
  let held = null;
  document.addEventListener("pointerdown", (event) => {
    held = event.target.closest?.(".handle");
    if (!held) return;
    event.preventDefault();
    held.setPointerCapture(event.pointerId);
  });
  const at = (event) => {
    const svg = held.ownerSVGElement;
    const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return percent(held, p.x, p.y);
  };
  document.addEventListener("pointermove", (event) => { if (held) put(held, at(event)); });
  document.addEventListener("pointerup", (event) => {
    if (!held) return;
    const spot = at(event);
    const { path, along, across } = held.dataset;
    held = null;
    if (spot.along !== Number(along) || spot.across !== Number(across)) send("set", () => fields(path, spot));
  });
  document.addEventListener("keydown", (event) => {
    const handle = event.target.closest?.(".handle");
    const by = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, -STEP], ArrowDown: [0, STEP] }[event.key];
    if (!handle || !by) return;
    event.preventDefault();
    const near = (v) => Math.min(Math.max(v, 0), 100);
    const spot = { along: near(Number(handle.dataset.along) + by[0]), across: near(Number(handle.dataset.across) + by[1]) };
    put(handle, spot);
    Object.assign(handle.dataset, spot);
    const { path } = handle.dataset;
    send("set", () => fields(path, spot));
  });
}
