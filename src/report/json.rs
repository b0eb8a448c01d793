//! The evaluation as data for other programs. Masses in kilograms, lengths in millimetres.

use super::balance_rows::{self, BalanceRow, ShaftRow};
use super::frame::{self, FrameRow};
use super::moving::{MovingRow, moving};
use crate::assessment::Assessment;
use crate::findings::{Amount, Finding, Severity};
use crate::loads::{Case, CaseLoads};
use crate::quantity::{Measure, Units};
use serde::Serialize;
use std::borrow::Cow;

/// An evaluation of one plan.
#[derive(Debug, Serialize)]
pub struct Evaluation {
    /// Name of the plan.
    pub name: String,
    /// Worst severity.
    pub verdict: Severity,
    /// The heaviest case that the plan states, which `mass_kg` and `axles` are about; the others stand
    /// in `cases`.
    pub case: Option<Case>,
    /// What stands on the truck's own axles in that case: the truck, what it carries and what presses on
    /// its fifth wheel. The loads of `axles` add up to it.
    pub mass_kg: Option<f64>,
    /// Axle loads in that case.
    pub axles: Vec<AxleRow>,
    /// Groups of consecutive axles under the bridge formula, each in its heaviest case; empty without
    /// loads or a law that has one.
    pub bridge: Vec<BridgeRow>,
    /// The truck moving.
    pub moving: MovingRow,
    /// Centre of gravity and roll-over threshold in every case.
    pub balance: Vec<BalanceRow>,
    /// Driveshafts.
    pub shafts: Vec<ShaftRow>,
    /// Payload that is possible.
    pub payload: Option<PayloadRow>,
    /// Largest payload that keeps every limit, by place of fifth wheel and trailer axles.
    pub best: Vec<BestRow>,
    /// Every load case.
    pub cases: Vec<CaseLoads>,
    /// Shear and bending of the rails, and forces on the mounts of parts.
    pub frame: FrameRow,
    /// Findings, worst first.
    pub findings: Vec<FindingRow>,
    /// What the figures take for granted.
    pub assumptions: Vec<String>,
    /// Statement for whoever reads this alone.
    pub notice: &'static str,
}

/// One axle in the heaviest case.
#[derive(Debug, Serialize)]
pub struct AxleRow {
    /// Axle id.
    pub id: String,
    /// Load.
    pub load_kg: f64,
    /// The limit that governs, the axle's share of its group's.
    pub limit_kg: Option<f64>,
    /// Room to the limit.
    pub margin_kg: Option<f64>,
    /// What sets the limit.
    pub governs: Option<&'static str>,
}

/// A group of consecutive axles under the bridge formula.
#[derive(Debug, Serialize)]
pub struct BridgeRow {
    /// Numbers of its first and last axle, such as `2-5`.
    pub group: String,
    /// Axle ids, front to rear.
    pub axles: Vec<String>,
    /// From the first axle to the last.
    pub length_mm: f64,
    /// By the table alone, without exception, allowance and gross weight.
    pub table_kg: f64,
    /// What it may weigh.
    pub allowed_kg: f64,
    /// What it weighs.
    pub actual_kg: f64,
    /// Room to the limit.
    pub margin_kg: f64,
    /// What sets the limit.
    pub rule: &'static str,
    /// For a group that is over: least length with which it would pass.
    pub passes_at_mm: Option<f64>,
    /// The case in which it is heaviest.
    pub case: Case,
}

