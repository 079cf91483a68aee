// A dial gauge swept round a flywheel: turn it from place to place, push the crankshaft or not, read the hand, note it.

const DIAL = { x: 520, y: 178, r: 140 };
const WHEEL = { x: 166, y: 186, r: 140 };
const polar = ({ x, y }, r, degrees) => {
  const a = (degrees * Math.PI) / 180;
  return [x + r * Math.sin(a), y - r * Math.cos(a)];
};

/** The sweep above a field for the figure. What the learner did lives in the trait `step`, so a reload keeps it. */
function sweepKind(spec, model, check) {
  const { held, loose } = spec.sweep;
  const places = held.length - 1;
  const state = { at: 0, held: false, notes: held.map(() => ""), ...model.get("step") };
  const number = numberKind(spec, check);
  const bench = sweepDrawing(places);
  const spoken = speaker("bp-unseen");
  const where = make("p", { class: "bp-label bp-sweep-place" });
  let closed = false;
  let steps = state.at;

  const name = (at) => (at === places ? "Place 1 again" : `Place ${at + 1}`);
  const lines = () => (state.held ? held : loose)[state.at];
  const seen = () => `${name(state.at)}. The hand stands on line ${(lines() + 100) % 100} of the outer scale.`;

  function keep() {
    model.set("step", { ...state, notes: [...state.notes] });
    model.save_changes();
  }

  function turn(by) {
    if (closed) return;
    const next = state.at + by;
    state.at = next > places ? 1 : next < 0 ? places - 1 : next;
    steps += by;
    keep();
    show();
  }

  function show() {
    where.textContent = `${name(state.at)} is under the stylus`;
    bench.wheel.style.transform = `rotate(${(-360 / places) * steps}deg)`;
    for (const mark of bench.names) mark.style.transform = `rotate(${(360 / places) * steps}deg)`;
    bench.hand.style.transform = `rotate(${3.6 * lines()}deg)`;
    bench.pushed.toggleAttribute("hidden", !state.held);
    bench.free.toggleAttribute("hidden", state.held);
    bench.slider.setAttribute("aria-valuenow", state.at + 1);
    bench.slider.setAttribute("aria-valuetext", seen());
    notes.forEach(({ label }, at) => label.classList.toggle("bp-sweep-now", at === state.at));
  }

  const button = (words, by) => {
    const onclick = () => {
      turn(by);
      spoken.say(seen());
    };
    return make("button", { type: "button", class: "bp-button", onclick }, words);
  };
  const push = tile("checkbox", fresh("push"), "held", "Push held against the crankshaft", () => {
    state.held = push.control.checked;
    keep();
    show();
    spoken.say(`${state.held ? "Pushed in" : "Not held"}. ${seen()}`);
  });
  push.control.checked = state.held;
  const notes = held.map((_, at) => sweepNote(at, name(at), state, keep, () => {
    if (at !== state.at || at === places) return;
    turn(1);
    notes[state.at].input.focus();
    spoken.say(seen());
  }));

  bench.slider.setAttribute("aria-valuemax", places + 1);
  const dragging = draggedRound(bench.slider, 360 / places, (by) => turn(by), () => spoken.say(seen()));
  bench.slider.addEventListener("click", () => {
    if (dragging.ended()) return;
    turn(1);
    spoken.say(seen());
  });
  bench.slider.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (!by && event.key !== "Home") return;
    event.preventDefault();
    turn(by ?? -state.at);
  });

  const element = make(
    "div",
    { class: "bp-sweep" },
    make("p", { class: "bp-hint" }, `${TAP} the flywheel: it turns on by one place. Or drag it round, or use the buttons.${keyboard("the arrow keys.")}`),
    bench.element,
    where,
    spoken.element,
    make("div", { class: "bp-row" }, button("◀ Turn back", -1), button("Turn on ▶", 1), push),
    make(
      "fieldset",
      { class: "bp-sweep-notes" },
      make("legend", {}, "Your notes (not marked)"),
      make("p", { class: "bp-hint" }, "Write what you read. Enter turns on to the next place."),
      make("div", { class: "bp-sweep-row" }, ...notes.map(({ label }) => label)),
    ),
    number.element,
  );
  show();
  return {
    ...number,
    element,
    show: (isClosed) => {
      closed = isClosed;
      bench.slider.setAttribute("aria-disabled", closed);
    },
  };
}

