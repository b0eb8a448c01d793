//! Drawings that are mended group by group, against the same drawings put on the page whole.

use crate::page::Page;
use crate::seen::Seen;
use serde_json::json;

/// Moves, choices and switches one after another; answers how many drawings were compared, how many of
/// them were mended in place, and the first difference.
const COMPARE: &str = r"
const done = arguments[0];
(async () => {
  const core = await import('./pkg/planner.js');
  await core.default();
  const { Paper } = await import('./paper.js');
  const planner = new core.Planner();
  const demo = JSON.parse(planner.view({}));
  const [one, two] = demo.placed.filter(part => part.movable);
  const shows = [{ dimensions: true }, { dimensions: true, zones: true }, { frame: true, angles: true }, {}];
  const holders = [0, 1, 2].map(() => document.createElement('div'));
  const papers = holders.map(holder => new Paper(holder));
  const plain = node => node.innerHTML.replace(/\s*\n\s*/g, '');
  let [compared, mended, first] = [0, 0, null];
  for (let run = 0; run < 120; run += 1) {
    const part = run % 7 < 5 ? one : two;
    const choice = {
      units: run % 11 === 10 ? 'us' : 'metric',
      selected: run % 3 === 0 ? part.tag : null,
      finding: run % 5 === 4 ? `${demo.findings[0].id} ${demo.findings[0].subject}` : null,
      show: shows[Math.floor(run / 20) % shows.length],
    };
    const edit = run % 10 === 9 ? { do: 'delete', tag: two.tag } : { do: 'move', tag: part.tag,
      x_mm: part.x_mm + 90 * (run % 13), y_mm: part.y_mm, z_mm: part.z_mm + 40 * (run % 4), zone: null };
    const told = JSON.parse(planner.probe(edit, choice));
    if (told.refused !== undefined) throw new Error(told.refused);
    for (const [index, paper] of papers.entries()) {
      const drawing = planner.picture(index);
      const before = holders[index].firstElementChild;
      paper.put(drawing);
      if (before && before === holders[index].firstElementChild) mended += 1;
      const whole = document.createElement('div');
      whole.innerHTML = drawing;
      compared += 1;
      if (plain(whole) !== plain(holders[index])) {
        const [a, b] = [plain(whole).split('<g '), plain(holders[index]).split('<g ')];
        const at = a.findIndex((group, place) => group !== b[place]);
        first ??= `run ${run}, drawing ${index}: ${a[at]} | ${b[at]}`;
      }
    }
  }
  done({ compared, mended, first });
})().catch(error => done({ problem: String(error) }));
";

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn mended_drawings_are_those_that_the_core_draws() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let found = page.client.execute_async(COMPARE, vec![]).await.unwrap();
    assert_eq!(found["problem"], json!(null));
    assert_eq!(found["first"], json!(null));
    assert_eq!(found["compared"], 360);
    assert!(found["mended"].as_u64().unwrap() > 340, "{found}");
}
