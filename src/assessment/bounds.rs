//! Every limit that payload, the fifth wheel's place or the trailer's axles can reach, in one list:
//! ratings, tyres, road law, bridge groups, neighbouring axles of two groups, shares, lengths.
//!
//! Each is a load that is linear in payload and place ([`Trend`]) against a limit that is fixed or, for
//! groups of axles of truck and trailer, a step function of their distance. Payload, position and best
//! position are worked out from this list and from nothing else, so that they cannot disagree.

use super::{GroupLimits, Road};
use crate::legality::{self, Allowed, RoadAxle};
use crate::loads::{Case, Split, Trend, Trends, trends};
use crate::vehicle::Vehicle;
use std::borrow::Cow;
use std::ops::Range;

/// Least part of the truck's weight on the steered axle, common practice; as the check of it.
pub(crate) const LEAST_STEERED: f64 = 0.20;

/// Words for the limit that a load may not fall below nothing.
pub(super) const LIFTS_OFF: &str = "lifts off";
/// Words for a limit that asks for a least part of a weight.
pub(crate) const LEAST_SHARE: &str = "least share";

/// What limits a load.
#[derive(Clone, Debug, PartialEq)]
enum Cap {
    Fixed(f64),
    /// What the law allows these axles on the road; another limit may hold them as planned already. Last:
    /// its place among such limits.
    Axles(Range<usize>, bool, usize),
}

/// A load and its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Bound<'a> {
    /// What is limited, in words.
    pub name: Cow<'a, str>,
    /// Which of its limits governs, in words.
    pub by: &'static str,
    /// The load in kilograms, the length in millimetres.
    pub trend: Trend,
    /// It is the case to which payload is added; the others are the truck on its own.
    pub under_payload: bool,
    cap: Cap,
}

/// All of them for one vehicle.
#[derive(Debug)]
pub struct Bounds<'a> {
    /// The list.
    pub list: Vec<Bound<'a>>,
    vehicle: &'a Vehicle,
    road: &'a Road,
    allowed: Option<Allowed<'a>>,
    under_payload: bool,
    groups: usize,
}

/// Where fifth wheel and trailer axles stand, counted from where they are planned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stand {
    /// Fifth wheel farther ahead, mm.
    pub ahead_mm: f64,
    /// Trailer axles farther from the kingpin, mm.
    pub axles_back_mm: f64,
    /// How kingpin and axles share then.
    pub split: Split,
}

impl<'a> Bounds<'a> {
    /// Collects the limits.
    ///
    /// # Errors
    /// What is missing for any load.
    pub fn of(vehicle: &'a Vehicle, road: &'a Road) -> Result<Self, String> {
        let mut bounds = Self {
            list: Vec::with_capacity(64),
            vehicle,
            road,
            allowed: Allowed::with(vehicle, road.gross_kg),
            groups: 0,
            under_payload: false,
        };
        for case in trends(vehicle)? {
            bounds.under_payload = case.under_payload;
            bounds.add_groups(&case, &road.limits);
            let on_each = (0..road.axles.len()).map(|index| bounds.on_axle(&case, index));
            let on_each: Vec<Trend> = on_each.collect();
            bounds.add_axles(&case, &on_each);
            bounds.add_shares(&case, &on_each);
            bounds.add_truck(&case);
            if case.under_payload {
                bounds.add_whole(&case);
            }
        }
        // No payload changes a length.
        bounds.under_payload = false;
        bounds.add_sizes();
        Ok(bounds)
    }

    fn add(&mut self, name: impl Into<Cow<'a, str>>, by: &'static str, trend: Trend, cap: Cap) {
        let name = name.into();
        self.list.push(Bound {
            name,
            by,
            trend,
            under_payload: self.under_payload,
            cap,
        });
    }

    fn fixed(&mut self, name: impl Into<Cow<'a, str>>, by: &'static str, trend: Trend, limit: f64) {
        self.add(name, by, trend, Cap::Fixed(limit));
    }

    fn add_groups(&mut self, case: &Trends, limits: &'a [GroupLimits]) {
        for (group, trend) in self.vehicle.chassis.groups.iter().zip(&case.groups) {
            let limits = limits.iter().find(|l| l.id == group.id);
            if let Some((limits, limit)) = limits.and_then(|l| l.lowest().map(|limit| (l, limit))) {
                self.fixed(&*limits.name, limit.kind.words(), *trend, limit.kg);
                let lifted = Trend::default().and(-1.0, trend);
                self.fixed(&*limits.name, LIFTS_OFF, lifted, 0.0);
            }
        }
    }

