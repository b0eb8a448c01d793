//! The section of one rail along its length.

use crate::chassis::{Rail, Reinforcement};
use crate::numeric::sort_by;
use crate::vehicle::Vehicle;

/// A stretch of rail with one section.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Where it begins, mm.
    pub from_mm: f64,
    /// Where it ends, mm.
    pub to_mm: f64,
    /// Section modulus that is used, mm³: round corners, reinforcements bolted on as one.
    pub modulus_mm3: f64,
    /// The same with square corners, mm³, 5 to 6.5 % high.
    pub square_mm3: f64,
    /// RBM: bending moment that one rail resists before it yields, N·mm; `None` when no yield strength
    /// is known.
    pub resist_nmm: Option<f64>,
    /// Names of the reinforcements here.
    pub reinforced: Vec<String>,
    /// The yield strength is lowered by a weld.
    pub welded: bool,
}

/// How far from a weld its yield strength is lowered, mm: more than the heated metal is wide (common
/// practice).
pub const WELD_REACH_MM: f64 = 100.0;

/// Sections of one rail from front to rear, without gaps.
pub(super) fn sections(vehicle: &Vehicle, joints: &[f64], weld_loss: f64) -> Vec<Section> {
    let rail = &vehicle.chassis.rail;
    let (front, end) = (rail.front_x_mm, vehicle.chassis.dimensions.frame_end_x_mm());
    let reinforcements = || {
        vehicle
            .chassis
            .reinforcements
            .iter()
            .chain(&vehicle.frame.reinforcements)
    };
    let mut cuts = vec![front, end];
    for r in reinforcements() {
        cuts.extend([r.from_x_mm, r.to_x_mm]);
    }
    for x in joints {
        cuts.extend([x - WELD_REACH_MM, x + WELD_REACH_MM]);
    }
    cuts.retain(|x| *x >= front && *x <= end);
    sort_by(&mut cuts, f64::total_cmp);
    cuts.dedup();
    let pair = |ends: &[f64]| {
        let middle = f64::midpoint(ends[0], ends[1]);
        let here: Vec<&Reinforcement> = reinforcements()
            .filter(|r| r.from_x_mm <= middle && middle <= r.to_x_mm)
            .collect();
        let welded = weld_loss > 0.0 && joints.iter().any(|x| (x - middle).abs() < WELD_REACH_MM);
        let left = if welded { 1.0 - weld_loss } else { 1.0 };
        section(rail, &here, (ends[0], ends[1]), welded, left)
    };
    cuts.windows(2).map(pair).collect()
}

fn section(
    rail: &Rail,
    here: &[&Reinforcement],
    (from_mm, to_mm): (f64, f64),
    welded: bool,
    left: f64,
) -> Section {
    let plain = rail.profile();
    let added: f64 = here.iter().map(|r| r.profile.inertia_mm4()).sum();
    // All are symmetrical about the same half height, so that the second moments simply add.
    let inertia = rail.inertia_mm4() + added;
    let modulus = |depth: f64| 2.0 * inertia / depth;
    // The rail's edge or a reinforcement's, whichever yields first.
    let resist = rail.yield_mpa.map(|rail_mpa| {
        here.iter()
            .map(|r| r.yield_mpa.unwrap_or(rail_mpa) * modulus(r.profile.depth_mm()))
            .fold(rail_mpa * modulus(rail.depth_mm), f64::min)
            * left
    });
    Section {
        from_mm,
        to_mm,
        modulus_mm3: modulus(rail.depth_mm),
        square_mm3: 2.0 * (plain.inertia_mm4() + added) / rail.depth_mm,
        resist_nmm: resist,
        reinforced: here.iter().map(|r| r.name.clone()).collect(),
        welded,
    }
}

/// The weaker of the sections that meet at a place: its index and what it resists.
pub(super) fn weakest_at(sections: &[Section], x_mm: f64) -> Option<(usize, f64)> {
    sections
        .iter()
        .enumerate()
        .filter(|(_, s)| s.from_mm <= x_mm && x_mm <= s.to_mm)
        .filter_map(|(index, s)| s.resist_nmm.map(|resist| (index, resist)))
        .reduce(|a, b| if b.1 < a.1 { b } else { a })
}
