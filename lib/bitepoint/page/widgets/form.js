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
  const element = make(
    "div",
    {},
    make("label", { class: "bp-label bp-block", for: id }, ...asked(spec)),
    make("div", { class: "bp-row" }, input, make("span", { class: "bp-unit" }, spec.unit ?? "")),
    make("p", { class: "bp-hint", id: note }, `Comma or point, as you like.${units}`),
  );
  return { element, read: () => input.value.trim() || null, missing: "Type a figure first.", first: input };
}

/** Native radio buttons or checkboxes. */
function tilesKind(spec, type) {
  const name = fresh("choice");
  const tiles = spec.options.map(({ key, text }) => tile(type, name, key, text, () => {}));
  const hint = type === "checkbox" ? make("p", { class: "bp-hint" }, "More than one can be right.") : null;
  const element = make("fieldset", { class: "bp-tiles" }, make("legend", {}, ...asked(spec)), hint, ...tiles);
  const chosen = () => tiles.filter((label) => label.control.checked).map((label) => label.control.value);
  if (type === "radio") return { element, read: () => chosen()[0] ?? null, missing: "Choose one first." };
  return { element, read: () => (chosen().length ? chosen() : null), missing: "Tick at least one first." };
}

/** A list put in order with buttons or the arrow keys. */
function orderKind(spec, say) {
  const list = make("ol", { class: "bp-order" });
  const items = spec.options.map((option) => orderItem(option, move));
  let order = [...items];

  function move(item, step, button) {
    const [from, to] = [order.indexOf(item), order.indexOf(item) + step];
    if (to < 0 || to >= order.length) return say(`${item.text} is already ${to < 0 ? "first" : "last"}.`);
    const other = order[to];
    [order[from], order[to]] = [other, item];
    if (step < 0) other.element.before(item.element);
    else other.element.after(item.element);
    show();
    glide(item.element, step);
    button.focus();
    return say(`${item.text}: now ${to + 1} of ${order.length}.`);
  }

  function show() {
    order.forEach((item, index) => {
      item.place.textContent = index + 1;
      item.up.setAttribute("aria-disabled", index === 0);
      item.down.setAttribute("aria-disabled", index === order.length - 1);
    });
  }

  list.append(...order.map((item) => item.element));
  show();
  const element = make(
    "fieldset",
    {},
    make("legend", {}, ...asked(spec)),
    make("p", { class: "bp-hint" }, "First at the top. Use the buttons, or the arrow keys on a button."),
    list,
  );
  return { element, read: () => order.map((item) => item.key), missing: "" };
}

function orderItem({ key, text }, move) {
  const place = make("span", { class: "bp-place" });
  const item = { key, text, place };
  const button = (sign, words, step) => {
    const made = make(
      "button",
      {
        type: "button",
        class: "bp-button bp-step",
        "aria-label": `${words}: ${text}`,
        title: words,
        onclick: () => move(item, step, made),
      },
      sign,
    );
    made.addEventListener("keydown", (event) => {
      const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
      if (!by || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      move(item, by, made);
    });
    return made;
  };
  item.up = button("▲", "Up", -1);
  item.down = button("▼", "Down", 1);
  item.element = make(
    "li",
    { class: "bp-order-item" },
    place,
    make("span", { class: "bp-tile-words" }, text),
    item.up,
    item.down,
  );
  return item;
}

function glide(element, step) {
  if (calm()) return;
  element.animate([{ transform: `translateY(${-step * 80}%)` }, { transform: "none" }], {
    duration: 160,
    easing: "ease-out",
  });
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
    order: () => orderKind(spec, status.say),
    region: () => placesKind(spec, "radio"),
    spots: () => placesKind(spec, "checkbox"),
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
  const actions = make("div", { class: "bp-row bp-actions" }, button, status.element);
  root.replaceChildren(kind.element, actions, verdict(model, signal));
  listen(model, "change:said", show, signal);
  show();
}

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-form", "aria-label": "Your answer" });
    return rebuilt(model, el, root, buildForm);
  },
};
