// The bench of work cards: one card taken up, put down as next, judged at once or later by the kernel.

const BEGIN = `${TAP} the card that comes next to take it up, and once more to put it down. It is kept, and counts when you press “Done”.`;
const VERDICT = "The verdict is below.";

/** Build the bench for one spec; everything stops with the signal. */
function buildBench(model, root, signal) {
  const spec = { cards: [], done: [], stages: [], at_once: false, ...model.get("spec") };
  const benches = benchesOf(spec);
  const staged = benches.length > 1;
  const status = speaker("bp-status");
  const send = sender(model, status.say, signal);
  const pick = sender(model, status.say, signal, "change:told");
  const closed = () => Boolean(model.get("said").closed);
  const judged = () => stagesOf(model).flat().filter((one) => one.safe !== undefined);
  const last = () => at === benches.length - 1;
  const strip = stageStrip();
  const row = workRow(spec.done);
  const log = logOfPicks(benches);
  const side = make("div", { class: "bp-bench-side" });
  const work = make("div", { class: "bp-work-bench" }, side, row.element);
  let bench = null;
  let at = -1;
  let taken = null;
  let announced = judged().length;

  /** Lay the cards of the open stage on the bench when another stage lies there. */
  function lay() {
    const stage = Math.min(stagesOf(model).length, benches.length) - 1;
    if (stage === at) return;
    at = stage;
    taken = null;
    bench = benchOf(benches[at].cards, actOn);
    side.replaceChildren(...bench.elements);
    work.style.setProperty("--bp-cards", Math.max(benches[at].cards.length, staged ? 5 : 0));
  }

  function actOn(card) {
    if (closed()) return status.say("This drill is closed: read the verdict below.");
    if (taken !== card.key) {
      taken = card.key;
      show();
      return status.say(`Card ${card.key} taken up: ${card.text}. ${TAP} it once more to put it down as next.`);
    }
    taken = null;
    const picked = [...model.get("picked"), card.key];
    setPicked(picked);
    if (spec.at_once) return pick({ do: "pick", picked });
    model.send({ do: "pick", picked });
    return status.say(`Card ${card.key} put down. ${lying(stagesOf(model).at(-1)).length} in your order of work.`);
  }

  function setPicked(picked) {
    model.set("picked", picked);
    model.save_changes();
    show();
  }

  /** Change the row without a pick: the kernel is told, the first card of the bench gets the focus. */
  function turnTo(picked, words) {
    taken = null;
    setPicked(picked);
    model.send({ do: "pick", picked });
    bench.first();
    inSight(strip.element);
    status.say(words);
  }

  function goOn() {
    if (spec.at_once && !finishedStage(model)) return status.say("Not yet: this stage still has cards on the bench.");
    if (!stagesOf(model).at(-1).length) return status.say("Nothing is picked at this stage yet.");
    const { title } = benches[at + 1];
    return turnTo([...model.get("picked"), GO_ON], `Stage ${at + 2} of ${benches.length}: ${title}. Take its first card.`);
  }

  function showTold() {
    const told = judged();
    show();
    const newest = told.at(-1);
    if (newest && told.length > announced) {
      const text = textOf(benches[at], newest.letter);
      const done = staged && finishedStage(model);
      status.element.dataset.tone = newest.safe ? "right" : "not yet";
      const refused = newest.critical ? "⚠ Dangerous: back to the bench." : "↩ Back to the bench.";
      if (!newest.safe) status.say(`${refused} ${newest.says}`);
      else if (!done) status.say(`✓ ${text}: put down.`);
      else status.say(`✓ ${benches[at].title} is done. ${last() ? "That was the last stage: check your work." : "Go on."}`);
      if (!newest.safe) bench.goTo(newest.letter);
      if (done && root.contains(document.activeElement)) {
        main.focus({ preventScroll: true });
        inSight(main);
      }
    }
    announced = told.length;
  }

  function show() {
    status.element.dataset.tone = "";
    const rows = stagesOf(model);
    const here = rows.at(-1);
    const done = staged && spec.at_once && finishedStage(model);
    keepFocus(root, () => {
      lay();
      const placed = lying(here).flatMap((one) => benches[at].cards.find((card) => card.key === one.letter) ?? []);
      const before = rows.slice(0, -1).reduce((sum, one) => sum + lying(one).length, 0);
      const back = new Map(here.flatMap((one) => (one.safe === false ? [[one.letter, one]] : [])));
      routine.textContent = benches[at].routine ?? "";
      routine.hidden = !routine.textContent;
      strip.show(staged ? stagesNow(benches, rows, spec.at_once) : spec.stages, titleOf(before + placed.length));
      row.show(placed.map((card) => ({ ...card, broke: back.get(card.key) })), { before, more: !done });
      log.show(rows);
      bench.show({
        gone: placed.map((card) => card.key),
        taken,
        back,
        closed: closed(),
        strangers: done ? (model.get("told").strangers ?? []) : null,
      });
      main.textContent = last() ? "Done: check my work" : `Go on to: ${benches[at + 1].title}`;
      main.disabled = closed();
      main.setAttribute("aria-disabled", !last() && spec.at_once && !done);
      restart.again.disabled = closed() || !model.get("picked").length;
      afresh.again.disabled = closed();
      afresh.again.hidden = !staged || !here.length || !afresh.asked.hidden;
      backward.hidden = !staged || at === 0 || here.length > 0;
      backward.disabled = closed();
    });
    if (document.activeElement === root && bench.empty()) main.focus();
  }

  /** How far the whole job has come, in words. */
  function titleOf(count) {
    if (!staged) return "";
    const all = benches.reduce((sum, one) => sum + one.own, 0);
    const stage = `Stage ${at + 1} of ${benches.length}`;
    return spec.at_once ? `${stage} · ${count} of ${all} operations done` : `${stage} · ${count} put down`;
  }

  const routine = make("p", { class: "bp-hint bp-routine" });
  const main = make(
    "button",
    {
      type: "button",
      class: "bp-button bp-main",
      onclick: () => {
        if (!last()) return goOn();
        if (!model.get("picked").length) return status.say("Nothing is picked yet: take a card from the bench first.");
        return send({ do: "answer", answer: model.get("picked") });
      },
    },
    "Done: check my work",
  );
  const backward = make(
    "button",
    {
      type: "button",
      class: "bp-button",
      onclick: () => turnTo(model.get("picked").slice(0, -1), `Back at: ${benches[at - 1].title}.`),
    },
    "Back one stage",
  );
  const afresh = restartButtons({
    words: "This stage again",
    question: "Put the cards of this stage back?",
    yes: "Yes, put them back",
    no: "No, keep them",
    restart: () => {
      const picked = model.get("picked");
      turnTo(picked.slice(0, picked.lastIndexOf(GO_ON) + 1), "The cards of this stage are back on the bench.");
    },
  });
  const restart = restartButtons({
    question: "Put every card back?",
    yes: "Yes, put every card back",
    no: "No, keep my order",
    restart: () => turnTo([], "Every card is back on the bench. Start again."),
  });
  root.replaceChildren(
    make("p", { class: "bp-title" }, spec.title ?? ""),
    frame(spec.frame) ?? "",
    strip.element,
    routine,
    status.element,
    work,
    make("div", { class: "bp-row bp-footer" }, main, backward, afresh.again, afresh.asked, restart.again, restart.asked),
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

/** Scroll only as far as it takes: on a small screen the way on lies below the edge, the next bench above it. */
const inSight = (element) => element.scrollIntoView({ block: "nearest", behavior: calm() ? "auto" : "smooth" });

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-work", "aria-label": "Order of work" });
    return rebuilt(model, el, root, buildBench);
  },
};
