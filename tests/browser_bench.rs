//! How long the page's core takes in the browser: the view of a plan of 60, 300 and 1,000 parts,
//! with all three drawings, as text, told whole; and a move, of which only the changes are told. It
//! prints and asserts no time, since machines differ.
//!
//! `cargo xtask build`, then `cargo test --test browser_bench -- --ignored --nocapture`.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]
#![allow(dead_code, reason = "the harness can do more than is asked of it here")]

mod crowded;
#[path = "browser/driver.rs"]
mod driver;
#[path = "browser/page.rs"]
mod page;

use axlewright_core::library::Library;
use page::Page;
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../examples/prairie-loop.json");
const OTHER: &str = include_str!("../examples/millbrook-parcel.json");
const RUNS: usize = 200;

const MEASURE: &str = r#"
const [text, other, runs, tag, done] = arguments;
(async () => {
  const core = await import('./pkg/planner.js');
  await core.default();
  const planner = new core.Planner();
  const opened = JSON.parse(planner.open('crowded.json', text));
  if (!opened.ok) return done({ problem: JSON.stringify(opened) });
  const options = {
    units: 'metric', selected: null, finding: null, carrying: true, date: '2026-02-03',
    show: { zones: true, dimensions: true, hardware: false, part_dimensions: false },
  };
  const { x_mm, y_mm, z_mm } = JSON.parse(text).placed.at(-1).place.free;
  const times = (ask, prepare = () => {}) => {
    const found = [];
    for (let run = 0; run < runs + 20; run += 1) {
      prepare();
      const begun = performance.now();
      const told = ask(run);
      if (run >= 20) found.push(performance.now() - begun);
      if (told[0].length < 100) throw new Error('that is no view');
    }
    return found.sort((a, b) => a - b);
  };
  const whole = words => [words, ...[0, 1, 2].map(view => planner.picture(view, 0))];
  // As the page does it: it says what it has, and reads the numbers of what it gets.
  const has = [0, 0, 0, 0];
  const changed = ask => {
    const told = [ask(has[0]), ...[0, 1, 2].map(view => planner.picture(view, has[view + 1]))];
    has[0] = JSON.parse(told[0]).number;
    // Empty: nothing has changed.
    for (const view of [1, 2, 3]) if (told[view]) has[view] = parseInt(told[view]);
    return told;
  };
  // Ten millimetres at a time, there and back.
  const moved = run => {
    const by = 10 * Math.abs((run + 100) % 200 - 100);
    const edit = { do: 'move', tag, x_mm: x_mm + by, y_mm, z_mm, zone: null };
    return changed(have => planner.probe(edit, options, have));
  };
  const bytes = told => told.join('').length;
  // After another truck, of which nothing can be used again.
  const view = times(() => whole(planner.view(options, 0)), () => {
    planner.open('other.json', other);
    whole(planner.view(options, 0));
    planner.open('crowded.json', text);
  });
  const all = bytes(whole(planner.view(options, 0)));
  const probe = times(moved);
  done({ view, probe, moved: bytes(moved(-1)), bytes: all });
})().catch(error => done({ problem: String(error) }));
"#;

fn at(times: &Value, share: f64) -> f64 {
    let times = times.as_array().unwrap();
    let index = ((times.len() - 1) as f64 * share).round() as usize;
    times[index].as_f64().unwrap()
}

#[tokio::test]
#[ignore = "wants the page and a browser, and only prints: see the head of the file"]
async fn view_and_probe_of_plans_that_grow() {
    let library = Library::shipped();
    let page = Page::start(1366, 768).await;
    println!("milliseconds, p50 / p95; {RUNS} runs at 60 parts, a quarter of that beyond");
    println!("parts   all anew        one moved       bytes of it   bytes of all");
    for size in [60, 300, 1_000] {
        let plan = crowded::plan(&library, EXAMPLE, size);
        let tag = plan.placed.last().unwrap().tag.clone();
        let runs = if size > 100 { RUNS / 4 } else { RUNS };
        let arguments = vec![json!(plan.to_json()), json!(OTHER), json!(runs), json!(tag)];
        let found = page.client.execute_async(MEASURE, arguments).await.unwrap();
        assert!(found["problem"].is_null(), "{}", found["problem"]);
        let pair = |what: &str| {
            format!(
                "{:6.2} / {:6.2}",
                at(&found[what], 0.5),
                at(&found[what], 0.95)
            )
        };
        println!(
            "{size:5} {} {}   {:>8}   {:>8}",
            pair("view"),
            pair("probe"),
            found["moved"].as_u64().unwrap(),
            found["bytes"].as_u64().unwrap()
        );
    }
}
