//! What was worked out before a change is used again after it; what comes out must be what comes out
//! without it, byte by byte. Each example, and a crowded truck, goes through a chain of changes, each
//! answer made after the one before and made anew. And a page that is told only what has changed must
//! hold the whole of it each time.
//!
//! Seen to turn red by a part drawn as before though it has moved, a check not run again though its figures
//! have changed, a part resolved as before though its place is another, and a label left where it was though
//! a box has come there.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]

#[allow(dead_code, reason = "the examples alone are wanted here")]
mod answers;
mod crowded;
#[path = "after/page.rs"]
mod page;

use answers::EXAMPLES;
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::View;
use axlewright_core::library::Library;
use axlewright_core::plan::Edit;
use axlewright_core::quantity::Units;
use axlewright_core::report;
use axlewright_core::web::{Session, Show, Shown, ViewOptions};
use page::Page;

/// Changes of one plan; of those that nobody can make, the refusals are compared.
const CHANGES: usize = 36;

/// The same row of numbers each time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, many: usize) -> usize {
        // A linear congruential generator, numbers of Knuth's MMIX; the high bits are the better ones.
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % many
    }

    fn by(&mut self) -> f64 {
        [-400.0, -60.0, -7.0, 0.0, 7.0, 90.0, 650.0][self.below(7)]
    }

    fn of<'a, T>(&mut self, list: &'a [T]) -> Option<&'a T> {
        (!list.is_empty()).then(|| &list[self.below(list.len())])
    }
}

fn change(session: &Session, dice: &mut Dice) -> Option<Edit> {
    let plan = session.plan();
    let vehicle = axlewright_core::vehicle::Vehicle::resolve(plan, session.library()).unwrap();
    let item = dice.of(&vehicle.items)?.clone();
    let tag = item.tag.clone();
    let hardware = dice.of(&vehicle.donor.hardware).map(|h| h.id.clone());
    let at = item.origin;
    Some(match dice.below(16) {
        0..=6 => Edit::Move {
            tag,
            x_mm: at.x + dice.by(),
            y_mm: at.y + dice.by() / 3.0,
            z_mm: at.z + dice.by() / 5.0,
            zone: None,
        },
        7 => Edit::Delete { tag },
        8 => Edit::Duplicate { tag },
        9 => Edit::Mirror { tag },
        10 => Edit::Turn { tag },
        11 => Edit::Strip { item: hardware? },
        12 => Edit::Keep { item: hardware? },
        13 => Edit::Wheelbase {
            mm: vehicle.chassis.dimensions.wheelbase_mm + dice.by(),
        },
        14 => Edit::FifthWheel {
            ahead_mm: vehicle.chassis.fifth_wheel.as_ref()?.ahead_mm + dice.by() / 10.0,
        },
        _ => Edit::Trailer(None),
    })
}

fn options(session: &Session, dice: &mut Dice) -> ViewOptions {
    let placed = &session.plan().placed;
    let findings = Assessment::of(session.plan(), session.library())
        .unwrap()
        .findings;
    ViewOptions {
        units: [Units::Metric, Units::Us][dice.below(8) / 7],
        selected: dice
            .of(placed)
            .filter(|p| p.tag.len() > 2)
            .map(|p| p.tag.clone()),
        finding: dice
            .of(&findings)
            .map(|f| format!("{} {}", f.check, f.subject)),
        whole: dice.below(3) == 0,
        carrying: dice.below(2) == 0,
        show: Show {
            zones: dice.below(5) > 0,
            dimensions: dice.below(9) > 0,
            frame: dice.below(9) == 0,
            angles: dice.below(9) == 0,
            hardware: dice.below(9) == 0,
            part_dimensions: dice.below(3) == 0,
        },
        ..ViewOptions::default()
    }
}

/// All that can be read from a view, on the page or off it.
fn told(shown: &Shown) -> Vec<String> {
    let assessment = shown.assessment();
    let mut told = vec![
        serde_json::to_string(&shown.words).unwrap(),
        serde_json::to_string(&report::evaluation(assessment, Units::Metric)).unwrap(),
        report::text(assessment, Units::Metric),
        format!("{:?}", assessment.answers.clearances),
        format!("{:?}", assessment.findings),
    ];
    told.extend(View::ALL.map(|view| shown.drawing(view)));
    told
}

fn compare(name: &str, run: usize, after: &Shown, anew: &Shown) {
    for (index, (one, other)) in told(after).iter().zip(told(anew)).enumerate() {
        if *one != other {
            let same = one.bytes().zip(other.bytes()).take_while(|(a, b)| a == b);
            let at = same.count();
            let near = |text: &str| {
                let bytes = &text.as_bytes()[at.saturating_sub(80)..(at + 80).min(text.len())];
                String::from_utf8_lossy(bytes).into_owned()
            };
            panic!(
                "{name}, change {run}, text {index}: {} / {}",
                near(one),
                near(&other)
            );
        }
    }
}

/// How many changes could be made.
fn chain(name: &str, text: &str, seed: u64) -> usize {
    let mut session = Session::new().unwrap();
    session.open(name, text).unwrap();
    let mut dice = Dice(seed);
    let mut page = Page::default();
    page.see(session.view(&ViewOptions::default()).unwrap(), false, name);
    let mut made = 0;
    for run in 0..CHANGES {
        let options = options(&session, &mut dice);
        let Some(edit) = change(&session, &mut dice) else {
            continue;
        };
        let what = format!("{name}, change {run}");
        let after = session.probe_after(&edit, &options, page.held.shown());
        match (after, session.probe(&edit, &options)) {
            (Ok(after), Ok(anew)) => {
                compare(name, run, &after, &anew);
                made += 1;
                page.see(after, dice.below(20) == 0, &what);
            }
            (after, anew) => assert_eq!(
                after.err().map(|r| r.to_string()),
                anew.err().map(|r| r.to_string()),
                "{what}"
            ),
        }
        match dice.below(6) {
            0..=2 => {
                let _ = session.apply(&edit);
            }
            3 => {
                session.undo();
            }
            _ => {}
        }
        if dice.below(4) == 0 {
            let after = session.view_after(&options, page.held.shown()).unwrap();
            compare(name, run, &after, &session.view(&options).unwrap());
            page.see(after, false, &what);
        }
    }
    assert!(
        page.told < page.whole,
        "{name}: {} of {} bytes told",
        page.told,
        page.whole
    );
    made
}

#[test]
fn what_is_used_again_after_a_change_is_what_would_be_worked_out_anew() {
    let mut made = 0;
    for (seed, (name, text)) in (1..).zip(EXAMPLES) {
        made += chain(name, text, seed);
    }
    assert!(
        made > EXAMPLES.len() * CHANGES / 2,
        "{made} changes are too few"
    );
}

#[test]
fn so_it_is_on_a_crowded_truck_and_from_one_plan_to_another() {
    let library = Library::shipped();
    let crowded = crowded::plan(&library, EXAMPLES[0].1, 60).to_json();
    assert!(chain("crowded", &crowded, 7) > CHANGES / 2);
    // Nothing of one plan is taken for the other's.
    let mut session = Session::new().unwrap();
    let mut page = Page::default();
    for (name, text) in EXAMPLES.into_iter().chain(EXAMPLES.into_iter().rev()) {
        session.open(name, text).unwrap();
        let options = ViewOptions::default();
        let after = session.view_after(&options, page.held.shown()).unwrap();
        compare(name, 0, &after, &session.view(&options).unwrap());
        page.see(after, false, name);
    }
}
