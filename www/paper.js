// Puts a drawing of the core on its paper: the whole of it, or only the groups that changed.

import { pieced } from "./held.js";

export class Paper {
  constructor(element) {
    this.element = element;
    this.lost();
  }

  /** Whatever is on the paper: the next drawing is put on it whole. */
  lost() {
    /** What the core calls the drawing on the paper; 0 is none. */
    this.number = 0;
    /** Its groups, as far as the core drew them: the page may add something of its own between them. */
    this.groups = [];
  }

  get svg() {
    return this.element.firstElementChild;
  }

  /** Asks for the drawing, saying which one is here; true when something has changed. */
  put(ask) {
    const told = ask(this.number);
    if (told === "") return false;
    // A number and, of a change, which groups stay and how many come; then the drawing.
    const end = told.indexOf("\n");
    const [number, pieces] = told.slice(0, end).split(" ");
    const drawing = told.slice(end + 1);
    const { groups } = this;
    // Should this be broken off, nobody knows what is on the paper.
    this.lost();
    if (pieces) this.groups = this.change(groups, JSON.parse(pieces), drawing);
    else {
      // The core's own drawing; it escapes every name in it.
      this.element.innerHTML = drawing;
      this.groups = [...axesOf(this.svg).children];
    }
    this.number = Number(number);
    return true;
  }

  /** Puts in what came, which is a drawing with the new groups only; gives the groups there are now. */
  change(before, pieces, drawing) {
    const holder = document.createElement("template");
    holder.innerHTML = drawing;
    const next = holder.content.firstElementChild;
    const came = [...axesOf(next).children];
    // What comes is counted: as many stand in its place.
    const groups = pieced(before, pieces.flatMap(piece => (Array.isArray(piece) ? [piece] : came.splice(0, piece))));
    const kept = new Set(groups);
    for (const group of before) if (!kept.has(group)) group.remove();
    const axes = axesOf(this.svg);
    let after = null;
    for (const group of [...groups].reverse()) {
      if (group.parentNode !== axes) axes.insertBefore(group, after);
      after = group;
    }
    this.head(next);
    return groups;
  }

  /** Name, description and ground of the drawing; what the window shows is set anew from all of it. */
  head(next) {
    for (const { name, value } of next.attributes) this.svg.setAttribute(name, value);
    for (const [index, node] of [...next.children].entries()) {
      const old = this.svg.children[index];
      if (!node.matches("[data-axes]") && !old.isEqualNode(node)) old.replaceWith(node);
    }
  }
}

/** A drawing that is wanted whole, for another place than the bench. */
export function whole(ask) {
  const told = ask(0);
  return told.slice(told.indexOf("\n") + 1);
}

function axesOf(svg) {
  return svg.querySelector("[data-axes]");
}
