// Carrying a part by pointer: from the shelf onto the truck, or from one place to another.
// Every move asks the core what the plan would be; only letting go changes the plan.

import { el, tell } from "./dom.js";
import { PART, tagOf } from "./stage.js";

/** A press becomes a drag after this many pixels, so that a click stays a click. */
const SLACK = 4;

export class Carry {
  constructor(stage) {
    this.stage = stage;
    this.bench = stage.bench;
    this.load = null;
    /** The old place of the part, as it is in the drawing now. */
    this.ghost = null;
    /** True in the moment after a drag, in which the browser also reports a click. */
    this.justCarried = false;
    stage.element.addEventListener("pointerdown", event => this.grip(event));
    addEventListener("pointermove", event => this.moved(event));
    addEventListener("pointerup", event => this.letGo(event));
    addEventListener("pointercancel", () => this.cancel());
    addEventListener("keydown", event => {
      if (event.key === "Escape" && this.load) {
        event.preventDefault();
        event.stopImmediatePropagation();
        this.cancel();
      }
    }, true);
  }

  get active() {
    return this.load?.moving === true;
  }

  /** Takes hold of a part on the truck. */
  grip(event) {
    const element = event.target.closest(PART);
    if (!element || event.button !== 0 || this.load) return;
    const view = element.closest(".view").dataset.view;
    const part = this.bench.part(tagOf(element));
    if (!part) return;
    const fixed = part.locked
      ? `${part.tag} is locked. Unlock it in the Part panel to move it.`
      : part.movable === false ? `${part.tag} goes where its two ends are.` : null;
    const from = { x: event.clientX, y: event.clientY };
    const at = { x_mm: part.x_mm, y_mm: part.y_mm, z_mm: part.z_mm };
    const seen = this.stage.seenAt(view, at);
    this.load = {
      pointer: event.pointerId,
      tag: part.tag,
      part: null,
      fixed,
      at,
      view,
      from,
      // The part's own corner, as seen from the pointer that took hold of it.
      lead: seen ? { x: seen.x - from.x, y: seen.y - from.y } : { x: 0, y: 0 },
      moving: false,
      edit: null,
      ghost: this.stage.partElement(part.tag, view)?.cloneNode(true) ?? null,
    };
    this.stage.activate(view);
  }

  /** Takes a part from the shelf. */
  take(event, part) {
    if (event.button !== 0 || this.load) return;
    this.load = {
      pointer: event.pointerId,
      tag: null,
      part,
      before: new Set(this.bench.view.placed.map(each => each.tag)),
      fixed: null,
      at: { x_mm: 0, y_mm: 0, z_mm: 0 },
      view: null,
      from: { x: event.clientX, y: event.clientY },
      lead: { x: 0, y: 0 },
      moving: false,
      edit: null,
      ghost: null,
    };
  }

  moved(event) {
    const { load } = this;
    if (!load || event.pointerId !== load.pointer) return;
    load.to = { x: event.clientX, y: event.clientY, free: event.altKey };
    if (!load.moving) {
      const far = Math.hypot(load.to.x - load.from.x, load.to.y - load.from.y) > SLACK;
      if (!far) return;
      if (!this.start()) return;
    }
    event.preventDefault();
    if (load.chip) load.chip.style.translate = `${load.to.x}px ${load.to.y}px`;
    this.frame ??= requestAnimationFrame(() => {
      this.frame = null;
      this.try();
    });
  }

  start() {
    const { load, stage } = this;
    if (load.fixed) {
      tell(load.fixed);
      this.load = null;
      return false;
    }
    load.moving = true;
    this.bench.carrying = true;
    // From here the pointer is ours, also outside the window and while drawings are replaced.
    stage.element.setPointerCapture?.(load.pointer);
    document.body.setAttribute("data-carrying", "");
    getSelection()?.removeAllRanges();
    for (const view of stage.views.values()) view.window.hold();
    if (load.part) {
      load.chip = el("div", { class: "chip", "aria-hidden": "true" }, load.part.name);
      document.body.append(load.chip);
    } else {
      this.bench.options.selected = load.tag;
    }
    return true;
  }

