//! Pages of answers over the stage.

use crate::page::Page;
use crate::seen::Seen;
use fantoccini::key::Key;
use serde_json::json;

/// What has the focus, as a selector would name it.
const FOCUS: &str = "const at = document.activeElement;
    return at.dataset.page ?? at.className ?? at.tagName";

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn page_of_answers_opens_and_closes_by_keyboard_alone() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let law = r#"#pages [data-page="law"]"#;
    let focus = "document.querySelector(arguments[0]).focus()";
    page.js(focus, vec![json!(law)]).await;
    page.press(&[Key::Enter.into()]).await;
    page.wait_until("!document.getElementById('page').hidden")
        .await;
    assert_eq!(page.text("#page-title").await, "Road law");
    assert_eq!(
        page.attr(law, "aria-expanded").await.as_deref(),
        Some("true")
    );
    assert_eq!(page.js(FOCUS, vec![]).await, "content");
    page.wait_for("#page caption").await;
    // Every table has its name, its marks and its figures.
    assert!(page.count("#page caption").await >= 2);
    assert!(page.count("#page .figures-right").await > 10);
    let group = page.text("#page tbody tr:first-child th").await;
    assert!(group.to_lowercase().starts_with("axles 1 to"), "{group}");
    page.screenshot("page-law-1366x768").await;
    page.press(&[Key::Escape.into()]).await;
    page.wait_until("document.getElementById('page').hidden")
        .await;
    assert_eq!(page.js(FOCUS, vec![]).await, "law");
    assert_eq!(
        page.attr(law, "aria-expanded").await.as_deref(),
        Some("false")
    );
    // In another size the page still lies inside the window.
    for (width, height) in [(820, 1180), (683, 384)] {
        page.resize(width, height).await;
        page.js(
            "document.querySelector(arguments[0]).click()",
            vec![json!(law)],
        )
        .await;
        let [left, top, wide, high] = page.place("#page").await;
        let inside = left >= 0.0 && top >= 0.0;
        let fits = left + wide <= f64::from(width) && top + high <= f64::from(height);
        assert!(inside && fits, "{left} {top} {wide} {high} at {width}");
        page.screenshot(&format!("page-law-{width}x{height}")).await;
        page.click("#page .close").await;
    }
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn open_page_follows_the_plan_also_while_something_moves() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    page.click(r#"#pages [data-page="loads"]"#).await;
    let gross = "#page tbody tr:nth-last-child(2) td:last-child";
    let before = page.text(gross).await;
    // A slide that is not let go yet.
    let slide = "const slider = document.querySelector('#panel-truck [data-field=\"wheelbase\"] [type=range]');
        slider.value = slider.max; slider.dispatchEvent(new Event('input', { bubbles: true }));";
    page.choose("truck").await;
    let slid = format!("document.querySelector('{gross}').textContent !== '{before}'");
    page.js(slide, vec![]).await;
    page.wait_until(&slid).await;
    // Taken back: the plan never changed.
    let back = "const slider = document.querySelector('#panel-truck [data-field=\"wheelbase\"] [type=range]');
        slider.dispatchEvent(new Event('change', { bubbles: true }));";
    page.js(back, vec![]).await;
    page.click("#undo").await;
    page.wait_until(&format!(
        "document.querySelector('{gross}').textContent === '{before}'"
    ))
    .await;
    assert_eq!(page.errors(), Vec::<String>::new());
}
