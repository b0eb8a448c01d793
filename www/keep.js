// Keeps the plan in the browser, so that a reload or a flat battery loses nothing.

import { tell } from "./dom.js";

const PLAN = "axlewright.plan";
const LOOK = "axlewright.look";
const ASIDE = "axlewright.plan.aside";
const FILES = "axlewright.files";
const BEFORE = "axlewright.plan.before";

/** Storage may be full or forbidden; the page then works without it, and says so once. */
function store(name, text) {
  try {
    localStorage.setItem(name, text);
    return true;
  } catch {
    return false;
  }
}

function stored(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

export class Keep {
  constructor(bench) {
    this.bench = bench;
    this.warned = false;
    bench.kept = () => this.write();
  }

  write() {
    const { options } = this.bench;
    const look = { units: options.units, show: options.show, letters: this.bench.letters };
    const kept = store(PLAN, this.bench.planner.save()) && store(LOOK, JSON.stringify(look));
    if (kept || this.warned) return;
    this.warned = true;
    tell("This browser does not let the page keep the plan. Use Save before you leave.");
  }

  /** Restores what was kept; a plan that cannot be read is put aside, never thrown away. */
  async restore() {
    this.restoreLook();
    await this.restoreFiles();
    const text = stored(PLAN);
    if (text === null) return;
    const { problems } = this.bench.restore(text);
    if (problems === undefined) return;
    store(ASIDE, text);
    this.aside = problems;
  }

  restoreLook() {
    const { options } = this.bench;
    try {
      const look = JSON.parse(stored(LOOK) ?? "{}");
      if (look.units === "us" || look.units === "metric") options.units = look.units;
      if (look.letters === false) this.bench.letters = false;
      for (const name of Object.keys(options.show)) {
        if (typeof look.show?.[name] === "boolean") options.show[name] = look.show[name];
      }
    } catch {
      // A look that cannot be read is not worth a word; the plan is elsewhere.
    }
  }

  /** Chassis, parts, trailers and laws that the person added: the plan may need them. */
  get files() {
    try {
      const files = JSON.parse(stored(FILES) ?? "[]");
      return Array.isArray(files) ? files.filter(each => typeof each?.text === "string") : [];
    } catch {
      return [];
    }
  }

  addFile(name, text) {
    const others = this.files.filter(each => each.name !== name);
    store(FILES, JSON.stringify([...others, { name, text }]));
  }

  async restoreFiles() {
    for (const { name, text } of this.files) await this.bench.add(String(name), text);
  }

  /** Called before another plan takes the place of this one. */
  setAside(text = this.bench.planner.save()) {
    store(BEFORE, text);
  }

  get before() {
    return stored(BEFORE);
  }

  get putAside() {
    return stored(ASIDE);
  }
}
