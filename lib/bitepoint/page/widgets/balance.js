// The part seen from the side, tipping towards the bolts that are already tight; and the sound of a tool.

const TIP_PER_BOLT = 2.2;
const SIDES = {
  cover: { outline: "M-118 0V-9H-84L-58 -40H58L84 -9H118V0Z", bolts: [-101, 101], top: -9 },
  flywheel: { outline: "M-118 0V-24H118V0Z", bolts: [-40, 40], top: -24 },
};

/** The worst moment on the way: how far the pull was out of balance after one of the bolts, and where it drew down. */
function worstOf(angles, tight) {
  const moments = tight.map((_, at) => vectorSum(angles, tight.slice(0, at + 1)));
  const worst = moments.reduce((one, other) => (other.length > one.length + 0.005 ? other : one));
  return { length: worst.length, low: towards(angles, worst.degrees) };
}

/**
 * Side view and its words; `update(sum, low, worst)` with sum null when this stage tightens nothing. What went down first
 * may have seated askew, so the worst tilt stays as a dashed outline when the pull is level again.
 */
function balanceDrawing(part) {
  const { outline, bolts, top } = SIDES[part] ?? SIDES.flywheel;
  const tipping = draw(
    "g",
    { class: "bp-tipping" },
    draw("path", { d: outline, class: "bp-side-part" }),
    ...bolts.map((x) =>
      draw("rect", { x: x - 9, y: top - 12, width: 18, height: 12, rx: 2, class: "bp-side-bolt" }),
    ),
  );
  const askew = draw("path", { d: outline, class: "bp-side-worst" });
  const side = draw("text", { x: 284, y: 105, class: "bp-ring-small" });
  const hatch = [];
  for (let x = 34; x < 270; x += 14)
    hatch.push(draw("line", { x1: x, y1: 86, x2: x - 9, y2: 95, class: "bp-side-hatch" }));
  const picture = draw(
    "svg",
    { viewBox: "0 0 300 110", class: "bp-side", "aria-hidden": "true" },
    ...hatch,
    draw("g", { transform: "translate(150 84.5)" }, askew, tipping),
    draw("line", { x1: 16, y1: 86, x2: 284, y2: 86, class: "bp-side-seat" }),
    side,
  );
  const figure = make("strong", { class: "bp-figure" });
  const words = make("span", { class: "bp-hint" });
  const element = make(
    "div",
    { class: "bp-balance" },
    picture,
    make("p", { class: "bp-balance-words" }, figure, " ", words),
  );
  const update = (sum, low, worst) => {
    const eased = sum !== null && worst.length > sum.length + 0.005;
    askew.style.display = eased ? "" : "none";
    if (eased) askew.style.transform = `rotate(${worst.length * TIP_PER_BOLT}deg)`;
    const tips = sum !== null && sum.length > 0.005;
    tipping.style.transform = `rotate(${tips ? sum.length * TIP_PER_BOLT : 0}deg)`;
    side.textContent = tips ? low : "";
    figure.textContent = sum === null ? "Level" : `Out of balance ${sum.length.toFixed(2)} bolts`;
    words.textContent =
      sum === null
        ? "Nothing is pulled tight in this stage yet."
        : tips
          ? `From the side: down at ${low}, the other edge stands off.`
          : "From the side: it sits level.";
    if (eased) words.textContent += ` Worst on the way (dashed): ${worst.length.toFixed(2)} bolts, down at ${worst.low}.`;
  };
  return { element, update };
}

let audio = null;

/** A short click made from noise; a rattle for an impact wrench. Called from a press of the learner's only. */
function sound(tool) {
  audio ??= new AudioContext();
  const blows = tool === "impact" ? [0, 0.06, 0.12, 0.18, 0.24, 0.3] : tool === "wrench" ? [0, 0.035] : [0];
  for (const after of blows) blow(audio.currentTime + after, tool === "wrench" ? 2400 : 900);
}

function blow(when, pitch) {
  const length = Math.round(audio.sampleRate * 0.03);
  const noise = audio.createBuffer(1, length, audio.sampleRate);
  const samples = noise.getChannelData(0);
  for (let i = 0; i < length; i++) samples[i] = (Math.random() * 2 - 1) * Math.exp((-9 * i) / length);
  const source = new AudioBufferSourceNode(audio, { buffer: noise });
  const filter = new BiquadFilterNode(audio, { type: "bandpass", frequency: pitch, Q: 2.5 });
  source
    .connect(filter)
    .connect(new GainNode(audio, { gain: 0.8 }))
    .connect(audio.destination);
  source.start(when);
}
