// The bench of work cards: one card taken up, put down as next, judged at once or later by the kernel.

const BEGIN = "Take the card that comes next, and once more to put it down.";
const VERDICT = "The verdict is below.";

/** Build the bench for one spec; everything stops with the signal. */
function buildBench(model, root, signal) {
  const spec = { cards: [], done: [], stages: [], at_once: false, ...model.get("spec") };
  const status = speaker("bp-status");
  const send = sender(model, status.say, signal);
  const pick = sender(model, status.say, signal, "change:told");
  const closed = () => Boolean(model.get("said").closed);
  const row = workRow(spec.done);
  const log = logOfPicks(spec.cards);
  const bench = benchOf(spec.cards, actOn);
  let taken = null;
  let announced = picksOf(model).filter((one) => one.safe !== undefined).length;

  function actOn(card) {
    if (closed()) return status.say("This drill is closed: read the verdict below.");
    if (taken !== card.key) {
      taken = card.key;
      show();
      return status.say(`Card ${card.key} taken up: ${card.text}. Once more to put it down as next.`);
    }
    return putDown(card);
  }

  function putDown(card) {
    taken = null;
    const picked = [...model.get("picked"), card.key];
    setPicked(picked);
    if (spec.at_once) return pick({ do: "pick", picked });
    model.send({ do: "pick", picked });
    return status.say(`Card ${card.key} put down. ${placedOf(model, spec).length} in your order of work.`);
  }

  function setPicked(picked) {
    model.set("picked", picked);
    model.save_changes();
    show();
  }

  function showTold() {
    const judged = picksOf(model).filter((one) => one.safe !== undefined);
    show();
    const last = judged.at(-1);
    if (last && judged.length > announced) {
      const text = spec.cards.find((card) => card.key === last.letter)?.text ?? last.letter;
      status.element.dataset.tone = last.safe ? "right" : "not yet";
      status.say(last.safe ? `✓ ${text}: put down.` : `↩ Back to the bench. ${last.says}`);
      if (!last.safe) bench.goTo(last.letter);
    }
    announced = judged.length;
  }

  function show() {
    status.element.dataset.tone = "";
    const placed = placedOf(model, spec);
    const back = new Set(picksOf(model).flatMap((one) => (one.safe === false ? [one.letter] : [])));
    row.show(placed);
    log.show(picksOf(model));
    keepFocus(root, () => {
      bench.show({ gone: placed.map((card) => card.key), taken, back, closed: closed() });
      check.disabled = closed();
      restart.again.disabled = closed() || !model.get("picked").length;
    });
    if (document.activeElement === root && bench.empty()) check.focus();
  }

  const check = make(
    "button",
    {
      type: "button",
      class: "bp-button bp-main",
      onclick: () =>
        model.get("picked").length
          ? send({ do: "answer", answer: model.get("picked") })
          : status.say("Nothing is picked yet: take a card from the bench first."),
    },
    "Done: check my work",
  );
  const restart = restartButtons({
    question: "Put every card back?",
    yes: "Yes, put every card back",
    no: "No, keep my order",
    restart: () => {
      taken = null;
      announced = 0;
      setPicked([]);
      model.send({ do: "pick", picked: [] });
      status.say("Every card is back on the bench. Start again.");
    },
  });
  root.replaceChildren(
    make("p", { class: "bp-title" }, spec.title ?? ""),
    frame(spec.frame) ?? "",
    stageStrip(spec.stages) ?? "",
    status.element,
    make("div", { class: "bp-work-bench" }, bench.element, row.element),
    make("div", { class: "bp-row bp-footer" }, check, restart.again, restart.asked),
    log.element,
    verdict(model, signal),
  );
  const begin = () => status.say(model.get("said").text ? VERDICT : BEGIN);
  listen(model, "change:told", showTold, signal);
  listen(model, "change:picked", show, signal);
  listen(model, "change:said", show, signal);
  listen(model, "change:said", begin, signal);
  show();
  begin();
}

/** Every pick with what the kernel said of it; one it has not answered yet has no `safe`. */
function picksOf(model) {
  const told = model.get("told")?.picks ?? [];
  return model.get("picked").map((letter, at) => (told[at]?.letter === letter ? told[at] : { letter }));
}

/** Cards that lie in the row: the refused ones are back on the bench. */
function placedOf(model, spec) {
  return picksOf(model)
    .filter((one) => one.safe !== false)
    .map((one) => spec.cards.find((card) => card.key === one.letter))
    .filter(Boolean);
}

/** The cards as one tab stop: arrows move, click, Enter or Space acts. */
function benchOf(cards, act) {
  const buttons = cards.map((card) => cardButton(card));
  const label = make("p", { class: "bp-label", id: fresh("bench") }, "On the bench");
  const place = make("div", { class: "bp-cards", role: "group", "aria-labelledby": label.id });
  place.append(...buttons.map((one) => one.element));
  const left = () => buttons.filter((one) => !one.element.hidden);
  const rove = (to) => {
    for (const one of buttons) one.element.tabIndex = one === to ? 0 : -1;
  };
  const goTo = (key) => {
    const to = buttons.find((one) => one.card.key === key);
    rove(to);
    if (place.contains(document.activeElement) || document.activeElement?.contains(place)) {
      to.element.focus({ preventScroll: true });
    }
  };
  const steps = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
  for (const one of buttons) {
    one.element.addEventListener("click", () => {
      rove(one);
      act(one.card);
    });
    one.element.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.repeat && (event.key === "Enter" || event.key === " ")) return event.preventDefault();
      const row = left();
      const ends = { Home: row[0], End: row.at(-1) };
      const step = steps[event.key];
      const to = step ? row.at((row.indexOf(one) + step) % row.length) : ends[event.key];
      if (!to) return;
      event.preventDefault();
      rove(to);
      to.element.focus();
    });
  }
  const show = ({ gone, taken, back, closed }) => {
    const held = buttons.findIndex((one) => one.element === document.activeElement);
    for (const one of buttons) {
      one.element.hidden = gone.includes(one.card.key);
      one.element.disabled = closed;
      one.element.setAttribute("aria-pressed", one.card.key === taken);
      one.mark.textContent = one.card.key === taken ? "taken up" : back.has(one.card.key) ? "↩ sent back" : "";
    }
    const row = left();
    const stop = row.find((one) => one.element.tabIndex === 0);
    const next = row.find((one) => buttons.indexOf(one) > held) ?? row.at(-1);
    if (!stop && next) rove(next);
    if (held >= 0 && buttons[held].element.hidden && next) next.element.focus({ preventScroll: true });
    label.textContent = row.length ? `On the bench (${row.length})` : "The bench is empty";
  };
  rove(buttons[0]);
  return { element: make("div", { class: "bp-bench-side" }, label, place), show, goTo, empty: () => !left().length };
}

function cardButton(card) {
  const mark = make("span", { class: "bp-card-mark" });
  const element = make(
    "button",
    { type: "button", class: "bp-button bp-card" },
    make("span", { class: "bp-letter" }, card.key),
    make("span", { class: "bp-tile-words" }, card.text),
    mark,
  );
  return { card, element, mark };
}

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-work", "aria-label": "Order of work" });
    return rebuilt(model, el, root, buildBench);
  },
};
