// One lesson in one panel: its own cells run when it opens, a stranger's never, and the bar says where one stands.
import { Bar } from "./bar.js";
import { exerciseOf, isPersonal, sorted } from "./cells.js";
import { markFrames } from "./frames.js";
import { help } from "./help.js";
import { handIn, isSafe, keepPlace, progress, quietly } from "./kernel.js";
import { Place } from "./place.js";
import { keepUnchanged } from "./unchanged.js";

// Two views of one notebook share its cells: what one has woken, the other need not. Notebook to {kernel, done, stale}.
const wakings = new WeakMap();

export class Lesson {
  constructor(app, lab, panel, course, at) {
    Object.assign(this, { app, lab, panel, course, at, key: course.lessons[at].key });
    this.cells = sorted(panel, course, at);
  }

  async start() {
    const { panel } = this;
    panel.addClass("bp-lesson");
    this.mark();
    keepUnchanged(panel);
    markFrames(panel, this.course.frame);
    this.bar = new Bar(this.app, this.lab, panel, this.course, this.at, { handIn: () => this.handIn(), help: (does) => help(this, does) });
    this.place = new Place(panel, panel.context.path, (kept) => this.awake && keepPlace(panel, this.key, kept));
    try {
      await panel.sessionContext.ready;
      this.listen();
      await this.wakeIfSafe();
    } catch (error) {
      this.asToday("This lesson did not wake. Press Run, then Run All Cells.");
      throw error;
    }
  }

  mark() {
    for (const cell of this.cells.ours) {
      cell.addClass("bp-ours");
      cell.addClass("bp-waits");
      if (isPersonal(cell)) cell.addClass("bp-asleep");
    }
  }

  /** Wake; in a kernel that would take modules from the lesson's folder only when the reader says so. */
  async wakeIfSafe(how = {}) {
    if (await isSafe(this.panel)) return this.wake(how);
    this.bar.say("This lesson sleeps. ", ["Wake this lesson", () => this.wake(how)]);
  }

  /** Wake again after a restart; say anew where one stands after each answer. */
  listen() {
    const session = this.panel.sessionContext;
    const model = this.panel.context.model;
    session.statusChanged.connect((_, status) => {
      const waking = wakings.get(model);
      if (status === "dead") this.sayItEnded();
      else if (waking && (status === "restarting" || status === "autorestarting")) waking.stale = true;
      else if (waking?.stale && status === "idle") this.wakeIfSafe();
      // Restarted by another page or by the server: nothing but the new kernel's first word tells.
      else if (waking?.awake && !waking.stale && status === "starting") this.wakeIfSafe({ afresh: true });
    });
    session.kernelChanged.connect((_, change) => {
      if (change.newValue) session.ready.then(() => this.wakeIfSafe());
      else this.sayItEnded();
    });
    // The file was loaded again, as after a change in another page: its cells are new ones.
    this.panel.context.fileChanged.connect(() => {
      if (this.awake && this.cells.ours.some((cell) => cell.isDisposed)) this.wakeIfSafe({ afresh: true });
    });
    this.askAtActions();
    let timer;
    session.iopubMessage.connect((_, message) => {
      this.noteWho(message);
      const state = message.content.data?.state ?? {};
      // A verdict, or a sentence of a form such as “who you are”.
      const told = "said" in state || "value" in state;
      if (!told && message.header.msg_type !== "execute_input") return;
      clearTimeout(timer);
      timer = setTimeout(() => this.awake && this.stand(), 250);
    });
  }

  /** A kernel names itself in each answer. Another name: it was restarted, and its first word was lost on the way. */
  noteWho(message) {
    const waking = wakings.get(this.panel.context.model);
    if (!waking || !message.parent_header?.msg_id) return;
    const before = waking.from;
    waking.from = message.header.session;
    if (before && before !== waking.from && waking.awake && !waking.stale) this.wakeIfSafe({ afresh: true });
  }

  /** Before somebody acts on a form, ask the kernel for its name; no oftener, so that an idle kernel stays idle. */
  askAtActions() {
    let asked = 0;
    const ask = () => {
      const kernel = this.panel.sessionContext.session?.kernel;
      if (!this.awake || kernel?.status !== "idle" || Date.now() - asked < 3000) return;
      asked = Date.now();
      kernel.requestKernelInfo().catch(() => {});
    };
    for (const act of ["pointerdown", "keydown"]) this.panel.node.addEventListener(act, ask, true);
  }

