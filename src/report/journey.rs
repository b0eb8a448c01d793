//! A drive in words and as data.

use crate::assessment::{Journey, Size};
use crate::energy::{End, Ledger, PLUGS, Run, Wear};
use crate::findings::Finding;
use crate::quantity::{Measure, Units};
use serde::Serialize;
use std::fmt::Write as _;

/// A drive as data: metres, seconds, joule, watt.
#[derive(Debug, Serialize)]
pub struct JourneyReport<'a> {
    /// Name of the plan.
    pub plan: &'a str,
    /// Route id.
    pub route: &'a str,
    /// Load case.
    pub case: &'a str,
    /// Mass of the whole.
    pub gross_kg: f64,
    /// How it ended.
    pub end: &'a End,
    /// Way driven.
    pub distance_m: f64,
    /// Time.
    pub time_s: f64,
    /// Energy from packs and source over the way, kilowatt-hour per kilometre.
    pub kwh_per_km: f64,
    /// The same per mile.
    pub kwh_per_mi: f64,
    /// Range with the reserve kept.
    pub range_m: f64,
    /// Fuel burnt, kilogram.
    pub fuel_kg: f64,
    /// Energies.
    pub ledger: Ledger,
    /// The run.
    pub run: &'a Run,
    /// Wear.
    pub wear: Wear,
    /// What stands behind the charts, as tables in the reader's units.
    pub pages: Vec<super::Page>,
    /// Findings.
    pub findings: Vec<super::FindingRow>,
    /// Statement for whoever reads this alone.
    pub notice: &'static str,
}

/// A drive as data.
#[must_use]
pub fn journey_data<'a>(
    journey: &'a Journey,
    found: &[Finding],
    units: Units,
) -> JourneyReport<'a> {
    let per_km = journey.per_m_j / 3.6e6 * 1e3;
    JourneyReport {
        plan: &journey.answers.vehicle.name,
        route: &journey.route.id,
        case: journey.case,
        gross_kg: journey.gross_kg,
        end: &journey.run.end,
        distance_m: journey.run.distance_m,
        time_s: journey.run.time_s,
        kwh_per_km: per_km,
        kwh_per_mi: per_km * 1.609_344,
        range_m: journey.range_m,
        fuel_kg: journey.fuel_kg(),
        ledger: journey.run.ledger,
        run: &journey.run,
        wear: journey.wear,
        pages: super::drive_answers(journey, found, units)
            .into_iter()
            .map(|answer| answer.page)
            .collect(),
        findings: found.iter().map(|f| super::finding_row(f, units)).collect(),
        notice: super::NOTICE,
    }
}

/// A drive in words.
#[must_use]
pub fn journey_text(journey: &Journey, found: &[Finding], units: Units) -> String {
    let run = &journey.run;
    let mut out = String::new();
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let way = if units == Units::Us {
        crate::quantity::M_PER_MI
    } else {
        1_000.0
    };
    let mile = if units == Units::Us { "mi" } else { "km" };
    let _ = writeln!(
        out,
        "{}\n{}",
        journey.answers.vehicle.name, journey.route.name
    );
    let _ = writeln!(
        out,
        "{}: {} gross, drag area {:.1} m², rolling {:.4} ({})\n",
        journey.case,
        show(Measure::Mass, journey.gross_kg),
        journey.resistance.0,
        journey.resistance.1,
        journey.resistance.2
    );
    let _ = writeln!(
        out,
        "  way        {} in {}\n  energy     {:.2} kWh/{mile}\n  range      {} with {} kept",
        show(Measure::Way, run.distance_m),
        show(Measure::Time, run.time_s),
        journey.per_m_j / 3.6e6 * way,
        show(Measure::Way, journey.range_m),
        show(Measure::Share, journey.reserve)
    );
    let _ = writeln!(
        out,
        "  charge     {} to {}, lowest {}",
        show(Measure::Share, run.soc_start),
        show(Measure::Share, run.soc_end),
        show(Measure::Share, run.soc_least)
    );
    if journey.truck.source.is_some() {
        let _ = writeln!(
            out,
            "  fuel       {:.1} kg of {:.1} kg usable, source ran {}",
            journey.fuel_kg(),
            journey.truck.fuel_kg,
            show(Measure::Time, run.source_s)
        );
    }
    out.push_str("\nWhere the energy went\n");
    let ledger = &run.ledger;
    let all = ledger.came_in_j().max(1.0);
    for (name, joule) in entries(ledger) {
        if joule.abs() > 1e-3 * all {
            let _ = writeln!(
                out,
                "  {name:<22}{:>12}  {:>6}",
                show(Measure::Energy, joule),
                show(Measure::Share, joule / all)
            );
        }
    }
    out.push_str("\nFindings\n");
    for finding in found {
        let _ = writeln!(
            out,
            "  {:<8}{}\n          {} | {}",
            finding.severity.words(),
            finding.sentence.words(units),
            finding.check,
            finding.source
        );
    }
    let _ = writeln!(out, "\n{}", super::NOTICE);
    out
}

