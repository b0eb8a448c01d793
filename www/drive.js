// The drive: which route, what it comes to, and its strip under the truck. The second program drives
// beside the page, again after every change; what is shown until then is marked as old. Its pages are built
// when they are looked at; two tables take many drives each and are worked out only when somebody asks.

import { WORDS, by, el, mark, rows, say, setMark, tell } from "./dom.js";
import { options, showFields } from "./fields.js";
import { Stopped } from "./ask.js";

/** What takes longer than this shows how far it is, and can be stopped. */
const PATIENCE_MS = 400;

/** How far something is, and a button that stops it. */
class Progress {
  constructor(bench, what, stopped) {
    this.bar = el("progress", { max: "1", "aria-label": `How far ${what} is` });
    const stop = el("button", { type: "button" }, "Stop");
    stop.addEventListener("click", () => {
      bench.study.stop();
      tell(stopped);
    });
    this.element = el("div", { class: "ways", hidden: true }, this.bar, stop);
  }

  /** Waits for an answer that is asked with a listener for how far it is. */
  async during(ask) {
    this.bar.removeAttribute("value");
    const late = setTimeout(() => { this.element.hidden = false; }, PATIENCE_MS);
    try {
      return await ask(share => { this.bar.value = share; });
    } finally {
      clearTimeout(late);
      this.element.hidden = true;
    }
  }
}

/** A table that somebody asks for: a button, how far it is, and the page that comes of it. */
class Asked {
  constructor(panel, id, title, ask, about) {
    Object.assign(this, { panel, id, title, ask, page: null, args: [], of: "", units: "", stale: false, busy: false });
    this.button = el("button", { type: "button" });
    this.button.addEventListener("click", async () => {
      this.args = about();
      if (await this.work()) panel.onPages?.(id);
    });
    this.progress = new Progress(panel.bench, "the table", "The table was stopped");
    this.problem = el("p", { class: "problem", hidden: true });
    this.element = el("div", { class: "asked" },
      el("div", { class: "ways" }, this.button), this.progress.element, this.problem);
    this.draw();
  }

  draw() {
    say(this.button, this.page ? "Work out again" : "Work out");
  }

  /** Marks the table as that of the plan before, or as the plan's own after all. */
  follow(plan) {
    this.stale = this.of !== plan;
  }

  /** Asks for the table; true when it has come. */
  async work() {
    if (this.busy) return false;
    this.busy = true;
    this.complain(null);
    const { bench } = this.panel;
    const [plan, { units }] = [bench.planner.save(), bench.options];
    let page = null;
    try {
      const answer = await this.progress.during(telling => this.panel.ask(this.ask, this.args, telling));
      if (answer.refused === undefined) page = answer;
      else this.complain(answer.refused);
    } catch (error) {
      if (!(error instanceof Stopped)) this.complain(`It could not be worked out: ${error.message}.`);
    }
    this.busy = false;
    if (page === null) return false;
    Object.assign(this, { page, of: plan, units });
    this.follow(bench.planner.save());
    this.draw();
    return true;
  }

  /** The same in the units that the reader has now: the second program still has its figures. */
  async reword() {
    const { bench } = this.panel;
    if (this.page === null || this.stale || this.units === bench.options.units) return;
    if (await this.work()) this.panel.onDriven?.();
  }

  complain(why) {
    say(this.problem, why);
    this.problem.hidden = !why;
    if (why) tell(why);
  }

  /** The page, told as that of an earlier plan where it is one. */
  shown() {
    if (!this.stale) return this.page;
    const old = "This table is that of the plan before the last change: work it out again on the tab Drive.";
    return { ...this.page, lead: [old, ...this.page.lead] };
  }
}

export class DrivePanel {
  constructor(bench, host) {
    this.bench = bench;
    bench.driving = this;
    this.begun = false;
    this.asking = false;
    this.again = false;
    this.driven = "";
    this.route = el("select", { id: "route" });
    this.route.addEventListener("change", () => {
      const refused = bench.enter("duty.route", this.route.value);
      tell(refused ?? `Route: ${this.route.selectedOptions[0]?.textContent ?? ""}`);
    });
    this.sign = mark("not-assessed");
    this.word = el("strong");
    this.sentence = el("span", { class: "sentence" });
    this.figures = el("tbody");
    this.progress = new Progress(bench, "the drive", "The drive was stopped; the next change drives again");
    this.duty = el("div", { class: "fields" });
    this.body = el("div", {}, el("p", { class: "driven-verdict" }, this.sign, this.word, " ", this.sentence),
      el("table", { class: "figures" }, this.figures));
    /** What was typed as the range that packs are wanted for, and in which units. */
    this.wanted = { typed: "", units: bench.options.units };
    this.range = el("div", { class: "fields" });
    this.tables = [
      new Asked(this, "drive-ranges", "Range table", "ranges", () => []),
      new Asked(this, "drive-sizes", "Packs to choose", "sizes", () => [this.wanted]),
    ];
    const [ranges, sizes] = this.tables;
    host.append(
      el("div", { class: "field" }, el("label", { for: "route" }, "Route"), this.route,
        el("p", { class: "hint" }, "A table (CSV) or a recorded track (GPX) dropped on the page joins the list.")),
      this.progress.element, this.body,
      el("nav", { "aria-label": "Pages of the drive" }, el("ul", { id: "drive-pages", class: "pages" })),
      el("h2", {}, "Range in cold and heat"),
      el("p", { class: "hint" }, "New and at the end of life, from frost to heat. Drives the route many times."),
      ranges.element,
      el("h2", {}, "Packs to choose from"),
      el("p", { class: "hint" }, "How many of each pack it takes, and what they cost in mass, payload and volume. Drives the route many times."),
      this.range, sizes.element,
      el("h2", {}, "Duty"), this.duty,
    );
    bench.onView((view, trial) => this.draw(view, trial));
    bench.onRoute = () => this.list();
  }

