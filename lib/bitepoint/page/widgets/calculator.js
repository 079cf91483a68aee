// The form of a calculator. The kernel does the sums; here figures are typed and what it answers is put in its place.

const TYPING_MS = 150;
// "6" on the way to "63" is no mistake yet.
const WRONG_MS = 600;

/** The fields beyond the first ones, behind one button that says how many there are and whether one is wrong. */
function foldOf(fields, press) {
  const body = make("div", { class: "bp-fields", id: fresh("more") }, ...laidOut(fields));
  const button = make("button", { type: "button", class: "bp-button bp-more", "aria-controls": body.id, onclick: press });
  const show = (open, wrong) => {
    const count = fields.filter(({ element }) => !element.hidden).length;
    const faults = fields.filter(({ spec }) => wrong[spec.key]).length;
    button.hidden = !count;
    body.hidden = !open || !count;
    button.setAttribute("aria-expanded", String(open));
    button.textContent = `${open ? "Hide" : "Show"} ${count} ${open ? "" : "more "}${count === 1 ? "field" : "fields"}`;
    if (faults && !open) button.append(`: ${faults} to put right`);
  };
  return { elements: fields.length ? [button, body] : [], show };
}

/** The button that opens and closes the whole calculator; none where it does not fold. */
function openerOf(model, bench) {
  if (!model.get("spec").folds) return [];
  bench.id = fresh("bench");
  const show = () => {
    bench.hidden = !model.get("opened");
    button.setAttribute("aria-expanded", String(!bench.hidden));
    button.textContent = bench.hidden ? "Open the calculator" : "Close the calculator";
  };
  const press = () => {
    model.set("opened", !model.get("opened"));
    model.save_changes();
    show();
  };
  const button = make("button", { type: "button", class: "bp-button bp-more bp-opener", "aria-controls": bench.id, onclick: press });
  show();
  return [button];
}

/** Tell the styles how high the part of the page is that the control scrolls in, and how much of it stays covered. */
function keepRoom(root, { shown, staying }, signal) {
  const scrolls = (element) => /auto|scroll/.test(getComputedStyle(element).overflowY);
  let page = null;
  const seen = new ResizeObserver(() => {
    if (!page?.contains(root)) {
      for (page = root.parentElement; page && !scrolls(page); ) page = page.parentElement;
      if (page) seen.observe(page);
    }
    root.style.setProperty("--bp-room", `${page?.clientHeight || window.innerHeight}px`);
    root.style.setProperty("--bp-staying", `${staying().offsetHeight}px`);
    // What scrolls in itself must be within reach of the keyboard.
    for (const box of [shown, ...shown.children]) {
      const hides = box.scrollHeight > box.clientHeight + 1 || box.scrollWidth > box.clientWidth + 1;
      if (hides && scrolls(box)) box.tabIndex = 0;
      else box.removeAttribute("tabindex");
    }
  });
  for (const box of [root, shown, ...shown.children]) seen.observe(box);
  // A browser puts a focused field in the middle; near the end of a long list the results would be out of view.
  root.addEventListener(
    "keyup",
    ({ key }) => {
      const above = page && shown.offsetHeight ? page.getBoundingClientRect().top - shown.getBoundingClientRect().top : 0;
      if (key === "Tab" && above > 0) page.scrollBy(0, -above - 8);
    },
    { signal },
  );
  signal.addEventListener("abort", () => seen.disconnect());
}