/// What went out, in the order in which it is told.
pub(super) fn entries(ledger: &Ledger) -> [(&'static str, f64); 11] {
    [
        ("air", ledger.air_j),
        ("rolling", ledger.rolling_j),
        ("climbing", ledger.climb_j),
        ("motion", ledger.motion_j),
        ("accessories", ledger.accessories_j),
        ("motors, inverters", ledger.drive_loss_j),
        ("drive axles", ledger.axle_loss_j),
        ("shifting", ledger.shift_j),
        ("packs", ledger.pack_heat_j),
        ("friction brakes", ledger.brakes_j),
        ("brake resistor", ledger.resistor_j),
    ]
}

/// The table of packs for a range, in words.
#[must_use]
pub fn sizes_text(sizes: &[Size], range_m: f64, units: Units) -> String {
    let mut out = format!(
        "Packs for {} on the packs alone\n",
        Measure::Way.text(range_m, units)
    );
    for size in sizes {
        match size.count {
            Some(count) => {
                let _ = writeln!(
                    out,
                    "  {count:>2} x {:<40}{:>7.0} kWh {:>10} {:>11} on the truck {:>7.0} l  {}",
                    size.name,
                    size.energy_kwh,
                    Measure::Mass.text(size.mass_kg, units),
                    Measure::Mass.signed(size.more_kg, units),
                    size.volume_l,
                    Measure::Way.text(size.range_m, units)
                );
            }
            None => {
                let _ = writeln!(
                    out,
                    "   - x {:<40}does not make it, however many",
                    size.name
                );
            }
        }
    }
    let _ = writeln!(out, "\n{}", super::NOTICE);
    out
}

/// Charging by every plug that fits, in words.
#[must_use]
pub fn charge_text(journey: &Journey, units: Units) -> String {
    let mut out = String::from("Charging, packs at the temperature of the start\n");
    match &journey.plugged {
        Err(missing) => {
            let _ = writeln!(out, "  not assessed: {missing}");
        }
        Ok(plugged) => {
            let _ = writeln!(
                out,
                "  by {}: 10 to 80 % in {}, from the day's end in {} ({} from the wall), most {}",
                plugged.by,
                Measure::Time.text(plugged.quick.time_s, units),
                Measure::Time.text(plugged.night.time_s, units),
                Measure::Energy.text(plugged.wall_j, units),
                Measure::Power.text(plugged.night.most_w.max(plugged.quick.most_w), units)
            );
        }
    }
    out.push_str("Plugs that are known\n");
    for plug in &PLUGS {
        let _ = writeln!(
            out,
            "  {:<12} {:>5.0} V {:>5.0} A {:>9}  {}",
            plug.name,
            plug.most_v,
            plug.most_a,
            Measure::Power.text(plug.most_w, units),
            plug.source
        );
    }
    out
}
