// Everything by keyboard, and the list of it.

import { by, el, tell } from "./dom.js";
import { head } from "./yard.js";

/** Which way an arrow moves the chosen part, in each view as drawn. */
const ARROWS = {
  side: { ArrowLeft: ["x", -1], ArrowRight: ["x", 1], ArrowUp: ["z", 1], ArrowDown: ["z", -1] },
  plan: { ArrowLeft: ["x", -1], ArrowRight: ["x", 1], ArrowUp: ["y", 1], ArrowDown: ["y", -1] },
  rear: { ArrowLeft: ["y", -1], ArrowRight: ["y", 1], ArrowUp: ["z", 1], ArrowDown: ["z", -1] },
};
const LEVEL = { PageUp: ["z", 1], PageDown: ["z", -1] };

const LIST = [
  ["Arrows", "move the chosen part in the view last used, a small step"],
  ["Shift and arrows", "a large step"],
  ["Page Up, Page Down", "raise, lower"],
  ["N, Shift and N", "choose the next, the previous part"],
  ["Tab", "from view to view; Enter chooses the part"],
  ["V", "give the next view the large place"],
  ["R, D, M, L", "turn, duplicate, mirror, lock the chosen part"],
  ["Delete", "take the chosen part off the truck"],
  ["Esc", "cancel a drag; close a page over the drawing; choose nothing"],
  ["Alt while dragging", "no snapping"],
  ["Ctrl Z", "undo"],
  ["Ctrl Y, Ctrl Shift Z", "redo"],
  ["Ctrl O, Ctrl S, Ctrl P", "open a file, save the plan, print the sheets"],
  ["+, −, 0", "larger, smaller, whole truck; the wheel does it too"],
  ["/", "find a part on the shelf"],
  ["Enter on a shelf part", "place it where it fits; the arrows move it then"],
  ["?", "this list"],
];

export class Keys {
  constructor(bench, stage, part, files, tabs, sheets) {
    Object.assign(this, { bench, stage, part, files, tabs, sheets });
    by("help-button").addEventListener("click", () => this.help());
    by("undo").addEventListener("click", () => this.step(true));
    by("redo").addEventListener("click", () => this.step(false));
    addEventListener("keydown", event => this.pressed(event));
    bench.onView(view => this.draw(view));
  }

  draw({ file }) {
    for (const id of ["undo", "redo"]) {
      const name = file[id];
      const button = by(id);
      button.disabled = name === null || name === undefined;
      button.querySelector(".what").textContent = name ?? "–";
      button.title = name ? `${id === "undo" ? "Undo" : "Redo"}: ${name}` : "";
    }
  }

  step(back) {
    if (this.stage.carry.active) return;
    const name = this.bench.step(back);
    const word = back ? "Undone" : "Done again";
    tell(name === null ? `Nothing to ${back ? "undo" : "redo"}` : `${word}: ${name}`);
  }

  pressed(event) {
    if (event.defaultPrevented || document.querySelector("dialog[open]")) return;
    const typing = event.target.closest?.("input:not([type=checkbox], [type=radio], [type=range]), textarea");
    const control = event.ctrlKey || event.metaKey;
    if (control && !event.altKey) {
      // In a field the browser's own undo serves, while something is typed there.
      if (typing && /^[zy]$/i.test(event.key)) return;
      if (this.command(event)) event.preventDefault();
      return;
    }
    if (typing || event.altKey) return;
    if (this.plain(event)) event.preventDefault();
  }

  command(event) {
    switch (event.key.toLowerCase()) {
      case "z": this.step(!event.shiftKey); return true;
      case "y": this.step(false); return true;
      case "s": this.files.save(); return true;
      case "o": by("file").click(); return true;
      case "p": this.sheets.print(); return true;
      default: return false;
    }
  }

  plain(event) {
    const { key } = event;
    if (this.move(event)) return true;
    const part = event.target.closest?.("#stage .part[data-tag]");
    if (part && (key === "Enter" || key === " ")) {
      this.stage.goTo(part.dataset.tag);
      return true;
    }
    if (key.length === 1 && !this.bench.letters) return false;
    // Letters and signs would surprise in a list or on a slider.
    if (event.target.closest?.("select, input[type=range]")) return false;
    const action = {
      "?": () => this.help(),
      "/": () => {
        this.tabs.choose("shelf");
        by("shelf-search").focus();
      },
      "+": () => this.stage.zoom("in"),
      "=": () => this.stage.zoom("in"),
      "-": () => this.stage.zoom("out"),
      0: () => this.stage.zoom("fit"),
      v: () => this.stage.turnViews(),
      n: () => this.stage.next(1),
      N: () => this.stage.next(-1),
    }[key];
    if (action) {
      action();
      return true;
    }
    if (key === "Escape") {
      const over = [by("problems"), by("page")].find(panel => !panel.hidden);
      if (over) {
        over.querySelector(".close").click();
        return true;
      }
    }
    if (this.bench.options.selected === null) return false;
    if (key === "Escape") {
      this.bench.select(null);
      return true;
    }
    const name = { r: "turn", d: "duplicate", m: "mirror", l: "lock", Delete: "delete", Backspace: "delete" }[
      key.length === 1 ? key.toLowerCase() : key];
    if (!name) return false;
    this.part.run(name);
    return true;
  }

  /** Arrows move the part when the focus is on the drawing, or nowhere. */
  move(event) {
    const at = event.target;
    const onStage = at === document.body || at.closest?.("#stage .view") || at.id === "stage";
    const { selected } = this.bench.options;
    const step = ARROWS[this.stage.active][event.key] ?? LEVEL[event.key];
    if (!onStage || !step || selected === null || this.stage.carry.active) return false;
    const [axis, way] = step;
    // A key held down is one step to take back.
    if (event.repeat) this.bench.goOn();
    const refused = this.bench.nudge(selected, axis, way, event.shiftKey);
    if (refused !== null) {
      tell(refused);
      return true;
    }
    const part = this.bench.part(selected);
    const field = part?.fields.find(each => each.id.endsWith(axis));
    tell(field ? `${selected}: ${field.label} ${field.text} ${field.unit}` : `${selected} moved`);
    return true;
  }

  help() {
    const dialog = by("help");
    const letters = el("input", { type: "checkbox", id: "letters" });
    letters.checked = this.bench.letters;
    letters.addEventListener("change", () => {
      this.bench.letters = letters.checked;
      this.bench.kept?.();
    });
    dialog.replaceChildren(
      head("help-title", "Keys", dialog),
      el("table", { class: "keys" }, el("tbody", {}, ...LIST.map(([key, words]) =>
        el("tr", {}, el("th", { scope: "row" }, key), el("td", {}, words))))),
      el("p", { class: "lines" }, el("label", { for: "letters" }, letters,
        "Single letters and signs are commands")),
      el("p", { class: "hint" },
        "Every drag has a twin: choose a part and use arrows or the number fields; on the shelf, Place."),
    );
    if (!dialog.open) dialog.showModal();
  }
}