/** Where the answer of the kernel stands: results and picture in view, the working below the fields, words over an old result. */
function answerPlace(bench, left) {
  const old = make("p", { class: "bp-old-words", hidden: true });
  const [results, picture] = ["bp-results", "bp-picture"].map((name) => make("div", { class: name }));
  const shown = make("div", { class: "bp-shown", "aria-live": "polite", role: "group", "aria-label": "Result" }, results, picture);
  const below = make("div", { class: "bp-below" });
  let pictureFirst = false;
  let now = "";
  const put = (html) => {
    if (html === now) return;
    now = html;
    // The kernel makes this HTML and escapes whatever a learner typed into it.
    const parts = make("template");
    parts.innerHTML = html;
    const [answer, drawn, worked] = ["answer", "drawn", "worked"].map((part) => parts.content.querySelector(`.bp-${part}`));
    // A picture that comes first is what one works with: it has the place beside the fields to itself.
    pictureFirst = Boolean(drawn && answer && drawn.compareDocumentPosition(answer) & Node.DOCUMENT_POSITION_FOLLOWING);
    bench.classList.toggle("bp-picture-first", pictureFirst);
    left.querySelector(":scope > .bp-answer")?.remove();
    if (pictureFirst) left.append(answer);
    (pictureFirst ? bench : left).append(below);
    below.replaceChildren(...(worked ? [worked] : []));
    picture.replaceChildren(...(drawn ? [drawn] : []));
    results.replaceChildren(parts.content);
    staying().prepend(old);
  };
  const staying = () => (pictureFirst ? picture : results);
  const mark = (told) => {
    old.textContent = told ? `Old result. ${told}` : "";
    old.hidden = !told;
    bench.classList.toggle("bp-old", Boolean(told));
  };
  bench.append(make("div", { class: "bp-right" }, shown));
  return { shown, put, mark, staying };
}

/** Build the calculator for one spec; everything stops with the signal. */
function buildCalculator(model, root, signal) {
  const spec = { fields: [], ...model.get("spec") };
  const status = speaker("bp-unseen");
  let values = { ...model.get("values") };
  let wrong = {};
  let timer = 0;
  let waiting = 0;
  const set = (key, text) => {
    clearTimeout(timer);
    values = { ...values, [key]: text };
    apply();
    place.shown.classList.add("bp-waits");
    model.set("values", values);
    model.save_changes();
  };
  const type = (key, text) => {
    clearTimeout(timer);
    values = { ...values, [key]: text };
    timer = setTimeout(() => set(key, text), TYPING_MS);
  };
  const fields = spec.fields.map((field) =>
    fieldOf(field, String(values[field.key] ?? ""), { type, set, say: status.say }),
  );
  const unfold = (open) => {
    model.set("unfolded", open);
    model.save_changes();
    fold.show(open, wrong);
  };
  const fold = foldOf(fields.filter((field) => field.spec.folded), () => unfold(!model.get("unfolded")));
  const first = make("div", { class: "bp-fields" }, ...laidOut(fields.filter((field) => !field.spec.folded)));
  const left = make("div", { class: "bp-left" }, first, ...fold.elements);
  const bench = make("div", { class: "bp-calculator-bench" }, left);
  const place = answerPlace(bench, left);
  /** Put away the fields that mean nothing with the choice made. */
  const apply = () => {
    for (const { element, spec: { only_for: [choice, ...options] = [] } } of fields)
      element.hidden = Boolean(choice) && !options.includes(String(values[choice]));
    fold.show(model.get("unfolded"), wrong);
  };
  const markWrong = () => {
    wrong = model.get("wrong") ?? {};
    place.shown.classList.remove("bp-waits");
    for (const field of fields) field.mark(wrong[field.spec.key] ?? "");
    const named = fields.filter((field) => wrong[field.spec.key]);
    const told = wrong[""] ?? (named.length ? `Put right: ${named.map((field) => field.spec.label).join(", ")}.` : "");
    place.mark(told);
    if (named.some((field) => field.spec.folded)) unfold(true);
    else fold.show(model.get("unfolded"), wrong);
    if (!told) return;
    status.say(Object.values(wrong).join(" "));
    // The new lines may have moved the field one is typing in, or stand below the edge of the page.
    if (root.contains(document.activeElement)) document.activeElement.closest(".bp-field")?.scrollIntoView({ block: "nearest" });
  };
  const show = () => {
    clearTimeout(waiting);
    place.put(model.get("shown"));
    if (Object.keys(model.get("wrong") ?? {}).length) waiting = setTimeout(markWrong, WRONG_MS);
    else markWrong();
  };
  root.setAttribute("aria-label", `Calculator: ${spec.title ?? ""}`);
  root.replaceChildren(make("p", { class: "bp-title" }, spec.title ?? ""), frame(spec.frame) ?? "", ...openerOf(model, bench), bench, status.element);
  for (const heard of ["shown", "answered"]) listen(model, `change:${heard}`, show, signal);
  signal.addEventListener("abort", () => [timer, waiting].forEach(clearTimeout));
  apply();
  show();
  keepRoom(root, place, signal);
}

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-calculator", "aria-label": "Calculator" });
    return rebuilt(model, el, root, buildCalculator);
  },
};