/// Payload.
#[derive(Debug, Serialize)]
pub struct PayloadRow {
    /// Largest payload; 0 when a limit is passed without any.
    pub max_kg: f64,
    /// What limits it, or which limit is passed farthest without any.
    pub governed_by: String,
    /// Limits that are passed without any payload: name, by, limit, over by.
    pub passed: Vec<(String, &'static str, f64, f64)>,
    /// Payload at every limit that it brings nearer: name, by, limit, payload (negative when the limit is
    /// passed without any).
    pub limits: Vec<(String, &'static str, f64, f64)>,
}

/// A place of fifth wheel and trailer axles.
#[derive(Debug, Serialize)]
pub struct BestRow {
    /// What is slid.
    pub place: &'static str,
    /// Fifth wheel ahead of the driven axles.
    pub fifth_wheel_ahead_mm: Option<f64>,
    /// Kingpin to trailer axles.
    pub kingpin_to_axles_mm: Option<f64>,
    /// Largest payload there.
    pub payload_kg: f64,
    /// What stops it.
    pub stopped_by: Vec<String>,
}

/// One finding.
#[derive(Debug, Serialize)]
pub struct FindingRow {
    /// Id of the check.
    pub id: &'static str,
    /// What it is about.
    pub subject: String,
    /// How bad.
    pub severity: Severity,
    /// The sentence.
    pub sentence: String,
    /// What was found, in `unit`.
    pub measured: Option<f64>,
    /// What it is held against, in `unit`.
    pub limit: Option<f64>,
    /// Room, in `unit`; negative when over.
    pub margin: Option<f64>,
    /// `kg`, `mm`, `deg`, `rpm`, `N·m`, `g`, `kg/mm`, `N`, `N*mm`, `MPa`, `mm3`, or `1` for a fraction or factor.
    pub unit: Option<&'static str>,
    /// Who sets the limit.
    pub source: String,
    /// Parts, axles, groups concerned.
    pub about: Vec<String>,
    /// What was taken for granted.
    pub assumptions: Vec<Cow<'static, str>>,
}

/// What a reader must know beside the figures.
pub const NOTICE: &str = "Planning estimate, not for certification. Weigh the finished truck.";

/// Puts an assessment into data.
#[must_use]
pub fn evaluation(assessment: &Assessment, units: Units) -> Evaluation {
    let answers = &assessment.answers;
    let heaviest = answers.heaviest();
    let payload = answers.capacity.as_ref().ok().and_then(|capacity| {
        let passed = capacity.passed.first().map(|p| (&p.name, p.by));
        let governing = capacity.governing().map(|row| (&row.name, row.by));
        let (name, by) = passed.or(governing)?;
        Some(PayloadRow {
            max_kg: capacity.payload_kg(),
            governed_by: format!("{name} ({by})"),
            passed: capacity
                .passed
                .iter()
                .map(|p| (p.name.clone(), p.by, p.limit_kg, p.over_kg))
                .collect(),
            limits: capacity
                .rows
                .iter()
                .map(|row| (row.name.clone(), row.by, row.limit_kg, row.payload_kg))
                .collect(),
        })
    });
    Evaluation {
        name: answers.vehicle.name.clone(),
        verdict: assessment.worst(),
        case: heaviest.map(|c| c.case),
        mass_kg: heaviest.map(|c| c.truck.mass_kg + c.kingpin_kg.unwrap_or(0.0)),
        axles: axle_rows(assessment),
        bridge: bridge_rows(assessment),
        moving: moving(assessment),
        balance: balance_rows::balance(assessment),
        shafts: balance_rows::shafts(assessment),
        payload,
        best: best_rows(assessment),
        cases: answers.loads.cases.clone(),
        frame: frame::row(answers),
        findings: assessment.findings.iter().map(|f| row(f, units)).collect(),
        assumptions: ASSUMPTIONS.iter().map(|a| (*a).to_owned()).collect(),
        notice: NOTICE,
    }
}

/// Simplifications behind every figure.
pub const ASSUMPTIONS: [&str; 10] = [
    "Donor weights come from its scale ticket; everything else is added and taken off by moments.",
    "Frame rigid in bending and soft in torsion; road level; truck standing still at design height.",
    "Axles of a group share by the group's rule; three or more groups share by their spring rates, counted from the weighed state.",
    "Frame: each rail a beam on the mounts of its suspensions; what the donor's lists leave out of its scale ticket lies evenly over the front half and evenly over the rear half of the rails, so that mass and moment agree; twist is not assessed.",
    "Masses are estimates until weighed; one part's centre of gravity is taken as known to 15 mm.",
    "Roll-over: all axles lean together on a level road; a quarter of the rigid threshold goes to tyres and springs.",
    "Driveshafts: axles move straight up and down against the frame and keep their inclination to it; torque without losses.",
    "Parts are rigid; cables, hoses and brackets have mass but no clearance check.",
    "Road law: only what the chosen law states is held; what it leaves to states or countries is not judged.",
    "Bridge formula: the exact length between the outer axles goes in; scales and states may round it to the nearest foot first.",
];

fn axle_rows(assessment: &Assessment) -> Vec<AxleRow> {
    let answers = &assessment.answers;
    let chassis = &answers.vehicle.chassis;
    let Some(case) = answers.heaviest() else {
        return Vec::new();
    };
    let rows = case.axles.iter().map(|axle| {
        let group = chassis.groups.iter().find(|g| g.axles.contains(&axle.id));
        let limits = group.and_then(|g| answers.road.limits.iter().find(|l| l.id == g.id));
        let lowest = limits.and_then(|l| l.lowest());
        let load = group.and_then(|g| case.groups.iter().find(|l| l.id == g.id));
        // The group's limit is divided as the group's load is.
        let limit = lowest.zip(load).and_then(|(limit, group)| {
            (group.load_kg.abs() > 1e-9).then(|| limit.kg * axle.load_kg / group.load_kg)
        });
        AxleRow {
            id: axle.id.clone(),
            load_kg: axle.load_kg,
            limit_kg: limit,
            margin_kg: limit.map(|kg| kg - axle.load_kg),
            governs: lowest.map(|limit| limit.kind.words()),
        }
    });
    rows.collect()
}

fn bridge_rows(assessment: &Assessment) -> Vec<BridgeRow> {
    let groups = assessment.answers.bridge.iter().flatten();
    let rows = groups.map(|bridge| {
        let group = &bridge.group;
        let (from, to) = group.numbers;
        BridgeRow {
            group: format!("{from}-{to}"),
            axles: group.axles.clone(),
            length_mm: group.length_mm(),
            table_kg: group.table_kg,
            allowed_kg: group.allowed_kg,
            actual_kg: group.actual_kg,
            margin_kg: group.margin_kg(),
            rule: group.rule.words(),
            passes_at_mm: group.passes_at_mm,
            case: bridge.case,
        }
    });
    rows.collect()
}

fn best_rows(assessment: &Assessment) -> Vec<BestRow> {
    let Ok(best) = assessment.answers.best_positions() else {
        return Vec::new();
    };
    let rows = best.rows().map(|(place, best)| BestRow {
        place,
        fifth_wheel_ahead_mm: best.ahead_mm,
        kingpin_to_axles_mm: best.kingpin_to_axles_mm,
        payload_kg: best.payload_kg,
        stopped_by: best.stopped_by.clone(),
    });
    rows.collect()
}

pub(super) fn row(finding: &Finding, units: Units) -> FindingRow {
    let value = |amount: Option<Amount>| amount.map(|a| a.value);
    FindingRow {
        id: finding.check,
        subject: finding.subject.clone(),
        severity: finding.severity,
        sentence: finding.sentence.words(units),
        measured: value(finding.measured),
        limit: value(finding.limit),
        margin: value(finding.margin),
        unit: finding.limit.or(finding.measured).map(|a| match a.measure {
            Measure::Mass => "kg",
            Measure::Length => "mm",
            Measure::Way | Measure::Height => "m",
            Measure::RoadSpeed => "m/s",
            Measure::Energy => "J",
            Measure::Power => "W",
            Measure::Time => "s",
            Measure::Temperature => "°C",
            Measure::Years => "years",
            Measure::Angle => "deg",
            Measure::Speed => "rpm",
            Measure::Torque => "N·m",
            Measure::Gravity => "g",
            Measure::LoadForWidth => "kg/mm",
            Measure::Force => "N",
            Measure::Moment => "N*mm",
            Measure::Stress => "MPa",
            Measure::Modulus => "mm3",
            Measure::Volume => "l",
            Measure::Area => "m2",
            Measure::Share | Measure::Count | Measure::Factor | Measure::Coefficient => "1",
        }),
        source: finding.source.to_string(),
        about: finding.tags.clone(),
        assumptions: finding.assumptions.clone(),
    }
}
