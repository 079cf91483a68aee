// The ring of bolts as a drawing one can work on: geometry, the part, bolts, the tool over a bolt, the arrow.

const RING = 132;
const HEAD = 19;

/** Point at an angle (degrees clockwise from 12 o'clock) and a distance from the centre. */
function at(degrees, radius) {
  const turn = (degrees * Math.PI) / 180;
  return [Math.sin(turn) * radius, -Math.cos(turn) * radius];
}

/** Vector sum of bolts, each counted as one: its length in bolts and its direction. */
function vectorSum(angles, bolts) {
  let [x, y] = [0, 0];
  for (const bolt of bolts) {
    const [dx, dy] = at(angles[bolt - 1], 1);
    [x, y] = [x + dx, y + dy];
  }
  return { length: Math.hypot(x, y), degrees: (Math.atan2(x, -y) * 180) / Math.PI };
}

/** The bolt nearest to a direction, in words; two when the direction lies midway between them. */
function towards(angles, degrees) {
  const off = angles.map((angle) => Math.abs(((((angle - degrees + 540) % 360) + 360) % 360) - 180));
  const near = off.flatMap((degree, index) => (degree < Math.min(...off) + 0.5 ? [index + 1] : []));
  return near.length === 2 ? `bolts ${near[0]} and ${near[1]}` : `bolt ${near[0]}`;
}

function arc(radius, from, to) {
  const [x1, y1] = at(from, radius);
  const [x2, y2] = at(to, radius);
  const long = to - from > 180 ? 1 : 0;
  return `M${x1.toFixed(2)} ${y1.toFixed(2)}A${radius} ${radius} 0 ${long} 1 ${x2.toFixed(2)} ${y2.toFixed(2)}`;
}

function hexagon(radius) {
  return [0, 60, 120, 180, 240, 300]
    .map((angle) =>
      at(angle, radius)
        .map((v) => v.toFixed(2))
        .join(","),
    )
    .join(" ");
}

/** The bare part: a cover with its fingers, a flywheel with its toothed rim, or a plain disc. */
function partDrawing(spec, metal) {
  const disc = draw("circle", { r: 206, class: "bp-part", fill: `url(#${metal})` });
  const group = draw("g", { "aria-hidden": "true" }, disc, draw("circle", { r: 102, class: "bp-part-line" }));
  if (spec.part === "flywheel") group.prepend(draw("circle", { r: 206, class: "bp-teeth" }));
  if (spec.part === "cover") {
    for (let angle = 10; angle < 360; angle += 20) {
      const [[x1, y1], [x2, y2]] = [at(angle, 34), at(angle, 92)];
      group.append(
        draw("line", { x1, y1, x2, y2, class: "bp-part-line" }),
        draw("circle", { cx: x2, cy: y2, r: 4, class: "bp-part-hole" }),
      );
    }
  }
  group.append(draw("circle", { r: spec.part === "cover" ? 34 : 24, class: "bp-part-hole" }));
  if (spec.dowel_deg != null) {
    // Where a bolt stands at the same angle the dowel is drawn further in, or the bolt would hide it.
    const hidden = spec.angles_deg.some((angle) => Math.cos(((angle - spec.dowel_deg) * Math.PI) / 180) > 0.95);
    const [cx, cy] = at(spec.dowel_deg, hidden ? 84 : RING);
    const [x, y] = at(spec.dowel_deg, hidden ? 62 : RING + 22);
    group.append(
      draw("circle", { cx, cy, r: 8, class: "bp-dowel" }),
      draw("text", { x, y: y + 4, class: "bp-ring-small" }, "dowel"),
    );
  }
  return group;
}

/** A bolt: hit area, arcs for the stages it has had, washer, head with a paint mark, number, count. */
function boltDrawing(number, spec, reach, steel) {
  const angle = spec.angles_deg[number - 1];
  const [x, y] = at(angle, RING);
  const [countX, countY] = at(angle, 51);
  const slice = 360 / spec.stages.length;
  const marks = spec.stages.map((_, index) =>
    draw("path", { d: arc(29, index * slice + 9, (index + 1) * slice - 9), class: "bp-mark" }),
  );
  const turned = draw(
    "g",
    {},
    draw("polygon", { points: hexagon(HEAD), class: "bp-head", fill: `url(#${steel})` }),
    draw("line", { y1: -11.5, y2: -16, class: "bp-paint" }),
  );
  const count = draw("text", { x: countX, y: countY + 4.5, class: "bp-ring-small bp-count" });
  const element = draw(
    "g",
    { class: "bp-bolt", role: "button", transform: `translate(${x} ${y})` },
    draw("circle", { r: reach, class: "bp-hit" }),
    draw("circle", { r: 37, class: "bp-focus" }),
    ...marks,
    draw("circle", { r: 24, class: "bp-washer" }),
    turned,
    draw("text", { y: 5.5, class: "bp-number" }, String(number)),
    count,
  );
  return { number, angle, x, y, element, marks, turned, count };
}

const isHand = (key) => key === "fingers" || key === "hand";

