// The yard: where plans begin. A chassis to start from, an example, or the plan before.

import { by, el, tell } from "./dom.js";

export class Yard {
  constructor(bench, keep, after) {
    this.bench = bench;
    this.keep = keep;
    this.after = after;
    this.dialog = by("yard");
    by("yard-button").addEventListener("click", () => this.open());
  }

  open() {
    const { templates } = this.bench.catalogue();
    const before = this.keep.before;
    const examples = el("div", {}, el("p", { class: "hint" }, "Fetching…"));
    this.dialog.replaceChildren(
      head("yard-title", "Yard", this.dialog),
      el("p", { class: "hint" }, "The plan on the bench is set aside: Undo brings it back, and so does this list after a reload."),
      el("div", { class: "columns" },
        el("section", {}, el("h3", {}, "New plan on a chassis"),
          this.list(templates, each => this.begin(planner => planner.start(each.id), each.name))),
        el("section", {}, el("h3", {}, "Examples"), examples,
          before ? el("h3", {}, "Set aside") : null,
          before ? this.list([{ id: "before", name: "Bring back the plan before this one" }],
            () => this.begin(planner => opened(planner, "the plan before", before), "The plan before")) : null)),
    );
    this.dialog.showModal();
    this.fetch(examples);
  }

  async fetch(host) {
    try {
      const examples = await this.bench.study.ask("examples");
      host.replaceChildren(this.list(examples, each => this.example(each)));
    } catch (error) {
      host.replaceChildren(el("p", { class: "hint" }, `The examples could not be fetched: ${error.message}`));
    }
  }

  async example({ id, name }) {
    const { text } = await this.bench.study.ask("example", [id]);
    this.begin(planner => opened(planner, name, text), name);
  }

  list(items, choose) {
    return el("ul", { class: "choices" }, ...items.map(each => {
      const button = el("button", { type: "button", "data-id": each.id },
        el("span", {}, each.name), each.class ? el("span", { class: "hint" }, each.class) : null);
      button.addEventListener("click", () => choose(each));
      return el("li", {}, button);
    }));
  }

  begin(begin, name) {
    this.keep.setAside();
    const refused = this.bench.fresh(begin);
    this.dialog.close();
    if (refused === null) this.after();
    tell(refused ?? `${name} is on the bench`);
  }
}

function opened(planner, name, text) {
  const { problems } = JSON.parse(planner.open(name, text));
  return problems ? { refused: `${name} cannot be read` } : null;
}

export function head(id, title, dialog) {
  const close = el("button", { type: "button", class: "close" }, "Close");
  close.addEventListener("click", () => dialog.close());
  return el("header", {}, el("h2", { id }, title), close);
}
