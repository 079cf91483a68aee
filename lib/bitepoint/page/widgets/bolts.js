// The tightening drill: what is chosen, what is pulled, what is shown and said of it.

const VERDICT = "Checked. Read the verdict at the button “Done: check my work”.";
const VERDICT_BELOW = "Checked. Read the verdict below the ring.";
const LONG = 200; // signs: about eight lines beside the ring
const NEVER = "impact"; // a stage done with it is not had: a tick would praise what must not be done
const LOOSE = ["fingers", "hand", "eye"]; // what tightens nothing
const DEEDS = {
  fingers: "snug",
  hand: "snug",
  wrench: "click",
  gauge: "turned",
  impact: "rattle",
  eye: "seen",
};
// Said when it is chosen, not after the job: with this one in the hand the part is already in danger.
const WARNINGS = {
  impact: " Mind: nobody can set it to a torque. Its blows overstretch a bolt or tear a thread before anybody sees it.",
};
const SWING = { fingers: 150, hand: 150, wrench: 42, impact: 30, eye: 0 };

/** Degrees a head turns in a stage: the figure in an angle stage's words, else enough to be seen. */
function turnDegrees(stage, tool) {
  const written = stage.kind === "angle" && /(\d+)\s*°/.exec(stage.label);
  return written ? Number(written[1]) : (SWING[tool.key] ?? 42);
}

const needsSetting = (stage, tool) => stage.kind === "torque" && setsTorque(tool);
const setsTorque = (tool) => Boolean(tool.setting ?? tool.key === "wrench");
const byKey = (list, key) => list.find((entry) => entry.key === key);

/** What one tap on a bolt does now, said beside the ring before it is done. */
function deedOf(spec, { stage, tool }, set) {
  if (!tool) return `Choose ${spec.stages.length > 1 ? "a stage and " : ""}a tool. Then ${TAP.toLowerCase()} a bolt.`;
  if (needsSetting(stage, tool) && !set) return `Set the wrench: type its setting in ${spec.setting_unit}. Then ${TAP.toLowerCase()} a bolt.`;
  const name = tool.label.toLowerCase();
  const turn = stage.kind === "angle" ? ` by ${turnDegrees(stage, tool)}°` : "";
  const deeds = {
    fingers: "your fingers turn it.",
    hand: "your fingers turn it.",
    wrench: `the wrench pulls it once${set ? `, set to ${set} ${spec.setting_unit}` : ""}.`,
    gauge: `the bar turns it once${turn}.`,
    impact: "the impact wrench rattles it down once.",
    eye: "you look at its paint mark once.",
  };
  return `${TAP} a bolt: ${deeds[tool.key] ?? `the ${name} pulls it once.`}`;
}

