// What stands round the ring: stages and tools to choose, what is in the hand, the buttons, the list of pulls.

/** A group of tiles, one to choose; `counts` pairs each entry with a place for a figure. */
function choices(title, entries, chosen, onchoose, picture = null) {
  const name = fresh("group");
  const counts = [];
  const tiles = entries.map((entry) => {
    const count = make("span", { class: "bp-hint bp-tile-count" });
    counts.push([entry, count]);
    const label = tile(
      "radio",
      name,
      entry.key,
      entry.label,
      () => onchoose(entry),
      picture ? picture(entry) : count,
    );
    if (entry === chosen) label.control.checked = true;
    return label;
  });
  const element = make("fieldset", { class: "bp-tiles" }, make("legend", {}, title), ...tiles);
  return { element, counts };
}

/** What is in the hand, right above the ring: the tool lying there, what is fitted to it, and its setting where it has one. */
function settingField(spec, typed, onchange) {
  const id = fresh("setting");
  const used = spec.stages.some((stage) => stage.kind === "torque");
  const input = make("input", {
    class: "bp-input",
    id,
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    size: 6,
    maxlength: 40,
    oninput: onchange,
  });
  if (typed) input.value = typed;
  const field = make(
    "div",
    { class: "bp-row bp-setting-field" },
    make("label", { class: "bp-label", for: id }, "Wrench setting"),
    input,
    make("span", { class: "bp-unit" }, spec.setting_unit ?? ""),
  );
  const held = make("div", { class: "bp-in-hand" });
  const element = make("div", { class: "bp-setting" }, held, field);
  const show = (tool) => {
    field.hidden = !(used && tool && setsTorque(tool));
    if (!tool) return held.replaceChildren(make("span", {}, "Nothing is in your hand yet."));
    const fitted = tool.key === "wrench" ? spec.fitted : "";
    return held.replaceChildren(
      toolLying(tool.key, fitted),
      make("span", {}, tool.label, fitted ? make("span", { class: "bp-hint bp-fitted" }, `Fitted: ${fitted}`) : null),
    );
  };
  return { element, input, typed: () => input.value.trim(), show };
}

const pullWords = (spec, stage, tool, set) =>
  `${stage.label}, ${tool.label}${set === null ? "" : ` set to ${set} ${spec.setting_unit}`}`;

/** All pulls in words, for eyes and screen readers alike. */
function logOfPulls(spec) {
  const summary = make("summary", {});
  const list = make("ol", { class: "bp-log" });
  const element = make("details", { class: "bp-details" }, summary, list);
  const line = ({ bolt, stage, tool, setting }) => {
    const [where, held] = [byKey(spec.stages, stage), byKey(spec.tools, tool)];
    return make("li", {}, `Bolt ${bolt}: ${where && held ? pullWords(spec, where, held, setting) : stage}`);
  };
  const show = (pulls) => {
    summary.textContent = pulls.length
      ? `What you did so far (${pulls.length})`
      : "What you did so far (nothing yet)";
    list.replaceChildren(...pulls.map(line));
    list.scrollTop = list.scrollHeight;
  };
  return { element, show };
}

/** Done, the last pull taken back, Start again (asked once more), Sound. */
function footerButtons({ done, back, restart, sound: switchSound }) {
  const button = (words, onclick, main = "") =>
    make("button", { type: "button", class: `bp-button ${main}`, onclick }, words);
  const check = button("Done: check my work", done, "bp-main");
  const undo = button("Take back the last pull", back);
  const { again, asked } = restartButtons({
    question: "Take every bolt out?",
    yes: "Yes, take every bolt out",
    no: "No, keep my work",
    restart,
  });
  const speaker = button("Sound: off", () => {
    const on = speaker.getAttribute("aria-pressed") !== "true";
    speaker.setAttribute("aria-pressed", on);
    speaker.textContent = on ? "Sound: on" : "Sound: off";
    switchSound(on);
  });
  speaker.setAttribute("aria-pressed", "false");
  const show = (closed, pulled) => {
    check.disabled = closed;
    again.disabled = closed || !pulled;
    undo.disabled = closed || !pulled;
  };
  return { element: make("div", { class: "bp-row bp-footer" }, check, undo, again, asked, speaker), show };
}
