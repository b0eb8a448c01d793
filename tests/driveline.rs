//! Driveshafts: published rows, a second road by numpy and scipy, properties, and plans by hand.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "tests, and a second road for angles"
)]

#[path = "driveline/hand.rs"]
mod hand;
#[path = "driveline/properties.rs"]
mod properties;
#[path = "driveline/published.rs"]
mod published;
#[path = "published_rows/mod.rs"]
mod published_rows;
#[path = "driveline/second_road.rs"]
mod second_road;
#[path = "loads/yard.rs"]
mod yard;

use axlewright_core::driveline::{Driveline, driveline};
use axlewright_core::geometry::Point;
use axlewright_core::part::ShaftTube;
use axlewright_core::vehicle::{ShaftLine, Vehicle};

/// A direction of length 1 that points rearward and falls.
pub fn falling(down_deg: f64) -> Point {
    let angle = down_deg.to_radians();
    Point::new(angle.cos(), 0.0, -angle.sin())
}

/// The bare truck of the tests with nothing on it but this line.
pub fn with_line(joints: Vec<Point>, drive_axis: Point, axle_axis: Option<Point>) -> Vehicle {
    let mut vehicle = yard::resolve(&yard::plan(yard::bare()));
    vehicle.shafts = vec![ShaftLine {
        tag: "D2".to_owned(),
        from: "D1".to_owned(),
        from_axle: None,
        to_axle: "axle-2".to_owned(),
        joints,
        drive_axis,
        axle_axis,
        tube: ShaftTube::default(),
    }];
    vehicle
}

/// Its answers.
pub fn of(vehicle: &Vehicle) -> Driveline {
    driveline(vehicle)
}
