// Steps to put in order: by buttons, by arrow keys, or dragged by their handle. What broke a rule is marked in its row.

/** The list; the row lives in the trait `step`, so that a page loaded again finds it as it lay. */
function orderKind(spec, model, say, signal) {
  const list = make("ol", { class: "bp-order" });
  const items = spec.options.map((option) => orderItem(option, move));
  const row = model.get("step").row ?? [];
  let order = row.length === items.length ? row.map((key) => items.find((item) => item.key === key)) : [...items];

  function keep() {
    model.set("step", { row: order.map((item) => item.key) });
    model.save_changes();
  }

  function move(item, step, button) {
    const [from, to] = [order.indexOf(item), order.indexOf(item) + step];
    if (to < 0 || to >= order.length) return say(`${item.text} is already ${to < 0 ? "first" : "last"}.`);
    put(item, to);
    glide(item.element, step > 0 ? 1 : -1);
    button?.focus();
    return say(`${item.text}: now ${to + 1} of ${order.length}.`);
  }

  /** Put a step at a place, the others close up. */
  function put(item, to) {
    order = order.filter((other) => other !== item);
    order.splice(to, 0, item);
    // The others move round it: an element that leaves the page for a moment loses focus and pointer.
    for (const other of order.slice(0, to)) item.element.before(other.element);
    for (const other of order.slice(to + 1)) list.append(other.element);
    keep();
    show();
  }

  function show() {
    const broken = model.get("told")?.broken ?? [];
    order.forEach((item, index) => {
      item.place.textContent = index + 1;
      item.up.setAttribute("aria-disabled", index === 0);
      item.down.setAttribute("aria-disabled", index === order.length - 1);
      const rule = broken.find((one) => one.key === item.key && index < order.findIndex((other) => other.key === one.first));
      item.rule.textContent = rule ? `${rule.critical ? "⚠ Dangerous" : "↻ Broke a rule"}: ${rule.says}` : "";
      item.element.classList.toggle("bp-broke", Boolean(rule));
    });
  }

  for (const item of items) dragged(item, list, () => order, put, (to) => say(`${item.text}: now ${to + 1} of ${order.length}.`));
  list.append(...order.map((item) => item.element));
  listen(model, "change:told", show, signal);
  show();
  const element = make(
    "fieldset",
    {},
    make("legend", {}, ...asked(spec)),
    make(
      "p",
      { class: "bp-hint" },
      `First at the top. ${TAP} ▲ or ▼ to move a step by one, or drag it by ≡.${keyboard("the arrow keys on a button.")}`,
    ),
    list,
  );
  return { element, read: () => order.map((item) => item.key), missing: "", show };
}

function orderItem({ key, text }, move) {
  const place = make("span", { class: "bp-place" });
  const rule = make("span", { class: "bp-rule" });
  const item = { key, text, place, rule };
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
  item.handle = make("span", { class: "bp-handle", "aria-hidden": "true" }, "≡");
  item.element = make(
    "li",
    { class: "bp-order-item" },
    item.handle,
    place,
    typedLetter(key),
    make("span", { class: "bp-tile-words" }, text),
    make("span", { class: "bp-steps" }, item.up, item.down),
    rule,
  );
  return item;
}

/** Drag a step by its handle: it changes places with what it is drawn over, and the page stays where it is. */
function dragged(item, list, order, put, dropped) {
  const { handle, element } = item;
  let held = false;
  handle.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || item.up.disabled) return;
    held = true;
    handle.setPointerCapture(event.pointerId);
    element.classList.add("bp-dragged");
    event.preventDefault();
  });
  handle.addEventListener("pointermove", (event) => {
    if (!held) return;
    const others = order().filter((other) => other !== item);
    const middle = (other) => other.element.getBoundingClientRect().top + other.element.offsetHeight / 2;
    const to = others.filter((other) => middle(other) < event.clientY).length;
    if (to !== order().indexOf(item)) put(item, to);
  });
  for (const type of ["pointerup", "pointercancel"])
    handle.addEventListener(type, () => {
      if (!held) return;
      held = false;
      element.classList.remove("bp-dragged");
      dropped(order().indexOf(item));
    });
}

function glide(element, step) {
  if (calm()) return;
  element.animate([{ transform: `translateY(${-step * 80}%)` }, { transform: "none" }], {
    duration: 160,
    easing: "ease-out",
  });
}
