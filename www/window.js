// What part of a view's drawing is seen: the whole of it, or closer. Screen geometry only.

const CLOSER = 1.25;
const CLOSEST = 12;

export class Window {
  constructor(view) {
    this.view = view;
    /** The piece of the drawing that is seen, in the drawing's own units; null: all of it. */
    this.piece = null;
    /** Held still while something is carried, so that the drawing does not run away. */
    this.held = null;
    /** The last press slid the paper, so that the click after it means nothing. */
    this.slid = false;
  }

  get svg() {
    return this.view.paper.querySelector("svg");
  }

  apply() {
    const { svg } = this;
    if (!svg) return;
    const all = svg.viewBox.baseVal;
    this.all = { x: all.x, y: all.y, width: all.width, height: all.height };
    this.set(this.held ?? this.piece);
  }

  set(piece) {
    const { x, y, width, height } = piece ?? this.all;
    this.svg?.setAttribute("viewBox", `${x} ${y} ${width} ${height}`);
    this.view.figure.toggleAttribute("data-closer", piece !== null && piece !== this.all);
  }

  hold() {
    this.held = this.piece ?? this.all ?? null;
  }

  release() {
    this.held = null;
    if (this.all) this.set(this.piece);
  }

  fit() {
    this.piece = null;
    if (this.all) this.set(null);
  }

  step(closer) {
    const box = this.view.paper.getBoundingClientRect();
    this.about(box.x + box.width / 2, box.y + box.height / 2, closer ? CLOSER : 1 / CLOSER);
  }

  /** Magnifies about a point of the window, which stays where it is. */
  about(x, y, by) {
    const matrix = this.svg?.getScreenCTM();
    if (!matrix || !this.all) return;
    const at = new DOMPoint(x, y).matrixTransform(matrix.inverse());
    const now = this.piece ?? this.all;
    const width = now.width / by;
    if (width >= this.all.width) return this.fit();
    if (width * CLOSEST < this.all.width) return;
    this.piece = {
      x: at.x - (at.x - now.x) / by,
      y: at.y - (at.y - now.y) / by,
      width,
      height: now.height / by,
    };
    this.set(this.piece);
  }

  /** Slides the drawing with the pointer. */
  slide(from, to) {
    const matrix = this.svg?.getScreenCTM();
    if (!matrix || !this.piece) return;
    const back = matrix.inverse();
    const a = new DOMPoint(from.x, from.y).matrixTransform(back);
    const b = new DOMPoint(to.x, to.y).matrixTransform(back);
    this.slid = true;
    this.piece.x -= b.x - a.x;
    this.piece.y -= b.y - a.y;
    this.set(this.piece);
  }

  listen() {
    const { paper } = this.view;
    paper.addEventListener("wheel", event => {
      // Where the page itself scrolls, the plain wheel is for that.
      const scrolls = document.documentElement.scrollHeight > innerHeight + 1;
      if (scrolls && !event.ctrlKey) return;
      event.preventDefault();
      this.about(event.clientX, event.clientY, event.deltaY < 0 ? 1.12 : 1 / 1.12);
    }, { passive: false });
    // Two fingers magnify, one finger or the mouse slides the paper.
    const down = new Map();
    const spread = () => {
      const [a, b] = [...down.values()];
      return Math.hypot(a.x - b.x, a.y - b.y);
    };
    paper.addEventListener("pointerdown", event => {
      this.slid = false;
      if (event.target.closest(".part, .tag")) return;
      down.set(event.pointerId, { x: event.clientX, y: event.clientY });
    });
    paper.addEventListener("pointermove", event => {
      const last = down.get(event.pointerId);
      if (!last) return;
      const now = { x: event.clientX, y: event.clientY };
      if (down.size === 1) {
        this.slide(last, now);
        down.set(event.pointerId, now);
        return;
      }
      const before = spread();
      down.set(event.pointerId, now);
      const [a, b] = [...down.values()];
      if (before > 0) this.about((a.x + b.x) / 2, (a.y + b.y) / 2, spread() / before);
    });
    const up = event => down.delete(event.pointerId);
    for (const name of ["pointerup", "pointercancel", "pointerleave"]) {
      paper.addEventListener(name, up);
    }
  }
}
