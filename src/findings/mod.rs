//! Checks turn answers into findings: what holds, what does not, by how much, and who says so.
//!
//! One file for each check, one list. A finding does no arithmetic beyond its margin.

mod again;
mod checks;
mod finding;
mod journey;
mod phrase;

pub use checks::{CHECKS, payload_possible};
pub use finding::{Amount, Finding, Pointer, Severity};
pub use journey::JOURNEY_CHECKS;
pub use phrase::Phrase;

use crate::assessment::{Answers, Journey};
use crate::numeric::sort_by;
use crate::shared::{Along, Shared};
use std::borrow::Cow;

/// A check: its header is its manual. What it looks at is the assessment of a plan, or of a drive.
#[derive(Debug)]
pub struct Check<About = Answers> {
    /// Stable id.
    pub id: &'static str,
    /// A few words.
    pub title: &'static str,
    /// The question that it answers.
    pub question: &'static str,
    /// How: formula or method.
    pub method: &'static str,
    /// Document and section, or "common practice".
    pub source: &'static str,
    /// When it applies.
    pub applies: &'static str,
    /// What it takes for granted.
    pub assumes: &'static [&'static str],
    /// Runs it.
    pub run: fn(&About, &mut Report),
}

/// Collects the findings of one check.
#[derive(Debug)]
pub struct Report {
    id: &'static str,
    title: &'static str,
    assumes: &'static [&'static str],
    findings: Vec<Finding>,
}

impl Report {
    /// Adds a finding.
    pub fn add(&mut self, mut finding: Finding) {
        finding.check = self.id;
        finding.title = self.title;
        let of_check = self.assumes.iter().map(|a| Cow::Borrowed(*a));
        finding.assumptions = of_check.chain(finding.assumptions).collect();
        self.findings.push(finding);
    }

    /// How many there are so far.
    #[must_use]
    pub fn count(&self) -> usize {
        self.findings.len()
    }

    /// Says that something could not be assessed, and what is missing for it.
    pub fn not_assessed(&mut self, subject: impl Into<String>, missing: &str) {
        let phrase = Phrase::new().text(format!("Not assessed: {missing}."));
        self.add(Finding::new(Severity::NotAssessed, subject, phrase));
    }
}

/// Runs every check; findings come worst first, then in the order of the list. What is said as it was
/// said before is the same finding.
#[must_use]
pub fn all(
    answers: &Answers,
    before: Option<(&Answers, &[Shared<Finding>])>,
) -> Vec<Shared<Finding>> {
    let found = run(CHECKS, answers, &|check| {
        let (old, known) = before?;
        again::holds(check, answers, old).then(|| {
            let of_check = known.iter().filter(|f| f.check == check.id);
            of_check.cloned().collect()
        })
    });
    let known = before.map_or(&[][..], |(_, known)| known);
    settled(found, known)
}

/// Runs every check of a drive; in the same order.
#[must_use]
pub fn of_journey(journey: &Journey) -> Vec<Shared<Finding>> {
    run(JOURNEY_CHECKS, journey, &|_| None)
}

fn run<About>(
    checks: &[&'static Check<About>],
    about: &About,
    again: &dyn Fn(&'static Check<About>) -> Option<Vec<Shared<Finding>>>,
) -> Vec<Shared<Finding>> {
    let mut findings: Vec<Shared<Finding>> = Vec::new();
    for check in checks {
        if let Some(known) = again(check) {
            findings.extend(known);
            continue;
        }
        let mut report = Report {
            id: check.id,
            title: check.title,
            assumes: check.assumes,
            findings: Vec::new(),
        };
        (check.run)(about, &mut report);
        findings.extend(report.findings.into_iter().map(Shared::from));
    }
    // A stable sort: equal ones keep the order of the list.
    sort_by(&mut findings, |a, b| {
        a.severity
            .cmp(&b.severity)
            .then(a.badness().total_cmp(&b.badness()))
    });
    findings
}

/// Findings that are equal to those of before are the same.
fn settled(mut found: Vec<Shared<Finding>>, known: &[Shared<Finding>]) -> Vec<Shared<Finding>> {
    let mut known = Along::new(known);
    for finding in &mut found {
        let then = known.next(|f| f.check == finding.check && f.subject == finding.subject);
        if let Some((then, _)) = then {
            finding.settle(then);
        }
    }
    found
}

/// A check by its id.
#[must_use]
pub fn explain(id: &str) -> Option<&'static Check> {
    CHECKS.iter().copied().find(|check| check.id == id)
}

/// The manual page of a check, of a plan or of a drive, by its id.
#[must_use]
pub fn manual(id: &str) -> Option<String> {
    let drive = JOURNEY_CHECKS.iter().find(|check| check.id == id);
    explain(id)
        .map(Check::manual)
        .or_else(|| drive.map(|check| check.manual()))
}

impl<About> Check<About> {
    /// The manual page of this check, from its header.
    #[must_use]
    pub fn manual(&self) -> String {
        let mut out = format!(
            "{} ({})\n\n{}\n\nMethod   {}\nSource   {}\nApplies  {}\n",
            self.title, self.id, self.question, self.method, self.source, self.applies
        );
        for line in self.assumes {
            out.push_str("Assumes  ");
            out.push_str(line);
            out.push('\n');
        }
        out
    }
}
