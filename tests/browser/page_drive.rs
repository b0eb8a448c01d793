//! The drive beside the truck: route, figures, charts, a route of one's own, and stopping.

use crate::page::Page;
use crate::seen::Seen;
use fantoccini::key::Key;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

/// A row of the drive's figures, by its name.
const FIGURE: &str = "return [...document.querySelectorAll('#panel-drive .figures tr')]
    .find(row => row.firstElementChild.textContent === arguments[0])?.lastElementChild.textContent ?? null";
/// Nothing is being worked out any more.
const SETTLED: &str = "document.querySelector('#panel-drive .figures tr') !== null
    && document.querySelector('#panel-drive [data-stale]') === null";
const CHOOSE: &str = "const list = document.getElementById('route');
    list.value = arguments[0]; list.dispatchEvent(new Event('change'))";

async fn figure(page: &Page, name: &str) -> String {
    let text = page.js(FIGURE, vec![json!(name)]).await;
    text.as_str().map(str::to_owned).unwrap_or_default()
}

async fn driving(size: (u32, u32)) -> Page {
    let page = Page::start(size.0, size.1).await;
    page.ready().await;
    page.click("#tab-drive").await;
    page.wait_until(SETTLED).await;
    page
}

#[tokio::test]
#[ignore = "wants a browser: cargo xtask test browser"]
async fn route_packs_and_charts_move_together() {
    let page = driving((1366, 768)).await;
    assert!(figure(&page, "Range").await.contains("km with"));
    assert!(figure(&page, "10 to 80 %").await.contains("min by CCS"));
    assert!(figure(&page, "Payload").await.contains("kg"));
    // The strip stands under the truck, which is still the largest thing there.
    assert_eq!(page.count("#course svg").await, 1);
    let [_, _, _, truck] = page.place(r#".view[data-view="side"]"#).await;
    let [_, _, _, strip] = page.place("#course").await;
    assert!(truck > 2.5 * strip, "{truck} and {strip} pixels high");
    page.screenshot("page-drive-1366x768").await;

    let before = figure(&page, "Driven").await;
    page.js(CHOOSE, vec![json!("valley-run")]).await;
    page.wait_until(&format!(
        "{SETTLED} && !document.getElementById('panel-drive').textContent.includes('{before}')"
    ))
    .await;
    assert!(figure(&page, "Driven").await.contains("km in"));

    // A pack less: less range, less weight, more payload, and all of it comes back.
    let rows = ["Range", "10 to 80 %", "Payload"];
    let mut full = Vec::new();
    for row in rows {
        full.push(figure(&page, row).await);
    }
    let bar = "return document.querySelector('#bars [data-bar]').textContent";
    let bar_before = page.js(bar, vec![]).await;
    page.js(
        "document.querySelector('#stage .part[data-tag=\"B1\"]').dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }))",
        vec![],
    )
    .await;
    page.click("#tab-part").await;
    page.js(
        "[...document.querySelectorAll('#panel-part button')].find(b => b.textContent === 'Delete').click()",
        vec![],
    )
    .await;
    page.click("#tab-drive").await;
    page.wait_until(&format!(
        "{SETTLED} && !document.getElementById('panel-drive').textContent.includes('{}')",
        full[0]
    ))
    .await;
    for (row, was) in rows.iter().zip(&full) {
        assert_ne!(&figure(&page, row).await, was, "{row}");
    }
    assert_ne!(page.js(bar, vec![]).await, bar_before);
    page.click("#undo").await;
    page.wait_until(&format!(
        "{SETTLED} && document.getElementById('panel-drive').textContent.includes('{}')",
        full[0]
    ))
    .await;
    for (row, was) in rows.iter().zip(&full) {
        assert_eq!(&figure(&page, row).await, was, "{row}");
    }

    // A chart with its table, the truck above it.
    page.click(r#"[data-page="drive-route"]"#).await;
    page.wait_for("#page .picture svg").await;
    assert!(page.count("#page tbody tr").await > 20);
    let shown = page.place(r#".view[data-view="side"]"#).await;
    assert!(shown[3] > 150.0, "the truck stays: {shown:?}");
    page.screenshot("page-drive-chart-1366x768").await;
    page.errors();
}

#[tokio::test]
#[ignore = "wants a browser: cargo xtask test browser"]
async fn own_route_is_read_driven_and_refused_by_its_row() {
    let page = driving((1366, 768)).await;
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("own-routes");
    fs::create_dir_all(&folder).unwrap();
    let write = |name: &str, text: &str| {
        let file = folder.join(name);
        fs::write(&file, text).unwrap();
        file.to_string_lossy().into_owned()
    };
    let good = write(
        "Quay loop.csv",
        "distance_m,speed_kmh,grade_pct\n0,50,0\n4000,50,1.5\n8000,60,-1.5\n12000,50,0\n",
    );
    page.keys("#file", &good).await;
    page.wait_until(&format!(
        "{SETTLED} && document.getElementById('route').value === 'own-quay-loop-csv'"
    ))
    .await;
    assert!(figure(&page, "Driven").await.starts_with("48.0 km"));
    let bad = write("back.csv", "distance_m,speed_kmh\n0,50\n4000,50\n3000,50\n");
    page.keys("#file", &bad).await;
    page.wait_until("!document.getElementById('problems').hidden")
        .await;
    let said = page.text("#problems").await;
    assert!(said.contains("back.csv") && said.contains("3000"), "{said}");
    assert!(figure(&page, "Driven").await.starts_with("48.0 km"));
    page.errors();
}

#[tokio::test]
#[ignore = "wants a browser: cargo xtask test browser"]
async fn duty_is_held_to_its_range_and_a_drive_can_be_stopped() {
    let page = driving((1366, 768)).await;
    page.fill("#field-duty\\.temperature_c", "-90").await;
    page.wait_until("document.querySelector('[data-field=\"duty.temperature_c\"] .problem').textContent.includes('-30')")
        .await;
    page.fill("#field-duty\\.temperature_c", "-20").await;
    let warm = figure(&page, "Range").await;
    page.wait_until(&format!(
        "{SETTLED} && !document.getElementById('panel-drive').textContent.includes('{warm}')"
    ))
    .await;
    // Stopped at once: the old figures stay, marked as old, and the next change drives again.
    let stop = "const list = document.getElementById('route');
        list.value = 'valley-run'; list.dispatchEvent(new Event('change'));
        [...document.querySelectorAll('#panel-drive button')].find(b => b.textContent === 'Stop').click()";
    page.js(stop, vec![]).await;
    page.wait_until("document.getElementById('status').textContent.includes('stopped')")
        .await;
    assert_eq!(page.count("#panel-drive [data-stale]").await, 1);
    page.fill("#field-duty\\.trips_a_day", "2").await;
    page.wait_until(SETTLED).await;
    assert_eq!(
        page.js("return document.getElementById('route').value", vec![])
            .await,
        Value::from("valley-run")
    );
    page.errors();
}

/// A table is worked out when somebody asks for it, by keyboard alone, and stays as what it is: of the plan
/// before once the plan is another.
#[tokio::test]
#[ignore = "wants a browser: cargo xtask test browser"]
async fn ranges_and_packs_are_worked_out_when_asked_for() {
    let page = driving((1366, 768)).await;
    assert_eq!(page.count(r#"[data-page="drive-ranges"]"#).await, 0);
    let press = "[...document.querySelectorAll('#panel-drive .asked button')]
        .filter(b => b.textContent.startsWith('Work out'))[arguments[0]].focus()";
    page.js(press, vec![json!(0)]).await;
    page.press(&[Key::Enter.into()]).await;
    page.wait_for("#page tbody tr").await;
    assert_eq!(page.text("#page-title").await, "Range table");
    assert_eq!(page.count("#page tbody tr").await, 4);
    // The mild row is one trip of the drive, which has four.
    let first = |text: &str| text.split(' ').next().and_then(|n| n.parse::<f64>().ok());
    let cell = "return document.querySelectorAll('#page tbody tr')[2].cells[1].textContent";
    let mild = page.js(cell, vec![]).await;
    let (range, mild) = (figure(&page, "Range").await, mild.as_str().and_then(first));
    let share = mild.unwrap() / first(&range).unwrap();
    assert!((share - 1.0).abs() < 0.01, "{range}, {mild:?}");
    page.screenshot("page-drive-ranges-1366x768").await;

    // A range that cannot be is told by name, value and range, and stays as it was typed.
    let field = "#field-wanted";
    page.fill(field, "9000").await;
    page.wait_until("document.querySelector('[data-field=\"wanted\"] .problem').textContent.includes('9,000.0 km')")
        .await;
    let said = page.text("[data-field=\"wanted\"] .problem").await;
    assert!(
        said.contains("Range to reach") && said.contains("1.0 km to 5,000.0 km"),
        "{said}"
    );
    assert_eq!(page.prop(field, "value").await.as_deref(), Some("9000"));
    page.js(press, vec![json!(1)]).await;
    page.press(&[Key::Enter.into()]).await;
    page.wait_until("document.querySelectorAll('#panel-drive .asked .problem')[1].textContent.includes('9,000.0 km')")
        .await;
    page.fill(field, "150 mi").await;
    page.wait_until("document.getElementById('field-wanted').value === '241.4'")
        .await;
    page.js(press, vec![json!(1)]).await;
    page.press(&[Key::Enter.into()]).await;
    page.wait_until("document.getElementById('page-title').textContent === 'Packs to choose' && document.querySelector('#page tbody tr')")
        .await;
    let caption = page.text("#page caption").await;
    assert!(caption.to_lowercase().contains("241.4 km"), "{caption}");
    assert!(page.count("#page tbody tr").await > 8);
    let heads = page.js("return [...document.querySelectorAll('#page thead th')].map(h => h.textContent).join()", vec![]).await;
    for head in [
        "Number",
        "Mass, kg",
        "Payload, kg",
        "Volume, l",
        "Range, km",
    ] {
        assert!(heads.as_str().unwrap().contains(head), "{heads}");
    }
    page.screenshot("page-drive-sizes-1366x768").await;

    // In other units the same figures, and the range that was typed.
    page.js(
        "document.querySelector('[name=units][value=us]').click()",
        vec![],
    )
    .await;
    page.wait_until("document.querySelector('#page caption')?.textContent.includes('150.0 mi')")
        .await;
    assert_eq!(page.prop(field, "value").await.as_deref(), Some("150.0"));
    page.js(
        "document.querySelector('[name=units][value=metric]').click()",
        vec![],
    )
    .await;
    page.wait_until("document.querySelector('#page caption')?.textContent.includes('241.4 km')")
        .await;

    // Another plan: the table is that of the plan before until it is asked for again.
    page.fill("#field-duty\\.reserve", "30").await;
    page.wait_until("document.querySelector('#page .lead')?.textContent.includes('plan before')")
        .await;
    page.wait_until(SETTLED).await;
    page.js(press, vec![json!(1)]).await;
    page.press(&[Key::Enter.into()]).await;
    page.wait_until("document.querySelector('#page .lead') && !document.querySelector('#page .lead').textContent.includes('plan before')")
        .await;
    page.errors();
}
