//! A drive in words.

use super::{consumption, entries, way};
use crate::assessment::{Journey, RangeAt};
use crate::energy::Strategy;
use crate::findings::Finding;
use crate::quantity::{MM_PER_IN, Measure, Units};
use crate::report::{NOTICE, cautions::caution_lines};
use std::fmt::Write as _;

/// A drive in words; `ranges` as they were worked out for it.
#[must_use]
pub fn journey_text(
    journey: &Journey,
    ranges: &[RangeAt],
    found: &[Finding],
    units: Units,
) -> String {
    let mut out = String::new();
    head(&mut out, journey, units);
    track(&mut out, journey, units);
    result(&mut out, journey, units);
    abilities(&mut out, journey, units);
    energy(&mut out, journey, units);
    packs(&mut out, journey, units);
    source(&mut out, journey, units);
    range_table(&mut out, ranges, units);
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
    out.push_str(&caution_lines(&journey.answers.vehicle));
    let _ = writeln!(out, "\n{NOTICE}");
    out
}

/// A height or a climb, in metres or feet.
fn height(metre: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{metre:.0} m"),
        Units::Us => format!("{:.0} ft", metre * 1e3 / (12.0 * MM_PER_IN)),
    }
}

fn head(out: &mut String, journey: &Journey, units: Units) {
    let (weather, (drag, rolling, source)) = (&journey.route.weather, &journey.resistance);
    let _ = writeln!(
        out,
        "{}\n{}\n{}: {} gross, drag area {drag:.1} m², rolling {rolling:.4} ({source})",
        journey.answers.vehicle.name,
        journey.route.name,
        journey.case,
        Measure::Mass.text(journey.gross_kg, units),
    );
    let _ = writeln!(
        out,
        "air {}, packs start at {}, wind against {}, start {} above the sea, trips {}\n",
        Measure::Temperature.text(weather.temperature_c, units),
        Measure::Temperature.text(journey.conditions.pack_c, units),
        Measure::RoadSpeed.text(weather.headwind_mps, units),
        height(weather.altitude_m, units),
        journey.trips
    );
}

/// What was made of a recorded track.
fn track(out: &mut String, journey: &Journey, units: Units) {
    let Some(survey) = &journey.route.survey else {
        return;
    };
    let speeds = match survey.speed_mps {
        Some(v) => format!(
            "no times in the file, {} taken",
            Measure::RoadSpeed.text(v, units)
        ),
        None => format!("speeds by its times, {} stops", survey.stops),
    };
    let _ = writeln!(
        out,
        "Recorded track: {} points, {} wild ones left out, {speeds}\n  climb {} as recorded, {} smoothed: {}\n",
        survey.points,
        survey.wild,
        height(survey.raw_climb_m, units),
        height(survey.climb_m, units),
        survey.method
    );
}

