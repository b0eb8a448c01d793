//! The rules of the house, read from the sources: which floor may use which, how long a file may be,
//! what does not belong in the core or in the page, and that checks have names of their own.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "helpers of tests")]

mod shipped;

use axlewright_core::assessment::Assessment;
use axlewright_core::findings::CHECKS;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use shipped::{examples, files, root, short, text};
use std::collections::{BTreeMap, BTreeSet};

/// Floors from the ground up; a module uses its own floor and lower ones.
const FLOORS: [(&str, &[&str]); 9] = [
    ("GROUND", &["quantity", "geometry", "numeric", "source"]),
    ("DATA", &["chassis", "part", "law"]),
    ("DATA, all of it", &["library"]),
    ("VEHICLE", &["plan", "vehicle"]),
    ("ANSWERS", &["clearance", "loads", "legality"]),
    ("JUDGEMENT", &["findings", "assessment"]),
    ("FACES, on paper", &["drawing"]),
    ("FACES that show", &["report"]),
    ("FACES that are spoken to", &["web", "cli"]),
];

/// Modules of one floor that must not know each other.
const STRANGERS: [&[&str]; 2] = [&["clearance", "loads", "legality"], &["web", "cli"]];

/// Arrows that the rules above forbid and that stand, each with its reason.
const EXCEPTIONS: [(&str, &str, &str); 0] = [];

/// Words of reckoning in the page that are no engineering, each with its reason.
const PAGE_EXCEPTIONS: [(&str, &str, &str); 2] = [
    ("www/carry.js", "Math.hypot", "how far the hand has moved, to tell a drag from a click"),
    ("www/window.js", "Math.hypot", "how far two fingers are apart, to zoom the view"),
];

/// What may stand at the top of the repository.
const AT_THE_TOP: [&str; 16] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "benches",
    "chassis-templates",
    "examples",
    "fuzz",
    "parts-catalogue",
    "src",
    "tests",
    "webdriver.json",
    "www",
    "xtask",
];

/// Checks that no example gives rise to, each with its reason.
const UNSEEN_CHECKS: [(&str, &str); 5] = [
    ("axle-lift-off", "speaks only when a group would lift off; no example tips"),
    ("double-axle", "speaks only when two axles share a place; the edit that does so is refused"),
    ("gas-ahead-of-axle", "speaks only when a tank is ahead of the axle; no example goes so far"),
    ("plan-problem", "speaks only of names that do not exist; examples name what exists"),
    ("zone-choice", "speaks only of zones that a part's file does not name"),
];

/// A source file without its own tests, comments and the inside of its texts.
fn code(source: &str) -> String {
    let source = source.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let mut out = String::new();
    for line in source.lines() {
        let mut in_text = false;
        let mut before = ' ';
        let mut letters = line.chars().peekable();
        while let Some(c) = letters.next() {
            let starts_comment = !in_text && c == '/' && letters.peek() == Some(&'/');
            if starts_comment {
                break;
            }
            let quote = c == '"' && before != '\\' && !(before == '\'' && !in_text);
            if quote {
                in_text = !in_text;
            }
            if quote || !in_text {
                out.push(c);
            }
            before = if c == '\\' && before == '\\' { ' ' } else { c };
        }
        out.push('\n');
    }
    out
}

fn sources() -> BTreeMap<String, String> {
    files("src", ".rs").iter().map(|path| (short(path), text(path))).collect()
}

/// The module of a source file: `src/loads/case.rs` belongs to `loads`.
fn module(path: &str) -> &str {
    let path = path.strip_prefix("src/").unwrap();
    path.split('/').next().unwrap().trim_end_matches(".rs")
}

/// Modules that a piece of code names by `crate::`, in braces too.
fn used(code: &str) -> BTreeSet<String> {
    let word = |text: &str| -> String {
        text.trim_start().chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '_').collect()
    };
    let mut found = BTreeSet::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        match rest.strip_prefix('{') {
            None => {
                found.insert(word(rest));
            }
            Some(list) => {
                let mut depth = 0;
                let mut start = true;
                for (at, c) in list.char_indices() {
                    if start && !c.is_whitespace() {
                        found.insert(word(&list[at..]));
                        start = false;
                    }
                    match c {
                        '{' => depth += 1,
                        '}' if depth == 0 => break,
                        '}' => depth -= 1,
                        ',' if depth == 0 => start = true,
                        _ => {}
                    }
                }
            }
        }
    }
    found.remove("");
    found
}

