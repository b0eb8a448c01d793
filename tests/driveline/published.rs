//! *Published.* Rows of `tests/published/driveline/shafts.toml`.

use super::published_rows::{Row, compare};
use super::yard::MM_PER_IN;
use axlewright_core::driveline::{
    LENGTH_LEAST_MM, LENGTH_MOST_MM, RIPPLE_MOST, SAFE_SHARE, WINDOW_RPM, angle_by_length_deg,
    angle_by_speed_deg, critical_rpm, longest_mm, ripple, second_joint_deg,
};

type Answers = Vec<(&'static str, Vec<f64>)>;

#[test]
fn every_published_row_comes_out() {
    compare(include_str!("../published/driveline/shafts.toml"), answer);
}

fn answer(row: &Row) -> Answers {
    match row.id.as_str() {
        "DL-1" => constants(row),
        "DL-3" => heavy_tube(row),
        "DL-4" => longest(row),
        "DL-6" | "DL-7" => vec![("deg", by_speed(row))],
        "DL-9" | "DL-10" => pairs(row),
        "DL-12" | "DL-13" => by_length(row),
        "DL-16" => vec![
            ("max_rpm", vec![WINDOW_RPM]),
            ("length_in_min", vec![LENGTH_LEAST_MM / MM_PER_IN]),
            ("length_in_max", vec![LENGTH_MOST_MM / MM_PER_IN]),
        ],
        "D2" => {
            let rpm = row.many("rpm");
            let product = rpm.iter().zip(by_speed(row)).map(|(n, deg)| n * deg);
            vec![("product", product.collect())]
        }
        other => panic!("no question for {other}"),
    }
}

fn constants(row: &Row) -> Answers {
    let (outer, inner) = (row.one("outer_mm"), row.one("inner_mm"));
    let length = row.one("length_mm");
    let k_mm = critical_rpm(outer, inner, length) * length * length / outer.hypot(inner);
    vec![("k_mm", vec![k_mm]), ("k_in", vec![k_mm / MM_PER_IN])]
}

fn heavy_tube(row: &Row) -> Answers {
    let outer = row.one("outer_in") * MM_PER_IN;
    let inner = outer - 2.0 * row.one("wall_in") * MM_PER_IN;
    let rpm = critical_rpm(outer, inner, row.one("length_in") * MM_PER_IN);
    vec![
        ("critical_rpm", vec![rpm]),
        ("safe_rpm", vec![SAFE_SHARE * rpm]),
    ]
}

fn longest(row: &Row) -> Answers {
    let outer = row.one("outer_in") * MM_PER_IN;
    let inner = outer - 2.0 * row.one("wall_in") * MM_PER_IN;
    let mm = longest_mm(outer, inner, row.one("rpm"));
    vec![("longest_in", vec![mm / MM_PER_IN])]
}

fn by_speed(row: &Row) -> Vec<f64> {
    let angle = |rpm: &f64| angle_by_speed_deg(*rpm).unwrap();
    row.many("rpm").iter().map(angle).collect()
}

fn pairs(row: &Row) -> Answers {
    let rpm = row.one("rpm");
    let second = row
        .many("first_deg")
        .into_iter()
        .map(|first| {
            let second = second_joint_deg(rpm, first, RIPPLE_MOST);
            // And that pair is just at the limit by the check's own way.
            let left = (second.powi(2) - first.powi(2)).sqrt();
            assert!((ripple(rpm, left) - RIPPLE_MOST).abs() < 1e-6 * RIPPLE_MOST);
            second
        })
        .collect();
    vec![("second_deg", second)]
}

fn by_length(row: &Row) -> Answers {
    let parallel = row.one("parallel") > 0.5;
    let deg = row
        .many("length_in")
        .iter()
        .map(|inches| angle_by_length_deg(inches * MM_PER_IN, parallel))
        .collect();
    vec![("deg", deg)]
}

#[test]
fn the_table_of_angles_ends_and_never_rises_with_speed() {
    assert_eq!(angle_by_speed_deg(900.0), Some(11.5));
    assert_eq!(angle_by_speed_deg(5_000.5), None);
    assert_eq!(angle_by_speed_deg(f64::NAN), None);
    let angles: Vec<f64> = (1_500..=5_000)
        .map(|rpm| angle_by_speed_deg(f64::from(rpm)).unwrap())
        .collect();
    assert!(angles.windows(2).all(|pair| pair[1] <= pair[0] + 1e-12));
}
