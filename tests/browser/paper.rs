//! What the page puts together from changes, against drawings and words that it is told whole.

use crate::page::Page;
use crate::seen::Seen;
use serde_json::json;

/// Moves, choices and switches one after another, told to one planner by changes and to another whole;
/// answers how many drawings were compared, how many of them were mended in place, and the first
/// difference.
const COMPARE: &str = r"
const done = arguments[0];
(async () => {
  const core = await import('./pkg/planner.js');
  await core.default();
  const { Paper, whole } = await import('./paper.js');
  const { together } = await import('./held.js');
  const [planner, other] = [new core.Planner(), new core.Planner()];
  planner.enter('name', 'two\nlines', 'metric');
  other.enter('name', 'two\nlines', 'metric');
  const demo = JSON.parse(other.view({}, 0));
  const [one, two] = demo.placed.filter(part => part.movable);
  const shows = [{ dimensions: true }, { dimensions: true, zones: true }, { frame: true, angles: true }, {}];
  const holders = [0, 1, 2].map(() => document.createElement('div'));
  const papers = holders.map(holder => new Paper(holder));
  const plain = node => node.innerHTML.replace(/\s*\n\s*/g, '');
  const sorted = (name, value) => (value && typeof value === 'object' && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort()) : value);
  const text = view => JSON.stringify({ ...view, number: 0 }, sorted);
  let [compared, mended, first, held] = [0, 0, null, {}];
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
    const told = JSON.parse(planner.probe(edit, choice, held.number ?? 0));
    if (told.refused !== undefined) throw new Error(told.refused);
    held = together(held, told);
    const all = JSON.parse(other.probe(edit, choice, 0));
    if (text(held) !== text(all)) first ??= `run ${run}, words: ${text(held)} | ${text(all)}`;
    for (const [index, paper] of papers.entries()) {
      const before = holders[index].firstElementChild;
      paper.put(have => planner.picture(index, have));
      if (before && before === holders[index].firstElementChild) mended += 1;
      const sheet = document.createElement('div');
      sheet.innerHTML = whole(have => other.picture(index, have));
      compared += 1;
      if (plain(sheet) !== plain(holders[index])) {
        const [a, b] = [plain(sheet).split('<g '), plain(holders[index]).split('<g ')];
        const at = a.findIndex((group, place) => group !== b[place]);
        first ??= `run ${run}, drawing ${index}: ${a[at]} | ${b[at]}`;
      }
    }
  }
  const same = planner.picture(0, papers[0].number);
  const forgotten = planner.picture(0, papers[0].number - 1);
  done({ compared, mended, first, same, forgotten: forgotten.length > 10000 });
})().catch(error => done({ problem: String(error) }));
";

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn what_is_put_together_from_changes_is_what_the_core_tells_whole() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let found = page.client.execute_async(COMPARE, vec![]).await.unwrap();
    assert_eq!(found["problem"], json!(null));
    assert_eq!(found["first"], json!(null));
    assert_eq!(found["compared"], 360);
    assert_eq!(found["mended"], 357, "all but the first of each view");
    assert_eq!(found["same"], "", "nothing has changed");
    assert_eq!(found["forgotten"], true, "told whole");
}
