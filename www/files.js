// Opening and saving: by button, by dropping a file anywhere, and telling what is wrong.

import { by, el, handOver, tell } from "./dom.js";

/** A plan is text of some hundred kilobytes; far more than that is not a plan. */
const MOST_BYTES = 20_000_000;

export class Files {
  constructor(bench, keep, after) {
    this.bench = bench;
    this.keep = keep;
    this.after = after;
    by("open").addEventListener("click", () => by("file").click());
    by("file").addEventListener("change", async () => {
      await this.read([...by("file").files]);
      by("file").value = "";
    });
    by("save").addEventListener("click", () => this.save());
    addEventListener("dragover", event => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      document.body.setAttribute("data-dropping", "");
    });
    addEventListener("dragleave", event => {
      if (!event.relatedTarget) document.body.removeAttribute("data-dropping");
    });
    addEventListener("drop", event => {
      document.body.removeAttribute("data-dropping");
      if (!event.dataTransfer?.files.length) return;
      event.preventDefault();
      this.read([...event.dataTransfer.files]);
    });
  }

  save() {
    const name = this.bench.planner.file_name();
    handOver(name, this.bench.planner.save(), "application/json");
    tell(`Saved as ${name}`);
  }

  async read(files) {
    const problems = [];
    const opened = [];
    for (const file of files) {
      if (file.size > MOST_BYTES) {
        problems.push({ file: file.name, what: "is too large for a plan or a data file" });
        continue;
      }
      const text = await file.text();
      const before = this.bench.planner.save();
      const answer = await this.bench.open(file.name, text);
      if (answer.problems) {
        problems.push(...answer.problems);
        continue;
      }
      opened.push(`${file.name}: ${answer.what}`);
      if (answer.route) this.bench.enter("duty.route", answer.route);
      if (answer.what.startsWith("plan ")) this.keep.setAside(before);
      else this.keep.addFile(file.name, text);
    }
    if (opened.length > 0) this.after();
    this.complain(problems);
    if (opened.length > 0) tell(`Opened ${opened.join(", ")}`);
    else if (problems.length > 0) tell("Not opened; the plan on the bench is as it was.");
  }

  /** Lists problems beside the work, which stays usable. */
  complain(problems, title = "Not opened. The plan on the bench is as it was.") {
    const panel = by("problems");
    panel.hidden = problems.length === 0;
    if (problems.length === 0) return;
    const close = el("button", { type: "button", class: "close" }, "Close");
    close.addEventListener("click", () => {
      panel.hidden = true;
      by("open").focus();
    });
    const cell = (text, name) => el("td", name ? { class: name } : {}, text ?? "");
    panel.replaceChildren(
      el("header", {}, el("h2", {}, title), close),
      el("div", { class: "wide" }, el("table", {},
        el("thead", {}, el("tr", {}, ...["File", "Where", "Value", "What is wrong", "What to do"]
          .map(text => el("th", { scope: "col" }, text)))),
        el("tbody", {}, ...problems.map(each => el("tr", {},
          cell(each.file), cell(each.path, "path"), cell(each.value, "path"),
          cell(each.what), cell(each.hint || "Put the file right and open it again")))))),
    );
    close.focus();
  }
}
