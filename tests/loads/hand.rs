//! *Hand.* Cases small enough to follow on paper.
