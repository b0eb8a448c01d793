//! *Published.* Every TOML in `tests/published/` through the planner's own road: a chassis, a plan,
//! the answer. The file says where the figure comes from, how it is known and how near is near
//! enough; its `check` names the function below that puts the question.
//!
//! Each of them was once shown to turn red: see `tests/published/README.md`.

use super::yard::{
    KG_PER_LB, MM_PER_IN, bare, case, close, couple, finding, group, library, loads_of, part, plan,
    put, resolve_with, tractor, trailer, weighed, with_wheelbase,
};
use axlewright_core::assessment::{Assessment, Binding};
use axlewright_core::chassis::{Chassis, Share, Spot};
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::loads::{Case, Loads};
use axlewright_core::plan::{Payload, PayloadPlace};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Published {
    /// Number in our own list, and in the list of sources.
    id: String,
    /// Which question.
    check: String,
    title: String,
    /// Document and place in it.
    source: String,
    known: Known,
    #[serde(default)]
    note: String,
    given: BTreeMap<String, f64>,
    expected: BTreeMap<String, f64>,
    tolerance: Tolerance,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Known {
    /// Read in the document.
    Read,
    /// The rule or formula was read, the figures follow from it.
    RuleRead,
    /// Follows from statics or geometry alone.
    Derived,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Tolerance {
    abs: Option<f64>,
    rel: Option<f64>,
    why: String,
}

type Answers = Vec<(&'static str, f64)>;

impl Published {
    fn given(&self, key: &str) -> f64 {
        *self
            .given
            .get(key)
            .unwrap_or_else(|| panic!("{}: nothing given as {key}", self.id))
    }

    fn answers(&self) -> Answers {
        match self.check.as_str() {
            "share-of-a-mass" => share_of_a_mass(self),
            "water-level-load" => water_level_load(self),
            "overhanging-load" => overhanging_load(self),
            "unloading-from-the-rear" => unloading_from_the_rear(self),
            "kingpin-ahead" => kingpin_ahead(self),
            "load-moved-by-an-inch" => load_moved_by_an_inch(self),
            "slide-in-notches" => slide_in_notches(self),
            "side-share" => side_share(self),
            "side-difference" => side_difference(self),
            "middle-of-a-tandem" => middle_of_a_tandem(self),
            "swing-radius" => swing_radius(self),
            other => panic!("{}: no question called {other}", self.id),
        }
    }

    /// What is wrong with the answers; empty when nothing is.
    fn misses(&self) -> Vec<String> {
        // A question that cannot even be put is a miss of this case, and the others go on.
        let asking = std::panic::AssertUnwindSafe(|| self.answers());
        let Ok(answers) = std::panic::catch_unwind(asking) else {
            return vec![format!("{}: no answer", self.id)];
        };
        let asked: BTreeSet<&str> = self.expected.keys().map(String::as_str).collect();
        let given: BTreeSet<&str> = answers.iter().map(|(key, _)| *key).collect();
        assert_eq!(asked, given, "{}: answers and expectations", self.id);
        let mut misses = Vec::new();
        for (key, found) in answers {
            let wanted = self.expected[key];
            let within = self.tolerance.abs.unwrap_or(0.0)
                + self.tolerance.rel.unwrap_or(0.0) * wanted.abs();
            let off = (found - wanted).abs();
            if off.is_nan() || off > within {
                let id = &self.id;
                misses.push(format!(
                    "{id} {key}: found {found}, {wanted} wanted within {within}"
                ));
            }
        }
        misses
    }
}

fn all() -> Vec<Published> {
    let dir = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published");
    let mut cases = Vec::new();
    for entry in std::fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        // `rows.toml` is the register of all rows, no case.
        let case = path.extension().is_some_and(|e| e == "toml") && !path.ends_with("rows.toml");
        if case {
            let text = std::fs::read_to_string(&path).unwrap();
            let case: Published =
                toml::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
            assert!(
                stem.starts_with(&case.id.to_lowercase()),
                "{stem} is named after {}",
                case.id
            );
            cases.push(case);
        }
    }
    cases.sort_by(|a, b| a.id.cmp(&b.id));
    cases
}

#[test]
fn every_published_figure_comes_out() {
    let cases = all();
    assert!(cases.len() >= 12, "{} cases", cases.len());
    let misses: Vec<String> = cases.iter().flat_map(Published::misses).collect();
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}

#[test]
fn every_published_case_says_where_it_is_from_and_how_near_is_enough() {
    let cases = all();
    let ids: BTreeSet<&str> = cases.iter().map(|c| c.id.as_str()).collect();
    assert_eq!(ids.len(), cases.len(), "an id is used twice");
    for case in &cases {
        let texts = [&case.title, &case.source, &case.tolerance.why];
        assert!(texts.iter().all(|text| text.len() > 4), "{}", case.id);
        assert!(
            case.tolerance.abs.or(case.tolerance.rel).is_some(),
            "{}",
            case.id
        );
        // A figure that only follows from others must say from what.
        if matches!(case.known, Known::Derived | Known::RuleRead) {
            assert!(!case.note.is_empty(), "{}: from what?", case.id);
        }
    }
}

/// What a load on the truck itself adds to the front and the rear axle, kg.
fn added(chassis: Chassis, mass_kg: f64, at: PayloadPlace) -> (f64, f64) {
    let mut plan = plan(chassis);
    plan.loads.payload = Some(Payload { mass_kg, at });
    let loads = loads_of(&plan);
    let more = |id: &str| {
        let before = group(case(&loads, Case::HalfTanks), id).load_kg;
        group(case(&loads, Case::Laden), id).load_kg - before
    };
    (more("front"), more("rear"))
}

fn at(x_mm: f64) -> PayloadPlace {
    PayloadPlace::Cg(Spot {
        x_mm,
        y_mm: 0.0,
        z_mm: 1_500.0,
    })
}

fn level(front_x_mm: f64, rear_x_mm: f64) -> PayloadPlace {
    PayloadPlace::Level {
        front_x_mm,
        rear_x_mm,
        z_mm: 1_500.0,
    }
}

fn share_of_a_mass(p: &Published) -> Answers {
    let chassis = with_wheelbase(p.given("wheelbase_in") * MM_PER_IN);
    let mass = p.given("load_lb") * KG_PER_LB;
    let (front, rear) = added(
        chassis,
        mass,
        at(p.given("behind_front_axle_in") * MM_PER_IN),
    );
    vec![
        ("front_lb", front / KG_PER_LB),
        ("rear_lb", rear / KG_PER_LB),
    ]
}

fn water_level_load(p: &Published) -> Answers {
    let chassis = with_wheelbase(p.given("wheelbase_in") * MM_PER_IN);
    let from = p.given("body_behind_front_axle_in") * MM_PER_IN;
    let to = from + p.given("body_length_in") * MM_PER_IN;
    let mass = p.given("load_lb") * KG_PER_LB;
    let (front, rear) = added(chassis, mass, level(from, to));
    vec![
        ("front_lb", front / KG_PER_LB),
        ("rear_lb", rear / KG_PER_LB),
    ]
}

fn overhanging_load(p: &Published) -> Answers {
    let chassis = bare();
    let wheelbase = chassis.dimensions.wheelbase_mm;
    let x = wheelbase * (1.0 + p.given("overhang_of_span"));
    let (front, rear) = added(chassis, p.given("load_kg"), at(x));
    vec![("front_kg", front), ("rear_kg", rear)]
}

/// Goods leave from the rear, so what is left lies at the front: the most that the front axle sees.
fn unloading_from_the_rear(p: &Published) -> Answers {
    let mut chassis = with_wheelbase(p.given("wheelbase_m") * 1_000.0);
    weighed(
        &mut chassis,
        &[("front", p.given("empty_front_kg")), ("rear", 4_000.0)],
    );
    let start = p.given("body_behind_front_axle_m") * 1_000.0;
    let length = p.given("body_length_m") * 1_000.0;
    let front_with = |left: f64| {
        let mass = p.given("payload_kg") * left;
        added(chassis.clone(), mass, level(start, start + length * left)).0
            + p.given("empty_front_kg")
    };
    let steps = 500;
    let (left, peak) = (0..=steps)
        .map(|i| f64::from(i) / f64::from(steps))
        .map(|left| (left, front_with(left)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a })
        .unwrap();
    vec![
        ("front_full_kg", front_with(1.0)),
        ("front_peak_kg", peak),
        ("peak_at_share", left),
    ]
}

/// A tractor whose empty trailer weighs 1,000 kg with all of it on its own axles, and the payload
/// that gives this kingpin load (half of it rests on the kingpin). Its drive axle has this rating.
fn pulling(
    wheelbase_in: f64,
    ahead_in: f64,
    kingpin_lb: f64,
    rating_kg: f64,
) -> (Loads, Assessment) {
    let mut chassis = tractor(wheelbase_in * MM_PER_IN, ahead_in * MM_PER_IN);
    chassis.axles[1].gawr_kg = Some(rating_kg);
    let mut plan = plan(chassis);
    couple(&mut plan, 2.0 * kingpin_lb * KG_PER_LB);
    let library = light_trailer();
    let assessment = super::yard::assess_with(&plan, &library);
    (
        axlewright_core::loads::loads(&assessment.answers.vehicle),
        assessment,
    )
}

/// More than any axle here carries.
const FREE: f64 = 40_000.0;

fn light_trailer() -> Library {
    let mut trailer = trailer();
    trailer.tare_kg = 1_000.0;
    trailer.tare_on_kingpin = 0.0;
    library(trailer)
}

/// What the kingpin adds to steer and drive axle, lb.
fn from_kingpin(wheelbase_in: f64, ahead_in: f64, kingpin_lb: f64) -> (f64, f64) {
    let (loads, _) = pulling(wheelbase_in, ahead_in, kingpin_lb, FREE);
    let pin = case(&loads, Case::Coupled).kingpin_kg.unwrap() / KG_PER_LB;
    close(pin, kingpin_lb, 1e-6);
    let more = |id: &str| {
        let before = group(case(&loads, Case::HalfTanks), id).load_kg;
        (group(case(&loads, Case::Coupled), id).load_kg - before) / KG_PER_LB
    };
    (more("front"), more("rear"))
}

fn kingpin_ahead(p: &Published) -> Answers {
    let (front, rear) = from_kingpin(
        p.given("wheelbase_in"),
        p.given("ahead_in"),
        p.given("kingpin_lb"),
    );
    vec![("steer_lb", front), ("drive_lb", rear)]
}

fn load_moved_by_an_inch(p: &Published) -> Answers {
    let (wheelbase, kingpin) = (p.given("wheelbase_in"), p.given("kingpin_lb"));
    let before = from_kingpin(wheelbase, 10.0, kingpin).0;
    let after = from_kingpin(wheelbase, 11.0, kingpin).0;
    vec![("lb_per_in", after - before)]
}

/// The drive axle is this much over; the range of positions says how far to slide, the notches how
/// far it really goes, and the slid truck how much that moved.
fn slide_in_notches(p: &Published) -> Answers {
    let (wheelbase, kingpin) = (240.0, p.given("lb_per_in") * 240.0);
    let (loads, _) = pulling(wheelbase, 10.0, kingpin, FREE);
    let drive = group(case(&loads, Case::Coupled), "rear").load_kg;
    let limit = drive - p.given("over_lb") * KG_PER_LB;
    let (_, assessment) = pulling(wheelbase, 10.0, kingpin, limit);
    let range = assessment.answers.fifth_wheel.unwrap();
    let rear = Binding::Limit("rear axle (axle rating)".to_owned());
    assert_eq!(range.bound_by.0, rear);
    let slide_in = range.ahead_mm.unwrap().0 / MM_PER_IN - 10.0;
    let notches = (slide_in / p.given("notch_in") - 1e-9).ceil();
    let slide = notches * p.given("notch_in");
    let (slid, _) = pulling(wheelbase, 10.0 + slide, kingpin, FREE);
    let moved = (drive - group(case(&slid, Case::Coupled), "rear").load_kg) / KG_PER_LB;
    vec![
        ("notches", notches),
        ("slide_in", slide),
        ("moved_lb", moved),
    ]
}

fn side_share(p: &Published) -> Answers {
    let mut chassis = bare();
    for axle in &mut chassis.axles {
        axle.track_mm = p.given("track_m") * 1_000.0;
    }
    let mut plan = plan(chassis);
    let pack = part(
        "pack",
        "battery-pack",
        p.given("mass_kg"),
        [1_000.0, 400.0, 500.0],
    );
    put(
        &mut plan,
        pack,
        [2_000.0, -p.given("left_m") * 1_000.0, 400.0],
    );
    let loads = loads_of(&plan);
    let side = |of: Case, pick: fn(&axlewright_core::loads::GroupLoad) -> f64| -> f64 {
        case(&loads, of).groups.iter().map(pick).sum()
    };
    let left = side(Case::Unladen, |g| g.left_kg) - side(Case::Stripped, |g| g.left_kg);
    let right = side(Case::Unladen, |g| g.right_kg) - side(Case::Stripped, |g| g.right_kg);
    vec![("left_kg", left), ("right_kg", right)]
}

/// The check of the sides begins to warn at the given difference: half a kilogram less and it holds,
/// half a kilogram more and it warns.
fn side_difference(p: &Published) -> Answers {
    let axle = p.given("axle_kg");
    let weighing = |difference: f64| {
        let mut chassis = bare();
        weighed(&mut chassis, &[("front", 5_000.0), ("rear", axle)]);
        let rear = &mut chassis.ticket.as_mut().unwrap().axle[1];
        rear.left_kg = Some((axle + difference) / 2.0);
        rear.right_kg = Some((axle - difference) / 2.0);
        let assessment = super::yard::assess(&plan(chassis));
        let severity = finding(&assessment, "side-balance", "rear").severity;
        let loads = &assessment.answers.loads;
        (severity, group(case(loads, Case::Unladen), "rear").left_kg)
    };
    let warns = |difference: f64| weighing(difference).0 != Severity::Holds;
    let (mut low, mut high) = (0.0, axle / 10.0);
    assert!(!warns(low) && warns(high));
    while high - low > 0.01 {
        let middle = f64::midpoint(low, high);
        if warns(middle) {
            high = middle
        } else {
            low = middle
        }
    }
    vec![("difference_kg", low), ("heavier_side_kg", weighing(low).1)]
}

fn middle_of_a_tandem(p: &Published) -> Answers {
    let mut chassis = bare();
    chassis.axles[1].x_mm = p.given("axle_1_to_2_mm");
    let mut third = chassis.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.x_mm += p.given("axle_2_to_3_mm");
    chassis.axles.push(third);
    chassis.groups[1].axles.push("axle-3".to_owned());
    chassis.groups[1].share = Share::Equal;
    let middle = chassis.group_x_mm("rear", &[]).unwrap();
    // And it is where a mass must stand that the front axle does not feel.
    chassis.dimensions.wheelbase_mm = middle;
    let (front, rear) = added(chassis, 1_000.0, at(p.expected["wheelbase_mm"]));
    close(front, 0.0, 1e-6);
    close(rear, 1_000.0, 1e-6);
    vec![("wheelbase_mm", middle)]
}

fn swing_radius(p: &Published) -> Answers {
    let mut trailer = trailer();
    trailer.width_mm = 2.0 * p.given("half_width_mm");
    trailer.nose_ahead_mm = p.given("kingpin_to_front_mm");
    let mut plan = plan(tractor(5_000.0, 0.0));
    couple(&mut plan, 0.0);
    let vehicle = resolve_with(&plan, &library(trailer));
    vec![("swing_mm", vehicle.trailer.unwrap().swing_radius_mm())]
}
