//! Fields that a person can fill in: text in the reader's units, with range and hint.

use super::session::Session;
use crate::assessment::Assessment;
use crate::chassis::{AxleKind, Chassis};
use crate::frame::{DESIGN_FACTOR, DYNAMIC_FACTOR, PART_G, WELD_LOSS};
use crate::plan::{Payload, PayloadPlace, Placed, Plan, Refusal};
use crate::quantity::{Measure, Units};
use crate::vehicle::{Item, Vehicle};
use serde::Serialize;

/// How a field is filled in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FieldKind {
    /// A number with a unit.
    Number,
    /// One of several.
    Choice,
    /// On or off.
    Switch,
    /// Words.
    Text,
}

/// One of several.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    pub(super) id: String,
    pub(super) name: String,
}

/// A field.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Field {
    id: String,
    label: String,
    text: String,
    unit: &'static str,
    min: String,
    max: String,
    /// Number for a slider, in the shown unit.
    value: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
    step: Option<f64>,
    hint: String,
    kind: FieldKind,
    choices: Vec<Choice>,
    enabled: bool,
    problem: Option<String>,
}

impl Field {
    pub(super) fn number(
        id: &str,
        label: &str,
        measure: Measure,
        value: Option<f64>,
        units: Units,
    ) -> Self {
        Self {
            id: id.to_owned(),
            label: label.to_owned(),
            text: value.map_or_else(String::new, |v| measure.number(v, units)),
            unit: measure.unit(units),
            min: String::new(),
            max: String::new(),
            value: None,
            low: None,
            high: None,
            step: None,
            hint: String::new(),
            kind: FieldKind::Number,
            choices: Vec::new(),
            enabled: true,
            problem: None,
        }
    }

    pub(super) fn within(mut self, measure: Measure, low: f64, high: f64, units: Units) -> Self {
        self.min = measure.number(low, units);
        self.max = measure.number(high, units);
        self
    }

    /// Gives the field a slider; `now` in inside units.
    fn sliding(mut self, measure: Measure, range: [f64; 3], units: Units) -> Self {
        let [low, now, high] = range;
        self.low = Some(measure.shown(low, units));
        self.high = Some(measure.shown(high, units));
        self.value = Some(measure.shown(now, units));
        self.step = Some(match units {
            Units::Metric => 10.0,
            Units::Us => 0.5,
        });
        self.within(measure, low, high, units)
    }

    pub(super) fn choice(id: &str, label: &str, now: &str, choices: Vec<Choice>) -> Self {
        let mut field = Self::number(id, label, Measure::Count, None, Units::Metric);
        field.kind = FieldKind::Choice;
        now.clone_into(&mut field.text);
        field.choices = choices;
        field
    }

    pub(super) fn switch(id: &str, label: &str, on: bool) -> Self {
        let mut field = Self::number(id, label, Measure::Count, None, Units::Metric);
        field.kind = FieldKind::Switch;
        field.text = if on { "on" } else { "off" }.to_owned();
        field
    }

    /// A figure that is shown and cannot be changed.
    pub(super) const fn shown(mut self) -> Self {
        self.enabled = false;
        self
    }

    /// The mark of a part or a shaft.
    pub(super) fn mark(tag: &str) -> Self {
        let mut field = Self::choice(&format!("part.{tag}.tag"), "Mark", tag, Vec::new());
        field.kind = FieldKind::Text;
        field
    }

    /// Shows what was typed and why it cannot be used.
    pub(super) fn refusing(mut self, typed: &str, refusal: Refusal) -> Self {
        typed.clone_into(&mut self.text);
        self.problem = Some(refusal.0);
        self
    }

    pub(super) fn hinting(mut self, hint: impl Into<String>) -> Self {
        self.hint = hint.into();
        self
    }
}

pub(super) fn choices<'a>(
    none: &str,
    list: impl Iterator<Item = (&'a String, &'a String)>,
) -> Vec<Choice> {
    let first = Choice {
        id: String::new(),
        name: none.to_owned(),
    };
    let rest = list.map(|(id, name)| Choice {
        id: id.clone(),
        name: name.clone(),
    });
    std::iter::once(first).chain(rest).collect()
}

