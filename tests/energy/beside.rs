//! Packs and sources side by side that are not equal.

use axlewright_core::part::{Battery, Chemistry, Fuel, SourceUnit};
use axlewright_core::plant::{Bank, Source};

fn pack(energy_kwh: f64, power_kw: f64, nominal_v: f64) -> Battery {
    Battery {
        chemistry: Some(Chemistry::Lfp),
        energy_kwh: Some(energy_kwh),
        nominal_v: Some(nominal_v),
        continuous_kw: Some(power_kw),
        peak_kw: Some(2.0 * power_kw),
        charge_kw: Some(power_kw),
        soc_low: Some(0.05),
        soc_high: Some(0.95),
        cycle_life: Some(3_000.0),
        vent: None,
    }
}

fn bank(packs: &[Battery]) -> Bank {
    Bank::of(packs.iter().map(|p| ("pack", 500.0, p))).unwrap()
}

/// A second road: two strings with their own resistance on one bus, solved as a circuit. What the bank says
/// it can do brings the first string just to its own limit.
#[test]
fn the_string_that_is_first_at_its_limit_limits_all() {
    for (a, b) in [
        ((100.0, 100.0), (100.0, 200.0)),
        ((100.0, 100.0), (50.0, 200.0)),
        ((60.0, 240.0), (118.0, 118.0)),
    ] {
        let packs = [a, b].map(|(kwh, kw)| pack(kwh, kw, 650.0));
        let both = bank(&packs);
        let alone = packs.each_ref().map(|p| bank(std::slice::from_ref(p)));
        let most_w = both.most_discharge_w(25.0, 0.6, 0.0);
        let draw = both.draw(most_w, 25.0, 0.6);
        // Currents by the voltage at the bus, which both strings see.
        let shares = alone.each_ref().map(|string| {
            (string.open_v(0.6) - draw.volts) / string.resistance_ohm(25.0, 0.6) * draw.volts
        });
        let sum: f64 = shares.iter().sum();
        assert!((sum / most_w - 1.0).abs() < 1e-9, "{sum} {most_w}");
        let used = [shares[0] / (a.1 * 1e3), shares[1] / (b.1 * 1e3)];
        let first = used[0].max(used[1]);
        assert!((first - 1.0).abs() < 1e-9, "{a:?} {b:?}: {used:?}");
        assert!(most_w < (a.1 + b.1) * 1e3, "{most_w}");
    }
    // Equal ones are as strong as their sum, whatever their size.
    let equal = bank(&[pack(100.0, 120.0, 650.0), pack(50.0, 60.0, 650.0)]);
    assert!((equal.continuous_w - 180e3).abs() < 1e-6);
}

/// The energy is that of the plates, with a cell more or less in series within the hundredth that is taken
/// for the same voltage.
#[test]
fn energy_of_packs_side_by_side_is_that_of_their_plates() {
    let packs = [
        pack(118.0, 118.0, 650.0),
        pack(45.0, 45.0, 655.0),
        pack(38.0, 38.0, 645.0),
    ];
    let bank = bank(&packs);
    assert!((bank.energy_j / 3.6e6 - 201.0).abs() < 1e-9);
    assert!((bank.energy_to_j(1.0) / bank.energy_j - 1.0).abs() < 1e-9);
    let odd = Bank::of([
        ("one", 1.0, &packs[0]),
        ("odd", 1.0, &pack(60.0, 240.0, 620.0)),
    ]);
    assert!(odd.is_err_and(|why| why.contains("another voltage")));
}

/// Generators of different size and efficiency run at the same share of their power: together they burn what
/// each would burn alone, and make as much heat.
#[test]
fn sources_of_one_kind_burn_together_what_they_burn_alone() {
    let unit = |kw: f64, full: f64, half: f64| SourceUnit {
        continuous_kw: Some(kw),
        efficiency: Some(full),
        efficiency_half: Some(half),
        heat_coolant_kw: Some(kw),
        coolant_out_c: Some(95.0),
        fuel: Some(Fuel::NaturalGas),
        ..SourceUnit::default()
    };
    let small = Source::of("small", &unit(60.0, 0.33, 0.29)).unwrap();
    let large = Source::of("large", &unit(150.0, 0.36, 0.34)).unwrap();
    let both = small.clone().beside("large", &large).unwrap();
    for share in [0.0, 0.1, 0.4, 0.75, 1.0] {
        let alone = small.fuel_w(share * 60e3) + large.fuel_w(share * 150e3);
        let together = both.fuel_w(share * 210e3);
        assert!(
            (together / alone - 1.0).abs() < 1e-12,
            "{share}: {together} {alone}"
        );
    }
    assert!((both.heat_w(210e3) - 210e3).abs() < 1e-6);
}
