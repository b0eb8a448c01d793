//! A drive as pages of answers: tables, and a chart of what they hold.
//!
//! Every chart is made from the very columns that its table shows, so the two cannot say different things.

mod charge;
mod figures;
mod heat;
mod power;
mod pull;
mod route;
mod split;
mod summary;

use super::page::Page;
use crate::assessment::Journey;
use crate::drawing::{Body, Chart, draw_chart};
use crate::findings::Finding;
use crate::quantity::Units;

pub use route::drive_strip;

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

/// Every answer about a drive, in the order on screen. The ids stay as they are.
#[must_use]
pub fn drive_answers(journey: &Journey, found: &[Finding], units: Units) -> Vec<DriveAnswer> {
    vec![
        summary::answer(journey, found, units),
        route::answer(journey, found, units),
        power::answer(journey, found, units),
        pull::answer(journey, found, units),
        heat::answer(journey, found, units),
        split::answer(journey, units),
        charge::answer(journey, found, units),
    ]
}

/// The same as pages with their pictures.
#[must_use]
pub fn drive_pages(journey: &Journey, found: &[Finding], units: Units) -> Vec<Page> {
    let with = |answer: DriveAnswer| Page {
        picture: answer.chart.as_ref().map(draw_chart),
        ..answer.page
    };
    drive_answers(journey, found, units)
        .into_iter()
        .map(with)
        .collect()
}

/// A page with what some checks found and take for granted.
fn page(
    id: &'static str,
    title: &'static str,
    checks: &[&str],
    found: &[Finding],
    units: Units,
) -> Page {
    let mut page = Page {
        id,
        title,
        lead: Vec::new(),
        tables: Vec::new(),
        picture: None,
        assumptions: Vec::new(),
        checks: checks.iter().map(|id| (*id).to_owned()).collect(),
        severity: None,
    };
    for finding in found.iter().filter(|f| checks.contains(&f.check)) {
        page.lead.push(finding.sentence.words(units));
        let worst = page
            .severity
            .map_or(finding.severity, |s| s.min(finding.severity));
        page.severity = Some(worst);
        for line in &finding.assumptions {
            if !page.assumptions.contains(line) {
                page.assumptions.push(line.clone());
            }
        }
    }
    page
}

/// What stands on a page whose run has no course.
const NOTHING_DRIVEN: &str = "Not assessed: the truck did not move, so there is nothing to show.";
