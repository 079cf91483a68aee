// The whole job: how far the row of picks has come among its stages, and the strip that shows it.

const GO_ON = "/";
const SIGN_OF = { done: "✓", now: "▶" };

/** One bench for each stage of the whole job, or the only one there is. */
const benchesOf = (spec) => spec.benches ?? [{ title: "", cards: spec.cards, own: 0 }];

/** Picks of each stage begun so far, each with what the kernel said of it; one it has not answered has no `safe`. */
function stagesOf(model) {
  const told = model.get("told")?.picks ?? [];
  const rows = [[]];
  model.get("picked").forEach((letter, at) => {
    if (letter === GO_ON) rows.push([]);
    else rows.at(-1).push(told[at]?.letter === letter ? told[at] : { letter });
  });
  return rows;
}

/** Cards that lie in a row: the refused ones are back on the bench. */
const lying = (row) => row.filter((one) => one.safe !== false);

/** Whether the kernel said of this very row that the open stage has all its cards. */
function finishedStage(model) {
  const { picks = [], finished = false } = model.get("told") ?? {};
  return finished && picks.length === model.get("picked").length;
}

/** State and count of each stage: how many of its own cards, or only how many cards where nothing may be told. */
function stagesNow(benches, rows, atOnce) {
  return benches.map(({ title, own }, at) => {
    const state = at < rows.length - 1 ? "done" : at === rows.length - 1 ? "now" : "to come";
    const count = lying(rows[at] ?? []).length;
    if (state === "to come") return { title, state, count: own === 1 ? "1 card" : `${own} cards` };
    return { title, state, count: atOnce ? `${count} of ${own}` : `${count} put down`, share: count / own };
  });
}

/** The parts of the job as a chain, each with its state in words and, of the whole job, its count. */
function stageStrip() {
  const list = make("ol", { class: "bp-strip", "aria-label": "Parts of the job" });
  const title = make("p", { class: "bp-label bp-strip-title" });
  const show = (stages, words = "") => {
    title.textContent = words;
    title.hidden = !words;
    list.hidden = !stages.length;
    list.replaceChildren(...stages.map(stageChip));
  };
  return { element: make("div", { class: "bp-strip-side" }, title, list), show };
}

function stageChip({ title, state, count = "", share }, at) {
  const bar = make("span", { class: "bp-chip-bar", "aria-hidden": "true" }, make("span", {}));
  bar.firstChild.style.width = `${Math.min(100, 100 * (share ?? 0))}%`;
  return make(
    "li",
    { class: "bp-chip", "data-state": state, "aria-current": state === "now" ? "step" : null },
    make("span", { class: "bp-chip-sign", "aria-hidden": "true" }, SIGN_OF[state] ?? String(at + 1)),
    make(
      "span",
      { class: "bp-chip-words" },
      make("span", { class: "bp-chip-title" }, title),
      make("span", { class: "bp-chip-state" }, count ? `${state}: ${count}` : state),
    ),
    count ? bar : null,
  );
}
