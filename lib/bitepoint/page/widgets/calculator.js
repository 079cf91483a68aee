// The form of a calculator. The kernel does the sums; here figures are typed, stepped and shown.

const TYPING_MS = 150;

/** A number as typed: its value (decimal comma or point), or null. */
function typedNumber(text) {
  const plain = text.trim().replace("−", "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/** The next figure one step up or down, on the step's own grid, within low and high, written like the one before. */
function stepped(text, way, { low = -Infinity, high = Infinity, step = 1 }) {
  const value = typedNumber(text) ?? (Number.isFinite(low) ? low - way * step : 0);
  const start = Number.isFinite(low) ? low : 0;
  const place = (value - start) / step;
  const next = start + step * (way > 0 ? Math.floor(place + 1e-9) + 1 : Math.ceil(place - 1e-9) - 1);
  const kept = Math.min(high, Math.max(low, next));
  const decimals = Math.max(...[step, start].map((figure) => (String(figure).split(".")[1] ?? "").length));
  const written = kept.toFixed(decimals);
  return text.includes(",") ? written.replace(".", ",") : written;
}

function numberField(field, typed, { type, set, say }) {
  const id = fresh("field");
  const note = fresh("note");
  const input = make("input", {
    class: "bp-input",
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    maxlength: 24,
    "aria-describedby": note,
    oninput: () => {
      if (slider && typedNumber(input.value) !== null) slider.value = typedNumber(input.value);
      type(field.key, input.value);
    },
  });
  input.value = typed;
  const slider = field.slider ? sliderOf(field, typed, (text) => type(field.key, (input.value = text))) : null;
  const move = (way) => {
    const next = stepped(input.value, way, field);
    if (next === input.value)
      return say(
        `${field.label}: no further, ${next} ${field.unit ?? ""} is the ${way > 0 ? "highest" : "lowest"}.`,
      );
    input.value = next;
    if (slider) slider.value = typedNumber(next);
    set(field.key, next);
    return say(`${field.label} ${next} ${field.unit ?? ""}`);
  };
  input.addEventListener("keydown", (event) => {
    const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (!way || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    move(way);
  });
  const step = (sign, words, way) =>
    make(
      "button",
      {
        type: "button",
        class: "bp-button bp-step",
        "aria-label": `${words}: ${field.label}`,
        title: words,
        onclick: () => move(way),
      },
      sign,
    );
  const range =
    field.low != null && field.high != null ? `${field.low} to ${field.high} ${field.unit ?? ""}` : "";
  return make(
    "div",
    { class: "bp-field" },
    make("label", { for: id, class: "bp-field-label" }, field.label),
    make(
      "div",
      { class: "bp-stepper" },
      step("−", "Less", -1),
      input,
      step("+", "More", 1),
      make("span", { class: "bp-unit" }, field.unit ?? ""),
    ),
    slider ?? "",
    make("span", { class: "bp-hint", id: note }, range),
  );
}

/** A number that can be dragged along its range; `moved` gets the figure as text. */
function sliderOf(field, typed, moved) {
  const slider = make("input", {
    type: "range",
    class: "bp-slider",
    "aria-label": `${field.label}, slider`,
    min: field.low,
    max: field.high,
    step: field.step,
    oninput: () => moved(slider.value),
  });
  slider.value = typedNumber(typed) ?? field.low;
  return slider;
}

function choiceField(field, chosen, { set }) {
  const id = fresh("field");
  const options = (field.options ?? []).map((option) => {
    const { key, text } = typeof option === "object" ? option : { key: option, text: option };
    return make("option", { value: key, selected: String(key) === chosen }, String(text));
  });
  const select = make(
    "select",
    { class: "bp-select", id, onchange: () => set(field.key, select.value) },
    ...options,
  );
  return make(
    "div",
    { class: "bp-field" },
    make("label", { for: id, class: "bp-field-label" }, field.label),
    select,
  );
}

/** Build the calculator for one spec; everything stops with the signal. */
function buildCalculator(model, root, signal) {
  const spec = { fields: [], ...model.get("spec") };
  const status = speaker("bp-unseen");
  // It scrolls when it is long, so the keyboard must reach it.
  const shown = make("div", { class: "bp-shown", "aria-live": "polite", tabindex: 0, role: "group", "aria-label": "Result" });
  let timer = 0;
  const set = (key, text) => {
    clearTimeout(timer);
    values = { ...values, [key]: text };
    apply();
    shown.classList.add("bp-waits");
    model.set("values", values);
    model.save_changes();
  };
  const type = (key, text) => {
    clearTimeout(timer);
    values = { ...values, [key]: text };
    timer = setTimeout(() => set(key, text), TYPING_MS);
  };
  let values = { ...model.get("values") };
  const fields = spec.fields.map((field) => {
    const held = String(values[field.key] ?? "");
    return (field.kind === "choice" ? choiceField : numberField)(field, held, { type, set, say: status.say });
  });
  /** Put away the fields that mean nothing with the choice made. */
  const apply = () =>
    spec.fields.forEach(({ only_for: [choice, ...options] = [] }, at) => {
      fields[at].hidden = Boolean(choice) && !options.includes(String(values[choice]));
    });
  const show = () => {
    // The kernel makes this HTML and escapes whatever a learner typed into it.
    shown.innerHTML = model.get("shown");
    shown.classList.remove("bp-waits");
  };
  root.replaceChildren(
    make("p", { class: "bp-title" }, spec.title ?? ""),
    frame(spec.frame) ?? "",
    make("div", { class: "bp-calculator-bench" }, make("div", { class: "bp-fields" }, ...fields), shown),
    status.element,
  );
  listen(model, "change:shown", show, signal);
  signal.addEventListener("abort", () => clearTimeout(timer));
  apply();
  show();
}

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-calculator", "aria-label": "Calculator" });
    return rebuilt(model, el, root, buildCalculator);
  },
};
