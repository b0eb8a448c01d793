//! Every limit that payload, the fifth wheel's place or the trailer's axles can reach, in one list:
//! ratings, tyres, road law, bridge groups, neighbouring axles of two groups, shares, lengths.
//!
//! Each is a load that is linear in payload and place ([`Trend`]) against a limit that is fixed or, for
//! groups of axles of truck and trailer, a step function of their distance. Payload, position and best
//! position are worked out from this list and from nothing else, so that they cannot disagree.

use super::{GroupLimits, trailer_limit};
use crate::legality::{self, Allowed, RoadAxle, Rule};
use crate::loads::{Case, Split, Trend, Trends, trends};
use crate::vehicle::Vehicle;
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
    /// What the law allows these axles on the road; another limit may hold them as planned already.
    Axles(Range<usize>, bool),
}

/// A load and its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Bound {
    /// What is limited, in words.
    pub name: String,
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
    pub list: Vec<Bound>,
    vehicle: &'a Vehicle,
    axles: Vec<RoadAxle>,
    allowed: Option<Allowed<'a>>,
    under_payload: bool,
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
    pub fn of(vehicle: &'a Vehicle, limits: &[GroupLimits]) -> Result<Self, String> {
        let mut bounds = Self {
            list: Vec::new(),
            vehicle,
            axles: legality::road_axles(vehicle),
            allowed: Allowed::to(vehicle),
            under_payload: false,
        };
        for case in trends(vehicle)? {
            bounds.under_payload = case.under_payload;
            bounds.add_groups(&case, limits);
            bounds.add_axles(&case);
            bounds.add_shares(&case);
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

    fn add(&mut self, name: impl Into<String>, by: &'static str, trend: Trend, cap: Cap) {
        let name = name.into();
        self.list.push(Bound {
            name,
            by,
            trend,
            under_payload: self.under_payload,
            cap,
        });
    }

    fn fixed(&mut self, name: impl Into<String>, by: &'static str, trend: Trend, limit: f64) {
        self.add(name, by, trend, Cap::Fixed(limit));
    }

    fn add_groups(&mut self, case: &Trends, limits: &[GroupLimits]) {
        for (group, trend) in self.vehicle.chassis.groups.iter().zip(&case.groups) {
            let limits = limits.iter().find(|l| l.id == group.id);
            if let Some((limits, limit)) = limits.and_then(|l| l.lowest().map(|limit| (l, limit))) {
                self.fixed(limits.name.clone(), limit.kind.words(), *trend, limit.kg);
                let lifted = Trend::default().and(-1.0, trend);
                self.fixed(limits.name.clone(), LIFTS_OFF, lifted, 0.0);
            }
        }
    }

    /// Groups of axles that no other limit holds.
    fn add_axles(&mut self, case: &Trends) {
        let Some(allowed) = self.allowed else { return };
        let on_each: Vec<Trend> = (0..self.axles.len())
            .map(|index| self.on_axle(case, index))
            .collect();
        for first in 0..self.axles.len() {
            for end in first + 2..=self.axles.len() {
                let members = &self.axles[first..end];
                let Some((_, rule)) = allowed.group_kg(members, 0.0) else {
                    continue;
                };
                // What the gross weight caps here may be capped by the table elsewhere.
                let crosses = members.iter().any(|a| a.on_trailer) && !members[0].on_trailer;
                let held = legality::held_elsewhere(members, rule);
                if (held && !crosses) || (crosses && case.case != Case::Coupled) {
                    continue;
                }
                let add = |sum: Trend, one: &Trend| sum.and(1.0, one);
                let trend = on_each[first..end].iter().fold(Trend::default(), add);
                let (from, to) = (members[0].number, members[members.len() - 1].number);
                let by = match rule {
                    Rule::Single | Rule::Tandem | Rule::Tridem => "road law",
                    _ => "bridge formula",
                };
                self.add(
                    format!("axles {from} to {to}"),
                    by,
                    trend,
                    Cap::Axles(first..end, held),
                );
            }
        }
    }

    /// Load of one axle on the road, its part of its group's.
    fn on_axle(&self, case: &Trends, index: usize) -> Trend {
        let axle = &self.axles[index];
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
    fn add_shares(&mut self, case: &Trends) {
        let sum = |this: &Self, pick: &dyn Fn(&RoadAxle) -> bool| {
            let picked = (0..this.axles.len())
                .filter(|&i| !this.axles[i].on_trailer && pick(&this.axles[i]));
            picked.fold(Trend::default(), |sum, i| {
                sum.and(1.0, &this.on_axle(case, i))
            })
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
        if let Some(limit) = legality::tractor_limit(self.vehicle) {
            self.fixed("truck", "road law", truck, limit.kg);
        }
    }

    fn add_whole(&mut self, case: &Trends) {
        let vehicle = self.vehicle;
        let gross = self.gross(&case.truck());
        if let (Some(coupled), Some(fw)) = (&vehicle.trailer, &vehicle.chassis.fifth_wheel) {
            self.fixed("fifth wheel", "rating", Trend::KINGPIN, fw.rating_kg);
            if let Some(limit) = trailer_limit(vehicle) {
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
        if let Some(kg) = legality::gross_limit_kg(vehicle) {
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
            split: self.split(self.vehicle.trailer.as_deref()),
            ..Stand::default()
        }
    }

    fn split(&self, trailer: Option<&crate::vehicle::Coupled>) -> Split {
        trailer.map_or(
            // Payload on the truck itself counts as what rests on it.
            Split {
                pin: (0.0, 1.0),
                axles: (0.0, 0.0),
            },
            Split::of,
        )
    }

    /// With the trailer's axles at this distance from the kingpin.
    #[must_use]
    pub fn with_axles_at(&self, kingpin_to_axles_mm: f64) -> Stand {
        let Some(coupled) = &self.vehicle.trailer else {
            return self.as_planned();
        };
        let slid = coupled.with_axles_at(kingpin_to_axles_mm);
        Stand {
            ahead_mm: 0.0,
            axles_back_mm: kingpin_to_axles_mm - coupled.trailer.kingpin_to_axles_mm,
            split: self.split(Some(&slid)),
        }
    }

    /// The limit with everything there; infinite where the law says nothing of these axles there.
    #[must_use]
    pub fn limit(&self, bound: &Bound, stand: &Stand) -> f64 {
        match &bound.cap {
            Cap::Fixed(limit) => *limit,
            Cap::Axles(range, _) => {
                let back = stand.axles_back_mm - stand.ahead_mm;
                let allowed = self.allowed.as_ref();
                allowed
                    .and_then(|a| a.group_kg(&self.axles[range.clone()], back))
                    .map_or(f64::INFINITY, |(kg, _)| kg)
            }
        }
    }

    /// Groups of axles of truck and trailer: their limits change with the fifth wheel's place.
    pub(super) fn crossing(&self) -> impl Iterator<Item = &Bound> {
        self.list.iter().filter(|bound| {
            matches!(&bound.cap, Cap::Axles(range, _) if {
                let members = &self.axles[range.clone()];
                members.iter().any(|a| a.on_trailer) && members.iter().any(|a| !a.on_trailer)
            })
        })
    }

    /// A group of axles: whether another limit holds it as planned already. `None` for other limits.
    pub(super) const fn group_held(bound: &Bound) -> Option<bool> {
        match bound.cap {
            Cap::Axles(_, held) => Some(held),
            Cap::Fixed(_) => None,
        }
    }

    /// The vehicle.
    #[must_use]
    pub const fn vehicle(&self) -> &'a Vehicle {
        self.vehicle
    }
}
