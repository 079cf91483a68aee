// The button that makes the hand-in. The file travels to the page itself: no address is needed, whatever server shows it.

function render({ model, el }) {
  const control = new AbortController();
  const { element: wait, say } = speaker("bp-hint");
  const send = sender(model, say, control.signal);
  const button = make(
    "button",
    { type: "button", class: "bp-button bp-hand-in", onclick: () => send({ do: "make" }) },
    "Make my hand-in",
  );
  const link = make("a", { class: "bp-save", hidden: true }, "Save this file");
  let address = "";
  const forget = () => address && URL.revokeObjectURL(address);
  listen(
    model,
    "msg:custom",
    ({ name }, [bytes]) => {
      forget();
      address = URL.createObjectURL(new Blob([bytes], { type: "application/zip" }));
      Object.assign(link, { href: address, download: name, hidden: false });
    },
    control.signal,
  );
  const root = make("section", { class: "bp-root", "aria-label": "Hand in" }, button, wait, verdict(model, control.signal), link);
  keepKeys(root);
  el.append(root);
  return () => {
    forget();
    control.abort();
  };
}

export default { render };
