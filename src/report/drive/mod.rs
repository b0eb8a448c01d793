//! A drive as pages of answers: tables, and a chart of what they hold.
//!
//! Every chart is made from the very columns that its table shows, so the two cannot say different things.
//! A page is built when somebody looks at it; what there is to look at is known without building any.

mod charge;
mod figures;
mod heat;
mod power;
mod pull;
mod ranges;
mod route;
mod sizes;
mod split;
mod summary;
mod tables;

use super::page::Page;
use super::pages::{PageChoice, PageKind};
use crate::assessment::Journey;
use crate::drawing::{Body, Chart, draw_chart};
use crate::findings::Finding;
use crate::quantity::Units;
use crate::shared::Shared;

pub use ranges::{RANGES, ranges_page};
pub use route::drive_strip;
pub use sizes::{SIZES, sizes_page};
pub(super) use split::split as energy;
pub(super) use tables::{abilities, packs, source, stops, tanks, track};

/// Width and height of a chart, pixels.
const SIZE: (f64, f64) = (900.0, 320.0);

/// One answer about a drive.
#[derive(Clone, Debug)]
pub struct DriveAnswer {
    /// Words and tables, without the picture.
    pub page: Page,
    /// The chart of its tables; `None` where there is nothing to draw, which the page says.
    pub chart: Option<Chart>,
}

impl DriveAnswer {
    /// Words without a picture.
    const fn plain(page: Page) -> Self {
        Self { page, chart: None }
    }

    /// A page with a chart of this size, which has the page's id.
    fn charted(page: Page, title: String, description: &str, size: (f64, f64), body: Body) -> Self {
        let chart = Chart {
            id: page.id,
            title,
            description: description.to_owned(),
            size,
            strip: false,
            body,
        };
        Self {
            page,
            chart: Some(chart),
        }
    }
}

/// Builds an answer.
type Build = fn(&Journey, &[Shared<Finding>], Units) -> DriveAnswer;

/// Every page of a drive and what builds it, in the order on screen. The ids stay as they are.
const ANSWERS: [(&PageKind, Build); 7] = [
    (&summary::PAGE, summary::answer),
    (&route::PAGE, route::answer),
    (&power::PAGE, power::answer),
    (&pull::PAGE, pull::answer),
    (&heat::PAGE, heat::answer),
    (&split::PAGE, split::answer),
    (&charge::PAGE, charge::answer),
];

/// Every answer about a drive, in the order on screen.
#[must_use]
pub fn drive_answers(
    journey: &Journey,
    found: &[Shared<Finding>],
    units: Units,
) -> Vec<DriveAnswer> {
    let answer = |(_, build): (&PageKind, Build)| build(journey, found, units);
    ANSWERS.into_iter().map(answer).collect()
}

/// What there is to look at about a drive.
#[must_use]
pub fn drive_choices(found: &[Shared<Finding>]) -> Vec<PageChoice> {
    let kinds = ANSWERS.into_iter().map(|(kind, _)| kind);
    kinds.map(|kind| kind.choice(found)).collect()
}

/// One page of a drive with its picture; `None` where there is no such page.
#[must_use]
pub fn drive_page(
    id: &str,
    journey: &Journey,
    found: &[Shared<Finding>],
    units: Units,
) -> Option<Page> {
    let (_, build) = ANSWERS.into_iter().find(|(kind, _)| kind.id == id)?;
    let answer = build(journey, found, units);
    Some(Page {
        picture: answer.chart.as_ref().map(draw_chart),
        ..answer.page
    })
}

/// A page with what its checks found and take for granted.
fn page(kind: &PageKind, found: &[Shared<Finding>], units: Units) -> Page {
    let mut page = Page {
        id: kind.id,
        title: kind.title,
        lead: Vec::new(),
        tables: Vec::new(),
        picture: None,
        assumptions: Vec::new(),
    };
    for finding in found.iter().filter(|f| kind.checks.contains(&f.check)) {
        page.lead.push(finding.sentence.words(units));
        for line in &finding.assumptions {
            if !page.assumptions.iter().any(|said| said == line) {
                page.assumptions.push(line.to_string());
            }
        }
    }
    page
}

/// How often the route is driven in a day, in words.
fn trips(count: u32) -> String {
    if count == 1 {
        "one trip".to_owned()
    } else {
        format!("{count} trips")
    }
}

/// What stands on a page whose run has no course.
const NOTHING_DRIVEN: &str = "Not assessed: the truck did not move, so there is nothing to show.";
