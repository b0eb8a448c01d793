//! A drive in words.

use super::consumption;
use crate::assessment::{Journey, RangeAt};
use crate::findings::Finding;
use crate::quantity::{Measure, Units};
use crate::report::{NOTICE, cautions::caution_lines, drive, page_text, ranges_page, table_text};
use crate::shared::Shared;
use std::fmt::Write as _;

/// A drive in words; `ranges` as they were worked out for it.
#[must_use]
pub fn journey_text(
    journey: &Journey,
    ranges: &[RangeAt],
    found: &[Shared<Finding>],
    units: Units,
) -> String {
    let mut out = String::new();
    head(&mut out, journey, units);
    result(&mut out, journey, units);
    let tables = [drive::track(journey, units), drive::stops(journey, units)];
    let tables = tables.into_iter().flatten();
    let tables = tables.chain([drive::abilities(journey, units)]);
    out.extend(tables.map(|table| table_text(&table)));
    out.extend(drive::energy(journey, units).map(|table| table_text(&table)));
    let of_source = [drive::source(journey, units), drive::tanks(journey, units)];
    let tables = [drive::packs(journey, units)];
    let tables = tables.into_iter().chain(of_source.into_iter().flatten());
    out.extend(tables.map(|table| table_text(&table)));
    out.push_str(&page_text(&ranges_page(journey, ranges, units)));
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
        Measure::Height.text(weather.altitude_m, units),
        journey.trips
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
        show(Measure::Height, journey.route.profile.climb_m().0),
        show(Measure::Height, run.highest_m),
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
}
