//! Stops: standing, charging, loading.

use super::Loop;
use crate::energy::outcome::{Charged, End};
use crate::energy::plug::{Feed, strongest};
use crate::energy::truck::Truck;
use crate::route::{Charger, Route};

/// Longest step while standing, and while charging, seconds.
const STAND_STEP_S: f64 = 10.0;
const CHARGE_STEP_S: f64 = 2.0;

/// The truck as it leaves each stop of a route; empty where no stop changes the load.
pub(super) fn laden(truck: &Truck, route: &Route) -> Vec<Truck> {
    let stops = route.stops();
    if stops.iter().all(|s| s.load_kg.abs() <= 0.0) {
        return Vec::new();
    }
    let mut load_kg = 0.0;
    stops
        .iter()
        .map(|stop| {
            load_kg += stop.load_kg;
            truck.loaded(load_kg)
        })
        .collect()
}

/// A stop that goes on: a piece at a time, so that a long dwell counts its steps and can be stopped like
/// any other part of the way.
#[derive(Debug)]
pub(super) struct Standing {
    stop: usize,
    dwell_s: f64,
    left_s: f64,
    /// Charging: what there is to charge by, and what stood before.
    charging: Option<Charging>,
}

#[derive(Debug)]
struct Charging {
    feed: Result<Feed, String>,
    soc: f64,
    plug_j: f64,
    most_w: f64,
}

impl Loop<'_> {
    /// Begins to stand at a stop, where it is charged if it can be.
    pub(super) fn halt(&mut self, stop: usize, dwell_s: f64) {
        let charger = self
            .route
            .stops()
            .get(stop)
            .and_then(|s| s.charger.as_ref());
        let charging = charger.map(|charger| self.plug_in(charger));
        self.stuck_s = 0.0;
        self.wish_mps = 0.0;
        self.standing = Some(Standing {
            stop,
            dwell_s,
            left_s: dwell_s,
            charging,
        });
    }

    /// Stands for a moment more: only accessories, source and plug work. At the end of the dwell the truck
    /// takes its new load.
    pub(super) fn stand(&mut self, mut standing: Standing) -> Option<End> {
        if standing.left_s <= 1e-9 {
            if let Some(charging) = standing.charging {
                self.plug_out(charging, standing.dwell_s);
            }
            if let Some(truck) = self.laden.get(standing.stop) {
                self.truck = truck;
            }
            return self.out_of_charge();
        }
        let feed = standing.charging.as_mut().and_then(|charging| {
            let Charging { feed, most_w, .. } = charging;
            Some((feed.as_ref().ok()?, most_w))
        });
        let longest_s = feed.as_ref().map_or(STAND_STEP_S, |_| CHARGE_STEP_S);
        let dt = standing.left_s.min(longest_s);
        let before_j = self.run.ledger.plug_j;
        if let Some((feed, _)) = &feed {
            // The plug's current flows at the voltage that the packs have then.
            let by_current = feed.most_a * self.truck.bank.open_v(self.state.soc);
            self.state.plug_w = feed.most_w.min(by_current);
        }
        self.step(0.0, dt);
        self.state.plug_w = 0.0;
        if let Some((_, most_w)) = feed {
            *most_w = most_w.max((self.run.ledger.plug_j - before_j) / dt);
        }
        standing.left_s -= dt;
        self.standing = Some(standing);
        self.out_of_charge()
    }

    fn plug_in(&self, charger: &Charger) -> Charging {
        let wanted = Some(charger.standard.as_str());
        let bank = &self.truck.bank;
        Charging {
            feed: strongest(&self.truck.sockets, bank.top_v(), wanted, charger.power_w),
            soc: self.state.soc,
            plug_j: self.run.ledger.plug_j,
            most_w: 0.0,
        }
    }

    fn plug_out(&mut self, charging: Charging, dwell_s: f64) {
        let energy_j = self.run.ledger.plug_j - charging.plug_j;
        let efficiency = charging.feed.as_ref().map_or(1.0, |f| f.efficiency);
        self.run.charged.push(Charged {
            at_m: self.state.x_m,
            dwell_s,
            by: charging.feed.map(|f| f.by),
            soc: (charging.soc, self.state.soc),
            energy_j,
            wall_j: energy_j / efficiency,
            most_w: charging.most_w,
        });
    }
}
