//! A file uses lower floors only.

use crate::{code, module, sources};
use std::collections::BTreeSet;

/// Floors from the ground up; a module uses its own floor and lower ones.
const FLOORS: [(&str, &[&str]); 9] = [
    (
        "GROUND",
        &[
            "quantity", "geometry", "numeric", "pieces", "shared", "source",
        ],
    ),
    ("DATA", &["chassis", "part", "law", "route"]),
    ("DATA, all of it", &["library"]),
    ("VEHICLE", &["plan", "vehicle", "plant"]),
    (
        "ANSWERS",
        &[
            "clearance",
            "driveline",
            "energy",
            "frame",
            "loads",
            "legality",
            "manoeuvre",
            "stability",
        ],
    ),
    ("JUDGEMENT", &["findings", "assessment"]),
    ("FACES, on paper", &["drawing"]),
    ("FACES that show", &["report"]),
    ("FACES that are spoken to", &["web", "cli"]),
];

/// Modules of one floor that must not know each other.
const STRANGERS: [&[&str]; 2] = [
    &[
        "clearance",
        "driveline",
        "energy",
        "frame",
        "loads",
        "legality",
        "manoeuvre",
        "stability",
    ],
    &["web", "cli"],
];

/// Arrows that the rules above forbid and that stand, each with its reason.
const EXCEPTIONS: [(&str, &str, &str); 0] = [];

/// Modules that a piece of code names by `crate::`, in braces too.
fn used(code: &str) -> BTreeSet<String> {
    let word = |text: &str| -> String {
        text.trim_start()
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '_')
            .collect()
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
    FLOORS
        .iter()
        .position(|(_, modules)| modules.contains(&module))
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
    STRANGERS
        .iter()
        .find(strangers)
        .map(|s| format!("{} do not know each other", s.join(", ")))
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
            let Some(why) = forbidden(from, &to) else {
                continue;
            };
            if EXCEPTIONS
                .iter()
                .any(|(f, t, _)| (*f, *t) == (from, to.as_str()))
            {
                excused.insert((from.to_owned(), to));
            } else {
                wrong.push(format!("{path} uses {to}: {why}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(
        excused.len(),
        EXCEPTIONS.len(),
        "an exception that nobody needs any more"
    );
}

#[test]
fn every_module_has_a_floor_and_every_floor_its_modules() {
    let modules: BTreeSet<String> = sources()
        .keys()
        .map(|p| module(p).to_owned())
        .filter(|m| m != "lib" && m != "main")
        .collect();
    let floors: BTreeSet<String> = FLOORS
        .iter()
        .flat_map(|(_, m)| m.iter().map(|m| (*m).to_owned()))
        .collect();
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
