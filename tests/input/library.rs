//! TOML that a person wrote: chassis, trailers, parts, laws.

use crate::shipped::{files, short, text};
use axlewright_core::library::Library;
use axlewright_core::web::Session;
use std::time::{Duration, Instant};

fn shipped_file(name: &str) -> String {
    let toml = files("", ".toml");
    let path = toml
        .iter()
        .find(|p| p.ends_with(name))
        .unwrap_or_else(|| panic!("{name}"));
    text(path)
}

/// The words with which a file is refused; library and session stay as they were.
#[track_caller]
fn refused(input: &str) -> String {
    let mut library = Library::shipped();
    let count = |l: &Library| {
        [
            l.chassis.len(),
            l.trailers.len(),
            l.parts.len(),
            l.laws.len(),
        ]
    };
    let before = (count(&library), library.parts.clone());
    let begun = Instant::now();
    let problems = library
        .add_toml("odd.toml", input)
        .expect_err("this cannot be used");
    assert!(
        begun.elapsed() < Duration::from_secs(10),
        "{:?}",
        begun.elapsed()
    );
    let words = problems.to_string();
    assert!(words.starts_with("odd.toml"), "{words}");
    let first = words.lines().next().unwrap();
    assert!(
        first.chars().count() < 1_200,
        "a message, not a book: {first}"
    );
    assert_eq!((count(&library), library.parts.clone()), before);

    let mut session = Session::new().unwrap();
    let plan = session.plan().to_json();
    session.open("odd.toml", input).expect_err("nor opened");
    assert_eq!(session.plan().to_json(), plan);
    assert_eq!(session.library().parts, before.1);
    words
}

#[track_caller]
fn refused_with(input: &str, words: &[&str]) {
    let said = refused(input);
    for word in words {
        assert!(said.contains(word), "\"{word}\" is not in: {said}");
    }
}

/// A shipped file with the first of these replaced.
#[track_caller]
fn changed(name: &str, from: &str, to: &str) -> String {
    let before = shipped_file(name);
    let after = before.replacen(from, to, 1);
    assert_ne!(before, after, "{from} is not in {name}");
    after
}

/// A shipped file in which the first line of this key reads otherwise.
#[track_caller]
fn with_line(name: &str, key: &str, line: &str) -> String {
    let text = shipped_file(name);
    let of_key = |l: &&str| l.split('=').next().is_some_and(|k| k.trim() == key);
    let first = text
        .lines()
        .find(of_key)
        .unwrap_or_else(|| panic!("{key} is not in {name}"));
    text.replacen(first, line, 1)
}

#[test]
fn every_shipped_file_can_be_opened_again() {
    let mut session = Session::new().unwrap();
    for folder in ["chassis-templates", "parts-catalogue", "src/law"] {
        for path in files(folder, ".toml") {
            session
                .open(&short(&path), &text(&path))
                .unwrap_or_else(|p| panic!("{p}"));
            let marked = format!("\u{feff}{}", text(&path).replace('\n', "\r\n"));
            session
                .open(&short(&path), &marked)
                .unwrap_or_else(|p| panic!("{p}"));
        }
    }
}

#[test]
fn a_list_with_one_number_too_many_is_not_cut_short() {
    let with = changed("cooling.toml", "[0, -320, 0]", "[0, -320, 0, 9]");
    refused_with(&with, &["from_mm", "has 1 entries too many"]);
}

#[test]
fn a_list_does_not_stand_for_named_values() {
    let file = shipped_file("trailer-van-53.toml").replace("[legs]", "[other]");
    let with = format!("legs = [1, 2, 3, 4]\n{file}");
    refused_with(&with, &["legs", "is a list where a group of keys belongs"]);
}

#[test]
fn unknown_keys_are_named_with_their_path() {
    for file in [
        "daycab-6x4.toml",
        "trailer-van-53.toml",
        "us-interstate.toml",
        "battery-packs.toml",
    ] {
        let with = format!("colour = \"red\"\n{}", shipped_file(file));
        refused_with(&with, &["odd.toml: colour = \"red\": is not a known key"]);
    }
    let part = with_line("battery-packs.toml", "mass_kg", "colour = 1\nmass_kg = 1");
    refused_with(&part, &["part[0].colour = 1: is not a known key"]);
    let deep = changed(
        "daycab-6x4.toml",
        "[dimensions]",
        "[dimensions]\ncolour = 1",
    );
    refused_with(&deep, &["dimensions.colour = 1: is not a known key"]);
    let shape = changed("battery-packs.toml", "from_mm = ", "colour = 1, from_mm = ");
    refused_with(&shape, &["part[0].envelope[0].box", "colour"]);
}