  async wake({ afresh = false } = {}) {
    const { panel } = this;
    const kernel = panel.sessionContext.session?.kernel;
    if (!kernel) return this.asToday("This lesson has no kernel. Press Kernel, then Restart Kernel.");
    const model = panel.context.model;
    const began = performance.now();
    let waking = wakings.get(model);
    if (afresh || !waking || waking.stale || waking.kernel !== kernel.id) {
      waking = { kernel: kernel.id, stale: false, done: this.runOurs().catch(() => false) };
      wakings.set(model, waking);
    }
    const worked = await waking.done;
    // A kernel that was restarted meanwhile is woken by a call of its own.
    if (panel.isDisposed || wakings.get(model) !== waking || waking.stale) return;
    if (!worked) return this.asToday("This lesson did not wake. Press Run, then Run All Cells.");
    this.cells.ours.forEach(awaken);
    this.awake = waking.awake = true;
    panel.content.mode = "command";
    this.place.settle();
    this.sayWhatIsNotOurs();
    await this.stand();
    panel.node.dataset.bpAwake = Math.round(performance.now() - began);
  }

  /** Run the course's own cells, one after the other; whether that worked. */
  async runOurs() {
    const { panel } = this;
    this.bar.say("Waking …");
    // What is in the cells now: since the last waking somebody may have written into one.
    this.cells = sorted(panel, this.course, this.at);
    this.mark();
    let failed = 0;
    // What the course's first cell imports, whether or not that cell was changed.
    await quietly(panel, this.course.setup);
    for (const cell of this.cells.ours) {
      if (panel.isDisposed || cell.isDisposed) return true;
      const reply = await this.lab.cells.CodeCell.execute(cell, panel.sessionContext, { bitepoint: "opening" });
      if (reply && reply.content.status !== "ok") failed += 1;
      awaken(cell);
    }
    return failed < this.cells.ours.length;
  }

  /** The kernel is gone for good, so every form is dead. */
  sayItEnded() {
    const session = this.panel.sessionContext;
    this.awake = false;
    // Nothing is left that could be restarted: another is started in its place.
    const another = () => session.changeKernel({ name: session.prevKernelName || "python3" });
    this.bar.say("The kernel of this lesson ended. ", ["Start it again", another]);
  }

  /** Show what is stored, as without this extension. */
  asToday(words) {
    this.cells.ours.forEach(awaken);
    this.bar.say(words);
  }

  sayWhatIsNotOurs() {
    const { bar, panel } = this;
    const strange = this.cells.strange;
    if (!strange.length) return this.place.isReturn ? bar.sayBriefly("You are where you stopped.", () => this.place.holding) : bar.say("");
    const many = strange.length === 1 ? "1 cell is not" : `${strange.length} cells are not`;
    const first = strange[0];
    const show = () => {
      panel.content.activeCellIndex = panel.content.widgets.indexOf(first);
      first.node.scrollIntoView({ block: "center" });
    };
    const run = async () => {
      for (const cell of strange) await this.lab.cells.CodeCell.execute(cell, panel.sessionContext);
      bar.say("");
    };
    bar.say(`${many} the course's own and did not run. `, ["Show", show], ["Run", run]);
  }

  async stand() {
    const found = await progress(this.panel, this.key);
    if (found?.of === undefined) return;
    if (this.place.hear(found.place)) this.sayWhatIsNotOurs();
    const other = this.who && this.who !== found.who;
    this.who = found.who;
    this.bar.stand(...words(found, this.askedByPart()));
    // Somebody has said who they are: what is shown are figures of nobody's.
    if (other) await this.wake({ afresh: true });
  }

  /** The exercises of each part; a part ends at a stop. */
  askedByPart() {
    const parts = [[]];
    for (const cell of this.panel.content.widgets) {
      if (cell.model.id.startsWith("stop")) parts.push([]);
      const exercise = exerciseOf(cell);
      if (exercise) parts.at(-1).push(exercise);
    }
    return parts;
  }

  async handIn() {
    this.bar.say("Making the hand-in …");
    const made = await handIn(this.panel, this.key);
    if (!made?.name) return this.bar.say(made?.told ?? "The hand-in was not made. Try again.");
    this.bar.handedIn(made, await this.addressOf(made));
    await this.stand();
  }

  /** Where the hand-in can be saved from: a file of the workbook, or the bytes themselves where the folder took none. */
  async addressOf({ file, data }) {
    if (!file) return URL.createObjectURL(new Blob([Uint8Array.from(atob(data), (sign) => sign.charCodeAt(0))]));
    const folder = this.panel.context.path.split("/").slice(0, -1);
    return this.app.serviceManager.contents.getDownloadUrl([...folder, ...file.split("/")].join("/"));
  }
}

function awaken(cell) {
  for (const name of ["bp-asleep", "bp-waits"]) cell.removeClass(name);
}

/** How far one is: done and to put right first; then minutes of exercises to the stop or to the end. */
function words(found, parts) {
  const said = [`${found.done} of ${found.of} done`];
  if (found.critical) said.push(`${found.critical} to put right first`);
  const left = parts.map((ids) => ids.reduce((sum, id) => sum + (found.to_do[id] ?? 0), 0));
  const now = left.findIndex((minutes) => minutes > 0);
  const where = now === parts.length - 1 ? "end" : "stop";
  return [said.join(" · "), now >= 0 ? ` · exercises to the ${where}: about ${Math.ceil(left[now])} min` : ""];
}
