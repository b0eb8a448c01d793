// The bench itself: three live views, choosing, zooming, and carrying parts by pointer.

import { by, el, say, tell } from "./dom.js";
import { Carry } from "./carry.js";
import { Paper } from "./paper.js";
import { Window } from "./window.js";

/** How a point of a view's drawing reads as truck axes; the third axis stays as it is. */
const AXES = {
  side: (point, keep) => ({ x_mm: point.x, y_mm: keep.y_mm, z_mm: -point.y }),
  plan: (point, keep) => ({ x_mm: point.x, y_mm: -point.y, z_mm: keep.z_mm }),
  rear: (point, keep) => ({ x_mm: keep.x_mm, y_mm: point.x, z_mm: -point.y }),
};

/** And back: where a place on the truck is drawn. */
const DRAWN = {
  side: place => new DOMPoint(place.x_mm, -place.z_mm),
  plan: place => new DOMPoint(place.x_mm, -place.y_mm),
  rear: place => new DOMPoint(place.y_mm, -place.z_mm),
};

/** A part itself, or the flag with its tag. */
export const PART = ".part[data-tag], .tag[data-for]";

export const tagOf = element => element.dataset.tag ?? element.dataset.for;

const SHOWN = [
  ["zones", "Zones"],
  ["dimensions", "Dimensions"],
  ["part_dimensions", "Part position"],
  ["hardware", "Removed parts"],
  ["angles", "Ramp angles"],
  ["frame", "Frame bending"],
];

export class Stage {
  constructor(bench) {
    this.bench = bench;
    this.element = by("stage");
    /** The view that the keys act in. */
    this.active = "side";
    this.views = new Map();
    // Rules and hatches of all pictures: once, and not with each picture at each move.
    document.body.insertAdjacentHTML("afterbegin", bench.pens);
    for (const [index, figure] of this.element.querySelectorAll(".view").entries()) {
      const name = figure.dataset.view;
      const paper = figure.querySelector(".paper");
      const view = { name, index, figure, paper, sheet: new Paper(paper) };
      view.window = new Window(view);
      this.views.set(name, view);
    }
    this.carry = new Carry(this);
    this.switches();
    this.zooms();
    this.sizes();
    this.element.addEventListener("focusin", event => this.focused(event));
    this.element.addEventListener("click", event => this.clicked(event));
    bench.onView(() => this.draw());
  }

  draw() {
    const focus = this.focusedPart();
    for (const each of this.views.values()) {
      const ask = have => this.bench.planner.picture(each.index, have);
      if (!each.sheet.put(ask)) continue;
      each.window.apply();
      this.oneStop(each);
    }
    for (const box of by("show").querySelectorAll("input")) {
      box.checked = this.bench.options.show[box.name];
    }
    if (focus) this.focusPart(focus.tag, focus.view);
    this.carry.drawn();
  }

  svg(name) {
    return this.views.get(name).paper.querySelector("svg");
  }

  /** The view under a point of the window. */
  viewAt(x, y) {
    const figure = document.elementFromPoint(x, y)?.closest("#stage .view");
    return figure?.dataset.view ?? null;
  }

  /** A point of the window as a place on the truck. */
  placeAt(name, x, y, keep) {
    const axes = this.svg(name)?.querySelector("[data-axes]");
    const matrix = axes?.getScreenCTM();
    if (!matrix) return null;
    return AXES[name](new DOMPoint(x, y).matrixTransform(matrix.inverse()), keep);
  }

  /** Where a place on the truck is seen in the window. */
  seenAt(name, place) {
    const matrix = this.svg(name)?.querySelector("[data-axes]")?.getScreenCTM();
    return matrix ? DRAWN[name](place).matrixTransform(matrix) : null;
  }

  partElement(tag, name = this.active) {
    return this.svg(name)?.querySelector(`.part[data-tag="${CSS.escape(tag)}"]`) ?? null;
  }

  focusedPart() {
    const part = document.activeElement?.closest?.("#stage .part[data-tag]");
    if (!part) return null;
    return { tag: part.dataset.tag, view: part.closest(".view").dataset.view };
  }

  focusPart(tag, name = this.active) {
    this.partElement(tag, name)?.focus({ preventScroll: true });
  }

  focused(event) {
    const view = event.target.closest(".view");
    if (view) this.activate(view.dataset.view);
  }

  activate(name) {
    this.active = name;
    for (const each of this.views.values()) {
      each.figure.toggleAttribute("data-active", each.name === name);
    }
  }

