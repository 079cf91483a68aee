// What stands around the bench of work cards: the row of work, the list of all picks.

/** The row of work: what was done before, then each card put down; `before` counts the cards of earlier stages. */
function workRow(done) {
  const list = make("ol", { class: "bp-row-list" });
  const title = make("p", { class: "bp-label", id: fresh("row") }, "");
  list.setAttribute("aria-labelledby", title.id);
  const earlier = done.map((text) =>
    make("li", { class: "bp-placed bp-before" }, sign("✓"), make("span", { class: "bp-tile-words" }, text)),
  );
  const show = (placed, { before = 0, more = true } = {}) => {
    title.textContent = `Your order of work (${placed.length} put down)`;
    const cards = placed.map(({ key, text, broke }, index) =>
      make(
        "li",
        { class: "bp-placed" },
        sign(String(before + index + 1)),
        make("span", { class: "bp-tile-words" }, text, brokenRule(broke)),
        make("span", { class: "bp-letter" }, key),
      ),
    );
    const next = make("li", { class: "bp-placed bp-next" }, sign(String(before + placed.length + 1)), "comes next");
    list.replaceChildren(...earlier, ...cards, ...(more ? [next] : []));
  };
  return { element: make("div", { class: "bp-order-of-work" }, title, list), show };
}

/** Under a card that was sent back once: which rule it broke then. It counts, though it lies rightly now. */
const brokenRule = (broke) =>
  broke ? make("span", { class: "bp-card-why" }, `${broke.critical ? "⚠ Dangerous" : "↩ Sent back"} before: ${broke.says}`) : null;

const sign = (text) => make("span", { class: "bp-place", "aria-hidden": "true" }, text);

/** All picks in words, stage by stage; the reason of one that was sent back stands on its card. */
function logOfPicks(benches) {
  const summary = make("summary", {});
  const list = make("ol", { class: "bp-log" });
  const element = make("details", { class: "bp-details" }, summary, list);
  const show = (rows) => {
    const picks = rows.flatMap((row, at) => row.map((pick) => ({ ...pick, bench: benches[at] })));
    const back = picks.filter((pick) => pick.safe === false).length;
    summary.textContent = picks.length
      ? `What you picked so far (${picks.length}${back ? `, ${back} sent back` : ""})`
      : "What you picked so far (nothing yet)";
    const words = ({ letter, safe, bench }) =>
      `${bench.title ? `${bench.title}, ` : ""}${letter}: ${textOf(bench, letter)}` +
      (safe === false ? ". Sent back." : "");
    list.replaceChildren(...picks.map((pick) => make("li", {}, words(pick))));
  };
  return { element, show };
}

const textOf = (bench, letter) => bench.cards.find((card) => card.key === letter)?.text ?? letter;
