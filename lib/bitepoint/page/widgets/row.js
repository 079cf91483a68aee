// What stands around the bench of work cards: the strip of stages, the row of work, the list of all picks.

const SIGN_OF = { done: "✓", now: "▶", "to come": "" };

/** The parts of the whole job, each with its state in words; null when there are none. */
function stageStrip(stages) {
  if (!stages.length) return null;
  const chips = stages.map(({ title, state }) =>
    make(
      "li",
      { class: "bp-chip", "data-state": state, "aria-current": state === "now" ? "step" : null },
      make("span", { class: "bp-chip-sign", "aria-hidden": "true" }, SIGN_OF[state] ?? ""),
      make("span", {}, title),
      make("span", { class: "bp-chip-state" }, state),
    ),
  );
  return make("ol", { class: "bp-strip", "aria-label": "Parts of the job" }, ...chips);
}

/** The row of work: what was done before, then each card put down. */
function workRow(done) {
  const list = make("ol", { class: "bp-row-list" });
  const title = make("p", { class: "bp-label", id: fresh("row") }, "");
  list.setAttribute("aria-labelledby", title.id);
  const before = done.map((text) =>
    make("li", { class: "bp-placed bp-before" }, sign("✓"), make("span", { class: "bp-tile-words" }, text)),
  );
  const show = (placed) => {
    title.textContent = `Your order of work (${placed.length} put down)`;
    const cards = placed.map(({ key, text }, index) =>
      make(
        "li",
        { class: "bp-placed" },
        sign(String(index + 1)),
        make("span", { class: "bp-tile-words" }, text),
        make("span", { class: "bp-letter" }, key),
      ),
    );
    const next = make("li", { class: "bp-placed bp-next" }, sign(String(placed.length + 1)), "comes next");
    list.replaceChildren(...before, ...cards, next);
    list.scrollTop = list.scrollHeight;
    // Only a list that scrolls is a stop for the Tab key: somebody has to be able to scroll it.
    if (list.scrollHeight > list.clientHeight + 1) list.tabIndex = 0;
    else list.removeAttribute("tabindex");
  };
  return { element: make("div", { class: "bp-order-of-work" }, title, list), show };
}

const sign = (text) => make("span", { class: "bp-place", "aria-hidden": "true" }, text);

/** All picks in words, the ones sent back with their reason. */
function logOfPicks(cards) {
  const summary = make("summary", {});
  const list = make("ol", { class: "bp-log" });
  const element = make("details", { class: "bp-details" }, summary, list);
  const text = (letter) => cards.find((card) => card.key === letter)?.text ?? letter;
  const show = (picks) => {
    const back = picks.filter((pick) => pick.safe === false).length;
    summary.textContent = picks.length
      ? `What you picked so far (${picks.length}${back ? `, ${back} sent back` : ""})`
      : "What you picked so far (nothing yet)";
    const words = ({ letter, safe, says }) =>
      `${letter}: ${text(letter)}${safe === false ? `. Sent back: ${says}` : ""}`;
    list.replaceChildren(...picks.map((pick) => make("li", {}, words(pick))));
  };
  return { element, show };
}