/** What is held over a bolt. The bolt's centre is the origin, the handle points to +y. */
function toolDrawing(key, fitted) {
  const socket = draw("circle", { r: 24.5, class: "bp-socket" });
  if (key === "eye") {
    return draw(
      "g",
      {},
      draw("path", { d: "M-46 40Q0 8 46 40Q0 72 -46 40Z", class: "bp-tool" }),
      draw("circle", { cy: 40, r: 12, class: "bp-tool-dark" }),
    );
  }
  if (isHand(key)) {
    return draw(
      "g",
      {},
      draw("path", { d: arc(29, 200, 340), class: "bp-finger" }),
      draw("path", { d: arc(29, 20, 160), class: "bp-finger" }),
    );
  }
  const rise = key === "wrench" && fitted ? 34 : 0;
  const group = draw("g", {}, socket);
  if (rise) group.append(draw("rect", { x: -6, y: 24, width: 12, height: rise, class: "bp-tool-dark" }));
  if (key === "impact") {
    return fill(group, {}, [
      draw("rect", { x: -17, y: 26, width: 34, height: 58, rx: 9, class: "bp-tool" }),
      draw("rect", { x: -2, y: 72, width: 22, height: 50, rx: 7, class: "bp-tool-dark" }),
    ]);
  }
  group.append(
    draw("circle", { cy: 26 + rise, r: 11, class: "bp-tool" }),
    draw("rect", { x: -6.5, y: 34 + rise, width: 13, height: 56, rx: 3, class: "bp-tool" }),
    draw("rect", { x: -9, y: 84 + rise, width: 18, height: 42, rx: 7, class: "bp-tool-dark" }),
  );
  if (key === "gauge")
    group.append(
      draw("circle", { cy: 48, r: 19, class: "bp-tool" }),
      draw("path", { d: "M0 62V34M-12 48H12M-8.5 39.5 8.5 56.5M8.5 39.5-8.5 56.5", class: "bp-paint" }),
    );
  return group;
}

/** A tool lying on its side, small, for a tile or beside a field. */
function toolLying(key, fitted = "") {
  const turn = key === "eye" ? "translate(52 -40)" : "rotate(-90)";
  const long = isHand(key) ? 44 : fitted ? 164 : 132;
  return draw(
    "svg",
    { viewBox: `-42 -42 ${long + 46} 84`, class: "bp-lying", "aria-hidden": "true" },
    draw("g", { transform: turn }, toolDrawing(key, fitted)),
  );
}

function gradient(id, name) {
  return draw(
    "radialGradient",
    { id, cx: "38%", cy: "30%", r: "85%" },
    draw("stop", { offset: "0", class: `bp-${name}-near` }),
    draw("stop", { offset: "1", class: `bp-${name}-far` }),
  );
}

/** The whole ring. `act(bolt, again)` is called for a tap, Enter or Space; `again`: the second tap of a double one. */
function ringDrawing(spec, act) {
  const [metal, steel] = [fresh("metal"), fresh("steel")];
  const angles = spec.angles_deg;
  const closest = Math.min(
    90,
    ...angles.flatMap((a, i) =>
      angles
        .slice(i + 1)
        .map((b) => Math.hypot(at(a, RING)[0] - at(b, RING)[0], at(a, RING)[1] - at(b, RING)[1])),
    ),
  );
  const bolts = angles.map((_, index) => boltDrawing(index + 1, spec, Math.min(42, closest / 2), steel));
  const round = [...bolts].sort((a, b) => a.angle - b.angle);
  const tool = draw("g", { class: "bp-held", "aria-hidden": "true" });
  const flash = draw("g", { class: "bp-flash", "aria-hidden": "true" });
  const arrow = draw("g", { class: "bp-arrow", "aria-hidden": "true" });
  const element = draw(
    "svg",
    {
      class: "bp-ring",
      viewBox: "-214 -214 428 428",
      role: "group",
      "aria-label": `Ring of ${bolts.length} bolts. Arrow keys move round it, Enter or Space pulls a bolt.`,
    },
    draw("defs", {}, gradient(metal, "metal"), gradient(steel, "steel")),
    partDrawing(spec, metal),
    ...bolts.map((bolt) => bolt.element),
    tool,
    arrow,
    flash,
  );

  const rove = (to) => {
    for (const bolt of bolts) bolt.element.setAttribute("tabindex", bolt === to ? "0" : "-1");
  };
  const steps = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };
  for (const bolt of bolts) {
    bolt.element.addEventListener("click", (event) => {
      rove(bolt);
      bolt.element.focus({ preventScroll: true });
      act(bolt.number, event.detail > 1);
    });
    bolt.element.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const place = round.indexOf(bolt);
      const ends = { Home: round[0], End: round.at(-1) };
      const to = event.key in steps ? round.at((place + steps[event.key]) % round.length) : ends[event.key];
      if (to) {
        rove(to);
        to.element.focus();
      } else if ((event.key === "Enter" || event.key === " ") && !event.repeat) act(bolt.number);
      else if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
    });
  }
  rove(bolts[0]);
  return { element, bolts, tool, flash, arrow };
}
