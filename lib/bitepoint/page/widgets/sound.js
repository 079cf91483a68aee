// The sound of a strip: made in the page from its beats, and only when the learner presses the button.

const SAMPLE_RATE = 22050;
const VOLUME = 0.22;
const BEAT_S = 0.35;
const FADE_S = 0.09;
/** Share of each overtone, so that small loudspeakers give the low beats too. */
const OVERTONES = [1, 0.6, 0.4, 0.25];

/** Samples of all beats: each begins at once and dies away. The same beats give the same samples. */
function samplesOf({ seconds, beats }) {
  const samples = new Float32Array(Math.ceil((seconds + BEAT_S) * SAMPLE_RATE));
  for (const [at, hz, level] of beats) {
    const first = Math.round(at * SAMPLE_RATE);
    for (let i = 0; i < BEAT_S * SAMPLE_RATE; i++) {
      const t = i / SAMPLE_RATE;
      let wave = 0;
      OVERTONES.forEach((share, n) => {
        if (hz * (n + 1) < SAMPLE_RATE / 3) wave += share * Math.sin(2 * Math.PI * hz * (n + 1) * t);
      });
      samples[first + i] += VOLUME * level * wave * Math.min(1, t / 0.003) * Math.exp(-t / FADE_S);
    }
  }
  return samples;
}

// Each control loads this text as a module of its own: no two play at once because all of them hear this event.
const HUSH = "bitepoint-hush";

/** "Play the sound" and "Stop", and which piece is heard. */
function soundPlayer(sound, signal) {
  const words = make("p", { class: "bp-hint bp-sound-piece" });
  const button = (text, onclick) => make("button", { type: "button", class: "bp-button", onclick }, text);
  const play = button("Play the sound", start);
  const stop = button("Stop", () => {
    hush();
    play.focus();
  });
  let hush = () => {};
  const idle = () => {
    play.disabled = false;
    stop.disabled = true;
    words.textContent = `${Math.round(sound.seconds)} seconds, in ${sound.told.length} pieces. The strip in words says the same.`;
  };
  const element = make("div", { class: "bp-sound", role: "group", "aria-label": "Sound" });
  if (!window.AudioContext) {
    element.append(make("p", { class: "bp-hint" }, "This browser plays no sound. The strip in words says the same."));
    return element;
  }

  function start() {
    document.dispatchEvent(new Event(HUSH));
    const audio = new AudioContext();
    const samples = samplesOf(sound);
    const buffer = audio.createBuffer(1, samples.length, SAMPLE_RATE);
    buffer.copyToChannel(samples, 0);
    const source = new AudioBufferSourceNode(audio, { buffer });
    source.connect(audio.destination);
    let timer = 0;
    const tell = () => {
      const [, told] = sound.told.filter(([from]) => from <= Math.max(0, audio.currentTime)).pop();
      if (words.textContent !== told) words.textContent = told;
      timer = setTimeout(tell, 100);
    };
    hush = () => {
      hush = () => {};
      clearTimeout(timer);
      source.onended = null;
      audio.close();
      idle();
    };
    source.onended = () => keepFocus(element, hush);
    source.start();
    stop.disabled = false;
    stop.focus();
    play.disabled = true;
    tell();
  }

  element.append(make("div", { class: "bp-row" }, play, stop, words));
  document.addEventListener(HUSH, () => hush(), { signal });
  signal.addEventListener("abort", () => hush());
  idle();
  return element;
}