    /// Groups of axles that no other limit holds.
    fn add_axles(&mut self, case: &Trends, on_each: &[Trend]) {
        for set in &self.road.sets {
            if set.crosses && case.case != Case::Coupled {
                continue;
            }
            let range = set.range.clone();
            let add = |sum: Trend, one: &Trend| sum.and(1.0, one);
            let trend = on_each[range.clone()].iter().fold(Trend::default(), add);
            let cap = Cap::Axles(range, set.held, self.groups);
            self.add(&*set.name, set.by, trend, cap);
            self.groups += 1;
        }
    }

    /// Load of one axle on the road, its part of its group's.
    fn on_axle(&self, case: &Trends, index: usize) -> Trend {
        let axle = &self.road.axles[index];
        if axle.on_trailer {
            let count = self
                .vehicle
                .trailer
                .as_ref()
                .map_or(1, |t| t.trailer.axle_count);
            return Trend::default().and(1.0 / f64::from(count.max(1)), &Trend::TRAILER_AXLES);
        }
        let chassis = &self.vehicle.chassis;
        let mut out = Trend::default();
        for (group, trend) in chassis.groups.iter().zip(&case.groups) {
            if axle.group.as_ref() != Some(&group.id) {
                continue;
            }
            let shares = chassis.shares_down(group, &self.vehicle.raised);
            let own = group.axles.iter().position(|id| *id == axle.id);
            out = out.and(own.map_or(0.0, |i| shares[i]), trend);
        }
        out
    }

    /// Least shares, as loads that must not rise above nothing: `least · whole − carried`.
    fn add_shares(&mut self, case: &Trends, on_each: &[Trend]) {
        let sum = |this: &Self, pick: &dyn Fn(&RoadAxle) -> bool| {
            let axles = &this.road.axles;
            let picked = (0..axles.len()).filter(|&i| !axles[i].on_trailer && pick(&axles[i]));
            picked.fold(Trend::default(), |sum, i| sum.and(1.0, &on_each[i]))
        };
        let truck = case.truck();
        let steered = sum(self, &|a| a.steered);
        let rest = |least: f64, whole: &Trend, part: &Trend| {
            Trend::default().and(least, whole).and(-1.0, part)
        };
        let name = "steered axle";
        let wanted = rest(LEAST_STEERED, &truck, &steered);
        self.fixed(name, LEAST_SHARE, wanted, 0.0);
        let Some(law) = &self.vehicle.law else { return };
        if !case.under_payload {
            return;
        }
        let more = law.steered_share.as_ref();
        if let Some(share) = more.filter(|s| s.least > LEAST_STEERED) {
            let wanted = rest(share.least, &truck, &steered);
            self.fixed(name, LEAST_SHARE, wanted, 0.0);
        }
        if let Some(share) = &law.driven_share {
            let whole = self.gross(&truck);
            let wanted = rest(share.least, &whole, &sum(self, &|a| a.driven));
            self.fixed("driven axles", LEAST_SHARE, wanted, 0.0);
        }
    }

    fn gross(&self, truck: &Trend) -> Trend {
        let axles = if self.vehicle.trailer.is_some() {
            1.0
        } else {
            0.0
        };
        truck.and(axles, &Trend::TRAILER_AXLES)
    }

    fn add_truck(&mut self, case: &Trends) {
        let truck = case.truck();
        if let Some(gvwr) = self.vehicle.chassis.ratings.gvwr_kg {
            self.fixed("truck", "GVWR", truck, gvwr);
        }
        if let Some(kg) = self.road.tractor_kg {
            self.fixed("truck", "road law", truck, kg);
        }
    }

