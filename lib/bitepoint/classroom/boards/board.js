"use strict";
(() => {
  const EVERY = 1000;
  const SPEAK_EVERY = 60000;
  const board = document.getElementById("board");
  const told = document.getElementById("told");
  const pause = document.getElementById("pause");
  const spoken = document.getElementById("spoken");
  let version = board.dataset.version;
  let paused = false;
  let timer = 0;
  let spokenAt = Date.now();
  let lost = "";

  const clock = () => new Date().toLocaleTimeString([], { hour12: false });

  function speak(text, now) {
    if (text && text !== spoken.textContent && (now || Date.now() - spokenAt > SPEAK_EVERY)) {
      spoken.textContent = text;
      spokenAt = Date.now();
    }
  }

  async function fetchOnce() {
    const reply = await fetch(`${board.dataset.address}&since=${encodeURIComponent(version)}`, { cache: "no-store" });
    if (reply.status === 200) {
      const news = await reply.json();
      board.innerHTML = news.html; // written by the board, every text escaped there; the page's policy runs no script from it
      version = news.version;
      const say = board.querySelector("[data-say]");
      speak(say ? say.dataset.say : "", false);
    } else if (reply.status !== 204) {
      throw new Error(String(reply.status));
    }
  }

  async function refresh() {
    clearTimeout(timer);
    if (!paused && !document.hidden) {
      try {
        await fetchOnce();
        lost = "";
        if (!paused) told.textContent = `Up to date at ${clock()}`;
      } catch {
        lost = lost || clock();
        told.textContent = `No news since ${lost}. Is the board still running?`;
        speak(told.textContent, spoken.textContent !== told.textContent);
      }
    }
    clearTimeout(timer);
    timer = setTimeout(refresh, EVERY);
  }

  pause.addEventListener("click", () => {
    paused = !paused;
    pause.setAttribute("aria-pressed", String(paused));
    if (paused) told.textContent = `Paused at ${clock()}`;
    else refresh();
  });
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) refresh();
  });
  timer = setTimeout(refresh, EVERY);
})();
