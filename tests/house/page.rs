//! The page shows and asks; it does not reckon, and it asks nobody but the core.

use crate::code;
use crate::shipped::{files, short, text};

/// Words of reckoning in the page that are no engineering, each with its reason.
const PAGE_EXCEPTIONS: [(&str, &str, &str); 2] = [
    (
        "www/carry.js",
        "Math.hypot",
        "how far the hand has moved, to tell a drag from a click",
    ),
    (
        "www/window.js",
        "Math.hypot",
        "how far two fingers are apart, to zoom the view",
    ),
];

fn page() -> impl Iterator<Item = (String, String)> {
    let ours = |p: &String| !p.starts_with("www/pkg/");
    let all = [".js", ".html", ".css", ".webmanifest", ".svg"]
        .into_iter()
        .flat_map(|e| files("www", e));
    all.map(|path| (short(&path), text(&path)))
        .filter(move |(p, _)| ours(p))
}

#[test]
fn the_page_does_no_engineering() {
    for (path, source) in page().filter(|(p, _)| p.ends_with(".js")) {
        let code = code(&source);
        for word in [
            "25.4",
            "0.0254",
            "0.4536",
            "0.45359",
            "2.2046",
            "2.205",
            "9.80665",
            "9.81",
            "3.14159",
            "Math.sin",
            "Math.cos",
            "Math.tan",
            "Math.asin",
            "Math.acos",
            "Math.atan",
            "Math.sqrt",
            "Math.hypot",
            "Math.pow",
            "Math.exp",
            "Math.log",
            "Math.PI",
            "/ 1000",
            "* 1000",
            "/1000",
            "*1000",
            "/ 12",
            "**",
        ] {
            for line in code.lines().filter(|l| l.contains(word)) {
                let comment =
                    line.trim_start().starts_with('*') || line.trim_start().starts_with("/*");
                let excused = PAGE_EXCEPTIONS
                    .iter()
                    .any(|(p, w, _)| (*p, *w) == (path.as_str(), word));
                assert!(
                    comment || excused,
                    "{path}: {}: {word} belongs in the core",
                    line.trim()
                );
            }
        }
    }
}

#[test]
fn the_page_asks_nobody_outside() {
    for (path, source) in page() {
        for (number, line) in source.lines().enumerate() {
            let line = line
                .replace("http://www.w3.org/2000/svg", "")
                .replace("http://www.w3.org/1999/xhtml", "")
                .replace("http://www.w3.org/1999/xlink", "");
            for word in [
                "http://",
                "https://",
                "src=\"//",
                "url(//",
                "@import",
                "WebSocket",
                "sendBeacon",
            ] {
                assert!(
                    !line.contains(word),
                    "{path}:{}: {}",
                    number + 1,
                    line.trim()
                );
            }
        }
    }
    for (path, source) in page().filter(|(p, _)| p.ends_with(".js")) {
        let code = code(&source);
        for word in ["innerHTML =", "eval(", "new Function(", "document.write("] {
            for line in code.lines().filter(|l| l.contains(word)) {
                // A drawing comes from the core, which escapes what people wrote.
                assert!(line.contains("drawing"), "{path}: {}", line.trim());
            }
        }
    }
}
