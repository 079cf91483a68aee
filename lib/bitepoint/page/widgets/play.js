// What moves on the ring: the marks of the pulls made, the tool over a bolt, the swing of a pull, the arrow.

const REST = -20;

/** Bring bolts and marks in line with the pulls. */
function showRing(ring, spec, state, pulls) {
  for (const bolt of ring.bolts)
    showBolt(
      bolt,
      spec,
      state,
      pulls.filter((pull) => pull.bolt === bolt.number),
    );
}

function hold(ring, spec, tool, bolt) {
  ring.tool.replaceChildren(toolDrawing(tool.key, spec.fitted));
  ring.tool.style.transform = held(bolt, tool.key === "eye" ? 0 : REST);
}

const held = (bolt, swung) => `translate(${bolt.x}px, ${bolt.y}px) rotate(${bolt.angle + swung}deg)`;

function showBolt(bolt, spec, state, pulls) {
  const had = spec.stages.filter((stage) => pulls.some((pull) => pull.stage === stage.key && counts(pull)));
  const now = had.includes(state.stage);
  spec.stages.forEach((stage, index) => {
    bolt.marks[index].classList.toggle("bp-had", had.includes(stage));
    bolt.marks[index].classList.toggle("bp-now", stage === state.stage);
  });
  const turned = pulls.reduce((sum, pull) => {
    const [stage, tool] = [byKey(spec.stages, pull.stage), byKey(spec.tools, pull.tool)];
    return sum + (stage && tool && tool.key !== "eye" ? turnDegrees(stage, tool) : 0);
  }, 0);
  bolt.turned.style.transform = `rotate(${turned}deg)`;
  bolt.count.textContent = `${had.length}/${spec.stages.length}${now ? " ✓" : ""}`;
  bolt.element.setAttribute(
    "aria-label",
    `Bolt ${bolt.number}, ${had.length} of ${spec.stages.length} stages, ${now ? "had" : "not had"} this stage` +
      (pulls.length === had.length ? "" : `, ${pulls.length === 1 ? "pulled once" : `${pulls.length} times in all`}`),
  );
}

/** Swing the tool through its turn and flash the word for what was felt or heard. */
function playPull(ring, spec, number, stage, tool) {
  const bolt = ring.bolts[number - 1];
  ring.swinging?.cancel();
  hold(ring, spec, tool, bolt);
  const word = draw("text", { x: 0, y: -46, class: "bp-word" }, DEEDS[tool.key] ?? "pulled");
  const wave = draw("circle", { r: 30, class: "bp-wave" });
  const spot = draw("g", { transform: `translate(${bolt.x} ${bolt.y})` }, wave, word);
  ring.flash.replaceChildren(spot);
  const swung = tool.key === "eye" ? 0 : REST + Math.min(turnDegrees(stage, tool), 120);
  const from = held(bolt, tool.key === "eye" ? 0 : REST);
  const still = calm();
  const steps = still
    ? [{ opacity: 1 }, { opacity: 1 }]
    : [
        { transform: from, opacity: 1, easing: "cubic-bezier(.3,.1,.3,1)" },
        { transform: held(bolt, swung), opacity: 1, offset: 0.5 },
        { transform: held(bolt, swung), opacity: 1, offset: 0.85 },
        { transform: held(bolt, swung), opacity: 0 },
      ];
  const swing = ring.tool.animate(steps, { duration: still ? 500 : 700 });
  ring.swinging = swing;
  const over = () => {
    if (ring.swinging !== swing) return;
    ring.swinging = null;
    ring.tool.replaceChildren();
  };
  swing.onfinish = over;
  swing.oncancel = () => {
    if (ring.swinging === swing) ring.swinging = null;
  };
  const fade = word.animate(
    [{ opacity: 0 }, { opacity: 1, offset: 0.15 }, { opacity: 1, offset: 0.75 }, { opacity: 0 }],
    { duration: 1100, delay: still ? 0 : 300, fill: "backwards" },
  );
  if (still) wave.remove();
  else
    wave.animate(
      [
        { r: "26px", opacity: 0 },
        { r: "28px", opacity: 0.9, offset: 0.05 },
        { r: "58px", opacity: 0 },
      ],
      { duration: 520, delay: 320, fill: "both", easing: "ease-out" },
    );
  fade.onfinish = () => spot.remove();
}

/** The vector sum as an arrow from the centre, its length written at the tip. */
function showArrow(arrow, sum, bolts) {
  if (sum === null) return arrow.replaceChildren();
  const length = sum.length * (96 / Math.max(1.5, bolts / Math.PI));
  const label = (x, y) => draw("text", { x, y: y + 5, class: "bp-arrow-words" }, sum.length.toFixed(2));
  if (sum.length < 0.005)
    return arrow.replaceChildren(draw("circle", { r: 5, class: "bp-arrow-head" }), label(0, 19));
  const line = draw(
    "g",
    { transform: `rotate(${sum.degrees})` },
    draw("path", { d: `M0 0V${-length}`, class: "bp-arrow-halo" }),
    draw("path", { d: `M0 0V${8 - length}`, class: "bp-arrow-line" }),
    draw("polygon", {
      points: `0,${-length - 6} -8,${10 - length} 8,${10 - length}`,
      class: "bp-arrow-head",
    }),
  );
  const [x, y] = at(sum.degrees + 180, 22);
  return arrow.replaceChildren(line, draw("circle", { r: 4, class: "bp-arrow-head" }), label(x, y));
}