/// Fields of truck, load and law.
pub(super) fn controls(
    session: &Session,
    plan: &Plan,
    assessment: &Assessment,
    units: Units,
) -> Vec<Field> {
    let vehicle = &assessment.answers.vehicle;
    let mut fields = truck_fields(vehicle, units);
    let loads = &plan.loads;
    let mass = |id: &str, label: &str, kg: Option<f64>, most: f64| {
        Field::number(id, label, Measure::Mass, kg, units).within(Measure::Mass, 0.0, most, units)
    };
    fields.push(mass("driver", "Driver", loads.driver_kg, 1_000.0));
    if vehicle.chassis.fifth_wheel.is_some() {
        let list = session.library.trailers.iter().map(|(id, t)| (id, &t.name));
        let now = loads.trailer.as_ref().map_or("", |t| t.id.as_str());
        fields.push(Field::choice(
            "trailer",
            "Trailer",
            now,
            choices("no trailer", list),
        ));
        if let Some(t) = &loads.trailer {
            fields.push(mass(
                "trailer-payload",
                "Load on the trailer",
                Some(t.payload_kg),
                100_000.0,
            ));
            let coupled = vehicle.trailer.as_ref();
            let own = coupled.and_then(|c| session.library.trailers.get(&c.trailer.id));
            let share = t.load_cg.or(own.map(|t| t.load_cg));
            if let Some((coupled, holes)) =
                coupled.and_then(|c| Some((c, c.trailer.slider.as_ref()?)))
            {
                let now = coupled.trailer.kingpin_to_axles_mm;
                let length = Measure::Length;
                let range = [holes.from_mm, now, holes.to_mm];
                let mut field = Field::number(
                    "trailer-axles",
                    "Kingpin to trailer axles",
                    length,
                    Some(now),
                    units,
                )
                .sliding(length, range, units)
                .hinting("goes to the nearest hole of its slider");
                field.step = Some(length.shown(holes.step_mm, units));
                fields.push(field);
            }
            let hint = "0 % over the kingpin, 100 % over the trailer axles";
            fields.push(
                Field::number(
                    "load-place",
                    "Where the load lies",
                    Measure::Share,
                    share,
                    units,
                )
                .within(Measure::Share, 0.0, 1.0, units)
                .hinting(hint),
            );
        }
    } else {
        let kg = loads.payload.as_ref().map(|p| p.mass_kg);
        fields.push(mass("payload", "Payload", kg, 100_000.0));
        let place = payload_or_default(loads.payload.as_ref(), &vehicle.chassis);
        let PayloadPlace::Level {
            front_x_mm,
            rear_x_mm,
            ..
        } = place
        else {
            let PayloadPlace::Cg(spot) = place else {
                return fields;
            };
            fields.push(
                Field::number(
                    "payload-x",
                    "Payload, behind front axle",
                    Measure::Length,
                    Some(spot.x_mm),
                    units,
                )
                .within(Measure::Length, -2_000.0, 20_000.0, units),
            );
            return law_fields(session, vehicle, plan, fields, units);
        };
        for (id, label, x) in [
            ("payload-front", "Payload from", front_x_mm),
            ("payload-rear", "Payload to", rear_x_mm),
        ] {
            fields.push(
                Field::number(id, label, Measure::Length, Some(x), units)
                    .within(Measure::Length, -2_000.0, 20_000.0, units)
                    .hinting("behind the front axle; spread evenly"),
            );
        }
    }
    law_fields(session, vehicle, plan, fields, units)
}

fn law_fields(
    session: &Session,
    vehicle: &Vehicle,
    plan: &Plan,
    mut fields: Vec<Field>,
    units: Units,
) -> Vec<Field> {
    let promised = plan.loads.target_payload_kg;
    fields.push(
        Field::number("target", "Promised payload", Measure::Mass, promised, units)
            .within(Measure::Mass, 0.0, 100_000.0, units)
            .hinting("held against what is possible"),
    );
    super::law_fields::add(session, plan, &mut fields, units);
    fields.extend(super::moving::fields(&plan.moving, units));
    let sourced = vehicle.items.iter().any(|i| i.part.power_source.is_some());
    fields.extend(super::duty::fields(&plan.duty, sourced, units));
    fields
}

fn truck_fields(vehicle: &Vehicle, units: Units) -> Vec<Field> {
    let chassis = &vehicle.chassis;
    let wheelbase = chassis.dimensions.wheelbase_mm;
    let donor = vehicle.donor.dimensions.wheelbase_mm;
    let (low, high) = (
        Chassis::WHEELBASE_MIN_MM.max(donor - 1_500.0),
        Chassis::WHEELBASE_MAX_MM.min(donor + 2_500.0),
    );
    let length = Measure::Length;
    let cut = vehicle.donor.splice_range_mm();
    let mut fields = vec![
        Field::number("wheelbase", "Wheelbase", length, Some(wheelbase), units)
            .sliding(length, [low, wheelbase, high], units)
            .hinting(format!("donor {}", length.text(donor, units))),
        Field::number(
            "splice",
            "Frame cut",
            length,
            Some(vehicle.splice_x_mm),
            units,
        )
        .within(length, cut.0, cut.1, units)
        .hinting("behind the front axle; used when the wheelbase changes"),
    ];
    if let Some(fw) = &chassis.fifth_wheel {
        fields.push(
            Field::number(
                "fifth-wheel",
                "Fifth wheel ahead",
                length,
                Some(fw.ahead_mm),
                units,
            )
            .sliding(
                length,
                [fw.ahead_min_mm, fw.ahead_mm, fw.ahead_max_mm],
                units,
            )
            .hinting("ahead of the driven axles; minus is behind"),
        );
    }
    fields.extend(frame_fields(vehicle, units));
    for axle in chassis.axles.iter().filter(|a| a.kind == AxleKind::Lift) {
        let label = format!("{} raised", axle.words());
        fields.push(Field::switch(
            &format!("raised.{}", axle.id),
            &label,
            vehicle.is_raised(&axle.id),
        ));
    }
    fields
}

