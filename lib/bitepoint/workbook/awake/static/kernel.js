// What is asked of the kernel beside the cells: silently, so that no cell, no count and no history is touched.

// Where this is false, a module planted beside the lesson would be imported in place of ours.
const SAFE = '__import__("sys").flags.safe_path and "" not in __import__("sys").path';
const FROM = (verb) => `__import__("bitepoint.page.progress", fromlist=["progress"]).${verb}`;

/** Whether the kernel takes no modules from the folder it works in. */
export async function isSafe(panel) {
  return (await value(panel, SAFE))?.["text/plain"] === "True";
}

/** Where the learner stands in a lesson; undefined where the kernel cannot tell. */
export async function progress(panel, key) {
  return (await value(panel, FROM(`standing(${JSON.stringify(key)})`)))?.["application/json"];
}

/** Make the hand-in; {told, next, code, name} with file or data, or {told}. The check code is that of the lesson. */
export async function handIn(panel, key) {
  return (await value(panel, FROM(`hand_in(${JSON.stringify(key)})`)))?.["application/json"];
}

/** Keep where the reader is in a lesson, so that another browser or computer finds it too. */
export async function keepPlace(panel, key, place) {
  await value(panel, FROM(`keep_place(${JSON.stringify(key)}, ${JSON.stringify(place.id)}, ${place.by})`));
}

/** Run the course's own code without a cell; undefined where the kernel ended or was restarted meanwhile. */
export async function quietly(panel, code, expressions = {}) {
  const kernel = panel.sessionContext.session?.kernel;
  const content = { code, silent: true, store_history: false, user_expressions: expressions };
  try {
    return kernel && (await kernel.requestExecute(content).done).content;
  } catch {
    return undefined;
  }
}

async function value(panel, expression) {
  return (await quietly(panel, "", { it: expression }))?.user_expressions?.it?.data;
}