fn floor(module: &str) -> Option<usize> {
    FLOORS.iter().position(|(_, modules)| modules.contains(&module))
}

/// Why one module must not use another, if so.
fn forbidden(from: &str, to: &str) -> Option<String> {
    let (Some(low), Some(high)) = (floor(from), floor(to)) else {
        return Some("has no floor in tests/house.rs".to_owned());
    };
    if high > low {
        return Some(format!("{} stands below {}", FLOORS[low].0, FLOORS[high].0));
    }
    let strangers = |s: &&&[&str]| from != to && s.contains(&from) && s.contains(&to);
    STRANGERS.iter().find(strangers).map(|s| format!("{} do not know each other", s.join(", ")))
}

#[test]
fn no_arrow_points_upward() {
    let mut wrong = Vec::new();
    let mut excused = BTreeSet::new();
    for (path, source) in sources() {
        let from = module(&path);
        if ["lib", "main"].contains(&from) {
            continue;
        }
        for to in used(&code(&source)) {
            let Some(why) = forbidden(from, &to) else { continue };
            if EXCEPTIONS.iter().any(|(f, t, _)| (*f, *t) == (from, to.as_str())) {
                excused.insert((from.to_owned(), to));
            } else {
                wrong.push(format!("{path} uses {to}: {why}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(excused.len(), EXCEPTIONS.len(), "an exception that nobody needs any more");
}

#[test]
fn every_module_has_a_floor_and_every_floor_its_modules() {
    let modules: BTreeSet<String> =
        sources().keys().map(|p| module(p).to_owned()).filter(|m| m != "lib" && m != "main").collect();
    let floors: BTreeSet<String> =
        FLOORS.iter().flat_map(|(_, m)| m.iter().map(|m| (*m).to_owned())).collect();
    assert_eq!(modules, floors);
}

#[test]
fn the_reader_of_arrows_sees_them() {
    let code = code(
        "use crate::plan::{Edit, Plan};\nuse crate::{\n    law::Regime, // crate::no\n    \
         web::{self, View},\n    cli,\n};\nfn f() { crate::loads::loads(\"crate::not\") }\n",
    );
    let found: Vec<String> = used(&code).into_iter().collect();
    assert_eq!(found, ["cli", "law", "loads", "plan", "web"]);
    assert!(forbidden("chassis", "plan").is_some() && forbidden("plan", "chassis").is_none());
    assert!(forbidden("loads", "clearance").is_some() && forbidden("loads", "loads").is_none());
    assert!(forbidden("findings", "drawing").is_some() && forbidden("new", "plan").is_some());
}

#[test]
fn files_are_short() {
    let mut lengths = Vec::new();
    for folder in ["src", "tests", "xtask/src", "benches"] {
        for path in files(folder, ".rs") {
            let lines = text(&path).lines().count();
            assert!(lines <= 600, "{} has {lines} lines; 600 is the end", short(&path));
            if folder == "src" {
                lengths.push(lines);
            }
        }
    }
    for path in files("www", ".js").iter().filter(|p| !short(p).starts_with("www/pkg/")) {
        let lines = text(path).lines().count();
        assert!(lines <= 600, "{} has {lines} lines; 600 is the end", short(path));
    }
    lengths.sort_unstable();
    let median = lengths[lengths.len() / 2];
    assert!(median <= 200, "half of the files have more than {median} lines");
    let xtask: usize = files("xtask/src", ".rs").iter().map(|p| text(p).lines().count()).sum();
    assert!(xtask <= 500, "the helpers become a hobby: {xtask} lines");
}

#[test]
fn the_core_says_what_is_wrong_and_never_gives_up() {
    for (path, source) in sources() {
        let code = code(&source);
        for word in [".unwrap()", ".expect(", "panic!(", "todo!(", "unimplemented!(", "dbg!("] {
            assert!(!code.contains(word), "{path} holds {word}");
        }
    }
}

#[test]
fn below_the_faces_nothing_reads_a_clock_a_file_or_the_network() {
    for (path, source) in sources() {
        let code = code(&source);
        let face = ["cli", "main", "web"].contains(&module(&path));
        for word in ["std::fs", "std::env", "std::net", "std::io", "std::time", "std::process",
            "std::thread", "println!(", "HashMap", "HashSet", "rand::"]
        {
            assert!(face || !code.contains(word), "{path} holds {word}");
        }
        for word in [".sin()", ".cos()", ".tan()", ".sin_cos()", ".asin()", ".acos()", ".atan()",
            ".atan2(", ".hypot(", ".exp()", ".ln()", ".log10()", ".log2()", ".powf(", ".cbrt()",
            ".sinh()", ".cosh()", ".tanh()", ".exp2()"]
        {
            assert!(!code.contains(word), "{path} holds {word}: only through numeric");
        }
        let door = module(&path) == "numeric";
        assert!(door || !code.contains("libm::"), "{path}: numeric is the only door to libm");
        let knows = module(&path) == "geometry";
        assert!(knows || !code.contains("parry3d"), "{path}: only geometry knows the library");
    }
}

#[test]
fn only_parts_and_their_symbols_ask_for_the_kind_of_a_part() {
    for (path, source) in sources() {
        let may = module(&path) == "part"
            || ["symbol", "hatch", "parts"].iter().any(|f| path == format!("src/drawing/{f}.rs"));
        // Another kind's name ends in the same word; a list of kinds is no question.
        let of_part = |line: &str| {
            line.match_indices("Kind::").any(|(at, _)| {
                let before = line[..at].chars().next_back().unwrap_or(' ');
                !before.is_ascii_alphanumeric() && !line[at..].starts_with("Kind::ALL")
            })
        };
        let code = code(&source);
        let asks = code.lines().find(|line| of_part(line));
        assert!(may || asks.is_none(), "{path}: {}", asks.unwrap_or_default().trim());
    }
}

fn page() -> impl Iterator<Item = (String, String)> {
    let ours = |p: &String| !p.starts_with("www/pkg/");
    let all = [".js", ".html", ".css", ".webmanifest", ".svg"].into_iter().flat_map(|e| files("www", e));
    all.map(|path| (short(&path), text(&path))).filter(move |(p, _)| ours(p))
}

#[test]
fn the_page_does_no_engineering() {
    for (path, source) in page().filter(|(p, _)| p.ends_with(".js")) {
        let code = code(&source);
        for word in ["25.4", "0.0254", "0.4536", "0.45359", "2.2046", "2.205", "9.80665", "9.81",
            "3.14159", "Math.sin", "Math.cos", "Math.tan", "Math.asin", "Math.acos", "Math.atan",
            "Math.sqrt", "Math.hypot", "Math.pow", "Math.exp", "Math.log", "Math.PI", "/ 1000",
            "* 1000", "/1000", "*1000", "/ 12", "**"]
        {
            for line in code.lines().filter(|l| l.contains(word)) {
                let comment = line.trim_start().starts_with('*') || line.trim_start().starts_with("/*");
                let excused = PAGE_EXCEPTIONS.iter().any(|(p, w, _)| (*p, *w) == (path.as_str(), word));
                assert!(comment || excused, "{path}: {}: {word} belongs in the core", line.trim());
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
            for word in ["http://", "https://", "src=\"//", "url(//", "@import", "WebSocket", "sendBeacon"] {
                assert!(!line.contains(word), "{path}:{}: {}", number + 1, line.trim());
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

#[test]
fn nothing_else_stands_at_the_top() {
    for entry in std::fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let known = name.starts_with('.') || name == "target" || AT_THE_TOP.contains(&name.as_str());
        assert!(known, "{name} stands at the top; see the list in tests/house.rs");
    }
}

#[test]
fn every_check_is_one_file_with_a_header_and_an_id_of_its_own() {
    let ids: BTreeSet<&str> = CHECKS.iter().map(|check| check.id).collect();
    assert_eq!(ids.len(), CHECKS.len(), "an id is used twice");
    let titles: BTreeSet<&str> = CHECKS.iter().map(|check| check.title).collect();
    assert_eq!(titles.len(), CHECKS.len(), "a title is used twice");
    let mut seen = BTreeSet::new();
    for path in files("src/findings/checks", ".rs") {
        let source = text(&path);
        let Some(rest) = source.split("id: \"").nth(1) else { continue };
        let id = rest.split('"').next().unwrap();
        let file = short(&path);
        assert_eq!(source.matches("id: \"").count(), 1, "{file}: one check a file");
        let check = CHECKS.iter().find(|check| check.id == id);
        let check = check.unwrap_or_else(|| panic!("{id} is not in the list"));
        let question = source.lines().next().unwrap();
        assert!(question.starts_with("//! ") && question.ends_with('?'), "{file}: its question first");
        assert!(check.question.ends_with('?'), "{id}: a check answers a question");
        for (what, words) in [("title", check.title), ("method", check.method),
            ("source", check.source), ("applies", check.applies)]
        {
            assert!(words.len() > 2, "{id}: {what}");
        }
        seen.insert(id.to_owned());
    }
    assert_eq!(seen.len(), CHECKS.len(), "every check has its file");
}

#[test]
fn no_two_findings_count_the_same_thing_and_every_check_is_seen() {
    let library = Library::shipped();
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for path in examples() {
        let name = short(&path);
        let plan = Plan::from_json(&name, &text(&path)).unwrap_or_else(|p| panic!("{p}"));
        let assessment = Assessment::of(&plan, &library).unwrap();
        let mut pairs = BTreeSet::new();
        for finding in &assessment.findings {
            seen.insert(finding.check);
            let pair = (finding.subject.clone(), finding.check);
            assert!(pairs.insert(pair.clone()), "{name}: {pair:?} stands twice");
        }
    }
    let excused: BTreeSet<&str> = UNSEEN_CHECKS.iter().map(|(id, _)| *id).collect();
    let unseen: BTreeSet<&str> =
        CHECKS.iter().map(|c| c.id).filter(|id| !seen.contains(id)).collect();
    assert_eq!(unseen, excused, "checks that no example gives rise to");
}

/// The findings of an example after a change, by check and severity.
fn raised(example: &str, change: impl FnOnce(&mut serde_json::Value)) -> BTreeSet<String> {
    let mut plan = serde_json::from_str(&text(&root().join("examples").join(example))).unwrap();
    change(&mut plan);
    let plan = Plan::from_json(example, &plan.to_string()).unwrap_or_else(|p| panic!("{p}"));
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    assessment.findings.iter().map(|f| format!("{} {:?}", f.check, f.severity)).collect()
}

#[test]
fn checks_that_no_example_raises_speak_up_when_they_should() {
    use serde_json::json;
    let free = |x: f64, z: f64| json!({"free": {"x_mm": x, "y_mm": 0, "z_mm": z}});
    let heavy = raised("gullwharf-drayage.json", |p| {
        p["parts"] = json!([{"id": "ROCK", "name": "Rock", "kind": "free-mass", "mass_kg": 9000,
            "envelope": [{"box": {"from_mm": [0, -500, 0], "to_mm": [900, 500, 900]}}]}]);
        let rock = json!({"tag": "M1", "part": "ROCK", "place": free(7_500.0, 1_100.0)});
        p["placed"].as_array_mut().unwrap().push(rock);
    });
    assert!(heavy.contains("axle-lift-off Fails"), "{heavy:?}");
    let twice = raised("gullwharf-drayage.json", |p| {
        p["changes"]["stripped"].as_array_mut().unwrap().retain(|id| id != "axle-rear");
    });
    assert!(twice.contains("double-axle Fails"), "{twice:?}");
    let unknown = raised("gullwharf-drayage.json", |p| p["placed"][0]["part"] = json!("NO-PART"));
    assert!(unknown.contains("plan-problem Fails"), "{unknown:?}");
    let ahead = raised("prairie-loop.json", |p| {
        for placed in p["placed"].as_array_mut().unwrap() {
            if placed["tag"] == "T1" {
                placed["place"] = free(-900.0, 1_100.0);
            }
        }
    });
    assert!(ahead.contains("gas-ahead-of-axle Fails"), "{ahead:?}");
    let elsewhere = raised("gullwharf-drayage.json", |p| {
        p["placed"][0]["place"]["zone"]["id"] = json!("behind-cab");
    });
    assert!(elsewhere.contains("zone-choice Caution"), "{elsewhere:?}");
}
