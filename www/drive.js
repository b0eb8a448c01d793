// The drive: which route, what it comes to, and its strip under the truck. The second program drives
// beside the page, again after every change; what is shown until then is marked as old.

import { WORDS, by, el, mark, rows, say, setMark, tell } from "./dom.js";
import { options, showFields } from "./fields.js";
import { Stopped } from "./ask.js";

/** A drive that takes longer than this shows how far it is, and can be stopped. */
const PATIENCE_MS = 400;

export class DrivePanel {
  constructor(bench, host) {
    this.bench = bench;
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
    this.bar = el("progress", { max: "1", "aria-label": "How far the drive is" });
    const stop = el("button", { type: "button" }, "Stop");
    stop.addEventListener("click", () => {
      bench.study.stop();
      tell("The drive was stopped; the next change drives again");
    });
    this.progress = el("div", { class: "ways", hidden: true }, this.bar, stop);
    this.duty = el("div", { class: "fields" });
    this.body = el("div", {}, el("p", { class: "driven-verdict" }, this.sign, this.word, " ", this.sentence),
      el("table", { class: "figures" }, this.figures));
    host.append(
      el("div", { class: "field" }, el("label", { for: "route" }, "Route"), this.route,
        el("p", { class: "hint" }, "A table (CSV) or a recorded track (GPX) dropped on the page joins the list.")),
      this.progress, this.body,
      el("nav", { "aria-label": "Charts of the drive" }, el("ul", { id: "drive-pages", class: "pages" })),
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
    const asked = JSON.stringify([bench.planner.save(), bench.options.units]);
    if (asked === this.driven) return;
    this.old(true);
    if (this.asking) {
      this.again = true;
      return;
    }
    this.asking = true;
    this.driven = asked;
    const late = setTimeout(() => { this.progress.hidden = false; }, PATIENCE_MS);
    try {
      this.fill(await bench.study.ask("drive", [bench.options], share => { this.bar.value = share; }));
    } catch (error) {
      if (error instanceof Stopped) say(this.sentence, "Stopped: these figures are those of the plan before");
      else this.fail(`The drive could not be worked out: ${error.message}.`);
    }
    clearTimeout(late);
    this.progress.hidden = true;
    this.asking = false;
    if (!this.again) return;
    this.again = false;
    this.renew();
  }

  /** Marks what is shown of the drive as that of the plan before, wherever it stands. */
  old(stale) {
    this.body.toggleAttribute("data-stale", stale);
    by("bench").toggleAttribute("data-driven-before", stale);
    if (this.bench.drive) this.bench.drive.stale = stale;
  }

  fill(drive) {
    if (drive.refused !== undefined) return this.fail(drive.refused);
    drive.said = `${drive.name}: ${drive.severity === "holds" ? drive.rows[0].join(" ").toLowerCase() : drive.headline}`;
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
