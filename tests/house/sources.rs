//! Lengths, and what does not belong in the core.

use crate::shipped::{files, root, short, text};
use crate::{code, module, sources};

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

#[test]
fn files_are_short() {
    let mut lengths = Vec::new();
    for folder in ["src", "tests", "xtask/src", "benches"] {
        for path in files(folder, ".rs") {
            let lines = text(&path).lines().count();
            assert!(
                lines <= 600,
                "{} has {lines} lines; 600 is the end",
                short(&path)
            );
            if folder == "src" {
                lengths.push(lines);
            }
        }
    }
    for path in files("www", ".js")
        .iter()
        .filter(|p| !short(p).starts_with("www/pkg/"))
    {
        let lines = text(path).lines().count();
        assert!(
            lines <= 600,
            "{} has {lines} lines; 600 is the end",
            short(path)
        );
    }
    lengths.sort_unstable();
    let median = lengths[lengths.len() / 2];
    assert!(
        median <= 200,
        "half of the files have more than {median} lines"
    );
    let xtask: usize = files("xtask/src", ".rs")
        .iter()
        .map(|p| text(p).lines().count())
        .sum();
    assert!(xtask <= 700, "the helpers become a hobby: {xtask} lines");
}

#[test]
fn the_core_says_what_is_wrong_and_never_gives_up() {
    for (path, source) in sources() {
        let code = code(&source);
        for word in [
            ".unwrap()",
            ".expect(",
            "panic!(",
            "todo!(",
            "unimplemented!(",
            "dbg!(",
        ] {
            assert!(!code.contains(word), "{path} holds {word}");
        }
    }
}

#[test]
fn below_the_faces_nothing_reads_a_clock_a_file_or_the_network() {
    for (path, source) in sources() {
        let code = code(&source);
        let face = ["cli", "main", "web"].contains(&module(&path));
        for word in [
            "std::fs",
            "std::env",
            "std::net",
            "std::io",
            "std::time",
            "std::process",
            "std::thread",
            "println!(",
            "HashMap",
            "HashSet",
            "rand::",
        ] {
            assert!(face || !code.contains(word), "{path} holds {word}");
        }
        for word in [
            ".sin()",
            ".cos()",
            ".tan()",
            ".sin_cos()",
            ".asin()",
            ".acos()",
            ".atan()",
            ".atan2(",
            ".hypot(",
            ".exp()",
            ".ln()",
            ".log10()",
            ".log2()",
            ".powf(",
            ".cbrt()",
            ".sinh()",
            ".cosh()",
            ".tanh()",
            ".exp2()",
        ] {
            assert!(
                !code.contains(word),
                "{path} holds {word}: only through numeric"
            );
        }
        let door = module(&path) == "numeric";
        assert!(
            door || !code.contains("libm::"),
            "{path}: numeric is the only door to libm"
        );
        let knows = module(&path) == "geometry";
        assert!(
            knows || !code.contains("parry3d"),
            "{path}: only geometry knows the library"
        );
    }
}

#[test]
fn only_parts_and_their_symbols_ask_for_the_kind_of_a_part() {
    for (path, source) in sources() {
        let may = module(&path) == "part"
            || ["symbol", "hatch", "parts"]
                .iter()
                .any(|f| path == format!("src/drawing/{f}.rs"));
        // Another kind's name ends in the same word; a list of kinds is no question.
        let of_part = |line: &str| {
            line.match_indices("Kind::").any(|(at, _)| {
                let before = line[..at].chars().next_back().unwrap_or(' ');
                !before.is_ascii_alphanumeric() && !line[at..].starts_with("Kind::ALL")
            })
        };
        let code = code(&source);
        let asks = code.lines().find(|line| of_part(line));
        assert!(
            may || asks.is_none(),
            "{path}: {}",
            asks.unwrap_or_default().trim()
        );
    }
}

#[test]
fn nothing_else_stands_at_the_top() {
    for entry in std::fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let known =
            name.starts_with('.') || name == "target" || AT_THE_TOP.contains(&name.as_str());
        assert!(
            known,
            "{name} stands at the top; see the list in tests/house.rs"
        );
    }
}
