//! The pages of answers: one file each, one list. The order of the list is the order on screen.

mod balance;
mod frame;
mod law;
mod loads;
mod shafts;
mod turning;

use super::page::Page;
use crate::assessment::Assessment;
use crate::findings::{Finding, Severity};
use crate::quantity::Units;
use crate::shared::Shared;
use serde::Serialize;

/// Every page.
pub const PAGES: &[&PageKind] = &[
    &loads::PAGE,
    &law::PAGE,
    &frame::PAGE,
    &turning::PAGE,
    &balance::PAGE,
    &shafts::PAGE,
];

/// What stands in a cell that has no figure.
pub(super) const NONE: &str = "–";

/// A page: what it is called, and which checks it shows the figures of.
#[derive(Debug)]
pub struct PageKind {
    /// Stable id.
    pub id: &'static str,
    /// A word or three: it stands on a small button.
    pub title: &'static str,
    /// Checks whose figures it shows: the worst of their findings marks its button, and their
    /// findings lead to it.
    pub checks: &'static [&'static str],
}

impl PageKind {
    /// The page as a choice, marked with the worst of what its checks found.
    #[must_use]
    pub fn choice(&self, found: &[Shared<Finding>]) -> PageChoice {
        let own = found.iter().filter(|f| self.checks.contains(&f.check));
        PageChoice {
            id: self.id,
            title: self.title,
            checks: self.checks,
            severity: own.map(|f| f.severity).min(),
        }
    }
}

/// A page as a choice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PageChoice {
    /// Id.
    pub id: &'static str,
    /// Title.
    pub title: &'static str,
    /// Checks whose figures it shows.
    pub checks: &'static [&'static str],
    /// The worst of their findings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub severity: Option<Severity>,
}

/// Builds a page.
type Build = fn(&Assessment, Units) -> Page;

/// A page by its id. How each is built stands here and not beside its title, so that a program that
/// only lists the pages need not hold what builds them.
#[must_use]
pub fn page(id: &str, assessment: &Assessment, units: Units) -> Option<Page> {
    let builders: [(&PageKind, Build); 6] = [
        (&loads::PAGE, loads::build),
        (&law::PAGE, law::build),
        (&frame::PAGE, frame::build),
        (&turning::PAGE, turning::build),
        (&balance::PAGE, balance::build),
        (&shafts::PAGE, shafts::build),
    ];
    let (_, build) = builders.into_iter().find(|(kind, _)| kind.id == id)?;
    Some(build(assessment, units))
}

/// What there is to choose from.
#[must_use]
pub fn page_choices(assessment: &Assessment) -> Vec<PageChoice> {
    let choice = |kind: &&PageKind| kind.choice(&assessment.findings);
    PAGES.iter().map(choice).collect()
}
