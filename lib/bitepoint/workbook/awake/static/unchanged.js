// Opening a lesson is no change of its file. JupyterLab sees one in every output and saves it; with the lesson open in two
// pages each would save, and the other would ask which of the two is right.

const OWN_MS = 30_000;
// Two views of one notebook share its model: a touch of either counts.
const touched = new WeakMap();

/** Call a change of the notebook a change only where somebody has touched this page shortly before. */
export function keepUnchanged(panel) {
  const model = panel.context.model;
  const touch = () => {
    if (panel.isVisible) touched.set(model, performance.now());
  };
  const look = () => {
    const own = performance.now() - (touched.get(model) ?? -OWN_MS) < OWN_MS;
    if (model.dirty && !own) model.dirty = false;
  };
  for (const kind of ["pointerdown", "keydown"]) document.addEventListener(kind, touch, true);
  panel.disposed.connect(() => {
    for (const kind of ["pointerdown", "keydown"]) document.removeEventListener(kind, touch, true);
  });
  model.stateChanged.connect(look);
  look();
}
