// The panels that change the plan: chosen part, truck, load, notes.

import { by, el, rows, say, setMark, mark, tell } from "./dom.js";
import { options, showFields } from "./fields.js";

/** What belongs to the truck rather than to what it carries. */
const TRUCK = /^(wheelbase|splice|fifth-wheel|raised|frame)/;
/** The turn, the ramp and the bump that it must take. */
const MOVING = /^moving/;
/** What the drive takes: its own panel shows it. */
const DUTY = /^duty\./;

/** A button that does something to the chosen part. */
function command(words, key, action) {
  const button = el("button", { type: "button", "aria-keyshortcuts": key, title: `${words} (${key})` }, words);
  button.addEventListener("click", action);
  return button;
}

export class PartPanel {
  constructor(bench, stage, host) {
    this.bench = bench;
    this.stage = stage;
    this.list = el("select", { id: "part-list" });
    this.list.addEventListener("change", () => {
      bench.select(this.list.value || null);
      if (this.list.value) tell(`${this.list.value} chosen`);
    });
    this.name = el("p", { class: "part-title" });
    this.facts = el("p", { class: "hint" });
    this.fields = el("div", { class: "fields" });
    const run = name => () => this.run(name);
    this.lockButton = command("Lock", "L", run("lock"));
    this.commands = el("div", { class: "ways" },
      command("Turn", "R", run("turn")), command("Duplicate", "D", run("duplicate")),
      command("Mirror", "M", run("mirror")), this.lockButton, command("Delete", "Delete", run("delete")));
    this.note = el("p", { class: "hint" });
    this.body = el("div", {}, this.name, this.facts, this.note, this.commands,
      this.fields);
    this.none = el("p", { class: "empty" },
      "No part chosen. Click a part on the drawing, or choose one in the list above.");
    host.append(
      el("div", { class: "field" }, el("label", { for: "part-list" }, "Part on the truck"), this.list),
      this.none, this.body,
    );
    bench.onView(view => this.draw(view));
  }

  get tag() {
    return this.bench.options.selected;
  }

  draw(view) {
    const { tag } = this;
    const part = view.placed.find(each => each.tag === tag);
    options(this.list, [{ id: "", name: "–" },
      ...view.placed.map(each => ({ id: each.tag, name: `${each.tag}  ${each.name}` }))]);
    this.list.value = part?.tag ?? "";
    this.none.hidden = Boolean(part);
    this.body.hidden = !part;
    if (!part) return;
    say(this.name, `${part.tag}  ${part.name}`);
    say(this.facts, [part.kind_words, part.mass, part.zone_name, part.locked ? "locked" : ""]
      .filter(Boolean).join(" · "));
    say(this.note, part.note);
    this.note.hidden = !part.note;
    const placed = part.fields.length > 0;
    this.commands.hidden = !placed;
    // A shaft stands where its ends are: it can be taken off, and its fields say the rest.
    const run = !part.movable && !part.locked;
    for (const button of [...this.commands.children].slice(0, -1)) button.hidden = run;
    say(this.lockButton, part.locked ? "Unlock" : "Lock");
    this.lockButton.setAttribute("aria-pressed", String(part.locked));
    showFields(this.fields, part.fields, this.bench);
  }

  run(name) {
    const part = this.bench.part(this.tag);
    if (!part) return tell("Choose a part first");
    const { tag } = part;
    const edit = { do: name, tag };
    if (name === "lock") edit.on = !part.locked;
    const before = new Set(this.bench.view.placed.map(each => each.tag));
    const drawn = this.stage.focusedPart();
    const inPanel = this.commands.contains(document.activeElement);
    const refused = this.bench.edit(edit);
    const made = this.bench.view.placed.find(each => !before.has(each.tag));
    if (refused === null && made) this.bench.select(made.tag);
    // What had the focus may be gone: it stays on the stage or in the panel, wherever it was.
    if (drawn && refused === null && made) this.stage.focusPart(made.tag, drawn.view);
    if (refused === null && name === "delete") {
      if (drawn) this.stage.element.focus({ preventScroll: true });
      else if (inPanel) this.list.focus();
    }
    const done = {
      turn: `${tag} turned`, duplicate: `${tag} duplicated as ${made?.tag}`, mirror: `${tag} mirrored`,
      lock: edit.on ? `${tag} locked` : `${tag} unlocked`, delete: `${tag} deleted`,
    }[name];
    this.tellIf(refused, done);
  }

  tellIf(refused, done) {
    if (refused !== null) this.bench.refresh();
    tell(refused ?? done);
  }
}

export class TruckPanel {
  constructor(bench, host) {
    this.bench = bench;
    this.fields = el("div", { class: "fields" });
    this.strip = el("ul", { id: "strip", class: "lines" });
    this.zones = el("ul", { id: "zones", class: "lines" });
    this.chassis = el("p", { class: "part-title" });
    host.append(this.chassis, this.fields,
      el("h2", {}, "Strip list"),
      el("p", { class: "hint" }, "Ticked: taken off the truck."), this.strip,
      el("h2", {}, "Zones"), this.zones);
    bench.onView(view => this.draw(view));
  }

  draw(view) {
    say(this.chassis, view.chassis ?? "");
    showFields(this.fields, view.controls.filter(field => TRUCK.test(field.id)), this.bench);
    rows(this.strip, view.hardware, item => item.id, item => this.item(item), (row, item) => {
      row.box.checked = item.stripped;
      say(row.words, item.name);
      say(row.mass, item.mass);
    });
    rows(this.zones, view.zones, zone => zone.id, makeZone, updateZone);
  }

