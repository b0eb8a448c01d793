//! What is on screen after opening the page, without a further click.

use crate::page::Page;

#[tokio::test]
#[ignore = "wants the page and a browser: cargo xtask test page browser"]
async fn page_opens_with_a_truck() {
    let page = Page::start(1366, 768).await;
    page.wait_for(r#"#stage svg[data-view="side"]"#).await;
    assert_eq!(page.errors(), Vec::<String>::new());
    page.screenshot("opening-1366x768").await;
}
