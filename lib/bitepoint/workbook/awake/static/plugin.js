// Meets each notebook as it is shown first, and wakes it if it is a lesson of the course. Any other is left alone.
import { lessonAt } from "./cells.js";
import { Lesson } from "./lesson.js";
import { followLinks } from "./place.js";

const NAME = "bitepoint-awake";

export const plugin = (lab) => ({
  id: `${NAME}:plugin`,
  autoStart: true,
  requires: [lab.notebook.INotebookTracker],
  async activate(app, tracker) {
    for (const name of ["lesson.css", "column.css"]) {
      const style = document.createElement("link");
      style.rel = "stylesheet";
      style.href = new URL(name, lab.here);
      document.head.append(style);
    }
    const course = fetch(new URL("lessons.json", lab.here)).then((reply) => reply.json());
    const met = new WeakSet();
    const meet = (panel) => {
      if (!panel || met.has(panel)) return;
      met.add(panel);
      open(app, lab, panel, course).catch((error) => console.warn(NAME, error));
    };
    followLinks(tracker);
    // A tab behind another wakes when it is shown.
    tracker.currentChanged.connect((_, panel) => meet(panel));
    meet(tracker.currentWidget);
  },
});

async function open(app, lab, panel, coming) {
  await panel.context.ready;
  const course = await coming;
  const at = lessonAt(panel, course);
  if (at < 0) return;
  const lesson = new Lesson(app, lab, panel, course, at);
  if (!lesson.cells.ours.length) return;
  closeFilesOnce(app);
  await lesson.start();
}

let met = false;

/** The list of files is closed at the first lesson of a page, however the page before was left; then the reader decides. */
function closeFilesOnce(app) {
  if (met) return;
  met = true;
  const { shell } = app;
  const close = () => shell.leftCollapsed || shell.collapseLeft?.();
  // JupyterLab opens the list by itself, more than once and late; a hand on the page is the reader's.
  shell.layoutModified?.connect(close);
  const leave = () => shell.layoutModified?.disconnect(close);
  for (const kind of ["pointerdown", "keydown"]) document.addEventListener(kind, leave, { once: true, capture: true });
  app.restored.then(close);
}
