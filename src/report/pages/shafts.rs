//! Driveshafts over the suspension's travel: angles, lengths, speeds, torque.

use super::{NONE, PageKind};
use crate::assessment::Assessment;
use crate::drawing;
use crate::driveline::{
    LENGTH_LEAST_MM, LENGTH_MOST_MM, RIPPLE_MOST, Ride, Shaft, ShaftState, UNEQUAL_MOST_DEG,
    WINDOW_RPM, angle_by_speed_deg, ripple,
};
use crate::findings::{Amount, Severity};
use crate::numeric::sort_by;
use crate::quantity::{Units, length};
use crate::report::page::{Page, Table};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "shafts",
    title: "Shafts",
    checks: &[
        "shaft-speed",
        "shaft-angle",
        "shaft-travel",
        "shaft-ends",
        "shaft-ripple",
        "shaft-plunge",
        "shaft-torque",
        "shaft-length",
    ],
};

/// Builds it.
pub(super) fn build(assessment: &Assessment, units: Units) -> Page {
    let shafts = &assessment.answers.driveline.shafts;
    let mut page = Page::new(&PAGE);
    let own = |check: &str| PAGE.checks.contains(&check);
    let findings = || assessment.findings.iter().filter(|f| own(f.check));
    let loud = findings().filter(|f| f.severity != Severity::Holds);
    page.lead.extend(loud.map(|f| f.sentence.words(units)));
    if shafts.is_empty() {
        if page.lead.is_empty() {
            let words = "No driveshaft: the driven axles have their own motors, or nothing drives.";
            page.lead.push(words.to_owned());
        }
        page.assumptions.clear();
        return page;
    }
    if page.lead.is_empty() {
        page.lead.push("Every driveshaft holds.".to_owned());
    }
    page.picture = Some(drawing::shafts(shafts));
    page.tables.push(angles(shafts, units));
    page.tables.push(ratings(shafts, units));
    page.tables.push(by_speed(shafts, units));
    page
}

fn name(shaft: &Shaft) -> String {
    format!("{}: {} to {}", shaft.tag, shaft.from, shaft.to_axle)
}

fn angle(deg: f64, units: Units) -> String {
    Amount::angle(deg).text(units)
}

fn joined(values: impl Iterator<Item = String>) -> String {
    values.collect::<Vec<_>>().join(" / ")
}

fn angles(shafts: &[Shaft], units: Units) -> Table {
    let mut table = Table::new(
        "Angles and lengths over the axle's travel",
        &[
            ("Shaft", false),
            ("Axle", false),
            ("Length", true),
            ("Falls", true),
            ("Runs right", true),
            ("Joint angles", true),
            ("Ends apart", true),
            ("Left of all joints", true),
        ],
    );
    for shaft in shafts {
        for state in &shaft.states {
            table.row(None, angle_cells(shaft, state, units));
        }
    }
    table.note = Some(format!(
        "Joints are counted from the drive. Ends may be {} apart; what is left of all joints is the single joint that would shake the axle as much. Between two axles, full jounce has the one ahead up and the other down.",
        angle(UNEQUAL_MOST_DEG, units)
    ));
    table
}

fn angle_cells(shaft: &Shaft, state: &ShaftState, units: Units) -> Vec<String> {
    let pieces = || state.pieces.iter();
    let maybe = |deg: Option<f64>| deg.map_or_else(|| NONE.to_owned(), |deg| angle(deg, units));
    let mut joints = joined(state.joints.iter().map(|j| angle(j.angle_deg, units)));
    if state.joints.len() <= state.pieces.len() {
        joints.push_str(" / unknown");
    }
    vec![
        name(shaft),
        state.ride.words().to_owned(),
        joined(pieces().map(|p| length(p.length_mm, units))),
        joined(pieces().map(|p| angle(p.side_deg, units))),
        joined(pieces().map(|p| angle(p.plan_deg, units))),
        joints,
        maybe(state.unequal_deg()),
        maybe(state.left_deg),
    ]
}