  /** Asks the core what the plan would be with the part here. */
  try() {
    const { load, stage, bench } = this;
    if (!load?.moving || !load.to) return;
    // From the shelf, any view will do; on the truck, the view in which it was taken.
    const view = load.tag ? load.view : stage.viewAt(load.to.x, load.to.y);
    load.chip?.toggleAttribute("data-over", view !== null);
    if (!view) {
      if (load.edit) bench.refresh();
      load.edit = null;
      stage.note(load.part ? "Carry it onto the truck" : "");
      return;
    }
    const wish = stage.placeAt(view, load.to.x + load.lead.x, load.to.y + load.lead.y, load.at);
    if (!wish) return;
    // Free of snapping only on the truck: from the shelf, the core must first find its side.
    const free = load.to.free && load.tag;
    const snapped = free ? { ...wish, zone: null, to: [] } : bench.snap({
      tag: load.tag,
      part: load.part?.id ?? null,
      centred: load.part !== null,
      view,
      ...wish,
    });
    if (snapped.refused !== undefined) {
      stage.note(snapped.refused);
      return;
    }
    const place = { x_mm: snapped.x_mm, y_mm: snapped.y_mm, z_mm: snapped.z_mm };
    const edit = load.tag
      ? { do: "move", tag: load.tag, ...place, zone: snapped.zone ?? null }
      : { do: "place", part: load.part.id, ...place, zone: snapped.zone ?? null, turn: 0 };
    const refused = bench.probe(edit);
    if (refused !== null) {
      load.edit = null;
      stage.note(refused);
      return;
    }
    load.edit = edit;
    stage.note(this.where(snapped.to ?? []));
  }

  /** Where the part is, in the words of the core. */
  where(to) {
    const { load, bench } = this;
    const placed = load.tag ? bench.part(load.tag) : this.newest();
    if (!placed) return "";
    const texts = placed.fields
      .filter(field => field.kind === "number" && /(^|[.:/-])[xyz]$/.test(field.id))
      .map(field => `${field.label} ${field.text} ${field.unit}`);
    return [placed.tag, placed.zone_name, ...texts, ...to].filter(Boolean).join(" · ");
  }

  /** The part that the plan on show has and the plan on the bench has not. */
  newest() {
    const { before } = this.load;
    return this.bench.view.placed.find(each => !before.has(each.tag)) ?? null;
  }

  /** After each drawing: the old place stays visible as a ghost. */
  drawn() {
    const { load, stage } = this;
    this.ghost?.remove();
    this.ghost = null;
    if (!load?.moving || !load.ghost) return;
    const part = stage.partElement(load.tag, load.view);
    if (!part) return;
    const ghost = load.ghost.cloneNode(true);
    this.ghost = ghost;
    ghost.setAttribute("class", "was-here");
    ghost.removeAttribute("tabindex");
    ghost.removeAttribute("data-tag");
    ghost.setAttribute("aria-hidden", "true");
    part.before(ghost);
  }

  letGo(event) {
    const { load } = this;
    if (!load || event.pointerId !== load.pointer) return;
    if (!load.moving) {
      this.load = null;
      return;
    }
    load.to = { x: event.clientX, y: event.clientY, free: event.altKey };
    this.try();
    const { edit } = load;
    const tag = load.tag ?? (edit ? this.newest()?.tag : null);
    this.end();
    if (!edit) {
      this.bench.refresh();
      tell(load.part ? "Not placed: let go over the truck" : `${load.tag} stays where it was`);
      return;
    }
    const refused = this.bench.edit(edit);
    if (refused !== null) {
      this.bench.refresh();
      tell(refused);
      return;
    }
    if (tag) this.bench.select(tag);
    if (tag) this.stage.focusPart(tag, load.view ?? this.stage.active);
    tell(load.tag ? `${tag} moved` : `${load.part.name} placed as ${tag}`);
  }

  cancel() {
    if (!this.load) return;
    const { moving } = this.load;
    this.end();
    if (!moving) return;
    this.bench.refresh();
    tell("Drag cancelled, nothing changed");
  }

  end() {
    this.bench.carrying = false;
    cancelAnimationFrame(this.frame);
    this.frame = null;
    this.load?.chip?.remove();
    this.load = null;
    this.stage.note("");
    document.body.removeAttribute("data-carrying");
    for (const view of this.stage.views.values()) view.window.release();
    this.justCarried = true;
    setTimeout(() => { this.justCarried = false; }, 0);
  }
}
