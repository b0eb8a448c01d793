// The plan on the bench: every change goes through here to the Rust core, and what the core
// says comes back as one view from which all panels are drawn. No figure is computed here.

import { Study } from "./ask.js";
import { ORDER } from "./dom.js";
import { together } from "./held.js";

const read = answer => (typeof answer === "string" ? JSON.parse(answer) : answer);

export class Bench {
  /** Loads the core; throws when the browser cannot run it. */
  static async open() {
    // Not at the head of the file: there, a missing core would leave nothing to say so.
    const core = await import("./pkg/planner.js");
    await core.default();
    return new Bench(new core.Planner(), core.Planner.pens());
  }

  constructor(planner, pens) {
    this.planner = planner;
    /** What all pictures are drawn with, as markup. */
    this.pens = pens;
    this.study = new Study(this);
    /** What the last drive came to; null until one was driven. */
    this.drive = null;
    /** Who drives, once there is one. */
    this.driving = null;
    this.options = {
      units: "metric",
      selected: null,
      /** The open finding, by what it is about and not by its number, which changes. */
      finding: null,
      show: { zones: false, dimensions: true, hardware: false, part_dimensions: false, angles: false, frame: false },
      date: today(),
    };
    this.view = null;
    /** What the core told last, all of it, with its number; it tells only what differs. */
    this.held = {};
    /** What is being tried out, as long as the view shows that and not the plan. */
    this.trial = null;
    this.listeners = [];
    /** Single letters as commands; a person who speaks to the computer may not want them. */
    this.letters = true;
    /** While a part is carried the zones show, whatever is switched on. */
    this.carrying = false;
  }

  /** What the core is asked to draw and in which units. */
  get wish() {
    const { options } = this;
    return this.carrying ? { ...options, carrying: true, show: { ...options.show, zones: true } } : options;
  }

  /** Calls back with every new view, and whether it is only a try. */
  onView(listener) {
    this.listeners.push(listener);
  }

  /** Findings of the truck and those of its drive, the worst first. */
  get findings() {
    return inOrder([...this.view.findings, ...(this.drive?.findings ?? [])]);
  }

  has(command) {
    return typeof this.planner[command] === "function";
  }

  refresh() {
    this.show(this.settled(() => this.heard(have => this.planner.view(this.options, have))), false);
  }

  /** Asks for a view, saying which one is here, and puts both together. */
  heard(ask) {
    const came = read(ask(this.held.number ?? 0));
    if (came.refused === undefined) this.held = together(this.held, came);
    return came.refused === undefined ? this.held : came;
  }

  show(view, trial) {
    this.view = view;
    if (!trial) this.trial = null;
    for (const listener of this.listeners) listener(view, trial);
  }

  /** A view in which the chosen part exists. */
  settled(ask) {
    const view = ask();
    const { options } = this;
    if (view.refused !== undefined || options.selected === null) return view;
    if (view.placed.some(part => part.tag === options.selected)) return view;
    options.selected = null;
    return ask();
  }

  /** Findings of the truck and of its drive with all that they say, for paper. */
  get told() {
    const whole = this.heard(have => this.planner.view({ ...this.options, whole: true }, have));
    return inOrder([...(whole.findings ?? []), ...(this.drive?.findings ?? [])]);
  }

  /** Changes the plan. Returns null, or why it was refused. */
  edit(edit) {
    return this.done(() => this.planner.apply(edit));
  }

  enter(field, text) {
    return this.done(() => {
      const answer = this.planner.enter(field, String(text), this.options.units);
      // A part with a new tag stays the chosen one.
      const renamed = field === `part.${this.options.selected}.tag`;
      if (renamed && read(answer).refused === undefined) this.options.selected = text.trim();
      return answer;
    });
  }

  /** The next change goes on with the gesture of the last one: both are one step to take back. */
  goOn() {
    this.planner.go_on();
  }

  nudge(tag, axis, steps, big) {
    return this.done(() => this.planner.nudge(tag, axis, steps, big));
  }

  done(change) {
    const answer = read(change());
    if (answer?.refused !== undefined) return answer.refused;
    this.refresh();
    this.kept?.();
    return null;
  }

  /** Shows the plan as it would be; the plan stays. Returns null, or why it cannot be. */
  probe(edit) {
    return this.tried(have => this.planner.probe(edit, this.wish, have), { edit });
  }