fn ratings(shafts: &[Shaft], units: Units) -> Table {
    let mut table = Table::new(
        "Speed, torque and slip",
        &[
            ("Shaft", false),
            ("Motor drives it to", true),
            ("On the road", true),
            ("Bends away at", true),
            ("May turn at", true),
            ("Lowest gear", true),
            ("Tube / joints carry", true),
            ("Shake", true),
            ("Slip used / there", true),
            ("Pieces / needed", true),
        ],
    );
    for shaft in shafts {
        let unknown = || "unknown".to_owned();
        let speed = |rpm: Option<f64>| rpm.map_or_else(unknown, |n| Amount::speed(n).text(units));
        let torque = |nm: Option<f64>| nm.map_or_else(unknown, |t| Amount::torque(t).text(units));
        let turning = shaft.speed.as_ref().ok();
        let whirl = shaft.whirl.as_ref().ok();
        let left = Ride::RUNNING
            .iter()
            .filter_map(|ride| shaft.state(*ride).left_deg)
            .reduce(f64::max);
        let shake = turning.zip(left).map(|(t, deg)| {
            format!(
                "{:.0} of {RIPPLE_MOST:.0} rad/s²",
                ripple(t.running_rpm(), deg)
            )
        });
        let slip = shaft.tube.plunge_mm;
        let slip = slip.map_or_else(unknown, |mm| length(mm, units));
        let needed = shaft.pieces_needed();
        table.row(
            None,
            vec![
                name(shaft),
                speed(turning.map(|t| t.most_rpm)),
                speed(turning.and_then(|t| t.road_rpm)),
                speed(whirl.map(|w| w.critical_rpm)),
                speed(whirl.map(|w| w.safe_rpm)),
                torque(shaft.torque_nm.as_ref().ok().copied()),
                format!(
                    "{} / {}",
                    torque(shaft.tube.rating_nm),
                    torque(shaft.tube.joint_nm)
                ),
                shake.unwrap_or_else(unknown),
                format!("{} / {slip}", length(shaft.plunge_mm, units)),
                format!(
                    "{} / {}",
                    shaft.state(Ride::Laden).pieces.len(),
                    needed.map_or_else(unknown, |n| n.to_string())
                ),
            ],
        );
    }
    table.note = Some(format!(
        "Usual: pieces of {} to {} and up to {} on the road (an engine maker's installation guide).",
        length(LENGTH_LEAST_MM, units),
        length(LENGTH_MOST_MM, units),
        Amount::speed(WINDOW_RPM).text(units)
    ));
    table
}

/// A joint maker's table, with the shafts' own speeds in between.
fn by_speed(shafts: &[Shaft], units: Units) -> Table {
    let mut table = Table::new(
        "Largest joint angle by shaft speed",
        &[("Speed", true), ("Angle", true), ("Shaft", false)],
    );
    let rows = [
        1_500.0, 2_000.0, 2_500.0, 3_000.0, 3_500.0, 4_000.0, 4_500.0, 5_000.0,
    ];
    let mut speeds: Vec<(f64, String)> = rows.map(|rpm| (rpm, NONE.to_owned())).to_vec();
    for shaft in shafts {
        if let Ok(speed) = &shaft.speed {
            speeds.push((speed.running_rpm(), shaft.tag.clone()));
        }
    }
    sort_by(&mut speeds, |a, b| a.0.total_cmp(&b.0));
    for (rpm, whose) in speeds {
        let most = angle_by_speed_deg(rpm);
        let most = most.map_or_else(|| "table ends".to_owned(), |deg| angle(deg, units));
        table.row(None, vec![Amount::speed(rpm).text(units), most, whose]);
    }
    table.note = Some(
        "A joint maker's table: 3,500 rpm and faster read, slower from memory. For running without vibration 3° or less is advised there."
            .to_owned(),
    );
    table
}