#[test]
fn odd_numbers_are_named_with_path_value_and_range() {
    for (word, shown) in [("nan", "NaN"), ("inf", "inf"), ("-inf", "-inf")] {
        for (file, key, path) in [
            ("battery-packs.toml", "mass_kg", "part[0].mass_kg"),
            ("daycab-6x4.toml", "wheelbase_mm", "dimensions.wheelbase_mm"),
            ("us-interstate.toml", "per_axle", "bridge.per_axle"),
            (
                "trailer-van-53.toml",
                "kingpin_to_axles_mm",
                "kingpin_to_axles_mm",
            ),
        ] {
            let text = with_line(file, key, &format!("{key} = {word}"));
            refused_with(
                &text,
                &[&format!(
                    "odd.toml: {path} = {shown}: is not a finite number"
                )],
            );
        }
    }
    for word in ["1e308", "-5", "-1e308"] {
        let part = with_line(
            "battery-packs.toml",
            "mass_kg",
            &format!("mass_kg = {word}"),
        );
        let says = format!("part[0].mass_kg = {word}: is outside the allowed range (0 to 20000)");
        refused_with(&part, &[&says]);
    }
    let text = with_line("battery-packs.toml", "mass_kg", "mass_kg = \"heavy\"");
    refused_with(&text, &["part[0].mass_kg = \"heavy\": "]);
    let missing = with_line("battery-packs.toml", "mass_kg", "");
    refused_with(&missing, &["part[0]", "mass_kg", "missing"]);
    let unclosed = with_line("battery-packs.toml", "mass_kg", "mass_kg = [1");
    refused_with(&unclosed, &["line "]);
}

#[test]
fn files_that_hold_nothing_of_ours_are_refused() {
    refused_with("", &["is empty"]);
    refused_with("\u{feff} \n", &["is empty"]);
    refused("a = 1");
    refused("= 1");
    refused("\u{0}");
    refused("[[part]]\nid = \"X\"");
    refused("family = \"x\"");
    refused("law_format = 2");
    refused("kingpin_to_axles_mm = 1");
    refused_with(
        &changed("battery-packs.toml", "format = 1", "format = 99"),
        &["format = 99", "1"],
    );
    refused_with(
        &changed("daycab-6x4.toml", "format = 1", "format = 99"),
        &["format = 99"],
    );
    refused_with(
        &changed("us-interstate.toml", "law_format = 2", "law_format = 99"),
        &["format = 99"],
    );
    refused_with(
        &changed("trailer-van-53.toml", "format = 1", "format = 99"),
        &["format = 99"],
    );
}

#[test]
fn ids_and_keys_that_stand_twice_are_refused() {
    let twice = with_line("battery-packs.toml", "mass_kg", "mass_kg = 1\nmass_kg = 2");
    refused_with(&twice, &["duplicate key", "line "]);
    let text = shipped_file("battery-packs.toml");
    let ids: Vec<&str> = text.lines().filter(|l| l.starts_with("id ")).collect();
    let same = text.replacen(ids[1], ids[0], 1);
    refused_with(&same, &["is used twice"]);
}

#[test]
fn two_hundred_levels_are_refused_however_they_are_written() {
    for levels in [200, 100_000] {
        refused(&format!(
            "a = {}1{}",
            "[".repeat(levels),
            "]".repeat(levels)
        ));
        refused(&format!(
            "a = {}1{}",
            "{a=".repeat(levels),
            "}".repeat(levels)
        ));
        refused(&format!("{}a = 1", "a.".repeat(levels)));
        refused(&format!("[{}a]\nb = 1", "a.".repeat(levels)));
        refused(&format!("[[{}a]]\nb = 1", "a.".repeat(levels)));
        refused(&format!("a = {}", "[".repeat(levels)));
    }
}

#[test]
fn a_hundred_thousand_parts_and_huge_files_are_refused_quickly() {
    let part = |n: usize| format!("[[part]]\nid=\"X{n}\"\n");
    let many: String = (0..100_000).map(part).collect();
    refused(&format!("format = 1\nfamily = \"x\"\n{many}"));
    let whole = |n: usize| {
        format!(
            "[[part]]\nid=\"X{n}\"\nname=\"\"\nkind=\"fluid\"\nmass_kg=1\nenvelope=[]\nsoft=true\n"
        )
    };
    let many: String = (0..20_000).map(whole).collect();
    refused_with(
        &format!("format = 1\nfamily = \"x\"\n{many}"),
        &["part = 20000", "at most 500"],
    );
    refused_with(
        &"# x\n".repeat(Library::MOST_BYTES / 4 + 1),
        &["too long", "at most"],
    );
}
