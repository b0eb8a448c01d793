//! *Published*: every case of `tests/published/turning/cases.toml`.

use super::{alone, answers, coupled, lock, turn_with, yard};
use axlewright_core::chassis::Chassis;
use axlewright_core::manoeuvre::{at_outer, sweep};
use axlewright_core::vehicle::Vehicle;
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    id: String,
    ask: String,
    title: String,
    source: String,
    known: Known,
    #[serde(default)]
    note: String,
    /// Millimetres in the source's unit of length.
    #[serde(rename = "in")]
    mm: f64,
    given: BTreeMap<String, f64>,
    expect: BTreeMap<String, f64>,
    abs: f64,
    why: String,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Known {
    Read,
    RuleRead,
    Derived,
    Memory,
}

#[derive(Deserialize)]
struct File {
    case: Vec<Case>,
}

impl Case {
    fn plain(&self, key: &str) -> f64 {
        *self
            .given
            .get(key)
            .unwrap_or_else(|| panic!("{}: {key}", self.id))
    }

    fn mm(&self, key: &str) -> f64 {
        self.plain(key) * self.mm
    }

    /// A narrow truck of this wheelbase, so that nothing but what is asked about sticks out.
    fn chassis(&self) -> Chassis {
        yard::with_wheelbase(self.mm("wheelbase"))
    }

    /// A truck of this width all along, up to its rear axle.
    fn wide(&self, front_overhang_mm: f64) -> Vehicle {
        let mut chassis = self.chassis();
        let width = self.mm("width");
        chassis.dimensions.overall_width_mm = width;
        chassis.dimensions.bumper_to_axle_mm = front_overhang_mm;
        // The cab's block carries the full width back to the rear axle.
        chassis.dimensions.bumper_to_back_of_cab_mm = self.mm("wheelbase") + front_overhang_mm;
        chassis.axles[0].steer_angle_deg = 55.0;
        alone(chassis)
    }

    fn towing(&self, width_mm: f64) -> Vehicle {
        let ahead = self.mm("kingpin_ahead");
        coupled(
            self.mm("wheelbase"),
            ahead,
            self.mm("kingpin_to_axle"),
            width_mm,
        )
    }

