// The sheets: drawings to save, and the printed set. All of it comes ready from the core.

import { WORDS, by, el, handOver, tell } from "./dom.js";
import { pageBody, pageTable } from "./pages.js";
import { makeCaution } from "./panels.js";

const VIEWS = [["side", "Side view"], ["plan", "Plan view"], ["rear", "Rear view"]];

const columns = (...names) => names.map(([name, numeric]) => ({ name, numeric }));
const FINDING_COLUMNS = columns(["Verdict", false], ["Check", false], ["What was found", false], ["Margin", true], ["Source", false]);
const PART_COLUMNS = columns(["Tag", false], ["Part", false], ["Mass", true], ["Zone", false]);

export class Sheets {
  constructor(bench, host, files) {
    this.bench = bench;
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
      el("p", { class: "hint" }, "Three drawings with title block, loads, findings and cautions."),
      el("div", { class: "ways" }, button("Print sheets", () => print()),
        bench.has("report") ? button("Save report, HTML", () => this.report()) : null),
      el("h2", {}, "Plan file"),
      el("p", { class: "hint" }, "One plain text file. Drop it on the page to open it again."),
      el("div", { class: "ways" }, button("Save plan", () => files.save()),
        button("Open a file", () => by("file").click())),
    );
    by("print").addEventListener("click", () => print());
    addEventListener("beforeprint", () => this.lay());
    addEventListener("afterprint", () => by("sheets").replaceChildren());
  }

  base() {
    return this.bench.planner.file_name().replace(/(\.plan)?\.json$/, "");
  }

  save(view) {
    const name = `${this.base()}-${view}.svg`;
    handOver(name, this.bench.planner.drawing(view, this.bench.options), "image/svg+xml");
    tell(`Saved ${name}`);
  }

  report() {
    const name = `${this.base()}-report.html`;
    handOver(name, this.bench.planner.report(this.bench.options), "text/html");
    tell(`Saved ${name}`);
  }

  /** Lays the sheets out for the printer. */
  lay() {
    const { view, planner, options } = this.bench;
    const drawings = VIEWS.map(([name]) => {
      const sheet = el("div", { class: "sheet" });
      // The core's own drawing; it escapes every name in it.
      sheet.innerHTML = planner.drawing(name, options);
      return sheet;
    });
    const findings = view.findings.map(each => ({
      severity: each.severity,
      cells: [WORDS[each.severity], each.title, each.sentence, each.margin, each.source],
    }));
    by("sheets").replaceChildren(
      ...drawings,
      el("div", { class: "text" },
        el("h2", {}, view.name),
        el("p", { class: "verdict" }, `${WORDS[view.verdict.severity]}: ${view.verdict.text}`),
        el("ul", { class: "cautions" }, ...view.cautions.map(makeCaution)),
        el("h3", {}, "Findings"),
        pageTable({ title: "", columns: FINDING_COLUMNS, rows: findings }),
        ...view.pages.flatMap(({ id, title }) =>
          [el("h3", {}, title), el("section", { class: "page" }, ...pageBody(this.bench.page(id)))]),
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
    for (const folded of by("sheets").querySelectorAll("details")) folded.open = true;
  }
}