/** Build the drill for one spec; everything stops with the signal. */
function buildDrill(model, root, signal) {
  const spec = { stages: [], tools: [], angles_deg: [], ...model.get("spec") };
  const last = model.get("pulls").at(-1);
  const state = {
    stage: byKey(spec.stages, last?.stage) ?? spec.stages[0],
    tool: byKey(spec.tools, last?.tool) ?? (spec.tools.length === 1 ? spec.tools[0] : null),
    sound: false,
  };
  const status = speaker("bp-status");
  const send = sender(model, status.say, signal);
  const closed = () => Boolean(model.get("said").closed);
  const ring = ringDrawing(spec, (bolt, again) => actOn(bolt, again));
  const balance = balanceDrawing(spec.part);
  const stages = choices("Stage", spec.stages, state.stage, (stage) => {
    state.stage = stage;
    show();
    status.say(`Now: ${stage.label}.`);
  });
  const tools = choices(
    "Tool in your hand",
    spec.tools,
    state.tool,
    (tool) => {
      state.tool = tool;
      show();
      status.say(`In your hand: ${tool.label}.${WARNINGS[tool.key] ?? ""}`);
      if (needsSetting(state.stage, tool)) setting.input.select();
    },
    (tool) => toolLying(tool.key),
  );
  const setting = settingField(spec, last?.setting, () => tellDeed());
  const deed = make("p", { class: "bp-deed", id: fresh("deed") });
  ring.element.setAttribute("aria-describedby", deed.id);
  const log = logOfPulls(spec);
  const footer = footerButtons({
    done: () =>
      model.get("pulls").length
        ? send({ do: "answer", pulls: model.get("pulls") })
        : status.say("Nothing is pulled yet: take a bolt in the ring first."),
    back: () => {
      const pulls = model.get("pulls");
      setPulls(pulls.slice(0, -1));
      status.say(`Taken back: the pull on bolt ${pulls.at(-1).bolt}.`);
    },
    restart: () => {
      setPulls([]);
      status.say("All bolts are out. Start again.");
    },
    sound: (on) => {
      state.sound = on;
      if (on) sound("wrench");
    },
  });

  function setPulls(pulls) {
    model.set("pulls", pulls);
    model.save_changes();
    show();
  }

  /** One tap, one pull: what a finger slipped into is taken back by its button. */
  function actOn(bolt, again) {
    const why = refusal();
    if (why) return status.say(why);
    if (again) return status.say(`Bolt ${bolt} had one pull: the second half of a double ${TAP.toLowerCase()} pulls nothing.`);
    const { stage, tool } = state;
    const set = setsTorque(tool) && setting.typed() ? setting.typed() : null;
    playPull(ring, spec, bolt, stage, tool);
    if (state.sound) sound(tool.key);
    setPulls([...model.get("pulls"), { bolt, stage: stage.key, tool: tool.key, setting: set }]);
    const all = bolts(model.get("pulls").filter(counts), stage).length === spec.angles_deg.length;
    return status.say(
      `Bolt ${bolt}: ${DEEDS[tool.key] ?? "pulled"}. ${pullWords(spec, stage, tool, set)}.` +
        (tool.key === NEVER ? " Pulled, but no stage is counted for this tool." : all ? " Every bolt has had this stage." : ""),
    );
  }

  function refusal() {
    if (closed()) return "This drill is closed: read the verdict.";
    if (!state.tool) return "Nothing is in your hand: choose a tool first.";
    if (needsSetting(state.stage, state.tool) && !setting.typed()) {
      return `The ${state.tool.label.toLowerCase()} is not set: type its setting in ${spec.setting_unit} first.`;
    }
    return null;
  }

  function tellDeed() {
    deed.textContent = closed() ? "This drill is closed: read the verdict." : deedOf(spec, state, setting.typed());
  }

  function show() {
    const pulls = model.get("pulls");
    showRing(ring, spec, state, pulls);
    const tight = bolts(
      pulls.filter((pull) => !LOOSE.includes(pull.tool)),
      state.stage,
    );
    const sum = tight.length && state.stage.kind !== "look" ? vectorSum(spec.angles_deg, tight) : null;
    balance.update(sum, sum && towards(spec.angles_deg, sum.degrees), sum && worstOf(spec.angles_deg, tight));
    showArrow(ring.arrow, sum, spec.angles_deg.length);
    for (const [stage, count] of stages.counts) {
      count.textContent = `${bolts(pulls.filter(counts), stage).length} of ${spec.angles_deg.length}`;
    }
    setting.show(state.tool);
    tellDeed();
    log.show(pulls);
    keepFocus(root, () => {
      footer.show(closed(), pulls.length);
      for (const input of root.querySelectorAll("input")) input.disabled = closed();
    });
  }

  const key = make(
    "p",
    { class: "bp-hint bp-key" },
    spec.stages.length > 1
      ? `Arcs and figures: how many of the ${spec.stages.length} stages a bolt has had. ✓: it has had this one.`
      : "Arc and ✓ beside a bolt: it has been pulled.",
  );
  const panel = make("div", { class: "bp-panel" }, stages.element, tools.element);
  const stand = make("div", { class: "bp-stand" }, setting.element, deed, ring.element, status.element);
  const side = make("div", { class: "bp-side-panel" }, footer.element, balance.element, key, log.element);
  const bench = make("div", { class: "bp-bench" }, panel, stand, side);
  const long = () => (model.get("said").text ?? "").length > LONG;
  /** A short verdict stands beside the ring, a long one has the whole width below it. */
  const place = () => (long() ? bench.append(said) : footer.element.after(said));
  listen(model, "change:said", () => place(), signal);
  const said = verdict(model, signal);
  place();
  root.replaceChildren(make("p", { class: "bp-title" }, spec.title ?? ""), frame(spec.frame) ?? "", bench);
  listen(model, "change:pulls", show, signal);
  const begin = () => status.say(model.get("said").text ? (long() ? VERDICT_BELOW : VERDICT) : "Nothing is pulled yet.");
  listen(model, "change:said", show, signal);
  listen(model, "change:said", begin, signal);
  // Setting, ring and “Done” stay in view, with the head of the verdict under them.
  listen(model, "change:said", () => long() && stand.scrollIntoView({ block: "start", behavior: calm() ? "auto" : "smooth" }), signal);
  show();
  if (model.get("pulls").length && !model.get("said").text) status.say("Your work lies as you left it: go on.");
  else begin();
}

const counts = (pull) => pull.tool !== NEVER;

/** Bolts pulled in a stage, each once, in order. */
const bolts = (pulls, stage) => [
  ...new Set(pulls.filter((pull) => pull.stage === stage.key).map((pull) => pull.bolt)),
];

export default {
  render({ model, el }) {
    const root = make("section", { role: "group", class: "bp-root bp-drill", "aria-label": "Tightening drill" });
    return rebuilt(model, el, root, buildDrill);
  },
};
