//! A drive as data: metres, seconds, joule, watt, fractions.

use crate::assessment::{Grades, Journey, RangeAt};
use crate::energy::{Charged, End, Ledger, Run, Wear};
use crate::findings::Finding;
use crate::quantity::{M_PER_MI, Units};
use crate::report::{Caution, FindingRow, NOTICE, Page, cautions, drive_answers, finding_row};
use crate::route::Survey;
use crate::shared::Shared;
use crate::source::Known;
use serde::Serialize;

/// A drive as data.
#[derive(Debug, Serialize)]
pub struct JourneyReport<'a> {
    /// Name of the plan.
    pub plan: &'a str,
    /// Route id.
    pub route: &'a str,
    /// What was made of a recorded track.
    pub survey: Option<&'a Survey>,
    /// Load case.
    pub case: &'a str,
    /// Mass of the whole.
    pub gross_kg: f64,
    /// Trips of the day.
    pub trips: u32,
    /// How it ended.
    pub end: &'a End,
    /// Way driven.
    pub distance_m: f64,
    /// Time.
    pub time_s: f64,
    /// Metres climbed, by the route's grades.
    pub climb_m: f64,
    /// Energy over the way, kilowatt-hour per kilometre.
    pub kwh_per_km: f64,
    /// The same per mile.
    pub kwh_per_mi: f64,
    /// Where it went: kilowatt-hour per kilometre by name.
    pub kwh_per_km_by: Vec<(&'static str, f64)>,
    /// Range with the reserve kept.
    pub range_m: f64,
    /// Range by temperature, new and at the end of life.
    pub ranges: &'a [RangeAt],
    /// Fuel burnt, kilogram.
    pub fuel_kg: f64,
    /// Starting, climbing, speeds held.
    pub grades: &'a Grades,
    /// The generator or fuel cell.
    pub source: Option<SourceRow>,
    /// Tanks.
    pub tanks: Vec<TankRow>,
    /// Stops at chargers.
    pub charged: &'a [Charged],
    /// Charging at the end of the day, or what is missing for it.
    pub plugged: Known<super::ChargeReport>,
    /// Cables from the charging post, or what is missing for it.
    pub cables: Known<Vec<CableRow>>,
    /// Energies.
    pub ledger: Ledger,
    /// The run.
    pub run: &'a Run,
    /// Wear.
    pub wear: Wear,
    /// What stands behind the charts, as tables in the reader's units.
    pub pages: Vec<Page>,
    /// Findings.
    pub findings: Vec<FindingRow>,
    /// What to do and what not, as in the plan's own report.
    pub cautions: Vec<Caution>,
    /// Statement for whoever reads this alone.
    pub notice: &'static str,
}

/// A generator or fuel cell as data.
#[derive(Debug, Serialize)]
pub struct SourceRow {
    /// Continuous power, new, at sea level.
    pub continuous_w: f64,
    /// The same at the highest place of the route.
    pub up_there_w: f64,
    /// The same at the end of its life.
    pub end_of_life_w: f64,
    /// Efficiency at a quarter, half, three quarters and full power.
    pub efficiency: [f64; 4],
    /// From start to full power.
    pub warm_up_s: f64,
    /// Least run.
    pub least_run_s: f64,
    /// Most rise in a second, share of full.
    pub ramp_per_s: f64,
    /// Least power while running, share of full.
    pub least_share: f64,
    /// Full power up to this height.
    pub full_to_m: f64,
    /// Share lost with each further kilometre.
    pub loss_per_km: f64,
    /// True when one of these is common practice and not the part's own.
    pub assumed: bool,
    /// Starts on the way.
    pub starts: u32,
    /// Time in which it ran.
    pub ran_s: f64,
}

/// A tank as data.
#[derive(Debug, Serialize)]
pub struct TankRow {
    /// Mark.
    pub tag: String,
    /// Mass that the part states, full.
    pub stated_kg: f64,
    /// Mass that its volume holds.
    pub holds_kg: Option<f64>,
    /// Density when full.
    pub full_kg_m3: Option<f64>,
    /// Aboard.
    pub aboard_kg: f64,
    /// Stays in it.
    pub left_kg: f64,
    /// Can be used.
    pub usable_kg: f64,
    /// Lower heating value.
    pub mj_per_kg: f64,
    /// Shortest time to fill it.
    pub refill_s: f64,
}

