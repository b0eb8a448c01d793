//! The frame: shear and bending of both rails, what causes the peak, and what parts ask of their mounts.

use super::{NONE, PageKind};
use crate::assessment::{Answers, Assessment};
use crate::drawing::{self, Style, View};
use crate::findings::Severity;
use crate::frame::{CARGO_G, Frame, RailCase, SIDES, bracket_rows};
use crate::numeric::sort_by;
use crate::quantity::{Measure, Units, length, mass};
use crate::report::marks::{frame_mark, marks};
use crate::report::page::{Page, Table};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "frame",
    title: "Frame",
    checks: &["frame-strength", "frame-splice", "mount-load"],
};

/// Builds it.
pub(super) fn build(assessment: &Assessment, units: Units) -> Page {
    let answers = &assessment.answers;
    let mut page = Page::new(&PAGE);
    for check in ["frame-strength", "frame-splice"] {
        page.say_findings(check, assessment, units);
    }
    page.lead.extend(mounts_said(assessment, units));
    if let Ok(frame) = &answers.frame {
        page.tables.push(case_table(frame, units));
        page.tables.extend(cause_table(frame, units));
        page.tables.push(section_table(frame, units));
        page.tables.push(station_table(answers, frame, units));
        let style = Style {
            units,
            frame: true,
            dimensions: false,
            part_dimensions: false,
            ..Style::default()
        };
        let mut marks = marks(assessment, units, None);
        marks.pointers.clear();
        marks.frame = Some(frame_mark(assessment, units));
        page.picture = Some(drawing::draw(&answers.vehicle, &marks, View::Side, &style));
        let (kg, _) = frame.unlisted;
        page.assumptions.push(format!(
            "{} of the donor's sprung mass is not in its lists; it lies evenly over the front half and evenly over the rear half of the rails, so that mass and moment are those of the scale ticket",
            mass(kg, units)
        ));
        if !frame.unknown_mounts.is_empty() {
            page.assumptions.push(format!(
                "where {} is fixed to the rails is not known: it pushes at the axle's centre",
                frame.unknown_mounts.join(", ")
            ));
        }
    }
    if !answers.mounts.is_empty() {
        page.tables.push(mount_table(answers, units));
    }
    page
}

/// How many mounts that are too weak have a sentence each; the table has all of them.
const FEW_WEAK: usize = 2;

/// What there is to say of the mounts, in a few sentences: the weak ones, or the one that is nearest to
/// it, and what nobody knows.
fn mounts_said(assessment: &Assessment, units: Units) -> Vec<String> {
    let of = |severity: Severity| {
        let found = assessment.findings.iter();
        let found = found.filter(move |f| f.check == "mount-load" && f.severity == severity);
        found.map(|f| f.sentence.words(units)).collect::<Vec<_>>()
    };
    let (weak, hold) = (of(Severity::Fails), of(Severity::Holds));
    let mut said: Vec<String> = weak.iter().take(FEW_WEAK).cloned().collect();
    if weak.len() > FEW_WEAK {
        let more = weak.len() - FEW_WEAK;
        said.push(format!("{more} more mounts are too weak: see the table."));
    }
    // Findings come worst first, so the first of those that hold is nearest to its limit.
    match hold.as_slice() {
        [] => {}
        [one] => said.push(one.clone()),
        [nearest, ..] => said.push(format!(
            "The mounts of {} parts hold; nearest to their limit, {}",
            hold.len(),
            nearest.replacen("The ", "the ", 1)
        )),
    }
    said.extend(of(Severity::NotAssessed));
    said
}

fn moment(nmm: f64, units: Units) -> String {
    Measure::Moment.text(nmm, units)
}

fn case_table(frame: &Frame, units: Units) -> Table {
    let columns = [
        ("Case, rail", false),
        ("Peak moment", true),
        ("at", true),
        ("Peak shear", true),
        ("at", true),
        ("Factor on yield", true),
    ];
    let mut table = Table::new("Each rail in each case, standing", &columns);
    for case in &frame.cases {
        for (rail, side) in case.rails.iter().zip(SIDES) {
            let factor = factor(frame, rail);
            table.row(
                factor.map(|f| severity(f >= frame.factors.design)),
                vec![
                    format!("{}, {side}", case.case.words()),
                    moment(rail.peak.1, units),
                    length(rail.peak.0, units),
                    Measure::Force.text(rail.shear.1, units),
                    length(rail.shear.0, units),
                    factor.map_or_else(
                        || "not assessed".to_owned(),
                        |f| Measure::Factor.text(f, units),
                    ),
                ],
            );
        }
    }
    table.note = Some(format!(
        "A moment is positive where the rail sags. A rough road multiplies all of it by {}. Wanted factor on yield: {}.",
        Measure::Factor.text(frame.factors.dynamic, units),
        Measure::Factor.text(frame.factors.design, units)
    ));
    table
}

const fn severity(holds: bool) -> Severity {
    if holds {
        Severity::Holds
    } else {
        Severity::Fails
    }
}

/// Factor on yield where this rail is used most.
fn factor(frame: &Frame, rail: &RailCase) -> Option<f64> {
    let (x, moment) = rail.most_used?;
    let resists = frame.sections.iter();
    let here = resists.filter(|s| s.from_mm <= x && x <= s.to_mm);
    let resist = here.filter_map(|s| s.resist_nmm).reduce(f64::min)?;
    Some(resist / moment.abs())
}

