// The second program, beside the page: what takes longer than a mouse move is worked out here.

import start, { Study } from "./pkg/study.js";

const study = start().then(() => new Study());

study.then(
  () => postMessage({ loaded: [import.meta.url, ...performance.getEntriesByType("resource").map(each => each.name)] }),
  error => postMessage({ broken: String(error?.message ?? error) }),
);

addEventListener("message", async ({ data: { number, plan, ask, args } }) => {
  try {
    const program = await study;
    if (plan !== undefined) {
      const { problems } = JSON.parse(program.put(plan));
      if (problems !== undefined) throw new Error(problems.map(each => each.what).join("; "));
    }
    const telling = share => postMessage({ number, share });
    postMessage({ number, answer: JSON.parse(program[ask](...args, telling)) });
  } catch (error) {
    // A program that trapped is of no use any more; the next question starts a new one.
    if (error instanceof WebAssembly.RuntimeError) postMessage({ broken: String(error.message) });
    else postMessage({ number, failed: String(error?.message ?? error) });
  }
});