  /** Drives from now on: the second program is being loaded. */
  begin() {
    this.begun = true;
    this.list();
    this.renew();
  }

  ask(name, more, telling) {
    return this.bench.study.ask(name, [...more, this.bench.options], telling);
  }

  async list() {
    const list = await this.bench.study.ask("routes");
    options(this.route, list);
    this.choose();
  }

  choose() {
    const route = this.bench.drive?.route;
    if (route && document.activeElement !== this.route) this.route.value = route;
  }

  draw(view, trial) {
    const duty = view.controls.filter(field => field.id.startsWith("duty."));
    showFields(this.duty, duty, this.bench);
    if (trial || !this.begun) return;
    this.renew();
  }

  /** Drives again when plan or units have changed. One drive at a time. */
  async renew() {
    const { bench } = this;
    const plan = bench.planner.save();
    const asked = JSON.stringify([plan, bench.options.units]);
    if (asked === this.driven) return;
    this.old(true);
    for (const table of this.tables) table.follow(plan);
    if (this.asking) {
      this.again = true;
      return;
    }
    this.asking = true;
    this.driven = asked;
    try {
      this.fill(await this.progress.during(telling => this.ask("drive", [], telling)));
      await this.want(this.wanted);
      for (const table of this.tables) table.reword();
    } catch (error) {
      if (error instanceof Stopped) say(this.sentence, "Stopped: these figures are those of the plan before");
      else this.fail(`The drive could not be worked out: ${error.message}.`);
    }
    this.asking = false;
    if (!this.again) return;
    this.again = false;
    this.renew();
  }

  /** A page of the drive: one that was looked at is kept as long as the drive is the plan's. */
  async page(id) {
    const table = this.tables.find(each => each.id === id);
    if (table) return table.shown();
    const kept = this.bench.drive?.looked?.get(id);
    if (kept) return kept;
    // A drive that was stopped is driven again for it.
    if (this.bench.drive?.stale && !this.asking) {
      this.driven = "";
      this.renew();
    }
    const page = await this.ask("drive_page", [id]);
    const { drive } = this.bench;
    if (!drive?.stale) drive?.looked?.set(id, page);
    return page;
  }

  /** Shows the field of the wanted range as the core has it: in the reader's units, or with what is wrong. */
  async want(wanted) {
    const field = await this.ask("wanted", [wanted]);
    // Something newer was typed meanwhile.
    if (wanted !== this.wanted || field.refused !== undefined) return null;
    if (!field.problem) this.wanted = { typed: field.text, units: this.bench.options.units };
    this.show(field);
    if (field.problem) tell(field.problem);
    return field;
  }

  show(field) {
    this.field = field;
    showFields(this.range, [field], this);
  }

  /** What was typed into that field. */
  enter(_id, typed) {
    this.wanted = { typed, units: this.bench.options.units };
    this.show({ ...this.field, text: typed, problem: null });
    this.want(this.wanted).then(field => {
      if (field && !field.problem) tell(`${field.label}: ${field.text ? `${field.text} ${field.unit}` : "the day"}`);
    }).catch(() => {});
    return null;
  }

  /** Marks what is shown of the drive as that of the plan before, wherever it stands. */
  old(stale) {
    this.body.toggleAttribute("data-stale", stale);
    by("bench").toggleAttribute("data-driven-before", stale);
    if (this.bench.drive) this.bench.drive.stale = stale;
  }

  /** The pages of the drive, and the tables that somebody has asked for. */
  get pages() {
    const asked = this.tables.filter(table => table.page !== null);
    return [...this.bench.drive?.pages ?? [], ...asked];
  }

  fill(drive) {
    if (drive.refused !== undefined) return this.fail(drive.refused);
    drive.said = `${drive.name}: ${drive.severity === "holds" ? drive.rows[0].join(" ").toLowerCase() : drive.headline}`;
    drive.looked = new Map();
    this.bench.drive = drive;
    this.old(false);
    setMark(this.sign, drive.severity);
    say(this.word, WORDS[drive.severity]);
    say(this.sentence, drive.headline);
    rows(this.figures, drive.rows, ([name]) => name,
      ([name]) => el("tr", {}, el("th", { scope: "row" }, name), el("td")),
      (row, [, text]) => say(row.lastElementChild, text));
    this.choose();
    // The core's own drawing; it escapes every name in it.
    const drawing = drive.strip ?? "";
    by("course").innerHTML = drawing;
    this.onDriven?.();
  }

  /** What is missing, in place of old figures. */
  fail(why) {
    this.bench.drive = { severity: "not-assessed", said: why, findings: [], pages: [] };
    this.old(false);
    setMark(this.sign, "not-assessed");
    say(this.word, WORDS["not-assessed"]);
    say(this.sentence, why);
    rows(this.figures, [], String, String, String);
    by("course").replaceChildren();
    this.onDriven?.();
  }
}
