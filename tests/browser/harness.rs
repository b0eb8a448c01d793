//! The harness against a page small enough to know what must come out.

use crate::page::Page;
use fantoccini::key::Key;
use std::fs;
use std::path::Path;

const PAGE: &str = r#"<!doctype html><title>small</title>
<style>body { margin: 0 } svg { display: block }</style>
<svg width="600" height="300"><rect id="box" x="10" y="10" width="40" height="40"/></svg>
<p id="moves">0</p><input id="field" value="old"><input id="file" type="file">
<a id="save" download="plan.json">save</a>
<script>
  const by = id => document.getElementById(id);
  const box = by('box');
  let grip = null;
  box.onpointerdown = e => {
    grip = [e.clientX - box.x.baseVal.value, e.clientY - box.y.baseVal.value];
    box.setPointerCapture(e.pointerId);
  };
  box.onpointermove = e => {
    if (!grip) return;
    box.setAttribute('x', e.clientX - grip[0]);
    box.setAttribute('y', e.clientY - grip[1]);
    by('moves').textContent = Number(by('moves').textContent) + 1;
  };
  box.onpointerup = () => { grip = null; };
  onkeydown = e => { if (e.shiftKey && e.key === 'ArrowRight') document.title = 'shifted'; };
  by('field').onchange = e => localStorage.setItem('kept', e.target.value);
  by('field').value = localStorage.getItem('kept') ?? 'old';
  by('file').onchange = async e => { document.title = await e.target.files[0].text(); };
  by('save').href = URL.createObjectURL(new Blob(['{"format":1}']));
  setTimeout(() => document.body.append(Object.assign(document.createElement('i'), { id: 'late' })), 200);
</script>"#;

#[tokio::test]
#[ignore = "wants a browser: cargo xtask test browser"]
async fn harness_drives_a_small_page() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("small-page");
    fs::create_dir_all(&folder).unwrap();
    fs::write(folder.join("index.html"), PAGE).unwrap();
    let mut page = Page::start_in(&folder, 900, 700).await;

    let size = page.js("return [innerWidth, innerHeight]", vec![]).await;
    assert_eq!(size, serde_json::json!([900, 700]));
    page.wait_for("#late").await;
    assert_eq!(page.count("input").await, 2);

    page.drag("#box", (330.0, 130.0)).await;
    assert_eq!(page.attr("#box", "x").await.as_deref(), Some("310"));
    assert_eq!(page.attr("#box", "y").await.as_deref(), Some("110"));
    let moves: u32 = page.text("#moves").await.parse().unwrap();
    assert!(moves >= 5, "a drag is many moves, not {moves}");

    page.take("#box").await;
    page.carry((60.0, 60.0)).await;
    assert_eq!(page.place("#box").await, [40.0, 40.0, 40.0, 40.0]);
    page.let_go();
    page.carry((500.0, 200.0)).await;
    assert_eq!(page.place("#box").await[..2], [40.0, 40.0], "let go");

    page.press(&[Key::Shift.into(), Key::Right.into()]).await;
    page.wait_until("document.title === 'shifted'").await;

    let file = folder.join("opened.txt");
    fs::write(&file, "from a file").unwrap();
    page.keys("#file", file.to_str().unwrap()).await;
    page.wait_until("document.title === 'from a file'").await;
    page.click("#save").await;
    assert_eq!(page.downloaded("plan.json").await, br#"{"format":1}"#);

    page.fill("#field", "new").await;
    page.reload().await;
    assert_eq!(page.prop("#field", "value").await.as_deref(), Some("new"));

    let picture = fs::read(page.screenshot("harness").await).unwrap();
    assert!(picture.starts_with(b"\x89PNG"));

    page.errors();
    page.js("console.error('seen from outside')", vec![]).await;
    assert!(
        page.errors()
            .iter()
            .any(|e| e.contains("seen from outside"))
    );

    page.stop_server().await;
    page.reload().await;
    assert_eq!(page.count("#box").await, 0);
}
