// The drawing of the sweep: flywheel, dial gauge and crankshaft.

const DIAL = { x: 520, y: 178, r: 140 };
const WHEEL = { x: 166, y: 186, r: 140 };
/** Where the stylus stands square on the face: the radius of the sheet. */
const RADIUS = 80;
const polar = ({ x, y }, r, degrees) => {
  const a = (degrees * Math.PI) / 180;
  return [x + r * Math.sin(a), y - r * Math.cos(a)];
};

/** Flywheel, dial and crankshaft, drawn as on the cards. */
function sweepDrawing(places) {
  const names = [];
  const wheel = draw("g", { class: "bp-sweep-turns" }, ...wheelMarks(places, names));
  wheel.style.transformOrigin = `${WHEEL.x}px ${WHEEL.y}px`;
  const slider = draw(
    "g",
    {
      class: "bp-sweep-wheel",
      role: "slider",
      tabindex: 0,
      "aria-label": "Flywheel",
      "aria-valuemin": 1,
      "data-lm-suppress-shortcuts": "true",
    },
    draw("circle", { cx: WHEEL.x, cy: WHEEL.y, r: WHEEL.r + 7, class: "bp-sweep-ring" }),
    wheel,
  );
  const [tipX, tipY] = polar(WHEEL, RADIUS, 0);
  const stylus = draw(
    "g",
    { "aria-hidden": "true" },
    draw("circle", { cx: tipX, cy: tipY, r: 9, class: "bp-sweep-stylus" }),
    label(WHEEL.x, WHEEL.y + 160, "dot: stylus, square on the face", 15),
  );
  const hand = draw("line", {
    x1: DIAL.x, y1: DIAL.y + 30, x2: DIAL.x, y2: DIAL.y - 127, class: "bp-sweep-hand",
  });
  hand.style.transformOrigin = `${DIAL.x}px ${DIAL.y}px`;
  const dial = draw(
    "g",
    { "aria-hidden": "true" },
    ...dialFace(),
    hand,
    ...dialFigures(),
    draw("circle", { cx: DIAL.x, cy: DIAL.y, r: 9, class: "bp-sweep-ink" }),
  );
  const [pushed, free] = ["pushed in", "not held"].map((words) => draw("g", {}, label(612, 404, words, 20)));
  pushed.append(draw("path", { d: "M556 397H486m0 0l16 -10v20z", class: "bp-sweep-push" }));
  const shaft = draw("g", { "aria-hidden": "true" }, ...crankshaft(), pushed, free);
  // Three drawings, so that on a narrow page they stand one below the other and the dial stays legible.
  const part = (box, ...drawn) => draw("svg", { viewBox: box }, ...drawn);
  const element = make(
    "div",
    { class: "bp-sweep-drawing" },
    part("8 22 316 336", slider, stylus),
    part("350 10 340 338", dial),
    part("196 352 476 92", shaft),
  );
  return { element, wheel, names, slider, hand, pushed, free };
}

const label = (x, y, words, size) =>
  draw("text", { x, y, "font-size": size, class: "bp-sweep-words" }, words);

/** Marks that turn with the wheel; `names` gets the numbers, which stay upright. */
function wheelMarks(places, names) {
  const disc = (r, fill) => draw("circle", { cx: WHEEL.x, cy: WHEEL.y, r, class: `bp-sweep-line ${fill}` });
  const marks = [disc(WHEEL.r, "bp-sweep-metal"), disc(106, "bp-sweep-pale"), disc(52, "bp-sweep-white")];
  marks.push(draw("circle", { cx: WHEEL.x, cy: WHEEL.y, r: RADIUS, class: "bp-sweep-radius" }));
  for (let place = 0; place < places; place++) {
    const angle = (360 / places) * place;
    const [x, y] = polar(WHEEL, 123, angle);
    const [boltX, boltY] = polar(WHEEL, 34, angle + 22.5);
    const name = draw("g", { class: "bp-sweep-turns" }, label(x, y + 6, String(place + 1), 18));
    name.style.transformOrigin = `${x}px ${y}px`;
    names.push(name);
    marks.push(
      draw("circle", { cx: x, cy: y, r: 16, class: `bp-sweep-line ${place ? "bp-sweep-white" : "bp-sweep-first"}` }),
      name,
      draw("circle", { cx: boltX, cy: boltY, r: 7, class: "bp-sweep-line bp-sweep-shade" }),
    );
  }
  return marks;
}

function dialFace() {
  const { x, y, r } = DIAL;
  const face = [
    draw("circle", { cx: x, cy: y, r: r + 20, class: "bp-sweep-line bp-sweep-metal" }),
    draw("circle", { cx: x, cy: y, r, class: "bp-sweep-line bp-sweep-white" }),
  ];
  for (let line = 0; line < 100; line++) {
    const long = line % 10 === 0 ? 0.88 : line % 5 === 0 ? 0.91 : 0.94;
    const [[x1, y1], [x2, y2]] = [polar(DIAL, r, 3.6 * line), polar(DIAL, r * long, 3.6 * line)];
    face.push(draw("line", { x1, y1, x2, y2, class: line % 10 ? "bp-sweep-thin" : "bp-sweep-line" }));
  }
  return face;
}

/** The figures lie over the hand: where it points at one, that one can still be read. */
function dialFigures() {
  const figures = [0, 10, 20, 30, 40, 50, 60, 70, 80, 90].map((line) => {
    const [x, y] = polar(DIAL, DIAL.r * 0.76, 3.6 * line);
    return label(x, y + 7, String(line), 19);
  });
  return [...figures, label(DIAL.x, DIAL.y + 62, "0.01 mm", 17)];
}

/** The same from the side: the flywheel on its crankshaft, the stylus square on its face, the stand on the block. */
function crankshaft() {
  const box = (x, y, width, height, fill) =>
    draw("rect", { x, y, width, height, class: `bp-sweep-line ${fill}` });
  return [
    box(330, 358, 60, 80, "bp-sweep-shade"),
    box(364, 384, 88, 26, "bp-sweep-metal"),
    box(452, 358, 20, 78, "bp-sweep-pale"),
    draw("path", { d: "M472 370H536V438H390", class: "bp-sweep-stand" }),
    box(494, 362, 24, 16, "bp-sweep-metal"),
    label(290, 396, "engine", 17),
  ];
}
