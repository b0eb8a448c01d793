//! What a part asks of its brackets: its weight times the accelerations that they have to hold.

use crate::part::Fuel;
use crate::quantity::N_PER_KG;
use crate::shared::{Along, Shared};
use crate::source::{Basis, Source};
use crate::vehicle::{Item, Vehicle};

/// Up and down, along and across the truck, g, for parts other than gas containers, unless the plan
/// says it (common practice: 3 to 4, 6 to 10 and 4 to 6; a crash load, not one of the road).
pub const PART_G: [f64; 3] = [4.0, 8.0, 5.0];

/// Along and across the truck, g, for mounts of gas containers by gross rating of the truck in kg: over
/// 12 t (N3), over 3.5 t (N2), below (N1). UN R110, 17.4.4 and UN R134, 7.2 (memory).
pub const TANK_G: [(f64, [f64; 2]); 3] = [
    (12_000.0, [6.6, 5.0]),
    (3_500.0, [10.0, 5.0]),
    (0.0, [20.0, 8.0]),
];

/// Forward, rearward and sideways, g, that securement of cargo has to hold without breaking: 49 CFR
/// 393.102(a)(1) (read). The least for anything aboard, not a measure for battery packs or tanks.
pub const CARGO_G: [f64; 3] = [0.8, 0.5, 0.5];

/// Forces on the mounts of one part.
#[derive(Clone, Debug, PartialEq)]
pub struct MountForces {
    /// Tag of the part.
    pub tag: String,
    /// What hangs on the mounts: contents full, kg.
    pub mass_kg: f64,
    /// Accelerations up and down, along, across, g.
    pub g: [f64; 3],
    /// The forces in the same order, N; the part's own weight is part of the first.
    pub force_n: [f64; 3],
    /// Who sets the accelerations, and who states the strength.
    pub source: Source,
    /// Brackets in all, where known.
    pub brackets: Option<u32>,
    /// Bolts in all, where known.
    pub bolts: Option<u32>,
    /// What brackets and bolts bear, N, where known.
    pub rating_n: Option<f64>,
    /// No strength is stated because the brackets are still to be designed.
    pub own_design: bool,
}

impl MountForces {
    /// The largest of the three forces, N.
    #[must_use]
    pub fn largest_n(&self) -> f64 {
        self.force_n.into_iter().fold(0.0, f64::max)
    }

    /// Words for the direction of the largest force.
    #[must_use]
    pub fn direction(&self) -> &'static str {
        let names = ["up and down", "along the truck", "across the truck"];
        let mut best = 0;
        for (index, force) in self.force_n.iter().enumerate() {
            if *force > self.force_n[best] {
                best = index;
            }
        }
        names[best]
    }
}

/// Forces on the mounts of every rigid part that hangs on the frame; those of parts that are the same
/// as before are taken from there.
#[must_use]
pub fn mount_forces(
    vehicle: &Vehicle,
    before: Option<(&Vehicle, &[Shared<MountForces>])>,
) -> Vec<Shared<MountForces>> {
    let alike =
        |(old, _): &(&Vehicle, _)| vehicle.chassis.is(&old.chassis) && vehicle.frame == old.frame;
    let before = before.filter(alike);
    let mut known = Along::new(before.map_or(&[], |(_, known)| known));
    let mut found = Vec::with_capacity(vehicle.items.len());
    for (index, item) in vehicle.items.iter().enumerate() {
        if item.part.soft || item.unsprung_axle.is_some() || item.joined_axle.is_some() {
            continue;
        }
        let then = known.next(|forces| forces.tag == item.tag);
        let stays = before.is_some_and(|(old, _)| vehicle.keeps_item(index, old));
        found.push(match then {
            Some((then, _)) if stays => then.clone(),
            _ => {
                let mut now = Shared::from(of_item(vehicle, item));
                // Where a part hangs does not matter.
                if let Some((then, _)) = then {
                    now.settle(then);
                }
                now
            }
        });
    }
    found
}

fn of_item(vehicle: &Vehicle, item: &Item) -> MountForces {
    let choice = &vehicle.frame;
    let chosen = [choice.vertical_g, choice.longitudinal_g, choice.lateral_g];
    let gas = item
        .part
        .contents
        .as_ref()
        .is_some_and(|c| c.fuel != Fuel::Diesel);
    let class = vehicle.chassis.ratings.gvwr_kg.filter(|_| gas);
    let class = class.and_then(|kg| TANK_G.iter().find(|(over, _)| kg > *over));
    let usual = class.map_or(PART_G, |(_, [along, across])| [PART_G[0], *along, *across]);
    let g = [0, 1, 2].map(|i| chosen[i].unwrap_or(usual[i]));
    let mass_kg = item.mass_at(1.0);
    let source = if chosen.iter().all(Option::is_some) {
        Source::new(Basis::Estimate, "accelerations set in the plan")
    } else if class.is_some() {
        let words = "UN R110, 17.4.4 and R134, 7.2, from memory; up and down common practice";
        Source::new(Basis::CommonPractice, words)
    } else {
        Source::common_practice()
    };
    let mounts = item.part.mounts.as_ref();
    let rating_n = mounts.and_then(|m| m.rating_n);
    let source = if rating_n.is_some() {
        with_strength(&source, &item.part.source)
    } else {
        source
    };
    MountForces {
        tag: item.tag.clone(),
        mass_kg,
        g,
        force_n: g.map(|g| g * mass_kg * N_PER_KG),
        source,
        brackets: mounts.and_then(|m| m.brackets),
        bolts: mounts.and_then(|m| m.bolts),
        rating_n,
        own_design: rating_n.is_none() && mounts.is_some_and(|m| m.own_design),
    }
}

/// The weaker of both counts, and both are named.
fn with_strength(accelerations: &Source, strength: &Source) -> Source {
    let basis = accelerations.basis.max(strength.basis);
    let both = [("accelerations", accelerations), ("strength", strength)];
    let words = both.map(|(what, source)| format!("{what}: {}", source.document));
    Source::new(basis, words.join("; "))
}
