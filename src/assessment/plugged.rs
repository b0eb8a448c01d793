//! Charging of a truck at the end of its day.

use crate::energy::{Charge, Feed, Limits, OUTLETS, Socket, Takes, Truck, charge, strongest};

/// State of charge from and to which a quick charge is told.
const QUICK: (f64, f64) = (0.1, 0.8);

/// A night at the plug.
#[derive(Clone, Debug)]
pub struct Plugged {
    /// What it is charged by.
    pub feed: Feed,
    /// From where the day ended to full.
    pub night: Charge,
    /// From 10 to 80 %.
    pub quick: Charge,
    /// From empty to full.
    pub whole: Charge,
    /// Energy from the wall for the night, joule.
    pub wall_j: f64,
    /// Hours that there are.
    pub hours: f64,
    /// Other outlets that the same charger can stand at: name, power at the packs in watt, seconds from
    /// 10 to 80 %.
    pub outlets: Vec<(&'static str, f64, f64)>,
}

/// One charge by a feed.
fn by(truck: &Truck, feed: &Feed, from: f64, to: f64, pack_c: f64) -> Charge {
    let bank = &truck.bank;
    let limits = Limits {
        most_a: feed.most_a,
        most_w: feed.most_w,
        most_v: bank.top_v(),
        end_a: bank.capacity_ah / 50.0,
        pack_c,
    };
    charge(bank, from, to, &limits)
}

/// Charging by one inlet or charger of the truck (its mark or part id), or by the strongest.
///
/// # Errors
/// What is missing or stands against it, in words.
pub fn plugged(
    truck: &Truck,
    inlet: Option<&str>,
    soc: f64,
    pack_c: f64,
    hours: f64,
) -> Result<Plugged, String> {
    let chosen: Vec<Socket> = match inlet {
        None => truck.sockets.clone(),
        Some(id) => {
            let is = |s: &&Socket| s.tag == id || s.part == id;
            truck.sockets.iter().filter(is).cloned().collect()
        }
    };
    if let (Some(id), true) = (inlet, chosen.is_empty()) {
        return Err(format!("{id} is not an inlet or charger on this truck"));
    }
    let top_v = truck.bank.top_v();
    let feed = strongest(&chosen, top_v, None, None)?;
    let bank = &truck.bank;
    let night = by(truck, &feed, soc, bank.soc_high, pack_c);
    let socket = chosen.iter().find(|s| s.tag == feed.tag);
    let alternating = socket.is_some_and(|s| matches!(s.takes, Ok(Takes::Alternating { .. })));
    let outlets = OUTLETS
        .iter()
        .filter(|_| alternating)
        .filter_map(|outlet| {
            let feed = socket?.feed(top_v, Some(outlet.name), None).ok()?;
            let quick = by(truck, &feed, QUICK.0, QUICK.1, pack_c);
            Some((outlet.name, feed.most_w, quick.time_s))
        })
        .collect();
    Ok(Plugged {
        quick: by(truck, &feed, QUICK.0, QUICK.1, pack_c),
        whole: by(truck, &feed, 0.0, 1.0, pack_c),
        wall_j: night.energy_j / feed.efficiency,
        night,
        hours,
        outlets,
        feed,
    })
}
