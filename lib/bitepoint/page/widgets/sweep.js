// A dial gauge swept round a flywheel: turn it from place to place, push the crankshaft or not, read the hand, note it.

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
