// Puts the page together. What each piece does is in the file of its name.

import { DrivePanel } from "./drive.js";
import { Files } from "./files.js";
import { Judgement } from "./judgement.js";
import { Keep } from "./keep.js";
import { Keys } from "./keys.js";
import { Pages } from "./pages.js";
import { Bench } from "./plan.js";
import { LoadPanel, NotesPanel, PartPanel, Tabs, TruckPanel } from "./panels.js";
import { Sheets } from "./sheets.js";
import { Shelf } from "./shelf.js";
import { Stage } from "./stage.js";
import { Yard } from "./yard.js";
import { by, el, say, tell } from "./dom.js";

const PANELS = [
  ["shelf", "Shelf"], ["part", "Part"], ["truck", "Truck"],
  ["load", "Load"], ["drive", "Drive"], ["sheets", "Sheets"], ["notes", "Notes"],
];

try {
  await start(await Bench.open());
} catch (error) {
  fail(error);
}

async function start(bench) {
  const stage = new Stage(bench);
  const judgement = new Judgement(bench, stage);
  const pages = new Pages(bench);
  const tabs = new Tabs(document.querySelector("[role=tablist]"), PANELS);
  tabs.onChoose = name => by("stage").toggleAttribute("data-driving", name === "drive");
  const keep = new Keep(bench);
  const part = new PartPanel(bench, stage, by("panel-part"));
  new TruckPanel(bench, by("panel-truck"));
  new LoadPanel(bench, by("panel-load"));
  const drive = new DrivePanel(bench, by("panel-drive"));
  drive.onDriven = () => {
    judgement.draw(bench.view, bench.trial !== null);
    pages.draw(bench.view, false);
  };
  drive.onPages = id => {
    pages.draw(bench.view, false);
    pages.show(id);
  };
  new NotesPanel(bench, by("panel-notes"));
  nameAndUnits(bench, () => shelf.fill());

  // What an earlier page of another edition kept must not stop this one from opening.
  try {
    await keep.restore();
  } catch (error) {
    console.warn("nothing restored", error);
  }
  if (!bench.view) bench.refresh();

  const shelf = new Shelf(bench, stage, by("panel-shelf"));
  const after = () => {
    shelf.fill();
    for (const view of stage.views.values()) view.window.fit();
  };
  const files = new Files(bench, keep, after);
  new Yard(bench, keep, after);
  const sheets = new Sheets(bench, by("panel-sheets"), files);
  new Keys(bench, stage, part, files, tabs, sheets).draw(bench.view);

  stage.activate("side");
  stage.onChoose = () => tabs.choose("part");
  judgement.onPage = id => pages.show(id);
  stage.onFinding = finding => judgement.open(finding);
  if (keep.aside) {
    files.complain(keep.aside,
      "The plan kept in this browser could not be read. It is put aside; this is the demo truck.");
  }
  document.documentElement.dataset.ready = "";
  // The second program comes when the first view is there: it must be at hand without a network too.
  (globalThis.requestIdleCallback ?? setTimeout)(() => {
    bench.study.start();
    drive.begin();
    workOffline(bench.study.loaded);
  });
  tell(`${bench.view.name} is on the bench`);
}

function nameAndUnits(bench, refill) {
  const name = by("plan-name");
  name.addEventListener("change", () => {
    const refused = bench.edit({ do: "rename", name: name.value });
    if (refused !== null) name.value = bench.view.name;
    tell(refused ?? "Renamed");
  });
  name.addEventListener("keydown", event => {
    if (event.key === "Enter") name.blur();
  });
  const units = [...document.querySelectorAll("[name=units]")];
  for (const button of units) {
    button.addEventListener("change", () => {
      bench.options.units = button.value;
      bench.refresh();
      bench.kept?.();
      refill();
      tell(button.value === "us" ? "Pounds and inches" : "Kilograms and millimetres");
    });
  }
  bench.onView(view => {
    if (document.activeElement !== name && name.value !== view.name) name.value = view.name;
    for (const button of units) button.checked = button.value === bench.options.units;
    document.title = `${view.name} – Axlewright`;
  });
}

/** A mistake of ours, said where the person looks; what was last kept is safe. */
addEventListener("error", mistake);
addEventListener("unhandledrejection", mistake);

function mistake() {
  tell("Something went wrong inside the page. The plan as last changed is kept: reload the page.");
}

/** Said plainly when the browser cannot run the core. */
function fail(error) {
  console.error(error);
  by("bench").replaceChildren(el("div", { class: "failure" },
    el("h2", {}, "The bench could not be opened"),
    el("p", {}, typeof WebAssembly === "undefined"
      ? "This browser cannot run WebAssembly, or it is switched off. A current browser can."
      : "A part of the page could not be loaded or started. Reload the page; if it stays so, the message below helps whoever looks after it."),
    el("pre", {}, String(error?.message ?? error)),
    el("p", {}, "A plan kept in this browser is still there and untouched.")));
  by("block").inert = true;
  say(by("status"), "The bench could not be opened");
}

/** Lets the service worker store the files that this page has loaded. */
async function workOffline(later) {
  if (!("serviceWorker" in navigator)) return;
  try {
    await navigator.serviceWorker.register("sw.js");
    const { active } = await navigator.serviceWorker.ready;
    const beside = await later;
    navigator.serviceWorker.addEventListener("message", ({ data }) => {
      document.documentElement.toggleAttribute("data-offline-ready", data.kept === true);
      say(by("offline"), data.kept ? "Works without a network" : "");
    });
    const here = location.href.split(/[?#]/)[0];
    const linked = [...document.querySelectorAll("link[href], script[src]")]
      .map(each => each.href || each.src);
    const loaded = performance.getEntriesByType("resource")
      .map(each => each.name).filter(name => name.startsWith(`${location.origin}/`));
    active.postMessage({ keep: [...new Set([here, ...linked, ...loaded, ...beside])] });
  } catch (error) {
    console.warn("not kept for offline use", error);
  }
}
