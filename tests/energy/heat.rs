//! Air outside up to which continuous power lasts.

use super::plans::drive;
use axlewright_core::assessment::Journey;

/// The way there is not looked at: each limit is tried by giving the circuit its heat for hours, in air that
/// is half a kelvin cooler and hotter.
#[test]
fn in_hotter_air_than_the_limit_the_coolant_goes_over_and_in_cooler_air_not() {
    let journey = drive("carrowmere-pass.json", "hill-climb", |_| {});
    let cooling = journey.truck.cooling.as_ref().unwrap();
    let circuit = cooling.source.as_ref().unwrap();
    let source = journey.truck.source.as_ref().unwrap();
    let heat_w = source.heat_w(source.lasting_w(journey.run.highest_m));
    let weather = &journey.route.weather;
    let air = weather.air_above_kg_m3(journey.run.highest_m - weather.altitude_m);
    for limit in journey.cooled_to().unwrap() {
        let limit_c = limit.source_c.unwrap();
        for (more_k, over) in [(-0.5, false), (0.5, true)] {
            let mut coolant_c = limit_c;
            for _ in 0..20_000 {
                let away = circuit
                    .rejected_w(coolant_c, limit_c + more_k, limit.v_mps, air)
                    .0;
                coolant_c += heat_w.mul_add(1.0, -away) / circuit.capacity_j_k;
            }
            assert_eq!(
                coolant_c > circuit.limit_c,
                over,
                "{limit:?} {more_k}: {coolant_c}"
            );
        }
    }
}

/// The faster the more air; a truck without its radiator behind the cab is not cooled in the heat that the
/// example drives in; and the sentence names the limit.
#[test]
fn a_radiator_less_lowers_the_limit_below_the_day_of_the_example() {
    let limits = |journey: &Journey| journey.cooled_to().unwrap().map(|l| l.source_c.unwrap());
    let with = drive("carrowmere-pass.json", "hill-climb", |_| {});
    let without = drive("carrowmere-pass.json", "hill-climb", |plan| {
        plan.placed.retain(|p| p.part != "CL-BOC");
    });
    let (more, less) = (limits(&with), limits(&without));
    assert!(more.is_sorted() && less.is_sorted());
    for (more, less) in more.iter().zip(less) {
        assert!(less < more - 3.0, "{less} {more}");
    }
    let outside_c = with.route.weather.temperature_c;
    let [_, climbing, ..] = less;
    assert!(climbing < outside_c, "{climbing}");
    let battery = drive("gullwharf-drayage.json", "level-80", |_| {});
    let limits = battery.cooled_to().unwrap();
    assert!(
        limits
            .iter()
            .all(|l| l.source_c.is_none() && l.drive_c.is_some())
    );
}
