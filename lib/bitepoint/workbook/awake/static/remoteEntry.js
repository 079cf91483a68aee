// The door through which JupyterLab takes this extension in: a container of one module, written by hand.
// What it holds are ordinary modules beside it, so nothing is built and nothing is bundled.
(() => {
  "use strict";
  const NAME = "bitepoint-awake";
  // Beside this very file, under whatever base address the server has.
  const HERE = new URL(".", document.currentScript.src);
  let scope;

  (window._JUPYTERLAB ??= {})[NAME] = {
    init(shared) {
      scope = shared;
    },
    async get(name) {
      if (name !== "./extension") throw new Error(`${NAME} has no module ${name}`);
      const [notebook, cells, widgets, ours] = await Promise.all([
        taken("@jupyterlab/notebook"),
        taken("@jupyterlab/cells"),
        taken("@lumino/widgets"),
        import(new URL("plugin.js", HERE)),
      ]);
      return () => ours.plugin({ notebook, cells, widgets, here: HERE });
    },
  };

  /** The page's own copy of a package: one in use already, else the newest on offer. */
  async function taken(name) {
    const offers = Object.entries(scope[name] ?? {});
    if (!offers.length) throw new Error(`JupyterLab offers no ${name}`);
    offers.sort((one, other) => inOrder(rank(one), rank(other)));
    return (await offers.at(-1)[1].get())();
  }

  const rank = ([version, offer]) => [offer.loaded ? 1 : 0, ...version.split(/[^0-9]+/).map(Number)];

  function inOrder(one, other) {
    const at = one.findIndex((part, i) => part !== other[i]);
    return at < 0 ? 0 : one[at] - (other[at] ?? 0);
  }
})();