    fn add_whole(&mut self, case: &Trends) {
        let vehicle = self.vehicle;
        let gross = self.gross(&case.truck());
        if let (Some(coupled), Some(fw)) = (&vehicle.trailer, &vehicle.chassis.fifth_wheel) {
            self.fixed("fifth wheel", "rating", Trend::KINGPIN, fw.rating_kg);
            if let Some(limit) = &self.road.trailer {
                self.fixed("trailer axles", limit.by, Trend::TRAILER_AXLES, limit.kg);
            }
            if let Some(gcwr) = vehicle.chassis.ratings.gcwr_kg {
                self.fixed("combination", "GCWR", gross, gcwr);
            }
            let trailer = &coupled.trailer;
            let load = Trend::KINGPIN.and(1.0, &Trend::TRAILER_AXLES);
            let most = trailer.payload_max_kg + trailer.tare_kg;
            self.fixed("trailer", "payload rating", load, most);
        }
        if let Some(kg) = self.road.gross_kg {
            self.fixed("gross weight", "road law", gross, kg);
        }
    }

    fn add_sizes(&mut self) {
        for size in legality::sizes(self.vehicle) {
            if size.with_kingpin || size.with_axles {
                let trend = Trend {
                    at: size.mm,
                    per_mm: if size.with_kingpin { -1.0 } else { 0.0 },
                    per_axle_mm: if size.with_axles { 1.0 } else { 0.0 },
                    ..Trend::default()
                };
                self.fixed(
                    size.what.to_ascii_lowercase(),
                    "length by road law",
                    trend,
                    size.limit_mm + 0.5,
                );
            }
        }
    }

    /// Where everything stands as planned.
    #[must_use]
    pub fn as_planned(&self) -> Stand {
        Stand {
            split: self.vehicle.trailer.as_deref().map_or(
                // Payload on the truck itself counts as what rests on it.
                Split {
                    pin: (0.0, 1.0),
                    axles: (0.0, 0.0),
                },
                Split::of,
            ),
            ..Stand::default()
        }
    }

    /// With the trailer's axles at this distance from the kingpin.
    #[must_use]
    pub fn with_axles_at(&self, kingpin_to_axles_mm: f64) -> Stand {
        let Some(coupled) = &self.vehicle.trailer else {
            return self.as_planned();
        };
        Stand {
            ahead_mm: 0.0,
            axles_back_mm: kingpin_to_axles_mm - coupled.trailer.kingpin_to_axles_mm,
            split: Split::slid_to(coupled, kingpin_to_axles_mm),
        }
    }

    /// The limit with everything there; infinite where the law says nothing of these axles there.
    #[must_use]
    pub fn limit(&self, bound: &Bound<'_>, stand: &Stand) -> f64 {
        match &bound.cap {
            Cap::Fixed(limit) => *limit,
            Cap::Axles(range, ..) => {
                let back = stand.axles_back_mm - stand.ahead_mm;
                let allowed = self.allowed.as_ref();
                allowed
                    .and_then(|a| a.group_kg(&self.road.axles[range.clone()], back))
                    .map_or(f64::INFINITY, |(kg, _)| kg)
            }
        }
    }

    /// Limits of every group of axles with everything there, in the order of the list.
    pub(super) fn of_groups(&self, stand: &Stand) -> impl Iterator<Item = f64> {
        let groups = self.list.iter().filter(|b| Self::group_held(b).is_some());
        groups.map(|bound| self.limit(bound, stand))
    }

    /// How many groups of axles are limited.
    pub(super) const fn groups(&self) -> usize {
        self.groups
    }

    /// The limit where those of the groups of axles are these.
    pub(super) fn limit_of(bound: &Bound<'_>, groups: &[f64]) -> f64 {
        match bound.cap {
            Cap::Fixed(limit) => limit,
            Cap::Axles(_, _, index) => groups[index],
        }
    }

    /// Groups of axles of truck and trailer: their limits change with the fifth wheel's place.
    pub(super) fn crossing(&self) -> impl Iterator<Item = &Bound<'a>> {
        self.list.iter().filter(|bound| {
            matches!(&bound.cap, Cap::Axles(range, ..) if {
                let members = &self.road.axles[range.clone()];
                members.iter().any(|a| a.on_trailer) && members.iter().any(|a| !a.on_trailer)
            })
        })
    }

    /// A group of axles: whether another limit holds it as planned already. `None` for other limits.
    pub(super) const fn group_held(bound: &Bound<'_>) -> Option<bool> {
        match bound.cap {
            Cap::Axles(_, held, _) => Some(held),
            Cap::Fixed(_) => None,
        }
    }

    /// The vehicle.
    #[must_use]
    pub const fn vehicle(&self) -> &'a Vehicle {
        self.vehicle
    }
}