    fn answers(&self) -> Vec<(&'static str, f64)> {
        match self.ask.as_str() {
            "lock" => {
                let mut chassis = self.chassis();
                let axle = &mut chassis.axles[0];
                axle.track_mm = self.mm("track");
                axle.steer_angle_deg = self.plain("inner_deg");
                axle.steer_outer_deg = self.given.get("outer_stop_deg").copied();
                axle.steer_offset_mm = self.given.get("offset").map(|x| x * self.mm);
                let lock = lock(&alone(chassis));
                vec![
                    ("wheel_radius", lock.wheel_mm / self.mm),
                    ("wheel_diameter", 2.0 * lock.wheel_mm / self.mm),
                    ("outer_deg", lock.outer_deg),
                ]
            }
            "off-tracking" => {
                let vehicle = self.towing(2_000.0);
                let (wheelbase, half) = (self.mm("wheelbase"), self.mm("half_track"));
                // The outer front wheel's radius in this turn.
                let wheel = |r: f64| (r + half).hypot(wheelbase);
                let (_, turn) = turn_with(&vehicle, self.mm("wheel_radius"), |turn| {
                    wheel(turn.centre_radius_mm)
                });
                vec![(
                    "off_tracking",
                    turn.steady.off_tracking_mm.unwrap() / self.mm,
                )]
            }
            "inside" => {
                let vehicle = self.wide(1_200.0);
                let (_, turn) = turn_with(&vehicle, self.mm("front_radius"), |t| t.steady.front_mm);
                vec![("inside", turn.inner_mm / self.mm)]
            }
            "trailer-inside" => {
                let vehicle = self.towing(self.mm("width"));
                let (_, turn) = turn_with(&vehicle, self.mm("front_radius"), |t| t.steady.front_mm);
                let middle = turn.steady.trailer_mm.unwrap();
                vec![("inside", (middle - self.mm("width") / 2.0) / self.mm)]
            }
            "no-steady-turn" => {
                let steady = |to_axle: f64| {
                    let ahead = self.mm("kingpin_ahead");
                    let vehicle = coupled(self.mm("wheelbase"), ahead, to_axle, 2_000.0);
                    let front = self.mm("front_radius");
                    let (_, turn) = turn_with(&vehicle, front, |t| t.steady.front_mm);
                    let steady = turn.steady;
                    assert_eq!(
                        steady.trailer_mm.is_none(),
                        steady.needs_path,
                        "{}",
                        self.id
                    );
                    assert_eq!(
                        steady.off_tracking_mm.is_none(),
                        steady.needs_path,
                        "{}",
                        self.id
                    );
                    f64::from(u8::from(!steady.needs_path))
                };
                vec![
                    ("steady", steady(self.mm("kingpin_to_axle"))),
                    ("steady_longer", steady(self.mm("longer"))),
                ]
            }
            "path-inside" => {
                let mut vehicle = self.towing(self.mm("width"));
                vehicle.moving.turn_deg = Some(self.plain("angle_deg"));
                let front = self.mm("front_radius");
                let (outer, _) = turn_with(&vehicle, front, |t| t.steady.front_mm);
                let path = sweep(&vehicle, &lock(&vehicle), outer).unwrap();
                vec![("inside", path.inner_mm / self.mm)]
            }
            "breakover" => {
                let mut chassis = self.chassis();
                for axle in &mut chassis.axles {
                    axle.tyres.loaded_radius_mm = 1e-6;
                }
                let mut plan = yard::plan(chassis);
                let middle = self.mm("wheelbase") / 2.0;
                let tip = yard::part("P", "equipment-box", 1.0, [0.01, 10.0, 10.0]);
                yard::put(&mut plan, tip, [middle, 0.0, self.mm("clearance")]);
                let vehicle = Vehicle::resolve(&plan, &super::library()).unwrap();
                let angle = answers(&vehicle).angles.breakover.unwrap();
                assert_eq!(angle.tag, "P");
                vec![("deg", angle.deg)]
            }
            "approach" => {
                let mut chassis = yard::bare();
                chassis.dimensions.bumper_to_axle_mm = self.mm("ahead");
                chassis.dimensions.bumper_bottom_mm = Some(self.mm("height"));
                chassis.dimensions.frame_top_unladen_mm = chassis.dimensions.frame_top_laden_mm;
                chassis.axles[0].tyres.loaded_radius_mm = self.mm("radius");
                let angle = answers(&alone(chassis)).angles.approach.unwrap();
                vec![("deg", angle.deg)]
            }
            "swept" => {
                let vehicle = self.wide(self.mm("front_overhang"));
                let turn = at_outer(&vehicle, &lock(&vehicle), self.mm("outer")).unwrap();
                yard::close(turn.outer_mm, self.mm("outer"), 1e-6);
                let passes = turn.inner_mm >= self.mm("least") && !turn.locked;
                vec![
                    ("inside", turn.inner_mm / self.mm),
                    ("passes", f64::from(u8::from(passes))),
                ]
            }
            other => panic!("{}: no question called {other}", self.id),
        }
    }
}

#[test]
fn every_published_turn_and_angle_comes_out() {
    let text = include_str!("../published/turning/cases.toml");
    let file: File = toml::from_str(text).unwrap_or_else(|e| panic!("{e}"));
    let mut ids = BTreeSet::new();
    let mut misses = Vec::new();
    for case in &file.case {
        let said = [&case.title, &case.source, &case.why];
        assert!(said.iter().all(|words| words.len() > 5), "{}", case.id);
        assert!(ids.insert(&case.id), "{} stands twice", case.id);
        if let Known::Memory = case.known {
            assert!(case.abs <= 0.7, "{}: from memory and wide open", case.id);
        }
        let _ = &case.note;
        let found: BTreeMap<&str, f64> = case.answers().into_iter().collect();
        for (key, wanted) in &case.expect {
            let found = found[key.as_str()];
            if (found - wanted).abs().is_nan() || (found - wanted).abs() > case.abs {
                misses.push(format!("{} {key}: found {found}, {wanted} wanted", case.id));
            }
        }
    }
    assert!(misses.is_empty(), "{}", misses.join("\n"));
}
