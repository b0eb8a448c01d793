//! Cold: less power, less energy, heating; ranges by temperature.

use super::plans::drive;
use super::rig;
use axlewright_core::assessment::{Reach, TEMPERATURES_C, ranges};
use axlewright_core::energy::{Conditions, run};
use axlewright_core::part::Chemistry;
use axlewright_core::plant::Cell;
use axlewright_core::quantity::Units;
use axlewright_core::report::ranges_page;
use axlewright_core::route::{Route, shipped};

/// What cannot be drawn in the cold is there again when the packs are warm: the charge is the same.
#[test]
fn cold_locks_energy_and_does_not_lose_it() {
    for chemistry in [Chemistry::Nmc, Chemistry::Lfp, Chemistry::Lto] {
        let bank = rig::bank(chemistry, 300.0, 600.0);
        let cell = Cell::of(chemistry);
        assert!((bank.usable_at_j(20.0) - bank.usable_j()).abs() < 1.0);
        let window = bank.soc_high - bank.soc_low;
        let cold = bank.soc_high - bank.soc_low_at(-20.0);
        assert!((cold / window - cell.energy_share(-20.0)).abs() < 1e-12);
        assert!(bank.usable_at_j(-20.0) < bank.usable_at_j(0.0));
        assert!(bank.most_discharge_w(-20.0, bank.soc_low_at(-20.0), 1.0) < 1.0);
        assert!(bank.most_discharge_w(20.0, bank.soc_low_at(-20.0), 1.0) > 1e5);
    }
}

/// A rig without heat: at −20 °C it comes to the end of its window earlier, by the share of its cells.
#[test]
fn cold_packs_come_less_far() {
    let mut truck = rig::tractor();
    truck.bank = rig::bank(Chemistry::Lfp, 250.0, 600.0);
    let route = shipped("level-80").unwrap().repeated(5);
    let reach = |pack_c: f64| {
        let start = Conditions {
            pack_c,
            ..Conditions::default()
        };
        let run = run(&truck, &route, &start, &mut |_| true);
        run.run_down.expect("runs down").0
    };
    let share = reach(-20.0) / reach(20.0);
    assert!((0.5..0.66).contains(&share), "{share}");
}

/// Four temperatures; warm packs go farther than old ones and those farther than nothing; soaked packs
/// pay for their heating in the cold and are the same as the others where it is warm.
#[test]
fn ranges_are_told_by_temperature_and_age() {
    let journey = drive("gullwharf-drayage.json", "level-80", |_| {});
    let mut told = vec![0.0];
    let table = ranges(&journey, &mut |share| {
        told.push(share);
        true
    });
    // How far it is goes up to the end and never back.
    assert!(told.is_sorted() && (0.9..=1.0).contains(told.last().unwrap()));
    assert_eq!(table.len(), 4);
    let figures: Vec<[Reach; 3]> = table
        .iter()
        .map(|row| [&row.new, &row.end_of_life, &row.soaked].map(|r| *r.as_ref().unwrap()))
        .collect();
    for (row, c) in table.iter().zip(TEMPERATURES_C) {
        assert_eq!(row.temperature_c, c);
    }
    for [new, old, soaked] in &figures {
        assert!(old.range_m < new.range_m && soaked.range_m <= new.range_m * (1.0 + 1e-9));
        let share = old.range_m / new.range_m;
        assert!((share - 0.8).abs() < 0.03, "{share}");
    }
    let [[frost, _, iced], [zero, ..], [mild, _, cool], [_, _, hot]] = figures.as_slice() else {
        panic!("four rows");
    };
    // Trade knowledge: a cold day adds 10 to 25 % (common practice), thicker air included.
    let more = frost.per_m_j / mild.per_m_j;
    assert!((1.08..1.35).contains(&more), "{more}");
    assert!(frost.range_m < zero.range_m && zero.range_m < mild.range_m);
    assert!(iced.range_m < 0.8 * frost.range_m, "{iced:?}");
    assert!(iced.heater_j > 0.0 && hot.heater_j == 0.0);
    assert!((cool.range_m / mild.range_m - 1.0).abs() < 1e-6);
    // The table's mild new row is the drive itself at 20 °C.
    assert!((mild.range_m / journey.range_m - 1.0).abs() < 1e-9);
}

/// What cannot be told says why, and what was stopped says that.
#[test]
fn ranges_that_cannot_be_told_say_why() {
    let mut journey = drive("gullwharf-drayage.json", "level-80", |_| {});
    let stopped = ranges(&journey, &mut |_| false);
    assert!(
        stopped
            .iter()
            .all(|row| row.new == Err("the computation was stopped".to_owned()))
    );
    journey.once = Route::level(20.0, 800.0);
    let short = ranges(&journey, &mut |_| true);
    assert!(short.iter().all(|row| {
        row.soaked
            .as_ref()
            .is_err_and(|why| why.contains("shorter"))
    }));
    let page = ranges_page(&journey, &short, Units::Metric);
    assert_eq!(page.lead.len(), 12);
    assert!(
        page.lead.iter().all(|line| line.contains("not assessed")),
        "{:?}",
        page.lead
    );
}
