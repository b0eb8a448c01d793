//! A few pictures that say when something changed, and nothing else.

use super::support::{example, marks, sheet};
use axlewright_core::drawing::{Marks, Style, View, draw};
use axlewright_core::library::Library;
use axlewright_core::quantity::Units;
use std::path::Path;

/// Compares with a picture kept in the repository, or renews it.
pub(super) fn golden(name: &str, svg: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(name);
    if std::env::var_os("AXLEWRIGHT_BLESS").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).expect("a folder");
        std::fs::write(&path, svg).expect("the picture can be written");
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    if kept == svg {
        return;
    }
    let line = kept
        .lines()
        .zip(svg.lines())
        .take_while(|(a, b)| a == b)
        .count();
    let show = |text: &str| -> String {
        text.lines()
            .nth(line)
            .unwrap_or("(nothing)")
            .chars()
            .take(240)
            .collect()
    };
    panic!(
        "tests/golden/{name} differs from line {} on.\n  kept:  {}\n  drawn: {}\nLook at both \
         pictures; if the new one is right, renew it: AXLEWRIGHT_BLESS=1 cargo test --test drawing",
        line + 1,
        show(&kept),
        show(svg)
    );
}

#[test]
fn pictures_are_those_that_somebody_looked_at() {
    let library = Library::shipped();
    let drayage = example(&library, "gullwharf-drayage.json");
    for view in View::ALL {
        let style = Style {
            selected: Some("B1".to_owned()),
            ..Style::default()
        };
        let svg = draw(&drayage, &marks(&drayage), view, &style);
        golden(&format!("drayage-{}.svg", view.word()), &svg);
    }
    let parcel = example(&library, "millbrook-parcel.json");
    let style = Style {
        units: Units::Us,
        zones: true,
        ..Style::default()
    };
    golden(
        "parcel-zones-us.svg",
        &draw(&parcel, &marks(&parcel), View::Side, &style),
    );
    let range = example(&library, "prairie-loop.json");
    let style = Style {
        sheet: sheet(),
        ..Style::default()
    };
    golden(
        "range-extender-sheet.svg",
        &draw(&range, &marks(&range), View::Side, &style),
    );
    let bare = example(&library, "sleeper-6x4");
    let style = Style {
        hardware: true,
        ..Style::default()
    };
    golden(
        "sleeper-bare.svg",
        &draw(&bare, &Marks::default(), View::Side, &style),
    );
}
