// Shared by the controls. Text joined in front of each one: no imports, nothing exported here.

const SVG = "http://www.w3.org/2000/svg";

/** An element with attributes, listeners (keys beginning with "on") and children; strings become text nodes. */
function make(tag, attributes = {}, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

/** The same for SVG. */
function draw(tag, attributes = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value != null) element.setAttribute(name, value);
  }
  element.append(...children.filter((child) => child != null));
  return element;
}

// Each control on a page loads this text as a module of its own: a bare counter would begin anew in every one of them,
// and the radio buttons of two drills would be one group.
const here = Math.random().toString(36).slice(2, 10);
let names = 0;
/** A name nothing else on the page has, for radio groups and for labels. */
const fresh = (word) => `bp-${word}-${here}-${++names}`;

/**
 * Keep keys in the control. JupyterLab listens further up: with a bolt focused, "d d" would delete the cell.
 * Tab, Escape and anything with Ctrl, Alt or Meta stay JupyterLab's and the browser's.
 */
function keepKeys(root) {
  root.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key !== "Tab" && event.key !== "Escape") event.stopPropagation();
  });
}

/** A live region: `say` changes its text, and says the same text again when it is asked to. */
function speaker(className) {
  const element = make("p", { class: className, role: "status", "aria-live": "polite" });
  let repeat = false;
  const say = (words) => {
    repeat = words === element.textContent && !repeat;
    element.textContent = repeat ? words + "\u00a0" : words;
  };
  return { element, say };
}

const SIGNS = { right: "✓", "not yet": "↻", danger: "⚠", note: "i" };

/** The verdict under a control, kept equal to the trait `said`; returns the element and a way to stop. */
function verdict(model, signal) {
  const sign = make("span", { class: "bp-sign", "aria-hidden": "true" });
  const words = make("p", { class: "bp-said-words" });
  const again = make(
    "button",
    { type: "button", class: "bp-button", onclick: () => model.send({ do: "again" }) },
    "Try again with new figures",
  );
  const live = make("div", { class: "bp-said-live", role: "status", "aria-live": "polite" }, sign, words);
  const element = make("div", { class: "bp-said" }, live, again);
  const show = () => {
    const { tone = "", text = "", again: offered = false } = model.get("said");
    element.dataset.tone = tone;
    element.hidden = !tone && !text && !offered;
    sign.textContent = SIGNS[tone] ?? "";
    sign.hidden = !SIGNS[tone];
    words.textContent = text;
    again.hidden = !offered;
  };
  listen(
    model,
    "change:said",
    () => {
      show();
      element.scrollIntoView({ block: "nearest", behavior: calm() ? "auto" : "smooth" });
    },
    signal,
  );
  show();
  return element;
}

/** Listen to a model until the view goes. */
function listen(model, event, action, signal) {
  model.on(event, action);
  signal.addEventListener("abort", () => model.off(event, action));
}

/** True when the person asked the system for less motion. */
const calm = () => window.matchMedia("(prefers-reduced-motion: reduce)").matches;

const NO_REPLY = "No reply yet. If this stays: menu Run, Run All Cells. That wakes the form.";

/** Send a message; say so when nothing comes back. `reply` is the event that ends the waiting. */
function sender(model, say, signal, reply = "change:said", meanwhile = "Checking …") {
  let timer = 0;
  let waiting = false;
  const stop = () => clearTimeout(timer);
  listen(
    model,
    reply,
    () => {
      stop();
      if (waiting) say("");
      waiting = false;
    },
    signal,
  );
  signal.addEventListener("abort", stop);
  return (message) => {
    stop();
    waiting = true;
    model.send(message);
    say(meanwhile);
    timer = setTimeout(() => say(NO_REPLY), 6000);
  };
}

/** What a pointer does here: a finger taps, a mouse clicks. */
const TAP = window.matchMedia?.("(pointer: coarse)").matches ? "Tap" : "Click";

/** How the keyboard does it; left out where there is a finger, no mouse and little room. */
const keyboard = (words) => (TAP === "Tap" ? "" : ` By keyboard: ${words}`);

/** "Start again", asked once more before anything is lost. */
function restartButtons({ words = "Start again", question, yes, no, restart }) {
  const button = (label, onclick) => make("button", { type: "button", class: "bp-button", onclick }, label);
  const again = button(words, () => ask(true));
  const keep = button(no, () => ask(false));
  const wipe = button(yes, () => {
    ask(false);
    restart();
  });
  const asked = make("span", { class: "bp-row bp-question" }, question, keep, wipe);
  const ask = (asking) => {
    asked.hidden = !asking;
    again.hidden = asking;
    (asking ? keep : again).focus();
  };
  asked.hidden = true;
  return { again, asked };
}

/** The strip that says what the figures are. */
/** "Your answer", and for ears alone of which exercise: on screen the card above says it. */
function asked(spec) {
  const [words, ...which] = (spec.label ?? "Your answer").split(": ");
  return which.length ? [words, make("span", { class: "bp-which" }, `: ${which.join(": ")}`)] : [words];
}

const frame = (words) =>
  words ? make("p", { class: words.startsWith("TRAINING VEHICLE ") ? "bp-frame" : "bp-frame bp-own" }, words) : null;

/** The letter an answer is typed by: seen by those who have the code shown, for nobody else is asked for it. */
const typedLetter = (key) => make("b", { class: "bp-typed-letter" }, key);

/** A tile with a native radio button or checkbox in it. */
function tile(type, name, value, label, onchange, extra = null, letter = null) {
  const input = make("input", { type, name, value, onchange });
  return make("label", { class: "bp-tile" }, input, letter, make("span", { class: "bp-tile-words" }, label), extra);
}

/** Do something that may take the focused element away; the focus then waits on the control itself, not nowhere. */
function keepFocus(root, action) {
  const inside = root.contains(document.activeElement);
  action();
  const { activeElement } = document;
  if (inside && (!root.contains(activeElement) || activeElement.disabled))
    root.focus({ preventScroll: true });
}

/** Put a control on the page and build it again whenever its spec changes; returns what anywidget calls at the end. */
function rebuilt(model, el, root, build) {
  const whole = new AbortController();
  let part = new AbortController();
  const afresh = () => {
    part.abort();
    part = new AbortController();
    keepFocus(root, () => build(model, root, part.signal));
  };
  root.tabIndex = -1;
  keepKeys(root);
  el.append(root);
  listen(model, "change:spec", afresh, whole.signal);
  afresh();
  return () => {
    part.abort();
    whole.abort();
  };
}
