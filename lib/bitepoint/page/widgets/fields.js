// The fields of a calculator: a figure is typed, stepped or dragged, a choice is chosen. Nothing is worked out here.

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

const signed = (figure) => String(figure).replace("-", "−");
/** The range of a field in words, without its unit, which stands beside it. */
const rangeOf = ({ low, high }) => (low != null && high != null ? `${signed(low)} to ${signed(high)}` : "");

/** One field: its element, and `mark`, which says what is wrong with it or takes that back. */
function fieldOf(spec, typed, acts) {
  return spec.kind === "choice" ? choiceField(spec, typed, acts) : numberField(spec, typed, acts);
}

function numberField(field, typed, { type, set, say }) {
  const id = fresh("field");
  const range = make("span", { class: "bp-hint", id: fresh("range") }, rangeOf(field));
  const wrong = make("p", { class: "bp-wrong", id: fresh("wrong"), hidden: true });
  const input = make("input", {
    class: "bp-input",
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    maxlength: 24,
    "aria-label": field.short ? field.label : null,
    "aria-describedby": `${range.id} ${wrong.id}`,
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
      return say(`${field.label}: no further, ${next} ${field.unit ?? ""} is the ${way > 0 ? "highest" : "lowest"}.`);
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
  const unit = make("span", { class: "bp-unit" }, field.unit ?? "");
  const row = field.short ? [input] : [step("−", "Less", -1), input, step("+", "More", 1), unit, range];
  const element = make(
    "div",
    { class: "bp-field" },
    make("label", { for: id, class: "bp-field-label" }, field.short || field.label),
    make("div", { class: "bp-stepper" }, ...row),
    slider ?? "",
    wrong,
  );
  const mark = (told) => {
    wrong.textContent = told;
    wrong.hidden = !told;
    if (told) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  };
  return { element, mark, spec: field };
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
  const select = make("select", { class: "bp-select", id, onchange: () => set(field.key, select.value) }, ...options);
  const label = make("label", { for: id, class: "bp-field-label" }, field.label);
  return { element: make("div", { class: "bp-field" }, label, select), mark: () => {}, spec: field };
}

/** Fields one under the other; those of one group stand side by side under its words, with the unit said once. */
function laidOut(fields) {
  const groups = new Map();
  for (const field of fields) {
    const name = field.spec.group || field.spec.key;
    groups.set(name, [...(groups.get(name) ?? []), field]);
  }
  return [...groups.values()].map((group) => {
    const { spec, element } = group[0];
    if (!spec.group) return element;
    const words = `${spec.group} in ${spec.unit}, ${rangeOf(spec)}`;
    return make("fieldset", { class: "bp-group" }, make("legend", {}, words), ...group.map((field) => field.element));
  });
}
