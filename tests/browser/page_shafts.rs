//! A driveshaft with its centre bearings from the shelf, and what goes on paper.

use crate::page::Page;
use crate::seen::Seen;
use serde_json::json;

const OPEN: &str = "const data = new DataTransfer();
    data.items.add(new File([arguments[0]], 'plan.json'));
    document.querySelector('#stage').dispatchEvent(
      new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));";
const STATUS: &str = "document.getElementById('status').textContent";

async fn place_shaft(page: &Page) {
    page.choose("shelf").await;
    page.js(
        "document.querySelector('[data-part=\"DR-SHAFT-M\"]').nextElementSibling.click()",
        vec![],
    )
    .await;
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn a_shaft_and_its_bearings_come_onto_the_truck_and_off_again() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    // Two e-axles: there is nothing that could turn a shaft, and the status line says so.
    place_shaft(&page).await;
    page.wait_until(&format!("{STATUS}.includes('place a central drive first')"))
        .await;
    let plan = include_str!("../../examples/wrong/millbrook-long-shaft.json");
    page.js(OPEN, vec![json!(plan)]).await;
    page.wait_for(r#"[data-view="side"] .part[data-tag="D2"]"#)
        .await;
    page.choose("part").await;
    page.js(
        "const list = document.getElementById('part-list');
         list.value = 'D2'; list.dispatchEvent(new Event('change', { bubbles: true }))",
        vec![],
    )
    .await;
    // Of the commands only the one that takes it off is there.
    page.wait_until("[...document.querySelectorAll('#panel-part .ways button')].filter(b => !b.hidden).length === 1")
        .await;
    page.click("#panel-part .ways button:last-child").await;
    page.wait_until("!document.querySelector('.part[data-tag=\"D2\"]')")
        .await;
    place_shaft(&page).await;
    page.wait_for(r#"[data-view="side"] .part[data-tag="D2"]"#)
        .await;
    page.choose("part").await;
    let bearings = r#"document.querySelector('[data-field="part.D2.bearings"] select')"#;
    page.wait_until(&format!("{bearings} !== null")).await;
    page.js(
        &format!("const list = {bearings}; list.value = '1'; list.dispatchEvent(new Event('change', {{ bubbles: true }}))"),
        vec![],
    )
    .await;
    page.wait_for(r#"[data-field="part.D2.bearing-1-x"]"#).await;
    page.click("#undo").await;
    page.wait_until("!document.querySelector('[data-field=\"part.D2.bearing-1-x\"]')")
        .await;
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn what_is_ticked_goes_on_paper() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    // The printer's own window would stop the test; what is laid out for it stays.
    page.js(
        "window.print = () => { window.printed = (window.printed ?? 0) + 1 }",
        vec![],
    )
    .await;
    page.choose("sheets").await;
    page.wait_for("#print-set [data-print]").await;
    let all = page.count("#print-set [data-print]").await;
    let ticked = page.count("#print-set [data-print]:checked").await;
    assert!((1..all).contains(&ticked), "{ticked} of {all}");
    page.click("#print").await;
    page.wait_until("window.printed === 1").await;
    assert_eq!(page.count("#sheets .sheet svg").await, 3);
    let short = page.count("#sheets section.page").await;
    assert!((1..6).contains(&short), "{short} pages of answers");
    let findings = page
        .count("#sheets .text > figure:first-of-type tbody tr")
        .await;
    page.js(
        "[...document.querySelectorAll('#panel-sheets button')].find(b => b.textContent === 'Tick all').click()",
        vec![],
    )
    .await;
    page.click("#print").await;
    page.wait_until("window.printed === 2").await;
    // Those of the truck, and of its drive once that has come; two ticks are no pages.
    let pages = page.count("#sheets section.page").await;
    assert!(pages > short && pages >= all - 2, "{pages} of {all}");
    assert!(
        page.count("#sheets .text > figure:first-of-type tbody tr")
            .await
            > findings
    );
    assert_eq!(page.errors(), Vec::<String>::new());
}
