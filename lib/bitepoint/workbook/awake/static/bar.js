// The strip above a lesson: the lessons before and after, how far one is, hand in, show code, help, and one line of news.

export class Bar {
  constructor(app, lab, panel, course, at, does) {
    this.node = document.createElement("div");
    this.node.className = "bp-bar";
    this.does = does;
    // Asked at the time: a lesson may be renamed or moved while it is open.
    const folder = () => panel.context.path.slice(0, panel.context.path.lastIndexOf("/") + 1);
    const go = (to, word) => {
      const there = course.lessons[to];
      const made = button(word, () => app.commands.execute("docmanager:open", { path: folder() + there.file }));
      made.disabled = !there;
      if (there) made.title = there.title;
      return made;
    };
    this.standing = text("span", "bp-bar-standing");
    this.handIn = button("Make my hand-in", () => does.handIn());
    this.handIn.hidden = true;
    this.code = button("Show code", () => this.toggle());
    this.helping = button("Help", () => this.toggleHelp());
    this.helping.setAttribute("aria-expanded", "false");
    this.help = does.help();
    this.help.hidden = true;
    this.news = text("span", "bp-bar-news");
    this.news.setAttribute("role", "status");
    const middle = document.createElement("span");
    middle.className = "bp-bar-middle";
    middle.append(this.standing, this.news);
    const frame = text("span", "bp-bar-frame");
    frame.textContent = course.frame;
    this.node.append(go(at - 1, "‹ Previous lesson"), go(at + 1, "Next lesson ›"), middle, this.handIn, this.code, this.helping, frame, this.help);
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
    localStorage.setItem("bitepoint-code", shown ? "shown" : "hidden");
    this.show(shown);
  }

  toggleHelp() {
    this.help.hidden = !this.help.hidden;
    this.helping.setAttribute("aria-expanded", String(!this.help.hidden));
    this.fit();
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

  /** Say where the finished hand-in is, with a link to save it. */
  handedIn(told, href, name) {
    const link = Object.assign(document.createElement("a"), { href, download: name, textContent: "Save this file" });
    this.news.replaceChildren(`${told} `, link);
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

  stand(words) {
    this.standing.textContent = words;
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
