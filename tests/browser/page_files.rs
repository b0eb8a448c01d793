//! Files, units, what the browser keeps, and working without a network.

use crate::page::Page;
use crate::seen::{Seen, figure, near};
use serde_json::json;
use std::fs;
use std::path::Path;

/// Drops a file on the page, as the file manager does.
const DROP: &str = "const data = new DataTransfer();
    data.items.add(new File([arguments[1]], arguments[0]));
    document.querySelector('#stage').dispatchEvent(
      new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));";

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn bad_file_is_explained_and_leaves_the_plan() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let before = page.bars().await;
    let drawing = page.attr(r#"[data-view="side"] svg"#, "viewBox").await;
    let deep = "[".repeat(200);
    for (name, text) in [
        ("torn.json", "{\"format\": 2, "),
        (
            "odd.json",
            r#"{"format":2,"name":"x","chassis":{"template":"no-such"},"wheels":9}"#,
        ),
        ("deep.json", deep.as_str()),
        ("chassis.toml", "format = 1\nid = \"x\"\nmass_kg = -5\n"),
        ("picture.png", "\u{1}\u{2}"),
    ] {
        page.js("document.getElementById('problems').hidden = true", vec![])
            .await;
        page.js(DROP, vec![json!(name), json!(text)]).await;
        page.wait_until("!document.getElementById('problems').hidden")
            .await;
        let told = page.text("#problems").await;
        assert!(told.contains(name), "{name}: {told}");
        assert_eq!(page.bars().await, before, "{name}");
    }
    assert_eq!(
        page.attr(r#"[data-view="side"] svg"#, "viewBox").await,
        drawing
    );
    page.click("#problems .close").await;
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn saved_plan_opens_again_and_markup_stays_text() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let name = "<img src=x onerror=document.title='broken'> & \"co\"";
    page.fill("#plan-name", name).await;
    page.wait_until("document.title.includes('<img')").await;
    assert_eq!(page.count("img").await, 0);
    page.click("#save").await;
    page.wait_until("document.getElementById('status').textContent.startsWith('Saved as ')")
        .await;
    let file = page.text("#status").await.replace("Saved as ", "");
    let saved = page.downloaded(&file).await;
    let plan: serde_json::Value = serde_json::from_slice(&saved).unwrap();
    assert_eq!(plan["name"], name);

    page.click("#undo").await;
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("opened");
    fs::create_dir_all(&folder).unwrap();
    let again = folder.join("again.json");
    fs::write(&again, &saved).unwrap();
    page.keys("#file", again.to_str().unwrap()).await;
    page.wait_until("document.title.includes('<img')").await;
    assert_eq!(page.count("img").await, 0);
    assert_eq!(
        page.prop("#plan-name", "value").await.as_deref(),
        Some(name)
    );
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn units_switch_everywhere_and_are_remembered() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let kilograms = page.steer().await;
    page.click(r#"[name="units"][value="us"] + span"#).await;
    page.wait_until("document.querySelector('#bars .load').textContent.includes('lb')")
        .await;
    near(page.steer().await, kilograms / 0.453_592_37, 2.0);
    let mass = page.text(".pick .figures span:first-child").await;
    assert!(mass.contains("lb") && figure(&mass) > 0.0, "{mass}");
    page.reload().await;
    page.ready().await;
    near(page.steer().await, kilograms / 0.453_592_37, 2.0);
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn spoilt_memory_is_put_aside() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let spoil = "localStorage.setItem('axlewright.plan', '{\"format\": 99');
        localStorage.setItem('axlewright.look', 'neither');";
    page.js(spoil, vec![]).await;
    page.reload().await;
    page.ready().await;
    let told = page.text("#problems").await;
    assert!(told.contains("put aside"), "{told}");
    let aside = page
        .js(
            "return localStorage.getItem('axlewright.plan.aside')",
            vec![],
        )
        .await;
    assert_eq!(aside, "{\"format\": 99");
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn page_works_without_a_network() {
    let mut page = Page::start(1366, 768).await;
    page.ready().await;
    page.wait_for("html[data-offline-ready]").await;
    page.stop_server().await;
    page.reload().await;
    page.ready().await;
    page.wait_for(r#"#stage svg[data-view="side"]"#).await;
    assert!(page.steer().await > 0.0);
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn finding_is_pointed_out_and_leads_to_its_part() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    // All kinds, so that there is one whatever the demo truck is like.
    page.click(r#"#sieve [data-severity="holds"]"#).await;
    let named =
        "[...document.querySelectorAll('#findings .head')].findIndex(head => { head.click();
        const go = head.parentElement.querySelector('.ways button');
        return go?.textContent.startsWith('Go to '); })";
    page.wait_until(&format!("{named} >= 0")).await;
    assert_eq!(page.count(r#"#findings [aria-expanded="true"]"#).await, 1);
    let go = page.text("#findings .ways button").await;
    page.click("#findings .ways button").await;
    let tag = go.replace("Go to ", "");
    assert_eq!(
        page.prop("#part-list", "value").await.as_deref(),
        Some(tag.as_str())
    );
    let focus = page
        .js("return document.activeElement.dataset.tag", vec![])
        .await;
    assert_eq!(focus, tag);
}
