//! Load cases: in which states of loading a truck is looked at.

use serde::Serialize;

/// A state of loading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Case {
    /// The donor as weighed.
    Donor,
    /// After the strip-out.
    Stripped,
    /// As planned, nobody aboard, tanks as planned.
    Unladen,
    /// As planned, driver aboard, tanks half full.
    HalfTanks,
    /// As planned, driver and payload aboard.
    Laden,
    /// As planned, driver aboard, coupled to the loaded trailer.
    Coupled,
}

impl Case {
    /// All cases in their order.
    pub const ALL: [Self; 6] = [
        Self::Donor,
        Self::Stripped,
        Self::Unladen,
        Self::HalfTanks,
        Self::Laden,
        Self::Coupled,
    ];

    /// Words for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Donor => "donor as weighed",
            Self::Stripped => "stripped",
            Self::Unladen => "as planned, unladen",
            Self::HalfTanks => "driver, tanks half full",
            Self::Laden => "laden",
            Self::Coupled => "laden with trailer",
        }
    }
}
