// Asks the second program, which works beside the page: pages of answers, sheets, drives, examples.
// It is loaded when the first view is there, and again after somebody has stopped it.

/** Somebody stopped the work, or newer work took its place. */
export class Stopped extends Error {}

export class Study {
  constructor(bench) {
    this.bench = bench;
    this.worker = null;
    this.number = 0;
    this.waiting = new Map();
    /** Data files that the person added: a new worker has to be told of them. */
    this.added = new Map();
    this.plan = null;
    /** Addresses that the worker has loaded, for keeping the page offline. */
    this.loaded = new Promise(resolve => { this.hasLoaded = resolve; });
  }

  start() {
    if (this.worker) return;
    this.plan = null;
    this.worker = new Worker(new URL("./study-worker.js", import.meta.url), { type: "module" });
    this.worker.addEventListener("message", ({ data }) => this.heard(data));
    this.worker.addEventListener("error", event => this.stop(new Error(event.message || "it could not be loaded")));
    for (const [name, [text, ask]] of this.added) this.send(ask, [name, text]).catch(() => {});
  }

  heard({ number, loaded, broken, answer, failed, share }) {
    if (loaded !== undefined) this.hasLoaded(loaded);
    if (broken !== undefined) this.stop(new Error(broken));
    const waiting = this.waiting.get(number);
    if (!waiting) return;
    if (share !== undefined) {
      waiting.onShare?.(share);
      return;
    }
    this.waiting.delete(number);
    if (failed !== undefined) waiting.reject(new Error(failed));
    else waiting.resolve(answer);
  }

  send(ask, args, onShare, plan) {
    const number = ++this.number;
    return new Promise((resolve, reject) => {
      this.waiting.set(number, { resolve, reject, onShare });
      this.worker.postMessage({ number, plan, ask, args });
    });
  }

  /** What the program answers about the plan on the bench; `onShare` hears how far it is, 0 to 1. */
  ask(name, args = [], onShare = undefined) {
    this.start();
    const plan = this.bench.planner.save();
    const newer = plan === this.plan ? undefined : plan;
    this.plan = plan;
    return this.send(name, args, onShare, newer);
  }

  /** Reads a data file that a person wrote: `{what, data}`, or `{problems}`; a route: `{id, name}`. */
  async addFile(name, text, ask = "toml") {
    const answer = await this.ask(ask, [name, text]);
    if (answer.problems === undefined) this.added.set(name, [text, ask]);
    return answer;
  }

  /** Ends what is being worked out; the next question starts afresh. */
  stop(reason = new Stopped("stopped")) {
    this.worker?.terminate();
    this.worker = null;
    // What cannot be loaded must not keep the rest of the page from being kept offline.
    if (!(reason instanceof Stopped)) this.hasLoaded([]);
    const waiting = [...this.waiting.values()];
    this.waiting.clear();
    for (const { reject } of waiting) reject(reason);
  }
}
