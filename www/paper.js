// Puts a drawing of the core on its paper. Every group of a drawing stands on a line of its own: of a
// drawing that has changed a little, only the groups that changed are put in anew.

const AXES = /<g data-axes="[^"]*">\n/;
const END = "</g>\n</svg>";

export class Paper {
  constructor(element) {
    this.element = element;
    this.drawn = null;
    /** The drawing's lines, when the page has one node for each of them. */
    this.lines = null;
  }

  get svg() {
    return this.element.firstElementChild;
  }

  /** True when something has changed. The drawing is the core's own; it escapes every name in it. */
  put(drawing) {
    if (drawing === this.drawn) return false;
    this.drawn = drawing;
    const { head, lines } = taken(drawing);
    if (!this.mend(head, lines)) this.element.innerHTML = drawing;
    this.head = head;
    const axes = this.svg?.querySelector("[data-axes]");
    // A name with a line break in it would part a group: such a drawing is always put in whole.
    this.lines = axes?.children.length === lines.length ? lines : null;
    return true;
  }

  mend(head, lines) {
    const axes = this.lines && this.svg?.querySelector("[data-axes]");
    if (!axes) return false;
    const old = this.lines;
    const many = Math.min(old.length, lines.length);
    let [first, last] = [0, 0];
    if (old.length !== lines.length) {
      while (first < many && old[first] === lines[first]) first += 1;
      while (last < many - first && old[old.length - 1 - last] === lines[lines.length - 1 - last]) last += 1;
      const came = lines.slice(first, lines.length - last);
      const found = nodes(came);
      if (found.length !== came.length) return false;
      const gone = [...axes.children].slice(first, old.length - last);
      const after = axes.children[old.length - last] ?? null;
      for (const node of found) axes.insertBefore(node, after);
      for (const node of gone) node.remove();
    } else {
      const changed = lines.map((_, index) => index).filter(index => lines[index] !== old[index]);
      const found = nodes(changed.map(index => lines[index]));
      if (found.length !== changed.length) return false;
      const places = changed.map(index => axes.children[index]);
      places.forEach((node, index) => node.replaceWith(found[index]));
    }
    if (head !== this.head) this.change(head);
    // What the window shows of the drawing is set anew from the whole of it.
    this.svg.setAttribute("viewBox", head.match(/viewBox="([^"]*)"/)[1]);
    return true;
  }

  /** Name, description and ground of the drawing. */
  change(head) {
    const { svg } = this;
    const [next] = parsed(`${head}</g></svg>`).children;
    for (const { name, value } of next.attributes) svg.setAttribute(name, value);
    const axes = svg.querySelector("[data-axes]");
    for (const node of [...svg.childNodes]) if (node !== axes) node.remove();
    const ground = [...next.childNodes].filter(node => !node.matches?.("[data-axes]"));
    axes.before(...ground);
  }
}

/** What stands before the groups, and the groups' lines. */
function taken(drawing) {
  const found = drawing.match(AXES);
  if (!found || !drawing.endsWith(END)) return { head: drawing, lines: [] };
  const start = found.index + found[0].length;
  const body = drawing.slice(start, -END.length);
  return { head: drawing.slice(0, start), lines: body.split("\n").slice(0, -1) };
}

/** A piece of the core's own drawing, as nodes. */
function parsed(drawing) {
  const holder = document.createElement("template");
  holder.innerHTML = drawing;
  return holder.content;
}

function nodes(lines) {
  return lines.length === 0 ? [] : [...parsed(`<svg>${lines.join("")}</svg>`).firstChild.children];
}