/** Turn the wheel with the finger, a place at a time; `ended` says once whether the press was a drag and no tap. */
function draggedRound(wheel, step, turn, done) {
  let held = null;
  let drawn = false;
  const angle = (event) => {
    const box = wheel.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left - box.width / 2, event.clientY - box.top - box.height / 2];
    return (Math.atan2(x, -y) * 180) / Math.PI;
  };
  wheel.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    held = angle(event);
    drawn = false;
    wheel.setPointerCapture(event.pointerId);
  });
  wheel.addEventListener("pointermove", (event) => {
    if (held === null) return;
    const by = ((angle(event) - held + 540) % 360) - 180;
    if (Math.abs(by) < step / 2) return;
    drawn = true;
    held += Math.sign(by) * step;
    // The places are numbered the way of the clock, so the wheel turns against it to bring the next one up.
    turn(by < 0 ? 1 : -1);
  });
  for (const type of ["pointerup", "pointercancel"])
    wheel.addEventListener(type, () => {
      held = null;
      if (drawn) done();
    });
  const ended = () => {
    const was = drawn;
    drawn = false;
    return was;
  };
  return { ended };
}

/** A small field for what was read at one place. */
function sweepNote(at, words, state, keep, onenter) {
  const input = make("input", {
    class: "bp-input",
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    maxlength: 8,
    size: 4,
    "aria-label": `Your note for ${words.toLowerCase()}`,
    onchange: () => {
      state.notes[at] = input.value;
      keep();
    },
  });
  input.value = state.notes[at] ?? "";
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.isComposing) return;
    event.preventDefault();
    state.notes[at] = input.value;
    keep();
    onenter();
  });
  const short = words.replace("Place ", "");
  return { input, label: make("label", { class: "bp-sweep-note" }, make("span", {}, short), input) };
}

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
  const [tipX, tipY] = polar(WHEEL, WHEEL.r - 26, 0);
  const stylus = draw("polygon", {
    points: `${tipX},${tipY} ${tipX - 11},${tipY - 52} ${tipX + 11},${tipY - 52}`,
    class: "bp-sweep-stylus",
  });
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
  const [pushed, free] = ["pushed in", "not held"].map((words) => draw("g", {}, label(610, 404, words, 20)));
  pushed.append(draw("path", { d: "M556 397H494m0 0l16 -10v20z", class: "bp-sweep-push" }));
  const shaft = draw("g", { "aria-hidden": "true" }, ...crankshaft(), pushed, free);
  // Three drawings, so that on a narrow page they stand one below the other and the dial stays legible.
  const part = (box, ...drawn) => draw("svg", { viewBox: box }, ...drawn);
  const element = make(
    "div",
    { class: "bp-sweep-drawing" },
    part("8 22 316 326", slider, stylus),
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
  const marks = [disc(WHEEL.r, "bp-sweep-metal"), disc(118, "bp-sweep-pale"), disc(62, "bp-sweep-white")];
  for (let place = 0; place < places; place++) {
    const angle = (360 / places) * place;
    const [[x1, y1], [x2, y2]] = [polar(WHEEL, 122, angle), polar(WHEEL, WHEEL.r, angle)];
    const [x, y] = polar(WHEEL, 92, angle);
    const [boltX, boltY] = polar(WHEEL, 42, angle + 22.5);
    const name = draw("g", { class: "bp-sweep-turns" }, label(x, y + 7, String(place + 1), 20));
    name.style.transformOrigin = `${x}px ${y}px`;
    names.push(name);
    marks.push(
      draw("line", { x1, y1, x2, y2, class: "bp-sweep-line" }),
      draw("circle", { cx: x, cy: y, r: 19, class: `bp-sweep-line ${place ? "bp-sweep-white" : "bp-sweep-first"}` }),
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

function crankshaft() {
  const box = (x, y, width, height, fill) =>
    draw("rect", { x, y, width, height, class: `bp-sweep-line ${fill}` });
  return [
    box(330, 384, 132, 26, "bp-sweep-metal"),
    box(360, 366, 22, 62, "bp-sweep-shade"),
    box(408, 366, 22, 62, "bp-sweep-shade"),
    box(462, 358, 20, 78, "bp-sweep-pale"),
    label(262, 404, "crankshaft", 18),
  ];
}
