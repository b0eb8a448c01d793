// The shelf: every part there is, by kind, with mass and size. Carried onto the truck by
// pointer, or chosen and placed by button or key.

import { el, say, tell } from "./dom.js";

export class Shelf {
  constructor(bench, stage, host) {
    this.bench = bench;
    this.stage = stage;
    this.search = el("input", {
      type: "search", id: "shelf-search", placeholder: "Find a part", autocomplete: "off",
      "aria-label": "Find a part",
    });
    this.count = el("p", { class: "hint", role: "status" });
    this.list = el("div", { id: "shelf" });
    host.append(
      el("div", { class: "find" }, this.search, this.count), this.list,
    );
    this.search.addEventListener("input", () => this.sift());
    this.search.addEventListener("keydown", event => {
      if (event.key === "Escape" && this.search.value) {
        this.search.value = "";
        this.sift();
      } else if (event.key === "ArrowDown") {
        event.preventDefault();
        this.visible()[0]?.focus();
      }
    });
    this.list.addEventListener("keydown", event => this.walk(event));
    this.fill();
  }

  /** Writes the shelf anew: at the start, after opening a parts file, and with other units. */
  fill() {
    const open = new Set([...this.list.querySelectorAll("details[open]")].map(e => e.dataset.kind));
    const first = this.list.childElementCount === 0;
    const { shelf } = this.bench.catalogue();
    this.list.replaceChildren(...shelf.map((group, index) => {
      const parts = group.parts.map(part => this.item(part));
      return el("details", {
        "data-kind": group.kind, open: first ? index === 0 : open.has(group.kind),
      }, el("summary", {}, el("span", {}, group.words), el("span", { class: "count" }, String(parts.length))),
      el("ul", {}, ...parts));
    }));
    this.sift();
  }

  item(part) {
    const choose = el("button", {
      type: "button", class: "pick", "data-part": part.id,
      "aria-label": `${part.name}, ${part.mass}, ${part.size}. Press Enter to place it`,
    }, el("span", { class: "part-name" }, part.name),
    el("span", { class: "figures" }, el("span", {}, part.mass), el("span", {}, part.size)));
    const place = el("button", {
      type: "button", class: "place", title: "Place where it fits",
      "aria-label": `Place ${part.name}`, tabindex: "-1",
    }, "Place");
    choose.addEventListener("pointerdown", event => {
      // A finger on the list scrolls it; the grip at the left takes the part.
      if (event.pointerType === "touch" && !event.target.closest(".grip")) return;
      this.stage.carry.take(event, part);
    });
    choose.addEventListener("dragstart", event => event.preventDefault());
    choose.addEventListener("click", event => {
      if (this.stage.carry.justCarried) return;
      this.choose(choose);
      // A key press, not a pointer: Enter places.
      if (event.detail === 0) this.place(part);
    });
    place.addEventListener("click", () => this.place(part));
    const grip = el("span", { class: "grip", "aria-hidden": "true" });
    choose.prepend(grip);
    return el("li", { "data-words": `${part.name} ${part.id}`.toLowerCase() }, choose, place);
  }

  choose(button) {
    for (const each of this.list.querySelectorAll(".pick[data-chosen]")) {
      each.removeAttribute("data-chosen");
      each.nextElementSibling.tabIndex = -1;
    }
    button.setAttribute("data-chosen", "");
    button.nextElementSibling.tabIndex = 0;
  }

  place(part) {
    const spot = this.bench.spot(part.id, this.stage);
    if (spot.refused !== undefined) {
      tell(spot.refused);
      return;
    }
    const before = new Set(this.bench.view.placed.map(each => each.tag));
    const refused = this.bench.edit({ do: "place", part: part.id, turn: 0, ...spot });
    if (refused !== null) {
      tell(refused);
      return;
    }
    const placed = this.bench.view.placed.find(each => !before.has(each.tag));
    if (placed) {
      this.bench.select(placed.tag);
      // Arrows move it from here on.
      this.stage.focusPart(placed.tag, this.stage.large);
    }
    tell(`${part.name} placed as ${placed?.tag ?? "new part"}, ${placed?.zone_name ?? ""}`);
  }

  sift() {
    const words = this.search.value.trim().toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const group of this.list.children) {
      const kind = group.querySelector("summary").textContent.toLowerCase();
      let any = false;
      for (const item of group.querySelectorAll("li")) {
        const text = `${kind} ${item.dataset.words}`;
        item.hidden = !words.every(word => text.includes(word));
        if (!item.hidden) {
          any = true;
          shown += 1;
        }
      }
      group.hidden = !any;
      if (words.length > 0) {
        group.wasOpen ??= group.open;
        group.open = any;
      } else if (group.wasOpen !== undefined) {
        group.open = group.wasOpen;
        group.wasOpen = undefined;
      }
    }
    say(this.count, words.length === 0 ? "" : shown === 1 ? "1 part" : `${shown} parts`);
    this.count.hidden = words.length === 0;
  }

  visible() {
    return [...this.list.querySelectorAll("summary, .pick")].filter(each => each.checkVisibility());
  }

  walk(event) {
    const way = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!way || event.shiftKey || event.ctrlKey) return;
    const all = this.visible();
    const at = all.indexOf(document.activeElement);
    if (at < 0) return;
    event.preventDefault();
    (all[at + way] ?? (way < 0 ? this.search : null))?.focus();
  }
}
