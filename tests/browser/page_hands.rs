//! What a newcomer's hands and eyes meet: what is said, where the focus goes, what can be made large.

use crate::page::Page;
use crate::seen::Seen;
use fantoccini::key::Key;
use serde_json::json;

const STATUS: &str = "document.getElementById('status').textContent";

async fn says(page: &Page, words: &str) {
    page.wait_until(&format!("{STATUS}.includes({})", json!(words)))
        .await;
}

/// Tag and view of the part that has the focus.
async fn focused(page: &Page) -> String {
    let script = "const at = document.activeElement;
        return at.dataset.tag ? at.dataset.tag + ' in ' + at.closest('.view').dataset.view : at.id || at.tagName";
    page.js(script, vec![]).await.as_str().unwrap().to_owned()
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn status_line_follows_fields_sliders_and_the_mouse() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    page.choose("truck").await;
    page.fill(
        r#"#panel-truck [data-field="wheelbase"] input[type="text"]"#,
        "4800",
    )
    .await;
    says(&page, "Wheelbase: 4,800 mm").await;
    page.keys(
        r#"#panel-truck [data-field="fifth-wheel"] input[type="range"]"#,
        &char::from(Key::Right).to_string(),
    )
    .await;
    says(&page, "Fifth wheel ahead: ").await;
    page.choose("load").await;
    page.js(
        "const list = document.getElementById('field-trailer');
         list.value = ''; list.dispatchEvent(new Event('change', { bubbles: true }))",
        vec![],
    )
    .await;
    says(&page, "Trailer: no trailer").await;
    page.click(r#"[data-view="side"] .part[data-tag="B4"]"#)
        .await;
    says(&page, "B4 ").await;
    // A refusal in pounds and inches speaks of inches.
    page.js(
        "document.querySelector('[name=units][value=us]').click()",
        vec![],
    )
    .await;
    page.choose("truck").await;
    page.fill(
        r#"#panel-truck [data-field="wheelbase"] input[type="text"]"#,
        "20",
    )
    .await;
    says(&page, " in)").await;
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn part_placed_by_keyboard_fits_and_has_the_focus_which_is_never_lost() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    page.js(
        "const pick = document.querySelector('[data-part=\"HV-INLET\"]');
         pick.closest('details').open = true; pick.focus()",
        vec![],
    )
    .await;
    page.press(&[Key::Enter.into()]).await;
    says(&page, " placed as ").await;
    let placed = focused(&page).await;
    let (tag, view) = placed.split_once(" in ").expect("a part has the focus");
    assert_eq!(view, "side");
    let fails = page
        .js(
            &format!(
                "return [...document.querySelectorAll('#findings [data-severity=fails] .about')]
                   .filter(each => each.textContent.split(', ').includes('{tag}')).length"
            ),
            vec![],
        )
        .await;
    assert_eq!(fails, 0, "{tag}");
    page.press(&['d']).await;
    says(&page, "duplicated as").await;
    let made = focused(&page).await;
    assert!(made.ends_with(" in side") && made != placed, "{made}");
    page.press(&[Key::Delete.into()]).await;
    says(&page, "deleted").await;
    assert_eq!(focused(&page).await, "stage");
    page.choose("part").await;
    page.js(
        "const list = document.getElementById('part-list');
         list.value = 'B4'; list.dispatchEvent(new Event('change', { bubbles: true }))",
        vec![],
    )
    .await;
    page.click(r#"#panel-part .ways button[title^="Delete"]"#)
        .await;
    says(&page, "B4 deleted").await;
    assert_eq!(focused(&page).await, "part-list");
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn findings_name_their_axle_group_and_open_in_sight() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    // The drive adds its own.
    page.wait_until("!document.getElementById('driven').hidden")
        .await;
    page.click(r#"#sieve [data-severity="holds"]"#).await;
    let about = page
        .text(r#"#findings [data-id="road-axle"][data-severity="caution"] .about"#)
        .await;
    assert_eq!(about.to_lowercase(), "drive tandem");
    let bridge = page
        .text(r#"#findings [data-id="road-bridge"] .about"#)
        .await;
    assert!(bridge.starts_with("axles "), "{bridge}");
    // Each has a row of its own, also where two of one check name the same parts.
    let counted = page.text(r#"#sieve [data-severity="holds"] .count"#).await;
    let rows = page.count(r#"#findings > li[data-severity="holds"]"#).await;
    assert_eq!(rows.to_string(), counted);
    let last = "#findings > li:last-child";
    page.click(&format!("{last} .head")).await;
    page.wait_for(&format!("{last}[data-open] .sentence")).await;
    let inside = format!(
        "const [row, list] = ['{last}', '#judgement'].map(s => document.querySelector(s).getBoundingClientRect());
         return row.bottom <= list.bottom + 1 && row.top >= list.top"
    );
    assert_eq!(page.js(&inside, vec![]).await, true);
    // A way leads from the finding to the page with its figures.
    page.js(
        "document.querySelector('#findings [data-id=\"road-bridge\"] .head').scrollIntoView({ block: 'center' })",
        vec![],
    )
    .await;
    page.click(r#"#findings [data-id="road-bridge"] .head"#)
        .await;
    page.js(
        "[...document.querySelectorAll('#findings [data-id=\"road-bridge\"] .ways button')]
           .find(each => each.textContent === 'Road law').click()",
        vec![],
    )
    .await;
    page.wait_until("!document.getElementById('page').hidden")
        .await;
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn any_view_can_be_large_and_a_shaft_says_why_it_has_no_fields() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let [_, _, small, _] = page.place(r#"[data-view="plan"]"#).await;
    page.click(r#"[data-view="plan"] figcaption button"#).await;
    let [left, _, large, _] = page.place(r#"[data-view="plan"]"#).await;
    assert!(large > 1.3 * small && left >= 0.0, "{small} to {large}");
    assert_eq!(
        page.attr(r#"[data-view="plan"] figcaption button"#, "aria-pressed")
            .await
            .as_deref(),
        Some("true")
    );
    page.screenshot("page-plan-large-1366x768").await;
    page.press(&['v']).await;
    says(&page, "Rear view large").await;
    page.screenshot("page-rear-large-1366x768").await;
    page.press(&['v']).await;
    says(&page, "Side view large").await;
    page.click("#yard-button").await;
    page.click(r#"#yard [data-id="harbour-hydrogen"]"#).await;
    page.choose("part").await;
    page.js(
        "const list = document.getElementById('part-list');
         list.value = 'D2'; list.dispatchEvent(new Event('change', { bubbles: true }))",
        vec![],
    )
    .await;
    let told = page.text("#panel-part").await;
    assert!(told.contains("Runs from D1 to axle 2"), "{told}");
    page.screenshot("page-hydrogen-1366x768").await;
    page.js(
        "const box = document.querySelector('#show [name=zones]'); box.click()",
        vec![],
    )
    .await;
    page.screenshot("page-zones-1366x768").await;
    assert_eq!(page.errors(), Vec::<String>::new());
}
