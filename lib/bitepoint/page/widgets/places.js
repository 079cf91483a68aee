// Places in a picture, one or several: a button over each place, and the same places as a list.

const CHOOSE_ONE = `${TAP} a place in the picture, or choose it in the list.`;
const MARK_ALL = `${TAP} a place in the picture to mark it, or tick it in the list. Once more takes the mark off.`;
const BY_KEYS = keyboard("Tab to the picture, arrow keys from place to place, Space to mark.");

/**
 * `type` is "radio" (one place) or "checkbox" (several). The list holds the state; the buttons and the shapes drawn
 * over the picture show it. Without a picture only the list is left. What is marked lies in the trait `step` too.
 */
function placesKind(spec, type, model) {
  const { svg, alt, regions = [] } = spec.picture ?? {};
  if (!svg) return tilesKind(spec, type);
  const many = type === "checkbox";
  const name = fresh("place");
  const places = spec.options.length ? spec.options : regions.map(({ key, label }) => ({ key, text: label }));
  // Short keys are what the picture itself may have written beside its parts: then no second numbering.
  const short = places.every(({ key }) => key.length <= 2);
  const badges = places.map(({ key }, index) => (short ? key.toUpperCase() : String(index + 1)));
  const tiles = places.map(({ key, text }, index) => {
    const made = tile(type, name, key, text, () => keep());
    made.control.checked = (model.get("step").marked ?? []).includes(key);
    made.prepend(make("span", { class: "bp-place", "aria-hidden": "true" }, badges[index]));
    return made;
  });
  const spots = places
    .map(({ key, text }, index) => ({ region: regions.find((one) => one.key === key), text, index }))
    .filter(({ region }) => region)
    .map(({ region, text, index }) => placeSpot(region, text, badges[index], tiles[index].control, svg));

  const count = speaker("bp-hint bp-count-marked");
  const caption = make("p", { class: "bp-place-name", "aria-hidden": "true" });
  const chosen = () => tiles.filter((label) => label.control.checked).map((label) => label.control.value);
  let told = null;

  function toggle({ control }) {
    control.checked = many ? !control.checked : true;
    keep();
  }

  function keep() {
    model.set("step", { marked: chosen() });
    model.save_changes();
    show();
  }

  function show() {
    if (many) count.say(`${chosen().length} marked`);
    for (const { button, drawn, control } of spots) {
      button.setAttribute("aria-pressed", control.checked);
      drawn.classList.toggle("bp-region-chosen", control.checked);
    }
    tell();
  }

  /** Say under the picture which place pointer or keyboard came to last. */
  function tell(at = told) {
    told = at;
    caption.textContent = at ? `${at.name}${at.control.checked ? " · marked" : ""}` : "";
  }

  bindPlaces(spots, toggle, tell);
  const source = `data:image/svg+xml;base64,${btoa(String.fromCharCode(...new TextEncoder().encode(svg)))}`;
  const [, , wide, high] = viewBox(svg).split(/[\s,]+/).map(Number);
  // No higher than a small screen leaves it: a place below the edge is a place overlooked.
  const fitting = `max-width:max(300px, calc((100vh - 330px) * ${(wide / high).toFixed(3)}))`;
  const picture = make(
    "div",
    { class: "bp-places-picture", style: fitting },
    make("img", { src: source, alt: alt ?? "" }),
    draw(
      "svg",
      { viewBox: viewBox(svg), class: "bp-regions", "aria-hidden": "true" },
      ...spots.map(({ drawn }) => drawn),
    ),
    make(
      "div",
      { role: "group", class: "bp-place-buttons", "aria-label": "Places in the picture" },
      ...spots.map(({ button }) => button),
    ),
  );
  const element = make(
    "fieldset",
    {},
    make("legend", {}, ...asked(spec)),
    make("p", { class: "bp-hint" }, `${many ? MARK_ALL : CHOOSE_ONE}${BY_KEYS}`),
    picture,
    make("div", { class: "bp-row bp-place-told" }, caption, count.element),
    make("div", { class: "bp-tiles bp-place-list", role: "group", "aria-label": "The same places as a list" }, ...tiles),
  );
  count.element.hidden = !many;
  show();
  const [missing, read] = many
    ? ["Mark at least one place first.", () => (chosen().length ? chosen() : null)]
    : ["Choose a place first.", () => chosen()[0] ?? null];
  return { element, read, missing };
}

