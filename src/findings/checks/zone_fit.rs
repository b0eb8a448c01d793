//! Does every part stand inside the zone it is counted in?

use super::on_part::{beyond, fine, pointed};
use crate::assessment::Answers;
use crate::clearance::Outside;
use crate::findings::{Check, Phrase, Report, Severity};
use crate::geometry::{Aabb, Point};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "zone-fit",
    title: "Outside its zone",
    question: "Does every part stand inside the zone it is counted in?",
    method: "How far the part sticks out of the zone volume on its worst side.",
    source: "zones are planning volumes, common practice",
    applies: "hard parts in a zone",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let parts = &answers.clearances.extents.outside;
    let mut clear = true;
    for out in parts.iter().filter(|o| o.by_mm > 0.05) {
        clear = false;
        let zone = answers.vehicle.zone(&out.zone);
        let name = zone.map_or(out.zone.as_str(), |z| z.name.as_str());
        let sentence = Phrase::new()
            .text(format!("{} stands ", out.tag))
            .length(out.by_mm)
            .text(format!(" {} its zone, {name}.", out.side));
        let finding = beyond(Severity::Caution, out.tag.clone(), sentence, out.by_mm);
        report.add(pointed(finding, answers, &out.tag, &|b| match zone {
            Some(zone) => faces(out, b, &zone.volume),
            None => [b.centre(); 2],
        }));
    }
    if clear && !parts.is_empty() {
        let words = "Every part in a zone stands inside it.";
        report.add(fine("zones", words.to_owned()));
    }
}

/// The part's face on the side where it sticks out, and the zone's.
fn faces(out: &Outside, part: &Aabb, zone: &Aabb) -> [Point; 2] {
    let c = part.centre();
    let x = |x| Point::new(x, c.y, c.z);
    let y = |y| Point::new(c.x, y, c.z);
    let z = |z| Point::new(c.x, c.y, z);
    match out.side {
        "ahead of" => [x(part.min.x), x(zone.min.x)],
        "behind" => [x(part.max.x), x(zone.max.x)],
        "left of" => [y(part.min.y), y(zone.min.y)],
        "right of" => [y(part.max.y), y(zone.max.y)],
        "below" => [z(part.min.z), z(zone.min.z)],
        _ => [z(part.max.z), z(zone.max.z)],
    }
}