/// Factors of the frame and accelerations for mounts; empty where common practice holds.
fn frame_fields(vehicle: &Vehicle, units: Units) -> Vec<Field> {
    let f = &vehicle.frame;
    let (factor, share) = (Measure::Factor, Measure::Share);
    let hint = |usual: f64, words: &str| {
        format!(
            "{} unless you set it ({words})",
            factor.number(usual, units)
        )
    };
    let g =
        |usual: f64, words: &str| hint(usual, &format!("{words}, g; gas containers by UN R110"));
    let [up, along, across] = PART_G;
    let rows = [
        (
            "dynamic",
            "Frame: rough road times",
            f.dynamic_factor,
            10.0,
            hint(DYNAMIC_FACTOR, "published 2 to 3"),
        ),
        (
            "design",
            "Frame: wanted factor on yield",
            f.design_factor,
            20.0,
            hint(DESIGN_FACTOR, "common practice"),
        ),
        (
            "vertical",
            "Mounts: up and down",
            f.vertical_g,
            50.0,
            g(up, "common practice 3 to 4"),
        ),
        (
            "longitudinal",
            "Mounts: along the truck",
            f.longitudinal_g,
            50.0,
            g(along, "common practice 6 to 10"),
        ),
        (
            "lateral",
            "Mounts: across the truck",
            f.lateral_g,
            50.0,
            g(across, "common practice 4 to 6"),
        ),
    ];
    let mut fields: Vec<Field> = Vec::new();
    for (id, label, now, most, hint) in rows {
        let low = if most < 50.0 { 1.0 } else { 0.0 };
        let field = Field::number(&format!("frame-{id}"), label, factor, now, units);
        fields.push(field.within(factor, low, most, units).hinting(hint));
    }
    if vehicle.stretch_mm != 0.0 {
        let field = Field::number(
            "frame-weld",
            "Frame: yield lost at a weld",
            share,
            f.weld_loss,
            units,
        );
        let hint = format!(
            "{} unless you set it; 0 for rails in one piece",
            share.text(WELD_LOSS, units)
        );
        fields.push(field.within(share, 0.0, 0.9, units).hinting(hint));
    }
    fields
}

/// Where payload goes when the plan does not say it: over the body, else over the driven axles.
pub(super) fn payload_or_default(payload: Option<&Payload>, chassis: &Chassis) -> PayloadPlace {
    if let Some(payload) = payload {
        return payload.at.clone();
    }
    let d = &chassis.dimensions;
    let (front_x_mm, rear_x_mm, z_mm) = chassis.body.as_ref().map_or(
        (
            d.back_of_cab_x_mm() + 200.0,
            d.frame_end_x_mm(),
            d.frame_top_laden_mm + 800.0,
        ),
        |b| (b.front_x_mm, b.rear_x_mm, b.floor_z_mm + 800.0),
    );
    PayloadPlace::Level {
        front_x_mm,
        rear_x_mm,
        z_mm,
    }
}

/// Fields of a part on the truck.
pub(super) fn of_part(vehicle: &Vehicle, item: &Item, placed: &Placed, units: Units) -> Vec<Field> {
    let length = Measure::Length;
    let id = |name: &str| format!("part.{}.{name}", item.tag);
    let mut fields = Vec::new();
    for (name, label, value, hint) in [
        ("x", "Front face", item.origin.x, "behind the front axle"),
        (
            "y",
            "Middle",
            item.origin.y,
            "right of the centre line; minus is left",
        ),
        ("z", "Underside", item.origin.z, "above the ground, laden"),
    ] {
        let mut field = Field::number(&id(name), label, length, Some(value), units)
            .within(length, -40_000.0, 40_000.0, units)
            .hinting(hint);
        field.enabled = !placed.locked;
        fields.push(field);
    }
    if item.part.contents.is_some() {
        let share = Measure::Share;
        fields.push(
            Field::number(&id("fill"), "Filled", share, Some(item.fill), units)
                .within(share, 0.0, 1.0, units),
        );
    }
    let list = vehicle.zones.iter().map(|z| (&z.id, &z.name));
    let now = Session::zone_of(&placed.place).unwrap_or("");
    let mut zone = Field::choice(&id("zone"), "Zone", now, choices("free", list));
    zone.enabled = !placed.locked;
    fields.push(zone);
    fields.push(Field::mark(&item.tag));
    fields
}
