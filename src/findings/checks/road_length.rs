//! Are truck and trailer within the lengths of the chosen road law?

use super::size::{self, Words};
use crate::assessment::Answers;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-length",
    title: "Road law, lengths",
    question: "Are truck and trailer within the lengths of the chosen road law?",
    method: "Bumper, or the foremost part, to the end of frame, body or trailer; kingpin to rear end, to the rearmost axle and to the front corner of the trailer.",
    source: "the road law named in the plan",
    applies: "each length that the law limits",
    assumes: &[
        "straight ahead; bumpers, guards and couplings that the chassis file does not name are left out",
    ],
    run,
};

const LENGTHS: [Words; 6] = [
    ("motor_vehicle", " is ", " long"),
    ("articulated", " are ", " long"),
    ("trailer", " is ", " long"),
    ("kingpin_to_rear", " is ", ""),
    ("kingpin_to_rear_axle", " is ", ""),
    ("kingpin_to_front", " is ", ""),
];

fn run(answers: &Answers, report: &mut Report) {
    size::against(answers, report, &LENGTHS);
}
