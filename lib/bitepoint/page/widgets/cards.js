// The loose cards of one bench.

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
  const first = () => {
    const to = left().find((one) => !one.element.disabled);
    if (!to) return;
    rove(to);
    to.element.focus({ preventScroll: true });
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
  const show = ({ gone, taken, back, closed, strangers }) => {
    const held = buttons.findIndex((one) => one.element === document.activeElement);
    for (const one of buttons) {
      one.element.hidden = gone.includes(one.card.key);
      one.element.disabled = closed || Boolean(strangers);
      one.element.setAttribute("aria-pressed", one.card.key === taken);
      const broke = back.get(one.card.key);
      const refused = broke ? (broke.critical ? "⚠ Dangerous: sent back" : "↩ sent back") : "";
      one.mark.textContent = one.card.key === taken ? `taken up: ${TAP.toLowerCase()} again to put it down` : refused;
      one.why.textContent = (strangers?.find((pick) => pick.letter === one.card.key) ?? broke)?.says ?? "";
      one.element.classList.toggle("bp-broke", Boolean(broke));
    }
    const row = left();
    const stop = row.find((one) => one.element.tabIndex === 0);
    const next = row.find((one) => buttons.indexOf(one) > held) ?? row.at(-1);
    if (!stop && next) rove(next);
    if (held >= 0 && buttons[held].element.hidden && next) next.element.focus({ preventScroll: true });
    if (strangers) label.textContent = "Left over: these do not belong to this stage";
    else label.textContent = row.length ? `On the bench (${row.length})` : "The bench is empty";
  };
  rove(buttons[0]);
  return { elements: [label, place], show, goTo, first, empty: () => !left().length };
}

function cardButton(card) {
  const mark = make("span", { class: "bp-card-mark" });
  const why = make("span", { class: "bp-card-why" });
  const element = make(
    "button",
    { type: "button", class: "bp-button bp-card" },
    make("span", { class: "bp-letter" }, card.key),
    make("span", { class: "bp-tile-words" }, card.text),
    mark,
    why,
  );
  return { card, element, mark, why };
}