/** One place: what is drawn over the picture, and the button that lies on it. */
function placeSpot(region, text, badge, control, svg) {
  const [, , width, height] = viewBox(svg).split(/[\s,]+/).map(Number);
  const [x, y, w, h] = placeBox(region);
  const name = text.split(/\W+/).includes(badge) ? text : `${badge}, ${text}`;
  const percent = (part, whole) => `${((100 * part) / whole).toFixed(3)}%`;
  const style = [
    `left:${percent(x + w / 2, width)}`,
    `top:${percent(y + h / 2, height)}`,
    `width:max(24px, ${percent(w, width)})`,
    `height:max(24px, ${percent(h, height)})`,
    // A small place inside a large one stays on top.
    `z-index:${Math.max(1, 900 - Math.round((900 * w * h) / (width * height)))}`,
    placeEdge(region, [x, y, w, h]),
  ].join(";");
  const button = make("button", { type: "button", class: "bp-region", "aria-label": name, "aria-pressed": "false", style });
  return { button, control, name, badge, drawn: placeDrawn(region, badge) };
}

/** The upright box round a place: left, top, width, height. */
function placeBox({ shape, points }) {
  const p = points.flat();
  if (shape === "circle") return [p[0] - p[2], p[1] - p[2], 2 * p[2], 2 * p[2]];
  if (shape === "rect") return p;
  const sides = [0, 1].map((odd) => p.filter((_, i) => i % 2 === odd));
  const [left, top] = sides.map((one) => Math.min(...one));
  return [left, top, Math.max(...sides[0]) - left, Math.max(...sides[1]) - top];
}

/** What keeps a click beside a round or slanting place from counting for it. */
function placeEdge({ shape, points }, [x, y, w, h]) {
  if (shape === "circle") return "border-radius:50%";
  if (shape !== "polygon") return "border-radius:3px";
  const p = points.flat();
  const corners = p.flatMap((value, i) =>
    i % 2 ? [] : [`${((100 * (value - x)) / w).toFixed(2)}% ${((100 * (p[i + 1] - y)) / h).toFixed(2)}%`],
  );
  return `clip-path:polygon(${corners.join(",")})`;
}

/** The shape, its ring for the keyboard, and its badge: where the picture has its own letter, on that letter. */
function placeDrawn({ shape, points, at }, badge) {
  const p = points.flat();
  const area = (className) =>
    ({
      circle: () => draw("circle", { class: className, cx: p[0], cy: p[1], r: p[2] }),
      rect: () => draw("rect", { class: className, x: p[0], y: p[1], width: p[2], height: p[3], rx: 3 }),
      polygon: () => draw("polygon", { class: className, points: p.join(" ") }),
    })[shape]();
  const [x, y, w, h] = placeBox({ shape, points });
  const [cx, cy] = at ?? [x + w / 2, y + h / 2];
  const r = at ? 17 : 11;
  const mark = draw(
    "g",
    { class: "bp-badge", transform: `translate(${cx} ${cy})` },
    draw("circle", { r }),
    draw("text", { y: r * 0.42, "font-size": r * 1.15 }, badge),
    draw(
      "g",
      { class: "bp-tick", transform: `translate(${r * 0.95} ${-r * 0.95})` },
      draw("circle", { r: 9 }),
      draw("path", { d: "M-4 0.5 l3 3.2 l5.5 -7" }),
    ),
  );
  return draw("g", { class: at ? "bp-drawn bp-lettered" : "bp-drawn" }, area("bp-ring"), area("bp-area"), mark);
}

/** One tab stop for all places: arrow keys, Home, End and a place's own letter move, Enter and Space mark. */
function bindPlaces(spots, toggle, tell) {
  const stop = (index) => spots.forEach(({ button }, i) => button.setAttribute("tabindex", i === index ? 0 : -1));
  const go = (index) => {
    stop(index);
    spots[index].button.focus();
  };
  const wanted = (key, index) => {
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[key];
    if (step) return (index + step + spots.length) % spots.length;
    if (key === "Home") return 0;
    if (key === "End") return spots.length - 1;
    return spots.findIndex(({ badge }) => badge === key.toUpperCase());
  };
  spots.forEach((spot, index) => {
    const { button, drawn } = spot;
    button.addEventListener("click", () => {
      stop(index);
      toggle(spot);
    });
    button.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const next = wanted(event.key, index);
      if (next < 0) return;
      event.preventDefault();
      go(next);
    });
    for (const type of ["focus", "blur", "pointerenter", "pointerleave"])
      button.addEventListener(type, () => {
        drawn.classList.toggle("bp-drawn-focus", button.matches(":focus-visible"));
        drawn.classList.toggle("bp-drawn-hover", button.matches(":hover"));
        const left = type === "blur" || type === "pointerleave";
        const at = (state) => spots.find((one) => one.button.matches(state));
        // A page that scrolls moves places under a pointer that rests: whoever works by keys is not told of those.
        tell(at(":focus-visible") ?? (left ? (at(":focus") ?? null) : spot));
      });
  });
  stop(0);
}

function viewBox(svg) {
  const written = /viewBox\s*=\s*["']([^"']+)["']/.exec(svg);
  if (written) return written[1];
  const size = (side) => new RegExp(`<svg[^>]*\\s${side}\\s*=\\s*["']([\\d.]+)`).exec(svg)?.[1] ?? 100;
  return `0 0 ${size("width")} ${size("height")}`;
}
