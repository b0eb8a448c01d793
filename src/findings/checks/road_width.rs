//! Are truck, body and trailer no wider than the chosen road law allows?

use super::size::{self, Words};
use crate::assessment::Answers;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-width",
    title: "Road law, width",
    question: "Are truck, body and trailer no wider than the chosen road law allows?",
    method: "Overall width of the chassis without mirrors, width of body and trailer, against the limit; parts have a check of their own.",
    source: "the road law named in the plan",
    applies: "when the law states a width",
    assumes: &["mirrors, lamps and tyre bulge left out, as laws do"],
    run,
};

const WIDTHS: [Words; 2] = [
    ("width", " is ", " wide"),
    ("trailer_width", " is ", " wide"),
];

fn run(answers: &Answers, report: &mut Report) {
    size::against(answers, report, &WIDTHS);
}
