//! The hand calculation as `tests/cases/scenarios.toml` writes it.

use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    #[expect(dead_code, reason = "for the reader")]
    pub known: String,
    pub tolerance_kg: f64,
    pub scenario: Vec<Scenario>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    pub plan: String,
    pub groups: [String; 2],
    pub donor: Weighed,
    pub removed: Sum,
    pub stripped: Weighed,
    pub added: Sum,
    pub curb: Weighed,
    pub payload_limits_kg: BTreeMap<String, f64>,
    pub governed_by: String,
    pub at_limit: Laden,
    pub at_target: Option<Laden>,
    pub best_fifth_wheel: Option<Slider>,
    pub best_fifth_wheel_with_swing: Option<Slider>,
    pub clear: bool,
    pub wrong: Vec<Wrong>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Weighed {
    pub loads_kg: [f64; 2],
    pub mass_kg: Option<f64>,
    pub slide_shifts_kg: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sum {
    pub mass_kg: f64,
    pub x_mm: f64,
    pub y_mm: Option<f64>,
    pub z_mm: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Laden {
    pub payload_kg: f64,
    pub loads_kg: [f64; 2],
    pub trailer_axles_kg: Option<f64>,
    pub kingpin_kg: Option<f64>,
    pub gross_kg: Option<f64>,
    pub gvw_kg: Option<f64>,
    pub margins_kg: Option<[f64; 2]>,
    pub gvw_margin_kg: Option<f64>,
    pub slide_shifts_kg: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Slider {
    pub ahead_mm: f64,
    pub payload_kg: f64,
    pub swing_allows_mm: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wrong {
    pub plan: String,
    pub curb: Weighed,
    pub laden: Option<Laden>,
    pub over: Option<Over>,
    pub mistaken_payload_kg: Option<f64>,
    pub findings: Vec<Named>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Over {
    pub group: String,
    pub legal_kg: f64,
    pub rating_kg: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Named {
    pub parts: Vec<String>,
    pub gap_mm: Option<f64>,
    pub nose_swing_mm: Option<f64>,
    pub behind_cab_mm: Option<f64>,
    pub want_mm: f64,
}

fn file() -> File {
    toml::from_str(include_str!("../cases/scenarios.toml")).unwrap()
}

/// One scenario by its plan, and how near is near enough, kg.
pub fn scenario(plan: &str) -> (Scenario, f64) {
    let file = file();
    let tolerance = file.tolerance_kg;
    let found = file.scenario.into_iter().find(|s| s.plan == plan);
    (
        found.unwrap_or_else(|| panic!("no scenario {plan}")),
        tolerance,
    )
}