  tried(ask, trial) {
    const view = this.heard(ask);
    if (view.refused !== undefined) return view.refused;
    this.trial = trial;
    this.show(view, true);
    return null;
  }

  /** Pages of the drive that there are to look at. */
  get drivePages() {
    return this.driving?.pages ?? [];
  }

  /** A page of answers, of what is on screen: the plan, or what is being tried. */
  async page(id) {
    if (this.drivePages.some(page => page.id === id)) return this.driving.page(id);
    return this.study.ask("page", [id, this.options, this.trial]);
  }

  snap(wish) {
    return read(this.planner.snap(wish, this.options));
  }

  /** Where a part goes that nobody has carried: the core's choice, else over the truck's middle. */
  spot(part, stage) {
    if (this.has("spot")) return placeOf(read(this.planner.spot(part, this.options)));
    const middle = stage.views.get("side").paper.getBoundingClientRect();
    const wish = stage.placeAt(
      "side", middle.x + middle.width / 2, middle.y + middle.height / 2,
      { x_mm: 0, y_mm: 0, z_mm: 0 },
    );
    return placeOf(this.snap({ tag: null, part, view: "side", ...wish }));
  }

  /** Takes back or does again; returns the name of what it was, or null. */
  step(back) {
    const name = back ? this.view.file.undo : this.view.file.redo;
    const moved = back ? this.planner.undo() : this.planner.redo();
    if (!moved) return null;
    this.refresh();
    this.kept?.();
    return name ?? "";
  }

  /** Shows the plan with a field as its slider stands; the plan stays. */
  probeField(field, text) {
    const typed = String(text);
    return this.tried(have => this.planner.probe_field(field, typed, this.options, have), { field, typed });
  }

  select(tag) {
    if (this.options.selected === tag) return;
    this.options.selected = tag;
    this.refresh();
  }

  point(finding) {
    this.options.finding = finding === null ? null : keyOf(finding);
    this.refresh();
  }

  /** Opens a file's text: a plan, or data. Returns {what} or {problems}. */
  async open(name, text) {
    const answer = await (isPlan(text) ? read(this.planner.open(name, text)) : this.add(name, text));
    if (answer.problems === undefined) {
      this.refresh();
      this.kept?.();
    }
    return answer;
  }

  /** Puts back what an earlier visit left, without a step to take back. */
  restore(text) {
    const answer = read(this.planner.restore(text));
    if (answer.problems === undefined) this.refresh();
    return answer;
  }

  /** Adds a chassis, trailer, parts or law that a person wrote. Returns {what} or {problems}. */
  async add(name, text) {
    if (/\.(csv|gpx)$/i.test(name)) return this.addRoute(name, text);
    const answer = await this.study.addFile(name, text);
    if (answer.problems !== undefined) return answer;
    return read(this.planner.add(name, JSON.stringify(answer.data)));
  }

  /** Adds a route from a table or a recorded track; the plan drives the one that was added last. */
  async addRoute(name, text) {
    const answer = await this.study.addFile(name, text, "add_route");
    if (answer.problems !== undefined) return answer;
    this.onRoute?.();
    return { what: `route ${answer.name}`, route: answer.id };
  }

  fresh(begin) {
    const answer = read(begin(this.planner) ?? null);
    if (answer?.refused !== undefined) return answer.refused;
    this.options.selected = null;
    this.options.finding = null;
    this.refresh();
    this.kept?.();
    return null;
  }

  catalogue() {
    return read(this.planner.catalogue(this.options));
  }

  part(tag) {
    return this.view.placed.find(part => part.tag === tag) ?? null;
  }
}

/** Plans are JSON; everything else is read as TOML. A byte order mark counts as white space. */
function isPlan(text) {
  return text.trimStart().startsWith("{");
}

function placeOf(answer) {
  if (answer.refused !== undefined) return answer;
  const { x_mm, y_mm, z_mm, zone } = answer;
  return { x_mm, y_mm, z_mm, zone: zone ?? null };
}

function inOrder(findings) {
  const rank = finding => ORDER.indexOf(finding.severity);
  return findings.sort((a, b) => rank(a) - rank(b));
}

/** What makes a finding the same one after a change; by this the core is told which one is open. */
export function keyOf(finding) {
  return `${finding.id} ${finding.subject}`;
}

/** The sheets carry the day on which they were made. */
function today() {
  const now = new Date();
  const two = number => String(number).padStart(2, "0");
  return [now.getFullYear(), two(now.getMonth() + 1), two(now.getDate())].join("-");
}
