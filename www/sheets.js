// The sheets: drawings to save, and the printed set. All of it comes ready from the core.

import { WORDS, by, el, handOver, rows, say, tell } from "./dom.js";
import { pageBody, pageTable } from "./pages.js";
import { makeCaution } from "./panels.js";
import { whole } from "./paper.js";

const VIEWS = [["side", "Side view"], ["plan", "Plan view"], ["rear", "Rear view"]];

const columns = (...names) => names.map(([name, numeric]) => ({ name, numeric }));
const FINDING_COLUMNS = columns(["Verdict", false], ["Check", false], ["What was found", false], ["Margin", true], ["Source", false]);
const PART_COLUMNS = columns(["Tag", false], ["Part", false], ["Mass", true], ["Zone", false]);

export class Sheets {
  constructor(bench, host, files) {
    this.bench = bench;
    /** What a person ticked or unticked, by id; the rest goes by what it has to say. */
    this.ticked = new Map();
    this.list = el("ul", { id: "print-set", class: "lines" });
    const button = (words, action) => {
      const made = el("button", { type: "button" }, words);
      made.addEventListener("click", action);
      return made;
    };
    host.append(
      el("h2", {}, "Drawings"),
      el("div", { class: "ways" }, ...[...VIEWS, ["turn", "Turn"]].map(([view, words]) =>
        button(`${words}, SVG`, () => this.save(view)))),
      el("h2", {}, "Print"),
      el("p", { class: "hint" }, "Always: three drawings with title block, verdict, cautions, findings that are not clear, parts and notes. Ticked besides: what has something to say, until you change it."),
      this.list,
      el("div", { class: "ways" }, button("Print sheets", () => this.print()),
        button("Tick all", () => this.tick(true)), button("Tick none", () => this.tick(false))),
      el("h2", {}, "Plan file"),
      el("p", { class: "hint" }, "One plain text file. Drop it on the page to open it again."),
      el("div", { class: "ways" }, button("Save plan", () => files.save()),
        button("Open a file", () => by("file").click())),
    );
    by("print").addEventListener("click", () => this.print());
    addEventListener("beforeprint", () => this.prepared || this.layAtOnce());
    addEventListener("afterprint", () => {
      this.prepared = false;
      by("sheets").replaceChildren();
    });
    bench.onView(() => this.draw());
    this.draw();
  }

  /** What may go on paper besides: id, words, and whether it goes by itself. */
  extras() {
    const { view } = this.bench;
    const bad = page => page.severity === "fails" || page.severity === "caution";
    return [
      ...[...view.pages, ...this.bench.drivePages].map(page =>
        ({ id: page.id, words: page.title, itself: page.id === "loads" || bad(page) })),
      { id: "clear", words: "Findings that are clear", itself: false },
      { id: "assumed", words: "What each page assumes", itself: false },
    ];
  }

  wants({ id, itself }) {
    return this.ticked.get(id) ?? itself;
  }

  tick(on) {
    for (const { id } of this.extras()) this.ticked.set(id, on);
    this.draw();
  }

  draw() {
    rows(this.list, this.extras(), each => each.id, each => {
      const box = el("input", { type: "checkbox", "data-print": each.id });
      const words = el("span", { class: "what" });
      box.addEventListener("change", () => this.ticked.set(each.id, box.checked));
      return Object.assign(el("li", {}, el("label", {}, box, words)), { box, words });
    }, (row, each) => {
      row.box.checked = this.wants(each);
      say(row.words, each.words);
    });
  }

  base() {
    return this.bench.planner.file_name().replace(/(\.plan)?\.json$/, "");
  }

  async save(view) {
    const name = `${this.base()}-${view}.svg`;
    try {
      handOver(name, (await this.sheet(view)).svg, "image/svg+xml");
      tell(`Saved ${name}`);
    } catch (error) {
      tell(`Not saved: ${error.message}`);
    }
  }

  sheet(view) {
    return this.bench.study.ask("sheet", [view, this.bench.options]);
  }

  /** Prints what is ticked: what is asked for beside the page comes first. */
  async print() {
    tell("Laying out the sheets…");
    try {
      const { view } = this.bench;
      const wanted = new Set(this.extras().filter(each => this.wants(each)).map(each => each.id));
      const drawings = await Promise.all(VIEWS.map(([name]) => this.sheet(name)));
      const asked = [...view.pages, ...this.bench.drivePages].filter(({ id }) => wanted.has(id));
      const pages = await Promise.all(asked.map(({ id }) => this.bench.page(id)));
      this.lay(drawings.map(each => each.svg), pages, wanted);
      this.prepared = true;
      print();
      tell("");
    } catch (error) {
      tell(`The sheets could not be laid out: ${error.message}`);
    }
  }

  /** The browser's own menu prints at once, without waiting: drawings and findings are at hand. */
  layAtOnce() {
    const drawings = VIEWS.map((_, index) => whole(have => this.bench.planner.picture(index, have)));
    this.lay(drawings, [], new Set(["clear"]));
    by("sheets").append(el("p", { class: "text" },
      "Printed from the browser's menu: without title blocks and pages of answers. The page's own Print button prints them too."));
  }

  /** Lays the sheets out for the printer. */
  lay(svgs, pages, wanted) {
    const { view, drive } = this.bench;
    const drawings = svgs.map(drawing => {
      const sheet = el("div", { class: "sheet" });
      // The core's own drawing; it escapes every name in it.
      sheet.innerHTML = drawing;
      return sheet;
    });
    const { told } = this.bench;
    const said = told.filter(each => wanted.has("clear") || each.severity !== "holds");
    const clear = told.length - said.length;
    const findings = said.map(each => ({
      severity: each.severity,
      cells: [WORDS[each.severity], each.title, each.said.sentence, each.margin, each.said.source],
    }));
    by("sheets").replaceChildren(
      ...drawings,
      el("div", { class: "text" },
        el("h2", {}, view.name),
        el("p", { class: "verdict" }, `${WORDS[view.verdict.severity]}: ${view.verdict.text}`),
        drive ? el("p", { class: "verdict" }, `${WORDS[drive.severity]}: ${drive.said}${drive.stale ? " (of the plan before the last change)" : ""}`) : null,
        el("ul", { class: "cautions" }, ...view.cautions.map(makeCaution)),
        el("h3", {}, "Findings"),
        pageTable({
          title: "", columns: FINDING_COLUMNS, rows: findings,
          note: clear > 0 ? `${clear} more are clear and not printed.` : undefined,
        }),
        ...pages.flatMap(page =>
          [el("h3", {}, page.title), el("section", { class: "page" }, ...pageBody(page))]),
        el("h3", {}, "Parts on the truck"),
        pageTable({
          title: "", columns: PART_COLUMNS,
          rows: view.placed.map(each => ({ cells: [each.tag, each.name, each.mass, each.zone_name] })),
        }),
        el("h3", {}, "Assumed throughout"),
        el("ul", { class: "assumed" }, ...(view.assumptions ?? []).map(text => el("li", {}, text))),
        view.notes ? el("h3", {}, "Notes") : null,
        view.notes ? el("p", { class: "notes" }, view.notes) : null),
    );
    // Paper unfolds nothing.
    for (const folded of by("sheets").querySelectorAll("details")) {
      if (wanted.has("assumed")) folded.open = true;
      else folded.remove();
    }
  }
}
