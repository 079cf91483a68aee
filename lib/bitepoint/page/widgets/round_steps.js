// What follows an answer in a round of recall: say why, go on, keep the date.

/** The card with these words, shown from its top and with the focus on it: the next Tab is the first answer. */
function goTo(root, words) {
  const area = root.closest(".jp-OutputArea");
  if (!area) return;
  const put = () => {
    const card = [...area.querySelectorAll(".bp-sheet")].find((sheet) => sheet.textContent.includes(words));
    if (!card) return false;
    card.tabIndex = -1;
    // With the card focused, "d d" would delete the cell.
    card.setAttribute("data-lm-suppress-shortcuts", "true");
    card.focus({ preventScroll: true });
    card.scrollIntoView({ block: "start" });
    return true;
  };
  if (put()) return;
  // The card travels beside the control and may come a moment later.
  const watch = new MutationObserver(() => put() && watch.disconnect());
  watch.observe(area, { childList: true, subtree: true, characterData: true });
}

/** One line in own words; it may be passed over. */
function reasonField({ label, read, hint, most }, send, say) {
  const id = fresh("why");
  const note = fresh("note");
  const field = make("textarea", { class: "bp-input bp-why", id, rows: 2, maxlength: most, placeholder: hint, "aria-describedby": note });
  const keep = () => {
    if (field.value.trim()) return send({ do: "why", text: field.value });
    field.focus();
    return say("Write a line first, or press “Skip”.");
  };
  const button = (word, onclick, main = "") => make("button", { type: "button", class: `bp-button${main}`, onclick }, word);
  return make(
    "div",
    {},
    make("label", { class: "bp-label bp-block", for: id }, label),
    make("p", { class: "bp-hint", id: note }, read),
    field,
    make("div", { class: "bp-row bp-actions" }, button("Keep it and show the reason", keep, " bp-main"), button("Skip", () => send({ do: "pass" }))),
  );
}

/** The learner's words and the course's, side by side. */
function twoReasons(wrote, reason) {
  const one = (head, words) => make("div", {}, make("b", {}, head), make("p", { class: "bp-reason" }, words));
  return make("div", { class: "bp-reasons" }, one("Why, in your own words", wrote), one("Why, as the course says it", reason));
}

/** A file made of its text, to be saved. */
function dateLink({ name, text }, signal) {
  const address = URL.createObjectURL(new Blob([text], { type: "text/calendar" }));
  signal.addEventListener("abort", () => URL.revokeObjectURL(address));
  return make("a", { class: "bp-save", href: address, download: name }, "Save the date for your phone");
}

function buildSteps(model, root, signal) {
  const spec = { why: {}, date: {}, ...model.get("spec") };
  const status = speaker("bp-status bp-hint");
  const send = sender(model, status.say, signal, "change:spec", "One moment …");
  const told = verdict(model, signal);
  const parts = [];
  if (spec.why.label) parts.push(reasonField(spec.why, send, status.say));
  if (spec.wrote) parts.push(twoReasons(spec.wrote, spec.reason));
  if (spec.date.name) parts.push(dateLink(spec.date, signal));
  const go = (word, message, main) => make("button", { type: "button", class: `bp-button${main}`, onclick: () => send(message) }, word);
  const buttons = [];
  if (spec.next) buttons.push(go(spec.next, { do: "next" }, spec.why.label ? "" : " bp-main"));
  if (spec.another) buttons.push(go(spec.another, { do: "another" }, ""));
  if (parts.length || buttons.length) parts.push(make("div", { class: "bp-row bp-actions" }, ...buttons, status.element), told);
  root.replaceChildren(...parts);
  root.hidden = !parts.length;
  // Something went wrong: the waiting is over all the same.
  listen(model, "change:said", () => status.say(""), signal);
  if (root.bpPlace !== undefined && root.bpPlace !== spec.place) goTo(root, spec.place);
  // What follows an answer stands below the verdict: it is to be seen without scrolling.
  else if (root.bpPlace !== undefined && !root.hidden) requestAnimationFrame(() => root.scrollIntoView({ block: "nearest" }));
  root.bpPlace = spec.place;
}

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-after", "aria-label": "After your answer" });
    return rebuilt(model, el, root, buildSteps);
  },
};
