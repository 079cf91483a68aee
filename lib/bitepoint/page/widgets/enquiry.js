// An enquiry: one observation is asked for at a time, the kernel says what it shows, then the cause is named.

/** Buttons to ask, a table of what is known, the causes as radio buttons. */
function enquiryKind(spec, model, say, signal) {
  const { causes = [], known = [], heads = ["Condition", "What you see or hear"], cause = "cause" } = spec;
  const send = sender(model, say, signal, "change:told");
  const shown = () => model.get("told")?.shown ?? {};
  let waiting = null;
  const buttons = spec.options.map((option) => askButton(option, ask));
  const body = make("tbody", {});
  const count = make("caption", {});
  const table = make(
    "table",
    { class: "bp-known" },
    count,
    make("thead", {}, make("tr", {}, ...heads.map(heading))),
    body,
  );
  const named = tilesKind({ label: `The ${cause}`, options: causes }, "radio");

  function ask(option) {
    if (option.key in shown()) return say(`${option.text}: ${shown()[option.key]}`);
    if (waiting) return say("One at a time: wait for the answer.");
    waiting = option;
    return send({ do: "ask", key: option.key });
  }

  function show(closed) {
    const told = shown();
    const asked = Object.keys(told).filter((key) => spec.options.some((option) => option.key === key));
    buttons.forEach(({ element, option, mark }) => {
      const had = option.key in told;
      mark.textContent = had ? "asked" : "";
      element.classList.toggle("bp-asked", had);
      element.disabled = closed;
    });
    count.textContent = `What you know so far (${asked.length} asked)`;
    const text = (key) => spec.options.find((option) => option.key === key).text;
    const rows = [...known.map((one) => [one.text, one.shows]), ...asked.map((key) => [text(key), told[key]])];
    body.replaceChildren(...(rows.length ? rows.map(knownRow) : [nothingYet()]));
    if (asked.length) body.lastElementChild.classList.add("bp-newest");
  }

  listen(
    model,
    "change:told",
    () => {
      const [option, text] = [waiting, shown()[waiting?.key]];
      waiting = null;
      show(Boolean(model.get("said").closed));
      if (option && text !== undefined) say(`${option.text}: ${text}`);
    },
    signal,
  );
  // After an error the kernel speaks through the verdict alone: the next question must not wait for ever.
  listen(model, "change:said", () => (waiting = null), signal);
  const element = make(
    "div",
    { class: "bp-enquiry" },
    make(
      "div",
      { class: "bp-enquiry-bench" },
      make(
        "fieldset",
        { class: "bp-asks" },
        make("legend", {}, "Ask for one thing more"),
        make("p", { class: "bp-hint" }, `${TAP} one: it is asked at once, and the table shows the answer. ${spec.whole ? "Look up everything before you name one." : "Ask only for what you need to be sure."}`),
        ...buttons.map((one) => one.element),
      ),
      table,
    ),
    named.element,
  );
  const read = () => {
    const cause = named.read();
    return cause === null ? null : `${Object.keys(shown()).join(" ")} > ${cause}`.trim();
  };
  show(false);
  return { element, read, missing: `Choose the ${cause} first.`, show };
}

function askButton(option, ask) {
  const mark = make("span", { class: "bp-hint bp-tile-count" });
  const element = make(
    "button",
    { type: "button", class: "bp-button bp-ask", onclick: () => ask(option) },
    make("span", { class: "bp-tile-words" }, option.text),
    mark,
  );
  return { element, option, mark };
}

const heading = (words) => make("th", { scope: "col" }, words);
const knownRow = ([condition, shows]) =>
  make("tr", {}, make("th", { scope: "row" }, condition), make("td", {}, shows));
const nothingYet = () => make("tr", {}, make("td", { colspan: 2, class: "bp-hint" }, "Nothing asked yet."));
