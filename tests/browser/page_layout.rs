//! The page at the sizes that people have: the truck first, nothing cut off.

use crate::page::Page;
use crate::seen::Seen;

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn truck_is_large_and_nothing_is_cut_off_at_each_size() {
    let page = Page::start(1366, 768).await;
    page.ready().await;
    for (width, height, share) in [
        (1366, 768, 0.6),
        (1920, 1080, 0.6),
        (820, 1180, 0.97),
        // As a 1366 x 768 screen magnified to 200 %.
        (683, 384, 0.97),
    ] {
        page.resize(width, height).await;
        let [left, _, side, _] = page.place(r#"[data-view="side"]"#).await;
        let width = f64::from(width);
        assert!(left >= 0.0 && side >= share * width, "{side} of {width}");
        let wide = "return document.documentElement.scrollWidth > innerWidth";
        assert_eq!(page.js(wide, vec![]).await, false, "at {width}");
        let cut = page
            .js(
                "return [...document.querySelectorAll('button, input, select, summary, .field.switch > label, #show label')]
                   .filter(each => each.checkVisibility() && !each.closest('#shelf, .units'))
                   .filter(each => { const r = each.getBoundingClientRect();
                     const small = each.type === 'checkbox' ? 18 : 24;
                     return r.right > innerWidth + 1 || r.left < -1
                       || r.width < small || r.height < small; })
                   .map(each => each.outerHTML.slice(0, 90))",
                vec![],
            )
            .await;
        assert_eq!(cut, serde_json::json!([]), "at {width}");
        page.screenshot(&format!("page-{width}x{height}")).await;
    }
    assert_eq!(page.errors(), Vec::<String>::new());
}
