// What a learner looks for and finds nowhere else: help, the words of the trade, and a card on paper.
import { sentTo } from "./place.js";
import { print } from "./paper.js";

const WORDS = "glossary";

/** The lines under the bar: what to do when stuck, in doubt, or when something does not work. */
export function help(lesson, does) {
  const node = document.createElement("dl");
  node.className = "bp-help";
  const say = (head, words, ...buttons) => {
    const term = Object.assign(document.createElement("dt"), { textContent: head });
    const told = document.createElement("dd");
    told.append(words, ...buttons.map(([word, act]) => button(word, () => (does.close(), act()))));
    node.append(term, told);
    return [term, told];
  };
  // The page of recall has no marks: one answer each, and its answers go with the hand-in of the lessons.
  const marked = lesson.course.lessons[lesson.at].marked !== false;
  // What a narrow bar has no room for.
  for (const part of [...(marked ? say("Finished?", "", ["Make my hand-in", does.handIn]) : []), ...say("The code?", "", ["Show or hide it", does.code])])
    part.classList.add("bp-narrow");
  if (marked) say("Stuck?", "Answer what you think. A wrong answer tells you why, the next one gives the next step, then comes the solution and a new try.");
  say("Not sure at the car?", "Stop and ask. It is never marked down.");
  if (marked) say("Where do I stand?", "", ["What is done and to do", () => lesson.panel.content.widgets.at(-1).node.scrollIntoView()]);
  say("A word?", "", ["Words of the trade", () => lookUp(lesson)]);
  say("On paper?", "", ["Print the card in view", () => print(lesson, [inView(lesson)])], [
    "Print this lesson",
    () => print(lesson, lesson.panel.content.widgets),
  ]);
  say("A form does not answer?", "", ["Wake this lesson again", () => lesson.wake({ afresh: true })]);
  say("It still does not?", "Ask your instructor. In a command window “bitepoint check-machine” tells what this computer lacks.");
  return node;
}

/** Open the first lesson at its list of words. */
async function lookUp({ app, course, panel }) {
  const path = panel.context.path.slice(0, panel.context.path.lastIndexOf("/") + 1) + course.lessons[0].file;
  sentTo.set(path, WORDS);
  const there = await app.commands.execute("docmanager:open", { path });
  await there?.context.ready;
  there?.content.widgets?.find((cell) => cell.model.id === WORDS)?.node.scrollIntoView({ block: "start" });
}

/** The exercise or picture that fills most of the screen. */
function inView({ panel }) {
  const screen = panel.node.querySelector(".jp-WindowedPanel-outer").getBoundingClientRect();
  const seen = (cell) => {
    const { top, bottom } = cell.node.getBoundingClientRect();
    return Math.min(bottom, screen.bottom) - Math.max(top, screen.top);
  };
  const cards = panel.content.widgets.filter((cell) => cell.model.type === "code" && cell.node.offsetHeight);
  return cards.reduce((one, other) => (seen(other) > seen(one) ? other : one));
}

function button(word, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.textContent = word;
  made.onclick = act;
  return made;
}