  /** A view's name is a button that gives it the large place. */
  sizes() {
    for (const { name, figure } of this.views.values()) {
      const words = figure.querySelector("figcaption").textContent;
      const button = el("button", { type: "button", title: `${words} view large` }, words);
      button.addEventListener("click", () => this.enlarge(name));
      figure.querySelector("figcaption").replaceChildren(button);
    }
    this.enlarge("side");
  }

  enlarge(name) {
    if (this.carry.active) return;
    const before = this.large;
    this.large = name;
    this.element.dataset.large = name;
    this.activate(name);
    for (const each of this.views.values()) {
      each.figure.querySelector("figcaption button").setAttribute("aria-pressed", String(each.name === name));
    }
    // What is said while carrying stands over the large view.
    this.views.get(name).figure.append(by("readout"));
    if (before) tell(`${this.views.get(name).figure.querySelector("figcaption").textContent} view large`);
  }

  /** The next view in the large place. */
  turnViews() {
    const names = [...this.views.keys()];
    this.enlarge(names[(names.indexOf(this.large) + 1) % names.length]);
  }

  /** Tab stops once in each view: at the chosen part, else at the first. */
  oneStop(view) {
    const parts = [...view.paper.querySelectorAll(".part[data-tag]")];
    const { selected } = this.bench.options;
    const stop = parts.find(part => part.dataset.tag === selected) ?? parts[0];
    for (const part of parts) part.setAttribute("tabindex", part === stop ? "0" : "-1");
  }

  /** Chooses the next part, or the one before, in the order of the list. */
  next(way) {
    const tags = this.bench.view.placed.map(part => part.tag);
    if (tags.length === 0) return;
    const at = tags.indexOf(this.bench.options.selected);
    this.goTo(tags.at(at < 0 ? Math.min(way, 0) : (at + way) % tags.length));
  }

  /** Chooses a part and shows where it is. */
  goTo(tag) {
    this.bench.select(tag);
    if (!this.partElement(tag)) return;
    this.element.scrollIntoView({ block: "nearest" });
    this.focusPart(tag);
    tell(this.partElement(tag).getAttribute("aria-label") ?? `${tag} chosen`);
  }

  clicked(event) {
    const name = event.target.closest(".view")?.dataset.view;
    if (this.carry.justCarried || this.views.get(name)?.window.slid) return;
    const pointer = event.target.closest("[data-finding]");
    const part = event.target.closest(PART);
    if (part) {
      const tag = tagOf(part);
      this.bench.select(tag);
      this.focusPart(tag, name);
      tell(part.getAttribute("aria-label") ?? this.partElement(tag, name)?.getAttribute("aria-label") ?? `${tag} chosen`);
      this.onChoose?.(tag);
    } else if (pointer) {
      const finding = this.bench.view.findings[Number(pointer.dataset.finding)];
      if (finding) this.onFinding?.(finding);
    } else if (event.target.closest(".paper")) {
      if (this.bench.options.selected !== null) tell("No part chosen");
      this.bench.select(null);
    }
  }

  /** Brings what a finding points at back into the picture, when it is outside. */
  reveal(index) {
    for (const { paper, window } of this.views.values()) {
      const pointer = paper.querySelector(`[data-finding="${index}"]`);
      if (!pointer) continue;
      const [a, b] = [pointer.getBoundingClientRect(), paper.getBoundingClientRect()];
      const inside = a.left >= b.left && a.right <= b.right && a.top >= b.top && a.bottom <= b.bottom;
      if (!inside) window.fit();
    }
  }

  /** The small line over the drawing, while something is carried. */
  note(text) {
    say(by("readout"), text);
  }

  switches() {
    for (const [name, words] of SHOWN) {
      const box = el("input", { type: "checkbox", name });
      box.addEventListener("change", () => {
        this.bench.options.show[name] = box.checked;
        this.bench.refresh();
        this.bench.kept?.();
      });
      by("show").append(el("label", {}, box, el("span", {}, words)));
    }
  }

  zooms() {
    this.element.querySelector(".zoom").addEventListener("click", event => {
      const way = event.target.closest("[data-zoom]")?.dataset.zoom;
      if (way) this.zoom(way);
    });
    for (const view of this.views.values()) view.window.listen();
  }

  zoom(way) {
    if (way === "fit") for (const view of this.views.values()) view.window.fit();
    else this.views.get(this.active).window.step(way === "in");
  }
}
