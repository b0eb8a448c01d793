//! How long, wide and high truck and trailer are, and what the law allows.

use crate::geometry::Point;
use crate::law::Figure;
use crate::source::Source;
use crate::vehicle::Vehicle;

/// A measured size and its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Key of the limit in the law's file.
    pub id: &'static str,
    /// What is measured, at the beginning of a sentence.
    pub what: &'static str,
    /// The size, mm.
    pub mm: f64,
    /// What is allowed, mm.
    pub limit_mm: f64,
    /// Who says so.
    pub source: Source,
    /// States or countries may allow another.
    pub may_differ: bool,
    /// From where to where.
    pub between: (Point, Point),
    /// It grows by a millimetre for each that the kingpin moves back.
    pub with_kingpin: bool,
    /// It grows by a millimetre for each that the trailer's axles move back.
    pub with_axles: bool,
}

/// Every size that the law of the plan limits.
#[must_use]
pub fn sizes(vehicle: &Vehicle) -> Vec<Size> {
    let Some(law) = &vehicle.law else {
        return Vec::new();
    };
    let limits = &law.sizes;
    let chassis = &vehicle.chassis;
    let d = &chassis.dimensions;
    let body = chassis.body.as_ref();
    let hard = || vehicle.items.iter().filter(|i| !i.part.soft);
    let front = hard().fold(d.bumper_x_mm(), |x, i| x.min(i.bounds.min.x));
    let rear = body.map_or(d.frame_end_x_mm(), |b| b.rear_x_mm.max(d.frame_end_x_mm()));
    let rear = hard().fold(rear, |x, i| x.max(i.bounds.max.x));
    let roof = body.map_or(chassis.cab.roof_z_mm, |b| {
        b.top_z_mm.max(chassis.cab.roof_z_mm)
    });
    let top = hard().fold(roof, |z, i| z.max(i.bounds.max.z));
    let wide = body.map_or(d.overall_width_mm, |b| b.width_mm.max(d.overall_width_mm));
    let mut out = Vec::new();
    let mut add = |id, what, figure: &Figure, between: (Point, Point), mm: f64| {
        if let Some(limit_mm) = figure.mm() {
            out.push(Size {
                id,
                what,
                mm,
                limit_mm,
                source: law.source_of(figure).clone(),
                may_differ: figure.may_differ,
                between,
                with_kingpin: id == "articulated",
                with_axles: id == "kingpin_to_rear_axle",
            });
        }
    };
    let low = |x: f64| Point::new(x, 0.0, 0.0);
    let length = (low(front), low(rear));
    add(
        "motor_vehicle",
        "The truck",
        &limits.motor_vehicle,
        length,
        rear - front,
    );
    let high = (Point::new(0.0, 0.0, 0.0), Point::new(0.0, 0.0, top));
    let middle = d.wheelbase_mm / 2.0;
    let across = |x: f64, mm: f64| {
        (
            Point::new(x, -mm / 2.0, 1_500.0),
            Point::new(x, mm / 2.0, 1_500.0),
        )
    };
    add(
        "width",
        "The truck",
        &limits.width,
        across(middle, wide),
        wide,
    );
    let Some(coupled) = &vehicle.trailer else {
        add("height", "The truck", &limits.height, high, top);
        return out;
    };
    let t = &coupled.trailer;
    let pin = coupled.kingpin.x;
    let end = (pin + t.rear_mm).max(rear);
    let all = (low(front), low(end));
    add(
        "articulated",
        "Tractor and trailer",
        &limits.articulated,
        all,
        end - front,
    );
    let own = (low(pin - t.nose_ahead_mm), low(pin + t.rear_mm));
    add(
        "trailer",
        "The trailer",
        &limits.trailer,
        own,
        t.nose_ahead_mm + t.rear_mm,
    );
    let back = (low(pin), low(pin + t.rear_mm));
    add(
        "kingpin_to_rear",
        "Kingpin to rear end",
        &limits.kingpin_to_rear,
        back,
        t.rear_mm,
    );
    let half = f64::from(t.axle_count.saturating_sub(1)) / 2.0 * t.axle_spacing_mm;
    let axle = t.kingpin_to_axles_mm + half;
    let to_axle = (low(pin), low(pin + axle));
    let limit = &limits.kingpin_to_rear_axle;
    add(
        "kingpin_to_rear_axle",
        "Kingpin to rearmost axle",
        limit,
        to_axle,
        axle,
    );
    let corner = Point::new(pin - t.nose_ahead_mm, t.width_mm / 2.0, t.nose_z_mm);
    let swing = (coupled.kingpin, corner);
    let radius = coupled.swing_radius_mm();
    add(
        "kingpin_to_front",
        "Kingpin to front corner",
        &limits.kingpin_to_front,
        swing,
        radius,
    );
    let trailer = across(pin + t.rear_mm / 2.0, t.width_mm);
    add(
        "trailer_width",
        "The trailer",
        &limits.width,
        trailer,
        t.width_mm,
    );
    let z = t.top_z_mm.max(top);
    let high = (Point::new(pin, 0.0, 0.0), Point::new(pin, 0.0, z));
    add("height", "Truck and trailer", &limits.height, high, z);
    out
}
