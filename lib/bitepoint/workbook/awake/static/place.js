// The reader's place: kept while the lesson wakes and its outputs grow, and remembered for the next time.

/** Path of a lesson to the cell at which it is to open, once. */
export const sentTo = new Map();

/** A link to a cell of a lesson opens that lesson there; where it is open already, JupyterLab itself goes to the cell. */
export function followLinks(tracker) {
  const note = ({ target }) => {
    const link = target.closest?.("a[href*='.ipynb'][href*='#cell-id=']");
    if (!link) return;
    const { pathname, hash } = new URL(link.href);
    const path = decodeURIComponent(pathname.slice(pathname.indexOf(FILES) + FILES.length));
    if (!tracker.find((panel) => panel.context.path === path)) sentTo.set(path, hash.slice("#cell-id=".length));
  };
  document.addEventListener("click", note, true);
}

// JupyterLab makes an address below this of a link to a file beside the notebook.
const FILES = "/files/";
const TELL_MS = 1500;
const MOVES = ["wheel", "pointerdown", "keydown", "touchstart"];

export class Place {
  constructor(panel, name, tell) {
    this.panel = panel;
    this.tell = tell;
    // Several courses of one computer may have the same address, one after the other.
    this.key = `bitepoint-place:${root()}/${name}`;
    this.outer = panel.node.querySelector(".jp-WindowedPanel-outer");
    this.sent = sentTo.get(name);
    sentTo.delete(name);
    this.kept = this.sent ? { id: this.sent, by: 0, at: Date.now() } : read(this.key);
    this.holding = true;
    const free = () => this.free();
    for (const kind of MOVES) panel.node.addEventListener(kind, free, { once: true, capture: true });
    this.watch = new ResizeObserver(() => this.put());
    for (const cell of panel.content.widgets) this.watch.observe(cell.node);
    this.put();
  }

  /** Whether the reader comes back to a place further down. */
  get isReturn() {
    return Boolean(this.kept) && !this.sent && this.panel.content.widgets.findIndex((cell) => cell.model.id === this.kept.id) > 0;
  }

  /** Go where the course itself says that the reader stopped, if that is newer than what this browser knows. */
  hear(kept) {
    if (!this.holding || !kept || kept.at <= (this.kept?.at ?? 0)) return false;
    this.kept = kept;
    this.put();
    return true;
  }

  put() {
    if (!this.holding) return;
    const cell = this.kept && this.panel.content.widgets.find((one) => one.model.id === this.kept.id);
    if (!cell) {
      this.outer.scrollTop = 0;
      return;
    }
    const off = cell.node.getBoundingClientRect().top - this.top() - this.kept.by;
    if (Math.abs(off) > 1) this.outer.scrollTop += off;
  }

  top() {
    return this.outer.getBoundingClientRect().top;
  }

  /** The lesson is awake: late pictures may still move things for a moment. */
  settle() {
    this.put();
    setTimeout(() => this.free(), 1500);
  }

  free() {
    if (!this.holding) return;
    this.holding = false;
    this.watch.disconnect();
    this.keep();
    let timer;
    this.outer.addEventListener("scroll", () => {
      clearTimeout(timer);
      timer = setTimeout(() => this.keep(), 300);
    });
  }

  keep() {
    if (!this.panel.isVisible) return;
    const top = this.top();
    const cell = this.panel.content.widgets.find((one) => one.node.getBoundingClientRect().bottom > top + 1);
    if (!cell) return;
    const by = Math.round(cell.node.getBoundingClientRect().top - top);
    const kept = { id: cell.model.id, by, at: Date.now() };
    localStorage.setItem(this.key, JSON.stringify(kept));
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => this.panel.isDisposed || this.tell(kept), TELL_MS);
  }
}

/** The folder that the server shows, "" where the page does not say. */
function root() {
  try {
    return JSON.parse(document.getElementById("jupyter-config-data").textContent).serverRoot ?? "";
  } catch {
    return "";
  }
}

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    return null;
  }
}
