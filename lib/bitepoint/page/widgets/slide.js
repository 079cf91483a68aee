// A picture that follows a slider. The kernel has sent every place of it; here its named groups are moved.

const SLOW_MS = 4000;

/** Read a drawing of ours and put it in the page, so that its groups can be moved. */
function drawingOf(svg, alt) {
  const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  const element = document.importNode(parsed, true);
  element.setAttribute("role", "img");
  element.setAttribute("aria-label", alt);
  element.setAttribute("class", "bp-slide-picture");
  element.removeAttribute("width");
  element.removeAttribute("height");
  return element;
}

/** Put every group where this frame has it. */
function place(picture, { shift = {}, turn = {}, shapes = {}, words = {} }) {
  const groups = (name) => picture.querySelectorAll(`.bp-part-${name}`);
  for (const [name, x] of Object.entries(shift))
    for (const group of groups(name)) group.setAttribute("transform", `translate(${x} 0)`);
  for (const [name, [angle, x, y]] of Object.entries(turn))
    for (const group of groups(name)) group.setAttribute("transform", `rotate(${angle} ${x} ${y})`);
  for (const [name, points] of Object.entries(shapes))
    for (const polygon of picture.querySelectorAll(`.bp-part-${name} polygon`))
      polygon.setAttribute("points", points);
  for (const [name, text] of Object.entries(words))
    for (const shown of picture.querySelectorAll(`.bp-part-${name} text`)) shown.textContent = text;
}

function buildSlide(model, root, signal) {
  const { title, label, unit, frames, svg, alt, step, frame: warning } = model.get("spec");
  const id = fresh("slide");
  const last = frames[frames.length - 1].at;
  const picture = drawingOf(svg, alt);
  const range = make("input", {
    class: "bp-slide",
    id,
    type: "range",
    min: frames[0].at,
    max: last,
    step,
    oninput: () => {
      rest();
      show();
    },
  });
  const read = make("span", { class: "bp-slide-read", "aria-hidden": "true" });
  let timer = 0;
  const rest = () => cancelAnimationFrame(timer);
  range.value = frames[0].at;

  function show() {
    const frame = frames[Math.round((Number(range.value) - frames[0].at) / step)];
    place(picture, frame);
    range.setAttribute("aria-valuetext", frame.says);
    read.textContent = `${frame.at} ${unit}`;
    picture.setAttribute("aria-label", `${frame.says}. ${alt}`);
  }

  /** Move the slider by itself to one end; at once for a person who asked for less motion. */
  function go(to) {
    rest();
    const from = Number(range.value);
    const begun = performance.now();
    const spent = (SLOW_MS * Math.abs(to - from)) / (last - frames[0].at);
    const move = (now) => {
      const share = calm() || !spent ? 1 : Math.min(1, Math.max(0, (now - begun) / spent));
      range.value = from + share * (to - from);
      show();
      if (share < 1) timer = requestAnimationFrame(move);
    };
    move(performance.now());
  }

  const button = (words, to) => make("button", { type: "button", class: "bp-button", onclick: () => go(to) }, words);
  root.replaceChildren(
    make("p", { class: "bp-title" }, title),
    frameStrip(warning),
    picture,
    make(
      "div",
      { class: "bp-slide-bench" },
      make("label", { for: id, class: "bp-field-label" }, label),
      make("div", { class: "bp-slide-row" }, range, read),
      make(
        "div",
        { class: "bp-row" },
        button("Press slowly", last),
        button("Let it up", frames[0].at),
        make("span", { class: "bp-hint" }, `Drag the slider, or let a button move it.${keyboard("arrow keys, Page Up and Page Down, Home and End.")}`),
      ),
    ),
  );
  signal.addEventListener("abort", rest);
  show();
}

/** The drawing carries the strip itself; a reader of the page hears it before the figures. */
const frameStrip = (words) => (words ? make("p", { class: "bp-unseen" }, words) : "");

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-sliding", "aria-label": "Picture with a slider" });
    return rebuilt(model, el, root, buildSlide);
  },
};