  item(item) {
    const box = el("input", { type: "checkbox" });
    const words = el("span", { class: "what" });
    const mass = el("span", { class: "figure" });
    const row = el("li", { "data-item": item.id }, el("label", {}, box, words, mass));
    Object.assign(row, { box, words, mass });
    box.addEventListener("change", () => {
      const off = box.checked;
      const refused = this.bench.edit({ do: off ? "strip" : "keep", item: item.id });
      if (refused !== null) this.bench.refresh();
      tell(refused ?? `${item.name}: ${off ? "taken off" : "stays on the truck"}`);
    });
    return row;
  }
}

function makeZone() {
  const row = el("li");
  row.sign = mark("holds");
  row.words = el("span", { class: "what" });
  row.figure = el("span", { class: "figure" });
  row.append(row.sign, row.words, row.figure);
  return row;
}

function updateZone(row, zone) {
  setMark(row.sign, zone.severity);
  say(row.words, zone.name);
  // A zone without a limit is neither clear nor over.
  row.sign.style.visibility = zone.severity === "not-assessed" ? "hidden" : "";
  say(row.figure, zone.severity === "not-assessed" ? zone.used : `${zone.used} of ${zone.limit}`);
  row.title = zone.limit;
}

export class LoadPanel {
  constructor(bench, host) {
    this.bench = bench;
    this.fields = el("div", { class: "fields" });
    this.moving = el("div", { class: "fields" });
    host.append(this.fields,
      el("details", {}, el("summary", {}, "Turn, ramp and bump"), this.moving));
    bench.onView(view => {
      const of = wanted => view.controls.filter(field => !TRUCK.test(field.id)
        && !DUTY.test(field.id) && MOVING.test(field.id) === wanted);
      showFields(this.fields, of(false), bench);
      showFields(this.moving, of(true), bench);
    });
  }
}

export class NotesPanel {
  constructor(bench, host) {
    this.notes = el("textarea", { id: "notes", rows: "6" });
    this.cautions = el("ul", { id: "cautions" });
    this.gaps = el("ul", { id: "gaps", class: "lines" });
    this.assumed = el("ul", { class: "lines" });
    this.gapsTitle = el("h2", {}, "Missing in this plan");
    host.append(
      el("div", { class: "field" }, el("label", { for: "notes" }, "Notes to the shop"), this.notes),
      this.gapsTitle, this.gaps,
      el("h2", {}, "Cautions"), this.cautions,
      el("h2", {}, "Assumed throughout"), this.assumed,
    );
    this.notes.addEventListener("change", () => {
      const refused = bench.edit({ do: "notes", text: this.notes.value });
      tell(refused ?? "Notes kept");
    });
    bench.onView(view => this.draw(view));
  }

  draw(view) {
    if (document.activeElement !== this.notes && this.notes.value !== view.notes) {
      this.notes.value = view.notes;
    }
    rows(this.cautions, view.cautions, each => `${each.level} ${each.text}`, makeCaution, () => {});
    rows(this.assumed, view.assumptions ?? [], each => each, each => el("li", {}, each), () => {});
    const gaps = view.problems ?? [];
    this.gapsTitle.hidden = gaps.length === 0;
    rows(this.gaps, gaps, each => JSON.stringify(each), each => el("li", {}, problemText(each)), () => {});
  }
}

export function makeCaution({ level, text }) {
  return el("li", { class: "caution", "data-level": level }, el("strong", {}, level), el("p", {}, text));
}

/** A problem in one line: where, what, what to do. */
export function problemText(problem) {
  if (typeof problem === "string") return problem;
  const where = [problem.file, problem.path].filter(Boolean).join(", ");
  const value = problem.value === null || problem.value === undefined || problem.value === ""
    ? "" : ` (${problem.value})`;
  const hint = problem.hint ? `. ${problem.hint}` : "";
  return `${where}${value}: ${problem.what}${hint}`;
}

/** Tabs with arrow keys; `by` ids are panel-NAME. */
export class Tabs {
  constructor(list, names) {
    this.buttons = new Map();
    for (const [name, words] of names) {
      const button = el("button", {
        type: "button", role: "tab", id: `tab-${name}`, "aria-controls": `panel-${name}`,
      }, words);
      button.addEventListener("click", () => this.choose(name));
      by(`panel-${name}`).setAttribute("aria-labelledby", button.id);
      this.buttons.set(name, button);
      list.append(button);
    }
    list.addEventListener("keydown", event => {
      const order = [...this.buttons.keys()];
      const at = order.indexOf(this.chosen);
      const next = {
        ArrowRight: order[at + 1] ?? order[0], ArrowLeft: order.at(at - 1),
        Home: order[0], End: order.at(-1),
      }[event.key];
      if (!next) return;
      event.preventDefault();
      this.choose(next);
      this.buttons.get(next).focus();
    });
    this.choose(names[0][0]);
  }

  choose(name) {
    this.chosen = name;
    this.onChoose?.(name);
    for (const [each, button] of this.buttons) {
      const chosen = each === name;
      button.setAttribute("aria-selected", String(chosen));
      button.tabIndex = chosen ? 0 : -1;
      by(`panel-${each}`).hidden = !chosen;
    }
  }
}