fn result(out: &mut String, journey: &Journey, units: Units) {
    let run = &journey.run;
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let _ = writeln!(
        out,
        "  way        {} in {}, {} climbed, {} above the sea at most\n  energy     {}\n  range      {} with {} kept",
        show(Measure::Way, run.distance_m),
        show(Measure::Time, run.time_s),
        height(journey.route.profile.climb_m().0, units),
        height(run.highest_m, units),
        consumption(journey, units),
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
    for stop in &run.charged {
        let text = match &stop.by {
            Ok(by) => format!(
                "{by}, {} in {}, {} from the wall",
                show(Measure::Energy, stop.energy_j),
                show(Measure::Time, stop.dwell_s),
                show(Measure::Energy, stop.wall_j)
            ),
            Err(why) => format!("nothing charged: {why}"),
        };
        let _ = writeln!(out, "  at {:<10}{text}", show(Measure::Way, stop.at_m));
    }
}

/// Starting, climbing, speeds.
fn abilities(out: &mut String, journey: &Journey, units: Units) {
    let grades = &journey.grades;
    let speed =
        |v: Option<f64>| v.map_or_else(|| "none".to_owned(), |v| Measure::RoadSpeed.text(v, units));
    let share =
        |g: Option<f64>| g.map_or_else(|| "none".to_owned(), |g| Measure::Share.text(g, units));
    let time = |s: Option<f64>| s.map_or_else(|| "not reached".to_owned(), |s| format!("{s:.1} s"));
    let _ = writeln!(
        out,
        "\nWhat it can do, peak / continuous\n  starts on  {}\n  holds      {} / {} on 3 %, {} / {} on 6 %, {} on the level",
        share(grades.launch),
        speed(grades.on_3.0),
        speed(grades.on_3.1),
        speed(grades.on_6.0),
        speed(grades.on_6.1),
        speed(grades.top)
    );
    for (v, peak, lasting) in grades.at_speed {
        let _ = writeln!(
            out,
            "  climbs     {} / {} at {}",
            share(peak),
            share(lasting),
            Measure::RoadSpeed.text(v, units)
        );
    }
    let _ = writeln!(
        out,
        "  0–30 mph   {}\n  0–60 mph   {}\n  shifts     {} on the way, with a pause of 0.6 s each and 4 s between two (common practice)",
        time(grades.sprint.to_30_mph_s),
        time(grades.sprint.to_60_mph_s),
        journey.run.shifts
    );
}

fn energy(out: &mut String, journey: &Journey, units: Units) {
    let run = &journey.run;
    let ledger = &run.ledger;
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let (metre, unit) = way(units);
    let _ = writeln!(
        out,
        "\nWhere the energy went{:>24}{:>8}",
        format!("kWh/{unit}"),
        "%"
    );
    let all = ledger.came_in_j().max(1.0);
    for (name, joule) in entries(ledger) {
        if joule.abs() > 1e-3 * all {
            let _ = writeln!(
                out,
                "  {name:<22}{:>12}  {:>7}  {:>6}",
                show(Measure::Energy, joule),
                format!("{:.3}", joule / 3.6e6 / run.distance_m.max(1.0) * metre).replace('-', "−"),
                show(Measure::Share, joule / all)
            );
        }
    }
    let _ = writeln!(
        out,
        "  of the accessories: cab climate {}, heating the packs {}, fans and chiller {}",
        show(Measure::Energy, run.climate_j),
        show(Measure::Energy, run.heater_j),
        show(Measure::Energy, run.fans_j)
    );
    let _ = writeln!(
        out,
        "  braking: {} by the motors at the wheels, {} by friction; the motors brake within their torque, what packs and resistor take and the grip, and fade out from 14 to 7 km/h; friction does the rest",
        show(Measure::Energy, ledger.wheel_back_j),
        show(Measure::Energy, ledger.brakes_j)
    );
}

fn packs(out: &mut String, journey: &Journey, units: Units) {
    let (run, bank) = (&journey.run, &journey.truck.bank);
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let _ = writeln!(
        out,
        "\nPacks: {} of {:?} cells, {} in series, {:.0} to {:.0} V ({})\n  usable {} now, {} at {} and above; {} to {} on the way; {} years",
        bank.packs,
        bank.cell.chemistry,
        bank.series,
        bank.series * bank.cell.least_v,
        bank.top_v(),
        bank.cell.open_v_source,
        show(Measure::Energy, bank.usable_at_j(run.pack_end_c)),
        show(Measure::Energy, bank.usable_j()),
        show(Measure::Temperature, 20.0),
        show(Measure::Temperature, run.pack_least_c),
        show(Measure::Temperature, run.pack_most_c),
        show(Measure::Years, journey.wear.years).trim_end_matches(" years")
    );
}

fn source(out: &mut String, journey: &Journey, units: Units) {
    let (run, truck) = (&journey.run, &journey.truck);
    let Some(source) = &truck.source else {
        return;
    };
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let how = match journey.conditions.strategy {
        Strategy::Follow { hold } => format!(
            "follows the need averaged over 2 minutes and holds {}",
            show(Measure::Share, hold)
        ),
        Strategy::Switch { start, stop } => format!(
            "full power from {} up to {}",
            show(Measure::Share, start),
            show(Measure::Share, stop)
        ),
        Strategy::Off => "does not run".to_owned(),
    };
    let _ = writeln!(
        out,
        "\nSource: {how}\n  {} continuous, {} at the highest place, {} there at the end of its life\n  {} at half and {} at full power; {} s to full power, runs {} s at least, {} at least, rises {} a second{}",
        show(Measure::Power, source.continuous_w),
        show(Measure::Power, source.lasting_w(run.highest_m)),
        show(
            Measure::Power,
            source.clone().worn_out().lasting_w(run.highest_m)
        ),
        show(Measure::Share, source.efficiency(0.5 * source.continuous_w)),
        show(Measure::Share, source.efficiency(source.continuous_w)),
        source.warm_up_s,
        source.least_run_s,
        show(Measure::Share, source.least_share),
        show(Measure::Share, source.ramp_per_s),
        if source.assumed {
            " (common practice where the part says nothing)"
        } else {
            ""
        }
    );
    let _ = writeln!(
        out,
        "  ran {} in {} starts, made {}, burnt {:.1} kg of {:.1} kg usable",
        show(Measure::Time, run.source_s),
        run.source_starts,
        show(Measure::Energy, run.ledger.source_j),
        journey.fuel_kg(),
        truck.fuel_kg
    );
    for (tag, tank) in &truck.tanks {
        let holds = tank.holds_kg.map_or_else(
            || "volume or pressure not stated".to_owned(),
            |kg| {
                format!(
                    "{kg:.1} kg by volume at {:.1} kg/m³",
                    tank.full_kg_m3.unwrap_or(0.0)
                )
            },
        );
        let _ = writeln!(
            out,
            "  tank {tag}: {:.1} kg stated, {holds}; {:.1} kg aboard, {:.1} kg usable, {:.1} kg stay in it; filled in {} at least",
            tank.stated_kg,
            tank.aboard_kg,
            tank.usable_kg(),
            tank.left_kg,
            show(Measure::Time, tank.refill_s)
        );
    }
}

fn range_table(out: &mut String, ranges: &[RangeAt], units: Units) {
    if ranges.is_empty() {
        return;
    }
    let (metre, unit) = way(units);
    let _ = writeln!(
        out,
        "\nRange with the reserve kept, one trip after the other\n  {:>8}{:>12}{:>14}{:>20}{:>14}{:>24}",
        "air",
        "new",
        "end of life",
        "new, packs soaked",
        "kWh/unit".replace("unit", unit),
        "of it heating, cooling"
    );
    for row in ranges {
        let _ = writeln!(
            out,
            "  {:>8}{:>12}{:>14}{:>20}{:>14.2}{:>24.3}",
            Measure::Temperature.text(row.temperature_c, units),
            Measure::Way.text(row.new_m, units),
            Measure::Way.text(row.end_of_life_m, units),
            Measure::Way.text(row.soaked_m, units),
            row.per_m_j / 3.6e6 * metre,
            row.climate_j / 3.6e6 * metre
        );
    }
    out.push_str(
        "  end of life: 80 % of the packs' energy, source at its own end; soaked: packs as cold as the air, without a plug;\n  in the cold less energy can be drawn (common practice: NMC 88 % at 0 °C and 70 % at −20 °C, LFP 82 and 60 %, LTO 94 and 85 %)\n",
    );
}
