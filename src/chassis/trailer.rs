//! A semi-trailer, as far as the tractor's plan needs it.

use crate::source::{Checker, Problems, Source};
use serde::{Deserialize, Serialize};

/// A semi-trailer. x counts rearward from its kingpin.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Trailer {
    /// File format of a trailer; 1 today.
    pub format: u32,
    /// Identifier, unique in the library.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Where the figures come from.
    pub source: Source,
    /// Kingpin to the centre of the axle group.
    pub kingpin_to_axles_mm: f64,
    /// Spacing between neighbouring axles of the group.
    pub axle_spacing_mm: f64,
    /// Number of axles.
    pub axle_count: u32,
    /// Outside diameter of the tyres.
    pub tyre_diameter_mm: f64,
    /// Section width of one tyre; unknown is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyre_width_mm: Option<f64>,
    /// Tyres on each axle, both sides together; unknown is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyres_per_axle: Option<u32>,
    /// Where the axles can be slid to; without it they stay where they are.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slider: Option<AxleSlider>,
    /// Rating of the axle group.
    pub axles_rating_kg: f64,
    /// Empty mass.
    pub tare_kg: f64,
    /// Share of the empty mass that rests on the kingpin.
    pub tare_on_kingpin: f64,
    /// Largest payload that the trailer is built for.
    pub payload_max_kg: f64,
    /// Where the load's centre of gravity stands: 0 over the kingpin, 1 over the axles.
    pub load_cg: f64,
    /// Height of the empty trailer's centre of gravity above ground.
    pub tare_cg_z_mm: f64,
    /// Height of the load's centre of gravity above ground.
    pub load_cg_z_mm: f64,
    /// Front of the trailer ahead of the kingpin.
    pub nose_ahead_mm: f64,
    /// Rear end behind the kingpin.
    pub rear_mm: f64,
    /// Outer width.
    pub width_mm: f64,
    /// Underside of the nose above ground when coupled.
    pub nose_z_mm: f64,
    /// Top above ground.
    pub top_z_mm: f64,
    /// Clearance to keep between the swinging nose and anything on the tractor.
    pub swing_clearance_mm: f64,
    /// Landing legs.
    pub legs: LandingLegs,
}

/// Axles that slide along the trailer and are pinned in holes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AxleSlider {
    /// Foremost hole: kingpin to the centre of the axles.
    pub from_mm: f64,
    /// Rearmost hole.
    pub to_mm: f64,
    /// From hole to hole.
    pub step_mm: f64,
    /// Mass that slides.
    pub moves_kg: f64,
}

impl AxleSlider {
    /// Every hole, front to rear.
    pub fn holes_mm(&self) -> impl Iterator<Item = f64> + '_ {
        let holes = (0..=Self::MOST).map(|n| self.from_mm + f64::from(n) * self.step_mm);
        holes.take_while(|mm| *mm <= self.to_mm + 0.5)
    }

    /// More holes than any trailer has.
    const MOST: u32 = 200;
}

/// The pair of legs that a parked trailer stands on, raised for driving.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct LandingLegs {
    /// Front of the legs behind the kingpin.
    pub behind_kingpin_mm: f64,
    /// Outer width over both legs.
    pub width_mm: f64,
    /// Lowest point above ground when raised.
    pub bottom_z_mm: f64,
    /// Clearance to keep.
    pub clearance_mm: f64,
}

impl Trailer {
    /// Checks every number against what a trailer can be.
    ///
    /// # Errors
    /// All problems at once.
    pub fn check(&self, file: &str) -> Result<(), Problems> {
        let mut c = Checker::new(file);
        if self.format != 1 {
            c.problem("format", self.format, "is not a known trailer format", "1");
        }
        c.id("id", &self.id);
        c.text("name", &self.name, 120);
        c.range(
            "kingpin_to_axles_mm",
            self.kingpin_to_axles_mm,
            1_000.0,
            20_000.0,
        );
        c.range("axle_spacing_mm", self.axle_spacing_mm, 0.0, 5_000.0);
        c.range("axle_count", f64::from(self.axle_count), 1.0, 6.0);
        c.range("tyre_diameter_mm", self.tyre_diameter_mm, 300.0, 2_000.0);
        c.range_if("tyre_width_mm", self.tyre_width_mm, 50.0, 700.0);
        let tyres = self.tyres_per_axle.map(f64::from);
        c.range_if("tyres_per_axle", tyres, 2.0, 8.0);
        if let Some(slider) = &self.slider {
            c.under("slider", |c| {
                let (from, to) = (slider.from_mm, slider.to_mm);
                c.range("from_mm", from, 1_000.0, 20_000.0);
                c.range("to_mm", to, from.max(1_000.0), 20_000.0);
                c.range("step_mm", slider.step_mm, 20.0, 2_000.0);
                c.range("moves_kg", slider.moves_kg, 0.0, self.tare_kg.max(0.0));
            });
        }
        c.range("axles_rating_kg", self.axles_rating_kg, 100.0, 80_000.0);
        c.range("tare_kg", self.tare_kg, 100.0, 40_000.0);
        c.range("tare_on_kingpin", self.tare_on_kingpin, 0.0, 1.0);
        c.range("payload_max_kg", self.payload_max_kg, 0.0, 100_000.0);
        c.range("load_cg", self.load_cg, 0.0, 1.0);
        c.range("tare_cg_z_mm", self.tare_cg_z_mm, 0.0, 5_000.0);
        c.range("load_cg_z_mm", self.load_cg_z_mm, 0.0, 5_000.0);
        c.range("nose_ahead_mm", self.nose_ahead_mm, 0.0, 4_000.0);
        c.range("rear_mm", self.rear_mm, 500.0, 25_000.0);
        c.range("width_mm", self.width_mm, 500.0, 4_000.0);
        c.range("nose_z_mm", self.nose_z_mm, 300.0, 3_000.0);
        c.range("top_z_mm", self.top_z_mm, 300.0, 6_000.0);
        c.range("swing_clearance_mm", self.swing_clearance_mm, 0.0, 1_000.0);
        c.under("legs", |c| {
            c.range(
                "behind_kingpin_mm",
                self.legs.behind_kingpin_mm,
                0.0,
                10_000.0,
            );
            c.range("width_mm", self.legs.width_mm, 0.0, 4_000.0);
            c.range("bottom_z_mm", self.legs.bottom_z_mm, 0.0, 2_000.0);
            c.range("clearance_mm", self.legs.clearance_mm, 0.0, 1_000.0);
        });
        c.done()
    }
}