fn cause_table(frame: &Frame, units: Units) -> Option<Table> {
    let worst = frame.worst.as_ref()?;
    let columns = [("Cause", false), ("Moment", true), ("Share", true)];
    let title = format!(
        "What bends the {} rail {} behind the front axle ({})",
        SIDES[worst.side.min(1)],
        length(worst.x_mm, units),
        worst.case.words()
    );
    let mut table = Table::new(&title, &columns);
    let mut row = |words: &str, nmm: f64| {
        let share = Measure::Share.text(nmm / worst.moment_nmm, units);
        table.row(None, vec![words.to_owned(), moment(nmm, units), share]);
    };
    for cause in &worst.causes {
        row(&cause.words, cause.moment_nmm);
    }
    row("everything smaller", worst.smaller_nmm);
    row("what takes off", worst.against_nmm);
    row("together", worst.moment_nmm);
    Some(table)
}

fn section_table(frame: &Frame, units: Units) -> Table {
    let columns = [
        ("Stretch of rail", false),
        ("Section modulus used", true),
        ("with square corners", true),
        ("RBM", true),
        ("Beside the channel", false),
    ];
    let mut table = Table::new("Sections of one rail", &columns);
    for s in &frame.sections {
        let mut beside = s.reinforced.join(", ");
        if s.welded {
            beside.push_str(if beside.is_empty() { "weld" } else { ", weld" });
        }
        table.row(
            None,
            vec![
                format!("{} to {}", length(s.from_mm, units), length(s.to_mm, units)),
                Measure::Modulus.text(s.modulus_mm3, units),
                Measure::Modulus.text(s.square_mm3, units),
                s.resist_nmm
                    .map_or_else(|| "not assessed".to_owned(), |m| moment(m, units)),
                if beside.is_empty() {
                    NONE.to_owned()
                } else {
                    beside
                },
            ],
        );
    }
    table.note = Some(
        "Square corners read 5 to 6.5 % high; what is used counts 0.95 of them, or the maker's own figure."
            .to_owned(),
    );
    table
}

/// Places along the rails with the moment of the more loaded rail in each case.
fn station_table(answers: &Answers, frame: &Frame, units: Units) -> Table {
    let vehicle = &answers.vehicle;
    let mut stations: Vec<(f64, String)> = Vec::new();
    for axle in &vehicle.chassis.axles {
        stations.push((axle.x_mm, axle.id.replace('-', " ")));
    }
    for item in vehicle
        .items
        .iter()
        .filter(|i| !i.part.soft && i.unsprung_axle.is_none())
    {
        for (row, number) in bracket_rows(item).into_iter().zip(1..) {
            stations.push((row, format!("{}, bracket row {number}", item.tag)));
        }
    }
    if let Some(pin) = vehicle.kingpin() {
        stations.push((pin.x, "fifth wheel".to_owned()));
    }
    for x in frame.splice.iter().flat_map(|s| &s.joints_mm) {
        stations.push((*x, "splice".to_owned()));
    }
    if let Some(worst) = &frame.worst {
        stations.push((worst.x_mm, "used most".to_owned()));
    }
    sort_by(&mut stations, |a, b| a.0.total_cmp(&b.0));
    let mut columns = vec![("Station", false), ("at", true)];
    columns.extend(frame.cases.iter().map(|c| (c.case.words(), true)));
    let mut table = Table::new(
        "Moment of the more loaded rail at each station, standing",
        &columns,
    );
    for (x, name) in stations {
        let mut cells = vec![name, length(x, units)];
        for case in &frame.cases {
            let at = |rail: &RailCase| {
                let piece = rail.pieces.iter().find(|p| p.from_mm <= x && x <= p.to_mm);
                piece.map_or(0.0, |p| p.moment_at(x))
            };
            let [left, right] = [at(&case.rails[0]), at(&case.rails[1])];
            let more = if right.abs() > left.abs() {
                right
            } else {
                left
            };
            cells.push(moment(more, units));
        }
        table.row(None, cells);
    }
    table
}

fn mount_table(answers: &Answers, units: Units) -> Table {
    let columns = [
        ("Part", false),
        ("Mass, full", true),
        ("Up and down", true),
        ("Along", true),
        ("Across", true),
        ("g: up, along, across", false),
        ("Brackets, bolts", false),
        ("Bear", true),
    ];
    let mut table = Table::new("Forces that the mounts of parts have to hold", &columns);
    let count = |n: Option<u32>| n.map_or_else(|| "not known".to_owned(), |n| n.to_string());
    for m in &answers.mounts {
        let force = |newton: f64| Measure::Force.text(newton, units);
        let [up, along, across] = m.g.map(|g| Measure::Factor.number(g, units));
        table.row(
            Some(m.rating_n.map_or(Severity::NotAssessed, |rating| {
                severity(m.largest_n() <= rating)
            })),
            vec![
                m.tag.clone(),
                mass(m.mass_kg, units),
                force(m.force_n[0]),
                force(m.force_n[1]),
                force(m.force_n[2]),
                format!("{up}, {along}, {across}"),
                format!("{}, {}", count(m.brackets), count(m.bolts)),
                m.rating_n.map_or_else(
                    || {
                        if m.own_design {
                            "to be designed"
                        } else {
                            "not known"
                        }
                        .to_owned()
                    },
                    force,
                ),
            ],
        );
    }
    let [forward, rearward, sideways] = CARGO_G;
    table.note = Some(format!(
        "Accelerations of a crash, each direction by itself. Cargo securement asks for {forward} g forward, {rearward} g rearward and {sideways} g sideways of anything aboard (49 CFR 393.102(a)(1)): the least, not a measure for packs and tanks."
    ));
    table
}
