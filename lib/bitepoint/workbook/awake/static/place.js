// The reader's place: kept while the lesson wakes and its outputs grow, and remembered for the next time.

const MOVES = ["wheel", "pointerdown", "keydown", "touchstart"];

export class Place {
  constructor(panel, name) {
    this.panel = panel;
    this.key = `bitepoint-place:${name}`;
    this.outer = panel.node.querySelector(".jp-WindowedPanel-outer");
    this.kept = read(this.key);
    this.holding = true;
    const free = () => this.free();
    for (const kind of MOVES) panel.node.addEventListener(kind, free, { once: true, capture: true });
    this.watch = new ResizeObserver(() => this.put());
    for (const cell of panel.content.widgets) this.watch.observe(cell.node);
    this.put();
  }

  /** Whether the reader comes back to a place further down. */
  get isReturn() {
    return Boolean(this.kept) && this.panel.content.widgets.findIndex((cell) => cell.model.id === this.kept.id) > 0;
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
    localStorage.setItem(this.key, JSON.stringify({ id: cell.model.id, by }));
  }
}

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    return null;
  }
}
