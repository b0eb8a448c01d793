//! Checks that need not run again when what they look at is what it was before.
//!
//! Only those that say much about things that mostly stand still; the others take less time than it
//! would take to see whether they must.

use super::Check;
use super::checks;
use crate::assessment::Answers;

/// A check, and whether all that it looks at is the same in both answers.
type Again = (&'static Check, fn(&Answers, &Answers) -> bool);

static AGAIN: &[Again] = &[
    (&checks::MOUNT_LOAD, |now, then| now.mounts == then.mounts),
    (&checks::SHAFT_ANGLE, shafts),
    (&checks::SHAFT_ENDS, shafts),
    (&checks::SHAFT_LENGTH, shafts),
    (&checks::SHAFT_PLUNGE, shafts),
    (&checks::SHAFT_RIPPLE, shafts),
    (&checks::SHAFT_SPEED, shafts),
    (&checks::SHAFT_TORQUE, shafts),
    (&checks::SHAFT_TRAVEL, shafts),
];

fn shafts(now: &Answers, then: &Answers) -> bool {
    now.driveline.is(&then.driveline)
}

/// True when this check would say what it said.
pub(super) fn holds(check: &Check, now: &Answers, then: &Answers) -> bool {
    let mut known = AGAIN.iter().filter(|(other, _)| other.id == check.id);
    known.any(|(_, same)| same(now, then))
}
