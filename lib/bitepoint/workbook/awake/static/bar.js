// The strip above a lesson: the lessons before and after, how far one is, hand in, show code, help, and one line of news.

const BRIEF_MS = 10_000;

export class Bar {
  constructor(app, lab, panel, course, at, does) {
    this.node = document.createElement("div");
    this.node.className = "bp-bar";
    this.does = does;
    // Asked at the time: a lesson may be renamed or moved while it is open.
    const folder = () => panel.context.path.slice(0, panel.context.path.lastIndexOf("/") + 1);
    const go = (to, word) => {
      const there = course.lessons[to];
      const made = button("", () => app.commands.execute("docmanager:open", { path: folder() + there.file }));
      made.append(...word.map((part) => Object.assign(text("span", part.length > 1 ? "bp-wide" : ""), { textContent: part })));
      made.setAttribute("aria-label", word.find((part) => part.length > 1).trim());
      made.disabled = !there;
      if (there) made.title = there.title;
      return made;
    };
    this.standing = text("span", "bp-bar-standing");
    const handIn = () => {
      this.closeHelp();
      does.handIn();
    };
    this.handIn = button("Make my hand-in", handIn);
    this.handIn.hidden = true;
    this.code = button("Show code", () => this.toggle());
    this.handIn.className = this.code.className = "bp-wide";
    this.helping = button("Help", () => this.toggleHelp());
    this.helping.setAttribute("aria-expanded", "false");
    this.help = does.help({ handIn, code: () => this.toggle(), close: () => this.closeHelp() });
    this.help.hidden = true;
    const escape = ({ key }) => key === "Escape" && this.closeHelp();
    panel.node.addEventListener("keydown", escape, { capture: true });
    this.news = text("span", "bp-bar-news");
    this.news.setAttribute("role", "status");
    const middle = document.createElement("span");
    middle.className = "bp-bar-middle";
    middle.append(this.standing, this.news);
    const frame = text("span", "bp-bar-frame");
    frame.textContent = course.frame;
    this.node.append(go(at - 1, ["‹", " Previous lesson"]), go(at + 1, ["Next lesson ", "›"]), middle, this.handIn, this.code, this.helping, frame, this.help);
    this.panel = panel;
    this.show(localStorage.getItem("bitepoint-code") === "shown");
    this.widget = new lab.widgets.Widget({ node: this.node });
    panel.contentHeader.addWidget(this.widget);
    const watch = new ResizeObserver(() => requestAnimationFrame(() => this.fit()));
    for (const node of [this.node, middle]) watch.observe(node);
    panel.disposed.connect(() => watch.disconnect());
  }

  toggle() {
    const shown = !this.panel.node.classList.contains("bp-code");
    this.closeHelp();
    localStorage.setItem("bitepoint-code", shown ? "shown" : "hidden");
    this.show(shown);
  }

  toggleHelp() {
    this.help.hidden = !this.help.hidden;
    this.helping.setAttribute("aria-expanded", String(!this.help.hidden));
    this.fit();
  }

  /** Help goes, and the focus with it back to its button. */
  closeHelp() {
    if (this.help.hidden) return;
    this.toggleHelp();
    this.helping.focus({ preventScroll: true });
  }

  show(shown) {
    this.panel.node.classList.toggle("bp-code", shown);
    this.code.setAttribute("aria-pressed", String(shown));
    this.code.textContent = shown ? "Hide code" : "Show code";
  }

  /** Say one line, with buttons behind it: [words, what to do] each. */
  say(words, ...buttons) {
    this.news.replaceChildren(words, ...buttons.map(([word, act]) => button(word, act)));
    this.fit();
  }

  /** Say one line that goes when the reader goes on, or by itself; while it `holds`, the page scrolls without the reader. */
  sayBriefly(words, holds) {
    this.say(words);
    const moved = new AbortController();
    const over = (event) => {
      if (event?.type === "scroll" && holds()) return;
      clearTimeout(timer);
      moved.abort();
      if (this.news.textContent === words) this.say("");
    };
    const timer = setTimeout(() => over(), BRIEF_MS);
    // Not at the press of a pointer: the bar would get lower under it, and the click would miss its button.
    for (const kind of ["scroll", "click", "keydown"]) this.panel.node.addEventListener(kind, over, { capture: true, signal: moved.signal });
  }

  /** Say where the finished hand-in is, with a link to save it; once it is pressed, what to do with the file. */
  handedIn({ told, next, code, name }, href) {
    const link = Object.assign(text("a", "bp-bar-save"), { href, download: name, textContent: "Save this file" });
    const words = Object.assign(text("span", ""), { textContent: told });
    link.onclick = () => {
      words.textContent = next;
      link.textContent = "Save it again";
      this.fit();
    };
    this.news.replaceChildren(words, " ", link, " ", Object.assign(text("span", "bp-bar-code"), { textContent: code }));
    this.fit();
  }

  /** As high as what it says: nothing of it is cut off, the frame under it least of all. */
  fit() {
    if (this.widget.isDisposed || !this.widget.isVisible) return;
    const { style } = this.node;
    const [height, before] = [style.height, style.minHeight];
    style.minHeight = "";
    const least = parseFloat(getComputedStyle(this.node).minHeight);
    // JupyterLab's layout gives it a height and lets none of its content have a say in it.
    Object.assign(style, { height: "0", minHeight: "0" });
    const needed = this.node.scrollHeight + 1;
    Object.assign(style, { height, minHeight: needed > least ? `${needed}px` : "" });
    if (style.minHeight !== before) this.widget.parent?.fit();
  }

  /** How far one is; `more` only where the bar has room for it. */
  stand(words, more) {
    this.standing.replaceChildren(words, Object.assign(text("span", "bp-wide"), { textContent: more }));
    this.handIn.hidden = false;
    this.fit();
  }
}

function button(word, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = word;
  made.onclick = act;
  return made;
}

function text(kind, name) {
  const made = document.createElement(kind);
  made.className = name;
  return made;
}
