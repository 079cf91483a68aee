// Whose cell it is: the course's own as shipped, the course's own with an answer typed into it, or somebody else's.

const TOKEN = /\s+|"(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'|[0-9][0-9_]*(?:\.[0-9]*)?(?:[eE][+-]?[0-9]+)?|\.[0-9]+|True|False|None|[[\](){},:+-]/y;
const ASKED = /^ask\(("[a-z0-9.-]+")\s*,/;

/** What may run in a lesson when it opens: every source that the course ships or shipped, and what this lesson alone asks. */
export function knownIn(course, at) {
  return new Set([...course.known, ...(course.lessons[at]?.known ?? [])]);
}

/** Which lesson of the course a notebook is, -1 for any other: by the cell at its end, whatever the file is called now, else by name. */
export function lessonAt(panel, course) {
  const end = panel.content.widgets.find((cell) => cell.model.id === "summary")?.model.sharedModel.source.trim();
  const key = /^summary\("([a-z]+)"\)$/m.exec(end)?.[1];
  const file = panel.context.path.split("/").pop();
  const found = course.lessons.findIndex((lesson, at) => lesson.key === key && knownIn(course, at).has(end));
  return found >= 0 ? found : course.lessons.findIndex((lesson) => lesson.file === file);
}

/** Sort the code cells of a panel that shows the lesson at this place. */
export function sorted(panel, course, at) {
  const known = knownIn(course, at);
  const code = panel.content.widgets.filter((cell) => cell.model.type === "code");
  const found = { code, ours: [], strange: [] };
  for (const cell of code) {
    const source = cell.model.sharedModel.source.trim();
    if (!source) continue;
    (known.has(source) || isTyped(source, known) ? found.ours : found.strange).push(cell);
  }
  return found;
}

/** Whether it is a shipped `ask(id)` with one literal behind it. The kernel then shows it and takes no answer. */
export function isTyped(source, known) {
  const asked = ASKED.exec(source);
  if (!asked || !known.has(`ask(${asked[1]})`) || !source.endsWith(")")) return false;
  return isLiteral(source.slice(asked[0].length, -1));
}

/** Whether text is made of texts, numbers, lists and the like alone: no name, so nothing that could be called. */
export function isLiteral(text) {
  const open = [];
  let end = false; // whether a value is complete, so that a bracket behind it would be a call or an index
  for (let at = 0; at < text.length; ) {
    TOKEN.lastIndex = at;
    const token = TOKEN.exec(text)?.[0];
    if (!token) return false;
    at += token.length;
    if (!token.trim()) continue;
    if ("([{".includes(token)) {
      if (end) return false;
      open.push(token);
    } else if (")]}".includes(token)) {
      if ("([{".indexOf(open.pop()) !== ")]}".indexOf(token)) return false;
      end = true;
    } else if (",:+-".includes(token)) {
      end = false;
    } else {
      if (end) return false;
      end = true;
    }
  }
  return end && !open.length;
}

/** The exercise a cell asks, "" if none. */
export function exerciseOf(cell) {
  return /^ask\("([a-z0-9.-]+)"/.exec(cell.model.sharedModel.source)?.[1] ?? "";
}

/** Whether a cell shows figures of a learner: until it is awake they may be somebody else's. */
export function isPersonal(cell) {
  return /^(ask|summary|keep_it)\(|\bwho\(\)/m.test(cell.model.sharedModel.source);
}
