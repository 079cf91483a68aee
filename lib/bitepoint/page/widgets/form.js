// The form for an answer. Each kind gives its element and `read()`: the answer, or null with a word on what is missing.

/** A number and its unit, as text: the kernel reads decimal comma or point, and other units. */
function numberKind(spec, check) {
  const id = fresh("number");
  const note = fresh("note");
  const input = make("input", {
    class: "bp-input",
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    size: 12,
    maxlength: 40,
    "aria-describedby": note,
  });
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && !event.isComposing) {
      event.preventDefault();
      check();
    }
  });
  const units = spec.units?.length
    ? ` Other units are fine when you type them: ${spec.units.join(", ")}.`
    : "";
  const row = make("div", { class: "bp-row" }, input, make("span", { class: "bp-unit" }, spec.unit ?? ""));
  const element = make(
    "div",
    {},
    make("label", { class: "bp-label bp-block", for: id }, ...asked(spec)),
    row,
    make("p", { class: "bp-hint", id: note }, `Comma or point, as you like.${units}`),
  );
  return { element, read: () => input.value.trim() || null, missing: "Type a figure first.", first: input, row };
}

/** Native radio buttons or checkboxes. */
function tilesKind(spec, type) {
  const name = fresh("choice");
  const tiles = spec.options.map(({ key, text }) => tile(type, name, key, text, () => {}, null, typedLetter(key)));
  const hint = type === "checkbox" ? make("p", { class: "bp-hint" }, "More than one can be right.") : null;
  const element = make("fieldset", { class: "bp-tiles" }, make("legend", {}, ...asked(spec)), hint, ...tiles);
  const chosen = () => tiles.filter((label) => label.control.checked).map((label) => label.control.value);
  if (type === "radio") return { element, read: () => chosen()[0] ?? null, missing: "Choose one first." };
  return { element, read: () => (chosen().length ? chosen() : null), missing: "Tick at least one first." };
}

/** Build the form for one spec; everything stops with the signal. */
function buildForm(model, root, signal) {
  const spec = { kind: "number", options: [], ...model.get("spec") };
  const status = speaker("bp-status bp-hint");
  const send = sender(model, status.say, signal);
  const closed = () => Boolean(model.get("said").closed);
  const kinds = {
    number: () => numberKind(spec, check),
    sweep: () => sweepKind(spec, model, check),
    choice: () => tilesKind(spec, "radio"),
    several: () => tilesKind(spec, "checkbox"),
    order: () => orderKind(spec, model, status.say, signal),
    region: () => placesKind(spec, "radio", model),
    spots: () => placesKind(spec, "checkbox", model),
    enquiry: () => enquiryKind(spec, model, status.say, signal),
  };
  const kind = kinds[spec.kind]();

  function check() {
    if (closed()) return status.say("This question is closed: read the verdict below.");
    const answer = kind.read();
    if (answer !== null) return send({ do: "answer", answer });
    kind.first?.focus();
    return status.say(kind.missing);
  }

  const button = make("button", { type: "button", class: "bp-button bp-main", onclick: check }, "Check");
  const show = () => {
    keepFocus(root, () => {
      button.disabled = closed();
      for (const control of kind.element.querySelectorAll("input, button")) control.disabled = closed();
      kind.show?.(closed());
    });
    root.classList.toggle("bp-is-closed", closed());
  };
  // One figure, one button: they stand in one row.
  const actions = kind.row ?? make("div", { class: "bp-row bp-actions" });
  actions.append(button, status.element);
  const heard = spec.sound ? [soundPlayer(spec.sound, signal)] : [];
  root.replaceChildren(...heard, kind.element, ...(kind.row ? [] : [actions]), verdict(model, signal));
  listen(model, "change:said", show, signal);
  show();
}

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-form", "aria-label": "Your answer" });
    return rebuilt(model, el, root, buildForm);
  },
};