/// A cable from the post to an inlet.
#[derive(Debug, Serialize)]
pub struct CableRow {
    /// Mark of the inlet.
    pub tag: String,
    /// Needed.
    pub needed_mm: f64,
    /// There is.
    pub reach_mm: f64,
    /// Around the front of the truck.
    pub around: bool,
    /// Height of the inlet's middle.
    pub height_mm: f64,
}

fn source(journey: &Journey) -> Option<SourceRow> {
    let source = journey.truck.source.as_ref()?;
    let run = &journey.run;
    Some(SourceRow {
        continuous_w: source.continuous_w,
        up_there_w: source.lasting_w(run.highest_m),
        end_of_life_w: source.clone().worn_out().lasting_w(run.highest_m),
        efficiency: [0.25, 0.5, 0.75, 1.0].map(|x| source.efficiency(x * source.continuous_w)),
        warm_up_s: source.warm_up_s,
        least_run_s: source.least_run_s,
        ramp_per_s: source.ramp_per_s,
        least_share: source.least_share,
        full_to_m: source.full_to_m,
        loss_per_km: source.loss_per_km,
        assumed: source.assumed,
        starts: run.source_starts,
        ran_s: run.source_s,
    })
}

fn tanks(journey: &Journey) -> Vec<TankRow> {
    let tanks = journey.truck.tanks.iter();
    let row = |(tag, tank): &(String, crate::plant::Tank)| TankRow {
        tag: tag.clone(),
        stated_kg: tank.stated_kg,
        holds_kg: tank.holds_kg,
        full_kg_m3: tank.full_kg_m3,
        aboard_kg: tank.aboard_kg,
        left_kg: tank.left_kg,
        usable_kg: tank.usable_kg(),
        mj_per_kg: tank.mj_per_kg,
        refill_s: tank.refill_s,
    };
    tanks.map(row).collect()
}

fn cables(journey: &Journey) -> Result<Vec<CableRow>, String> {
    let row = |c: &crate::assessment::Cable| CableRow {
        tag: c.tag.clone(),
        needed_mm: c.needed_mm,
        reach_mm: c.reach_mm,
        around: c.around,
        height_mm: c.height_mm,
    };
    let all = journey.cables.as_ref().map_err(Clone::clone)?;
    Ok(all.iter().map(row).collect())
}

/// A drive as data; `ranges` as they were worked out for it.
#[must_use]
pub fn journey_data<'a>(
    journey: &'a Journey,
    ranges: &'a [RangeAt],
    found: &[Shared<Finding>],
    units: Units,
) -> JourneyReport<'a> {
    let per_km = journey.per_m_j / 3.6e6 * 1e3;
    let km = (journey.run.distance_m / 1e3).max(1e-3);
    let by = super::entries(&journey.run.ledger);
    JourneyReport {
        plan: &journey.answers.vehicle.name,
        route: &journey.route.id,
        survey: journey.route.survey.as_ref(),
        case: journey.case,
        gross_kg: journey.gross_kg,
        trips: journey.trips,
        end: &journey.run.end,
        distance_m: journey.run.distance_m,
        time_s: journey.run.time_s,
        climb_m: journey.route.profile.climb_m().0,
        kwh_per_km: per_km,
        kwh_per_mi: per_km * M_PER_MI / 1e3,
        kwh_per_km_by: by.map(|(name, joule)| (name, joule / 3.6e6 / km)).to_vec(),
        range_m: journey.range_m,
        ranges,
        fuel_kg: journey.fuel_kg(),
        grades: &journey.grades,
        source: source(journey),
        tanks: tanks(journey),
        charged: &journey.run.charged,
        plugged: super::charge_data(journey.plugged.as_ref().map_err(String::as_str)),
        cables: Known(cables(journey)),
        ledger: journey.run.ledger,
        run: &journey.run,
        wear: journey.wear,
        pages: drive_answers(journey, found, units)
            .into_iter()
            .map(|answer| answer.page)
            .collect(),
        findings: found.iter().map(|f| finding_row(f, units)).collect(),
        cautions: cautions(&journey.answers.vehicle),
        notice: NOTICE,
    }
}
