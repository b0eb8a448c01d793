//! *Published* and *property*: the EU regime, row by row of `tests/published/law/eu.toml`.

use super::yard;
use axlewright_core::chassis::{AxleKind, Chassis, Group, SuspensionKind};
use axlewright_core::findings::Severity;
use axlewright_core::law::{Allowance, Regime};
use axlewright_core::legality::{
    self, Allowed, Rule, bridge_groups, gross_limit, group_limit_kg, road_axles, trailer_limit_kg,
};
use axlewright_core::library::Library;
use axlewright_core::plan::{Payload, PayloadPlace, Plan};
use axlewright_core::shared::Shared;
use axlewright_core::vehicle::Vehicle;
use proptest::prelude::*;
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    tandem: BTreeMap<String, Tandem>,
    single: Single,
    gross: BTreeMap<String, Rows>,
    driven_share: DrivenShare,
    steered_share: SteeredShare,
    sizes: BTreeMap<String, Sizes>,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Known {
    Read,
    Derived,
    Memory,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Tandem {
    of: String,
    source: String,
    known: Known,
    axles: u32,
    #[serde(default)]
    friendly: bool,
    d_m: Vec<f64>,
    limit_t: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Single {
    id: String,
    source: String,
    known: Known,
    non_driving_t: f64,
    driving_t: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Rows {
    source: String,
    known: Known,
    rows: Vec<Row>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Row {
    truck: usize,
    trailer: u32,
    friendly: bool,
    steered: usize,
    intermodal: bool,
    trailer_spacing_m: Option<f64>,
    claim: Option<String>,
    limit_t: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DrivenShare {
    id: String,
    source: String,
    known: Known,
    total_t: f64,
    drive_t: f64,
    least_t: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SteeredShare {
    id: String,
    source: String,
    known: Known,
    total_kg: f64,
    least_kg: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sizes {
    source: String,
    known: Known,
    m: BTreeMap<String, f64>,
}

fn file() -> File {
    toml::from_str(include_str!("../published/law/eu.toml")).unwrap_or_else(|e| panic!("{e}"))
}

pub fn eu() -> Shared<Regime> {
    Library::shipped().laws["eu-96-53"].clone()
}

/// A chassis with a steered axle in front and driven ones at these places behind it, one group each;
/// driven axles with twin tyres on air springs, or on leaf springs.
fn chassis(at_mm: &[f64], friendly: bool) -> Chassis {
    let mut chassis = yard::bare();
    let rear = chassis.axles[1].clone();
    let group = chassis.groups[1].clone();
    for (index, x_mm) in at_mm.iter().enumerate() {
        let mut axle = rear.clone();
        axle.id = format!("axle-{}", index + 2);
        axle.x_mm = *x_mm;
        axle.suspension.kind = if friendly {
            SuspensionKind::Air
        } else {
            SuspensionKind::Leaf
        };
        let group = Group {
            id: format!("rear-{}", index + 2),
            axles: vec![axle.id.clone()],
            ..group.clone()
        };
        if index == 0 {
            chassis.axles[1] = axle;
            chassis.groups[1] = group;
        } else {
            chassis.axles.push(axle);
            chassis.groups.push(group);
        }
    }
    chassis
}

/// The chassis as it stands, with a trailer of so many axles.
fn vehicle(chassis: Chassis, trailer: Option<(u32, f64)>) -> Vehicle {
    let mut donor = yard::tractor(5_000.0, 0.0);
    donor.axles = chassis.axles.clone();
    donor.groups = chassis.groups.clone();
    let mut plan = yard::plan(if trailer.is_some() {
        yard::tractor(5_000.0, 0.0)
    } else {
        yard::bare()
    });
    if trailer.is_some() {
        yard::couple(&mut plan, 0.0);
    }
    let mut own = yard::trailer();
    if let Some((axles, spacing_mm)) = trailer {
        own.axle_count = axles;
        own.axle_spacing_mm = spacing_mm;
    }
    let mut vehicle = yard::resolve_with(&plan, &yard::library(own));
    vehicle.chassis.axles = donor.axles;
    vehicle.chassis.groups = donor.groups;
    vehicle.law = Some(eu());
    vehicle
}

fn two(d_mm: f64, friendly: bool) -> Vehicle {
    vehicle(chassis(&[5_000.0, 5_000.0 + d_mm], friendly), None)
}

/// What is wrong with a limit, if anything is.
fn miss(what: &str, found_kg: Option<f64>, wanted_t: f64) -> Option<String> {
    let found = found_kg.unwrap_or(f64::NAN) / 1_000.0;
    let right = (found - wanted_t).abs() < 1e-9;
    (!right).then(|| format!("{what}: {found} t, {wanted_t} t wanted"))
}

#[track_caller]
fn tonnes(what: &str, found_kg: Option<f64>, wanted_t: f64) {
    let missed = miss(what, found_kg, wanted_t);
    assert!(missed.is_none(), "{}", missed.unwrap());
}

#[test]
fn every_published_tandem_and_tri_axle_comes_out() {
    let mut misses = Vec::new();
    for (id, row) in file().tandem {
        assert_eq!(row.d_m.len(), row.limit_t.len(), "{id}");
        for (d, limit) in row.d_m.iter().zip(&row.limit_t) {
            let what = format!("{id}, {d} m");
            let d_mm = d * 1_000.0;
            if row.of == "trailer" {
                let vehicle = vehicle(chassis(&[5_000.0], true), Some((row.axles, d_mm)));
                misses.extend(miss(&what, trailer_limit_kg(&vehicle), *limit));
            } else {
                let vehicle = two(d_mm, row.friendly);
                let axles = road_axles(&vehicle);
                let allowed = Allowed::to(&vehicle).unwrap();
                let (kg, rule) = allowed.group_kg(&axles[1..], 0.0).unwrap();
                assert!(matches!(rule, Rule::Tandem | Rule::Gross), "{what}");
                // A three-axle truck may weigh 25 t, more than any tandem.
                misses.extend(miss(&what, Some(kg), *limit));
            }
        }
    }
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}

#[test]
fn beyond_the_last_step_axles_count_singly() {
    let vehicle = two(1_800.0, true);
    let axles = road_axles(&vehicle);
    let allowed = Allowed::to(&vehicle).unwrap();
    assert_eq!(allowed.group_kg(&axles[1..], 0.0), None);
    let mut group = vehicle.chassis.groups[1].clone();
    group.axles = vec!["axle-2".to_owned(), "axle-3".to_owned()];
    tonnes("two driven axles", group_limit_kg(&vehicle, &group), 23.0);
}

#[test]
fn single_axles_are_those_of_the_directive() {
    let row = file().single;
    let vehicle = two(4_000.0, true);
    let axles = road_axles(&vehicle);
    let allowed = Allowed::to(&vehicle).unwrap();
    let kg = |index: usize| allowed.one_kg(&axles[index]).map(|(kg, _)| kg);
    tonnes(&row.id, kg(0), row.non_driving_t);
    tonnes(&row.id, kg(1), row.driving_t);
}

/// An axle whose donor drive came off is not driven, unless an e-axle stands there.
#[test]
fn what_is_driven_is_seen_and_not_read() {
    let plan = super::read("lakeside-lift-axle.json");
    let driven = |plan: &Plan| {
        let axles = road_axles(&super::assess(plan).answers.vehicle);
        let driven = axles.into_iter().filter(|a| a.driven);
        driven.map(|a| a.id).collect::<Vec<_>>()
    };
    assert_eq!(driven(&plan), ["axle-2"]);
    let mut without = plan.clone();
    let library = Library::shipped();
    without
        .placed
        .retain(|p| library.parts[&p.part].axle.is_none());
    assert!(driven(&without).is_empty());
    without.changes.stripped.retain(|id| id != "axle-drive");
    assert_eq!(driven(&without), ["axle-2"]);
}

#[test]
fn every_published_gross_weight_comes_out() {
    let mut misses = Vec::new();
    for (id, rows) in file().gross {
        assert!(rows.source.len() > 4 && matches!(rows.known, Known::Read));
        for (index, row) in rows.rows.iter().enumerate() {
            let at: Vec<f64> = (1..row.truck)
                .map(|n| 5_000.0 + 1_350.0 * n as f64)
                .collect();
            let mut chassis = chassis(&at, row.friendly);
            for axle in chassis
                .axles
                .iter_mut()
                .skip(1)
                .take(row.steered.saturating_sub(1))
            {
                axle.kind = AxleKind::Steer;
            }
            let spacing = row.trailer_spacing_m.unwrap_or(1.31) * 1_000.0;
            let trailer = (row.trailer > 0).then_some((row.trailer, spacing));
            let mut vehicle = vehicle(chassis, trailer);
            vehicle.intermodal = row.intermodal;
            vehicle.allowance = row.claim.is_some();
            vehicle.which_allowance.clone_from(&row.claim);
            let what = format!("{id}, row {index}");
            let found = gross_limit(&vehicle).map(|g| g.kg);
            misses.extend(miss(&what, found, row.limit_t));
            // The allowance raises the gross weight only.
            let axles = road_axles(&vehicle);
            let allowed = Allowed::to(&vehicle).unwrap();
            tonnes(&what, allowed.one_kg(&axles[0]).map(|(kg, _)| kg), 10.0);
        }
    }
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
    // Five axles on a rigid truck are not in the directive.
    let odd = vehicle(chassis(&[3_000.0, 4_350.0, 5_700.0, 7_050.0], true), None);
    assert_eq!(gross_limit(&odd), None);
}

/// A two-axle truck of these axle loads under the EU regime, laden with nothing.
fn assessed(front_kg: f64, rear_kg: f64) -> axlewright_core::assessment::Assessment {
    let mut chassis = yard::bare();
    yard::weighed(&mut chassis, &[("front", front_kg), ("rear", rear_kg)]);
    let mut plan = yard::plan(chassis);
    plan.law.regime = Some("eu-96-53".to_owned());
    plan.loads.payload = Some(Payload {
        mass_kg: 0.0,
        at: PayloadPlace::Level {
            front_x_mm: 2_000.0,
            rear_x_mm: 5_000.0,
            z_mm: 1_500.0,
        },
    });
    yard::assess_with(&plan, &Library::shipped())
}

#[test]
fn shares_of_driven_and_steered_axles_turn_at_the_published_figure() {
    let file = file();
    let driven = &file.driven_share;
    assert!(driven.id == "EU-9" && driven.source.len() > 4);
    for (drive_t, wanted) in [
        (driven.drive_t, Severity::Fails),
        (driven.least_t - 0.001, Severity::Fails),
        (driven.least_t, Severity::Holds),
    ] {
        let drive = drive_t * 1_000.0;
        let assessment = assessed(driven.total_t * 1_000.0 - drive, drive);
        let found = yard::finding(&assessment, "road-driven-share", "driven axles");
        assert_eq!(found.severity, wanted, "{drive_t} t driven");
    }
}

#[test]
fn the_steered_share_turns_at_the_published_figure() {
    let file = file();
    let steered = &file.steered_share;
    assert!(steered.id == "EU-18" && steered.source.len() > 4);
    for (front, wanted) in [
        (steered.least_kg - 1.0, Severity::Fails),
        (steered.least_kg, Severity::Holds),
    ] {
        let assessment = assessed(front, steered.total_kg - front);
        let found = yard::finding(&assessment, "road-steered-share", "steered axles");
        assert_eq!(found.severity, wanted, "{front} kg steered");
    }
}

#[test]
fn every_published_size_is_in_the_law() {
    let mut found = BTreeMap::new();
    eu().walk(&mut |place, figure| {
        if let (Some(key), Some(mm)) = (place.path.strip_prefix("sizes."), figure.mm()) {
            found.insert(key.to_owned(), mm / 1_000.0);
        }
    });
    let mut misses = Vec::new();
    for (id, row) in file().sizes {
        assert!(row.source.len() > 4 && matches!(row.known, Known::Read));
        for (key, wanted) in row.m {
            if found.get(&key) != Some(&wanted) {
                misses.push(format!(
                    "{id}, {key}: {:?}, {wanted} wanted",
                    found.get(&key)
                ));
            }
        }
    }
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}

#[test]
fn lengths_and_widths_fail_a_millimetre_beyond_the_limit() {
    let mut library = Library::shipped();
    let van = library.trailers.get_mut("van-53").unwrap();
    van.rear_mm = 12_000.0;
    van.width_mm = 2_550.0;
    let mut plan = super::read("prairie-loop.json");
    plan.law.regime = Some("eu-96-53".to_owned());
    let severity = |library: &Library, check: &str, subject: &str| {
        let assessment = axlewright_core::assessment::Assessment::of(&plan, library).unwrap();
        yard::finding(&assessment, check, subject).severity
    };
    let rear = ("road-length", "kingpin_to_rear");
    assert_eq!(severity(&library, rear.0, rear.1), Severity::Holds);
    let wide = ("road-width", "trailer_width");
    assert_eq!(severity(&library, wide.0, wide.1), Severity::Holds);
    let van = library.trailers.get_mut("van-53").unwrap();
    van.rear_mm = 12_001.0;
    van.width_mm = 2_590.0;
    assert_eq!(severity(&library, rear.0, rear.1), Severity::Fails);
    // Up to 2.60 m only with thick insulated walls, which no file states.
    assert_eq!(severity(&library, wide.0, wide.1), Severity::Caution);
    library.trailers.get_mut("van-53").unwrap().width_mm = 2_601.0;
    assert_eq!(severity(&library, wide.0, wide.1), Severity::Fails);
}

#[test]
fn every_row_says_how_it_is_known() {
    let file = file();
    for row in file.tandem.values() {
        assert!(row.source.len() > 4 && !matches!(row.known, Known::Derived));
    }
    assert!(file.single.source.len() > 4 && matches!(file.single.known, Known::Read));
    assert!(matches!(file.driven_share.known, Known::Derived));
    assert!(matches!(file.steered_share.known, Known::Memory));
    let allowances: Vec<Allowance> = eu().allowances.clone();
    assert!(
        allowances
            .iter()
            .all(|a| a.raises == [axlewright_core::law::Raised::Gross])
    );
}

proptest! {
    /// More room between the axles of a motor vehicle or a trailer never lowers what all of them may
    /// weigh together.
    #[test]
    fn widening_a_spacing_never_lowers_an_allowance(
        d in 800.0..2_400.0f64, more in 0.0..800.0f64, friendly in any::<bool>(), count in 2u32..4,
    ) {
        let group = |d: f64| {
            let vehicle = two(d, friendly);
            let mut group = vehicle.chassis.groups[1].clone();
            group.axles = vec!["axle-2".to_owned(), "axle-3".to_owned()];
            group_limit_kg(&vehicle, &group).unwrap()
        };
        prop_assert!(group(d + more) >= group(d) - 1e-6);
        let trailer = |d: f64| {
            trailer_limit_kg(&vehicle(chassis(&[5_000.0], true), Some((count, d)))).unwrap()
        };
        prop_assert!(trailer(d + more) >= trailer(d) - 1e-6, "{} axles, {} and {} more", count, d, more);
    }

    /// Moving a load between axles never changes what all of them carry.
    #[test]
    fn groups_carry_what_their_axles_carry(d in 900.0..1_700.0f64, a in 0.0..9_000.0f64, moved in 0.0..900.0f64) {
        let vehicle = two(d, true);
        let sum = |loads: &[f64]| {
            let groups = bridge_groups(&vehicle, loads);
            groups.iter().find(|g| g.numbers == (2, 3)).map(|g| g.actual_kg).unwrap()
        };
        let before = sum(&[5_000.0, a + moved, a]);
        prop_assert!((sum(&[5_000.0, a, a + moved]) - before).abs() < 1e-6);
        prop_assert!(legality::table_lb(&eu(), 4, 40.0).is_none(), "no bridge formula here");
    }
}
