// Cells of a lesson on paper: the cards as they stand in the file, whole, under the frame of the invented figures.

const STYLE = `
body { margin: 0; font: 15px/1.45 system-ui, "Segoe UI", "DejaVu Sans", sans-serif; color: #000; }
.frame { font-weight: 700; border: 2px solid #000; padding: 4px 8px; }
.foot { font-size: 12px; border-top: 1px solid #000; padding-top: 4px; }
.bp-typed, .jp-InternalAnchorLink { display: none; }
/* On a sheet with one card the frame stands above it already. */
.alone .bp-once { display: none; }
img, svg { max-width: 100%; height: auto; }
table { border-collapse: collapse; } td, th { border: 1px solid #888; padding: 2px 8px; text-align: left; }
.part { break-inside: avoid; margin: 12px 0; } pre { white-space: pre-wrap; }
`;

/** Print cells by the browser's own dialogue. */
export function print(lesson, cells) {
  const page = document.createElement("iframe");
  page.className = "bp-paper";
  page.title = "What is printed";
  page.srcdoc = paper(lesson, cells);
  page.onload = () => {
    page.contentWindow.onafterprint = () => page.remove();
    page.contentWindow.focus();
    page.contentWindow.print();
  };
  // One that a browser never reported as printed.
  document.querySelector(".bp-paper")?.remove();
  document.body.append(page);
}

/** The page to print, as HTML. */
export function paper({ course, at, who }, cells) {
  const made = document.implementation.createHTMLDocument(course.lessons[at].title);
  made.head.append(Object.assign(made.createElement("style"), { textContent: STYLE }));
  const line = (kind, words) => Object.assign(made.createElement("p"), { className: kind, textContent: words });
  if (cells.length === 1) made.body.className = "alone";
  made.body.append(line("frame", course.frame));
  for (const cell of cells) {
    const part = Object.assign(made.createElement("div"), { className: "part" });
    part.append(...[...drawn(cell)].map((node) => made.importNode(node, true)));
    if (part.childNodes.length) made.body.append(part);
  }
  made.body.append(line("foot", [course.lessons[at].title, who, new Date().toLocaleDateString()].filter(Boolean).join(" · ")));
  return `<!doctype html>${made.documentElement.outerHTML}`;
}

/** What a cell shows apart from live controls, which are the card once more. */
function drawn(cell) {
  return cell.node.querySelectorAll(cell.model.type === "markdown" ? ".jp-RenderedMarkdown" : ".jp-OutputArea-output.jp-RenderedHTML");
}
