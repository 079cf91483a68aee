// The line that says the figures are invented stands in the bar, always in view. Where the lesson's own words say it
// again it is marked: the style keeps it off the screen, print and file keep it.

export function markFrames(panel, frame) {
  const mark = () => {
    for (const line of panel.node.querySelectorAll(".jp-RenderedMarkdown p:not(.bp-once)"))
      if (line.textContent.trim() === frame) line.classList.add("bp-once");
  };
  const watch = new MutationObserver(mark);
  for (const cell of panel.content.widgets)
    if (cell.model.type === "markdown") watch.observe(cell.node, { childList: true, subtree: true });
  panel.disposed.connect(() => watch.disconnect());
  mark();
}
