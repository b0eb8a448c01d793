// What it comes to: verdict, axle bars, payload, findings.

import { ORDER, WORDS, by, el, mark, rows, say, setMark, tell } from "./dom.js";
import { keyOf } from "./plan.js";

export class Judgement {
  constructor(bench, stage) {
    this.bench = bench;
    this.stage = stage;
    this.hidden = new Set(["holds"]);
    this.verdictMark = mark("not-assessed");
    this.verdictWord = el("strong");
    this.verdictText = el("span", { class: "sentence" });
    by("verdict").append(this.verdictMark, this.verdictWord, this.verdictText);
    this.sieve();
    this.payload();
    bench.onView((view, trial) => this.draw(view, trial));
  }

  draw(view, trial) {
    const { drive } = this.bench;
    // A truck that holds is not clear as long as its drive is not.
    const severity = ORDER.find(each => each === view.verdict.severity || each === drive?.severity);
    const text = view.verdict.text + (drive ? ` · drive ${WORDS[drive.severity].toLowerCase()}` : "");
    // Read out when settled, not at every move of a drag.
    by("verdict").setAttribute("aria-busy", String(trial));
    by("verdict").dataset.severity = severity;
    setMark(this.verdictMark, severity);
    say(this.verdictWord, WORDS[severity]);
    say(this.verdictText, text);
    rows(by("bars"), view.bars, bar => bar.id, makeBar, (row, bar) => updateBar(row, bar, trial));
    this.drawPayload(view.payload);
    this.drawDriven();
    this.drawSieve(this.bench.findings);
    this.drawFindings(this.bench.findings);
    by("judgement").toggleAttribute("data-trial", trial);
  }

  /** What the drive came to, in one line. */
  drawDriven() {
    const { drive } = this.bench;
    const host = by("driven");
    host.hidden = drive === null;
    if (drive === null) return;
    this.drivenMark ??= mark(drive.severity);
    this.drivenText ??= el("span", { class: "sentence" });
    if (!host.firstChild) host.append(this.drivenMark, this.drivenText);
    setMark(this.drivenMark, drive.severity);
    say(this.drivenText, drive.said);
  }

  payload() {
    this.payloadText = el("span", { class: "sentence" });
    this.payloadRows = el("tbody");
    this.payloadMore = el("details", {}, el("summary", {}, this.payloadText),
      el("table", {}, this.payloadRows));
    by("payload").append(this.payloadMore);
  }

  drawPayload(payload) {
    by("payload").hidden = !payload?.text;
    if (!payload?.text) return;
    say(this.payloadText, payload.text);
    tableRows(this.payloadRows, payload.rows ?? []);
  }

  sieve() {
    this.chips = new Map();
    for (const severity of ORDER) {
      const count = el("span", { class: "count" });
      const box = el("button", { type: "button", "aria-pressed": "true", "data-severity": severity },
        mark(severity), el("span", {}, WORDS[severity]), count);
      box.addEventListener("click", () => {
        if (!this.hidden.delete(severity)) this.hidden.add(severity);
        this.drawFindings(this.bench.findings);
        this.drawSieve(this.bench.findings);
      });
      this.chips.set(severity, { box, count });
      by("sieve").append(box);
    }
  }

  drawSieve(findings) {
    for (const [severity, { box, count }] of this.chips) {
      say(count, String(findings.filter(each => each.severity === severity).length));
      box.setAttribute("aria-pressed", String(!this.hidden.has(severity)));
    }
  }

  drawFindings(findings) {
    const open = this.bench.options.finding;
    const shown = findings.filter(each => !this.hidden.has(each.severity) || keyOf(each) === open);
    rows(by("findings"), shown, keyOf,
      finding => this.makeFinding(finding),
      (row, finding) => row.update(finding, keyOf(finding) === open));
    this.nothing ??= el("p", { class: "hint" }, "No findings of the kinds chosen above.");
    if (shown.length === 0) by("findings").after(this.nothing);
    else this.nothing.remove();
  }

  makeFinding(finding) {
    const sign = mark(finding.severity);
    const title = el("span", { class: "title" });
    const about = el("span", { class: "about" });
    const word = el("span", { class: "visually-hidden" });
    const margin = el("span", { class: "margin" });
    const head = el("button", { type: "button", class: "head", "aria-expanded": "false" },
      sign, el("span", {}, word, title, " ", about), margin);
    const body = el("div", { class: "body" });
    const row = el("li", {}, head, body);
    let now = finding;
    head.addEventListener("click", () => {
      const closing = this.bench.options.finding === keyOf(now);
      this.bench.point(closing ? null : now);
      if (!closing) {
        this.stage.reveal(this.bench.view.findings.indexOf(now));
        row.scrollIntoView({ block: "nearest" });
      }
      tell(closing ? "" : now.said?.sentence ?? now.title);
    });
    row.update = (next, open) => {
      now = next;
      row.dataset.severity = next.severity;
      row.dataset.id = next.id;
      row.dataset.of = this.bench.view.findings.includes(next) ? "truck" : "drive";
      setMark(sign, next.severity);
      say(word, `${WORDS[next.severity]}: `);
      say(title, next.title);
      say(about, next.about);
      say(margin, next.margin);
      head.setAttribute("aria-expanded", String(open));
      row.toggleAttribute("data-open", open);
      body.hidden = !open;
      const text = open ? JSON.stringify(next) : "";
      if (row.shown === text) return;
      row.shown = text;
      body.replaceChildren(...(open && next.said ? this.body(next) : []));
    };
    return row;
  }

