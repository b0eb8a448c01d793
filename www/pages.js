// Pages of answers: a row of small buttons, and one page at a time on the lower part of the stage.
// The core builds a page only when it is open; while something is carried, once for each frame.

import { WORDS, by, el, mark, rows, say, setMark } from "./dom.js";

export class Pages {
  constructor(bench) {
    this.bench = bench;
    /** Id of the page that is open. */
    this.open = null;
    this.shown = "";
    this.frame = 0;
    this.asking = false;
    this.again = false;
    this.element = by("page");
    this.title = el("h2", { id: "page-title" });
    this.close = el("button", { type: "button", class: "close" }, "Close");
    // The keyboard scrolls what it stands in.
    this.body = el("div", { class: "content", tabindex: "0", role: "group", "aria-labelledby": "page-title" });
    this.element.append(el("header", {}, this.title, this.close), this.body);
    this.close.addEventListener("click", () => this.shut());
    bench.onView((view, trial) => this.draw(view, trial));
  }

  draw(view, trial) {
    this.list(by("pages"), view.pages);
    this.list(by("drive-pages"), this.bench.drivePages);
    if (this.open === null) return;
    if (!trial) this.renew();
    else this.frame ||= requestAnimationFrame(() => this.renew());
  }

  list(host, pages) {
    rows(host, pages, page => page.id, page => this.choice(page), (row, page) => {
      const marked = page.severity !== undefined;
      row.sign.toggleAttribute("hidden", !marked);
      if (marked) setMark(row.sign, page.severity);
      say(row.word, marked ? `, ${WORDS[page.severity]}` : "");
      row.button.setAttribute("aria-expanded", String(page.id === this.open));
    });
  }

  choice(page) {
    const sign = mark("not-assessed");
    const word = el("span", { class: "visually-hidden" });
    const button = el("button", {
      type: "button", "aria-expanded": "false", "aria-controls": "page", "data-page": page.id,
    }, sign, el("span", {}, page.title), word);
    button.addEventListener("click", () => (this.open === page.id ? this.shut() : this.show(page.id)));
    return Object.assign(el("li", {}, button), { sign, word, button });
  }

  /** Opens a page; the focus goes with it, and comes back to its button when it is closed. */
  show(id) {
    if (this.open !== id) this.expect(id);
    this.open = id;
    this.lay();
    this.renew();
    this.body.scrollTop = 0;
    this.element.scrollIntoView({ block: "nearest" });
    this.body.focus({ preventScroll: true });
  }

  shut() {
    const button = this.button(this.open);
    this.open = null;
    this.lay();
    // Its button may be on a tab that is not shown now.
    (button?.checkVisibility() ? button : by("stage")).focus();
  }

  button(id) {
    return document.querySelector(`[data-page="${CSS.escape(id)}"]`);
  }

  lay() {
    const open = this.open !== null;
    this.element.hidden = !open;
    this.body.dataset.of = by("pages").rowsByKey.has(this.open) ? "truck" : "drive";
    by("stage").toggleAttribute("data-paged", open);
    for (const button of document.querySelectorAll("[data-page]")) {
      button.setAttribute("aria-expanded", String(button.dataset.page === this.open));
    }
  }

  /** Asks for the page as it is now. One question at a time: while something is carried, those that
   * come meanwhile are one. */
  async renew() {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    const id = this.open;
    if (id === null) return;
    if (this.asking) {
      this.again = true;
      return;
    }
    this.asking = true;
    try {
      const page = await this.bench.page(id);
      if (this.open === id) this.fill(page);
    } catch (error) {
      if (this.open === id) this.fail(error);
    }
    this.asking = false;
    if (!this.again) return;
    this.again = false;
    this.renew();
  }

  fill(page) {
    // A try that is not possible shows no new figures.
    if (page.refused !== undefined) return;
    const text = JSON.stringify([page, this.bench.options.units]);
    if (text === this.shown) return;
    this.shown = text;
    say(this.title, page.title);
    const folded = this.body.querySelector("details")?.open ?? false;
    this.body.replaceChildren(...pageBody(page));
    const details = this.body.querySelector("details");
    if (details) details.open = folded;
  }

  fail(error) {
    this.shown = "";
    this.body.replaceChildren(el("p", { class: "lead" }, `This page could not be worked out: ${error.message}.`));
  }

  /** Before the first answer: which page it will be. */
  expect(id) {
    this.shown = "";
    const { view, drivePages } = this.bench;
    say(this.title, [...view.pages, ...drivePages].find(page => page.id === id)?.title);
    this.body.replaceChildren(el("p", { class: "hint" }, "Working it out…"));
  }
}

/** What a page says: sentences, picture, tables, and what was assumed, folded. */
export function pageBody(page) {
  const pieces = page.lead.map(text => el("p", { class: "lead" }, text));
  if (page.picture) {
    const picture = el("div", { class: "picture" });
    const drawing = page.picture;
    // The core's own drawing; it escapes every name in it.
    picture.innerHTML = drawing;
    pieces.push(picture);
  }
  pieces.push(...page.tables.map(pageTable));
  if (page.assumptions.length > 0) {
    pieces.push(el("details", {}, el("summary", {}, "Assumed here"),
      el("ul", {}, ...page.assumptions.map(text => el("li", {}, text)))));
  }
  return pieces;
}

export function pageTable({ title, columns, rows: lines, note }) {
  const marked = lines.some(line => line.severity !== undefined);
  // A heading is a sentence's beginning, but a unit keeps its small letter.
  const kind = index => {
    const { name, numeric } = columns[index];
    return { class: `${numeric ? "figures-right" : ""} ${/^k[A-Z]/.test(name) ? "as-is" : ""}`.trim() || null };
  };
  const head = el("tr", {},
    marked ? el("td", { class: "sign" }) : null,
    ...columns.map((column, index) => el("th", { scope: "col", ...kind(index) }, column.name)));
  const body = lines.map(({ cells, severity }) => el("tr", { "data-severity": severity },
    marked ? el("td", { class: "sign" }, ...sign(severity)) : null,
    ...cells.map((text, index) => el(index === 0 ? "th" : "td",
      { scope: index === 0 ? "row" : null, ...kind(index) }, text))));
  return el("figure", { class: "table" },
    el("div", { class: "wide" }, el("table", {}, title ? el("caption", {}, title) : null,
      el("thead", {}, head), el("tbody", {}, ...body))),
    note ? el("p", { class: "hint" }, note) : null);
}

function sign(severity) {
  if (severity === undefined) return [];
  return [mark(severity), el("span", { class: "visually-hidden" }, WORDS[severity])];
}
