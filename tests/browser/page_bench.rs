//! Placing, moving and taking back on the bench, as a person does it, checked by moments.

use crate::page::Page;
use crate::seen::{Seen, figure, near};
use fantoccini::key::Key;

/// A pack whose centre of gravity is in the middle of its envelope.
const PACK: &str = r#".pick[data-part="PK-R60"]"#;
const SMALL: &str = r#".pick[data-part="HV-OBC11"]"#;
const SIDE: &str = r#"[data-view="side"] .paper"#;

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn pack_dragged_from_the_shelf_loads_the_steer_axle_as_moments_say() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let before = page.steer().await;
    let mass = figure(
        &page
            .text(&format!("{PACK} .figures span:first-child"))
            .await,
    );
    let size = page.text(&format!("{PACK} .figures span:last-child")).await;
    let length = figure(size.split('×').next().unwrap());
    let wheelbase = page.field("truck", "wheelbase").await;

    page.choose("shelf").await;
    let [x, y, width, height] = page.place(SIDE).await;
    page.take(PACK).await;
    page.carry((x + width * 0.42, y + height * 0.15)).await;
    page.wait_until("document.getElementById('readout').textContent.length > 10")
        .await;
    let while_dragging = page.steer().await;
    page.let_go();
    page.wait_until("!document.getElementById('undo').disabled")
        .await;
    let after = page.steer().await;
    near(while_dragging, after, 0.5);

    let front = page.part_field("x").await;
    let share = 1.0 - (front + length / 2.0) / wheelbase;
    near(after - before, mass * share, 1.5);
    assert!((after - before).abs() > 5.0, "the drop tells nothing");

    page.click("#undo").await;
    near(page.steer().await, before, 0.0);
    page.click("#redo").await;
    near(page.steer().await, after, 0.0);
    page.reload().await;
    page.ready().await;
    near(page.steer().await, after, 0.0);
    assert_eq!(page.errors(), Vec::<String>::new());
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn escape_while_dragging_changes_nothing() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let before = page.bars().await;
    let part = r#"[data-view="side"] .part[data-tag="B1"]"#;
    let [x, y, width, height] = page.place(part).await;
    page.take(part).await;
    page.carry((x + width / 2.0 + 90.0, y + height / 2.0)).await;
    page.wait_for(r#"[data-view="side"] .was-here"#).await;
    assert_ne!(page.bars().await, before, "the bars follow the drag");
    // Each move draws the part at its new place and its old place once, and leaves no other behind.
    for step in 1..=4 {
        page.carry((
            x + width / 2.0 + 90.0 + 7.0 * f64::from(step),
            y + height / 2.0,
        ))
        .await;
        page.wait_until("document.querySelectorAll('#stage .was-here').length === 1")
            .await;
        assert_eq!(page.count(part).await, 1, "step {step}");
    }
    page.press(&[Key::Escape.into()]).await;
    page.let_go();
    page.wait_until("!document.querySelector('.was-here')")
        .await;
    assert_eq!(page.bars().await, before);
    assert_eq!(
        page.prop("#undo", "disabled").await.as_deref(),
        Some("true")
    );
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn arrows_nudge_the_chosen_part_and_drags_have_a_twin() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    page.click(r#"[data-view="side"] .part[data-tag="B1"]"#)
        .await;
    let start = page.part_field("x").await;
    page.click(r#"[data-view="side"] .part[data-tag="B1"]"#)
        .await;
    page.press(&[Key::Right.into()]).await;
    near(page.part_field("x").await, start + 10.0, 0.01);
    page.press(&[Key::Shift.into(), Key::Left.into()]).await;
    near(page.part_field("x").await, start - 90.0, 0.01);
    let height = page.part_field("z").await;
    page.press(&[Key::PageUp.into()]).await;
    near(page.part_field("z").await, height + 10.0, 0.01);
    page.press(&[Key::Control.into(), 'z']).await;
    page.press(&[Key::Control.into(), 'z']).await;
    page.press(&[Key::Control.into(), 'z']).await;
    near(page.part_field("x").await, start, 0.01);
    near(page.part_field("z").await, height, 0.01);

    // Without any pointer: from the shelf onto the truck, and off again.
    let placed = page.count(r#"[data-view="side"] .part"#).await;
    page.choose("shelf").await;
    // No room is left on the full truck for another pack, but for a small box.
    for (pick, more) in [(PACK, 0), (SMALL, 1)] {
        page.js(
            &format!(
                "const pick = document.querySelector('{pick}');
                 pick.closest('details').open = true; pick.focus()"
            ),
            vec![],
        )
        .await;
        page.press(&[Key::Enter.into()]).await;
        assert_eq!(
            page.count(r#"[data-view="side"] .part"#).await,
            placed + more,
            "{pick}"
        );
    }
    let chosen = page.prop("#part-list", "value").await.unwrap();
    page.choose("part").await;
    page.js("document.activeElement.blur()", vec![]).await;
    page.press(&[Key::Delete.into()]).await;
    assert_eq!(
        page.count(r#"[data-view="side"] .part"#).await,
        placed,
        "{chosen} is off"
    );
}

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn hardware_put_back_and_a_longer_wheelbase_change_the_loads() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    let before = page.bars().await;
    page.choose("truck").await;
    page.click("#strip li:first-child input").await;
    assert_ne!(page.bars().await, before);
    page.click("#undo").await;
    assert_eq!(page.bars().await, before);

    let slider = r#"[data-field="wheelbase"] input[type="range"]"#;
    let wheelbase = page.field("truck", "wheelbase").await;
    page.wait_for(slider).await;
    page.js(
        "const slider = document.querySelector(arguments[0]);
         for (let step = 1; step <= 5; step += 1) {
           slider.stepUp(10); slider.dispatchEvent(new Event('input', { bubbles: true }));
         }
         slider.dispatchEvent(new Event('change', { bubbles: true }));",
        vec![slider.into()],
    )
    .await;
    assert!(page.field("truck", "wheelbase").await > wheelbase);
    assert_ne!(page.bars().await, before);
    // One slide is one change.
    page.click("#undo").await;
    near(page.field("truck", "wheelbase").await, wheelbase, 0.0);
    // So is one press after another.
    page.js(
        "document.querySelector(arguments[0]).focus()",
        vec![slider.into()],
    )
    .await;
    for _ in 0..4 {
        page.press(&[Key::Right.into()]).await;
    }
    assert!(page.field("truck", "wheelbase").await > wheelbase + 20.0);
    page.click("#undo").await;
    near(page.field("truck", "wheelbase").await, wheelbase, 0.0);
    assert_eq!(page.bars().await, before);
    assert_eq!(
        page.prop("#undo", "disabled").await.as_deref(),
        Some("true")
    );
}