  body(finding) {
    const facts = [
      ["Measured", finding.said.measured],
      ["Limit", finding.said.limit],
      ["Margin", finding.margin],
      ["Source", finding.said.source],
    ].filter(([, text]) => text);
    const pieces = [
      el("p", { class: "sentence" }, finding.said.sentence),
      el("dl", {}, ...facts.flatMap(([name, text]) => [el("dt", {}, name), el("dd", {}, text)])),
    ];
    if (finding.said.assumptions.length > 0) {
      pieces.push(el("p", { class: "caption" }, "Assumed"),
        el("ul", {}, ...finding.said.assumptions.map(text => el("li", {}, text))));
    }
    const ways = finding.tags.filter(tag => this.bench.part(tag)).map(tag => {
      const go = el("button", { type: "button" }, `Go to ${tag}`);
      go.addEventListener("click", () => this.stage.goTo(tag));
      return go;
    });
    ways.push(...this.pages(finding));
    if (this.bench.has("explain")) ways.push(this.why(finding));
    pieces.push(el("div", { class: "ways" }, ...ways));
    return pieces;
  }

  /** Ways to the pages that show the figures behind a finding. */
  pages(finding) {
    const { view, drivePages } = this.bench;
    return [...view.pages, ...drivePages].filter(page => page.checks?.includes(finding.id)).map(page => {
      const go = el("button", { type: "button" }, page.title);
      go.addEventListener("click", () => this.onPage?.(page.id));
      return go;
    });
  }

  why(finding) {
    const button = el("button", { type: "button", "aria-expanded": "false" }, "Why");
    button.addEventListener("click", () => {
      const box = button.closest(".body");
      const old = box.querySelector(".why");
      button.setAttribute("aria-expanded", String(!old));
      if (old) return old.remove();
      box.append(el("p", { class: "why" }, this.bench.planner.explain(finding.id) ?? ""));
    });
    return button;
  }

  /** Opens a finding that was pointed at in the drawing. */
  open(finding) {
    this.bench.point(finding);
    by("findings").rowsByKey.get(keyOf(finding))?.scrollIntoView({ block: "nearest" });
    tell(this.bench.findings.find(each => keyOf(each) === keyOf(finding))?.said?.sentence ?? finding.title);
  }
}

function makeBar() {
  const sign = mark("not-assessed");
  const parts = {
    word: el("span", { class: "visually-hidden" }),
    name: el("span", { class: "name" }),
    load: el("span", { class: "load" }),
    margin: el("span", { class: "margin" }),
    governs: el("span", { class: "governs" }),
  };
  const fill = el("span", { class: "fill" });
  const was = el("span", { class: "was" });
  const row = el("li", {},
    el("div", { class: "line" }, sign, parts.word, parts.name, parts.load),
    el("div", { class: "gauge" },
      el("div", { class: "track", "aria-hidden": "true" }, fill, was, el("span", { class: "limit" })),
      parts.margin),
    parts.governs);
  row.parts = parts;
  row.sign = sign;
  row.fill = fill;
  row.was = was;
  return row;
}

function updateBar(row, bar, trial) {
  const { word, name, load, margin, governs } = row.parts;
  row.dataset.bar = bar.id;
  row.dataset.severity = bar.severity;
  setMark(row.sign, bar.severity);
  say(word, `${WORDS[bar.severity]}: `);
  say(name, bar.name);
  say(load, bar.limit ? `${bar.load} of ${bar.limit}` : bar.load);
  say(margin, bar.margin);
  say(governs, bar.governs);
  row.title = [bar.margin, bar.governs, bar.case].filter(Boolean).join(" · ");
  const fill = bar.fill ?? 0;
  row.fill.style.setProperty("--fill", fill);
  // While something is carried, a tick stays where the bar was.
  if (!trial) row.was.style.setProperty("--fill", fill);
}

function tableRows(body, lines) {
  body.replaceChildren(...lines.map(cells => el("tr", {}, ...cells.map((text, index) =>
    el(index === 0 ? "th" : "td", index === 0 ? { scope: "row" } : {}, text)))));
}
