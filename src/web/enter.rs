//! What a person typed into a field becomes an edit.

use super::fields::payload_or_default;
use super::session::Session;
use super::shaft_fields;
use crate::plan::{Edit, Payload, PayloadPlace, Refusal, TrailerLoad};
use crate::quantity::{Measure, Units};
use crate::vehicle::Vehicle;

impl Session {
    /// Reads what was typed into a field and makes the edit.
    ///
    /// # Errors
    /// Why the text cannot be used, or why the edit is not possible; nothing has changed then.
    pub fn enter(&mut self, field: &str, typed: &str, units: Units) -> Result<(), Refusal> {
        let edit = self.edit_for(field, typed, units)?;
        self.apply(&edit)
    }

    /// The edit that a field and a text stand for.
    ///
    /// # Errors
    /// Why the text cannot be used.
    pub fn edit_for(&self, field: &str, typed: &str, units: Units) -> Result<Edit, Refusal> {
        let typed = typed.trim();
        let read = |measure: Measure| {
            measure
                .parse(typed, units)
                .map_err(|why| Refusal(format!("{field}: {why}")))
        };
        // An empty mass means "none"; an empty length has no meaning.
        let maybe = |measure: Measure| {
            if typed.is_empty() {
                Ok(None)
            } else {
                read(measure).map(Some)
            }
        };
        let plan = self.plan();
        if let Some(edit) = super::law_fields::edit(self, field, typed, units)? {
            return Ok(edit);
        }
        Ok(match field {
            "wheelbase" => Edit::Wheelbase {
                mm: read(Measure::Length)?,
            },
            "splice" => Edit::Splice {
                x_mm: read(Measure::Length)?,
            },
            "fifth-wheel" => Edit::FifthWheel {
                ahead_mm: read(Measure::Length)?,
            },
            "driver" => Edit::Driver {
                kg: maybe(Measure::Mass)?,
            },
            "target" => Edit::Target {
                kg: maybe(Measure::Mass)?,
            },
            "name" => Edit::Rename {
                name: typed.to_owned(),
            },
            "notes" => Edit::Notes {
                text: typed.to_owned(),
            },
            "payload" => {
                let at = payload_or_default(plan.loads.payload.as_ref(), &self.vehicle()?.chassis);
                Edit::Payload(maybe(Measure::Mass)?.map(|mass_kg| Payload { mass_kg, at }))
            }
            "payload-front" | "payload-rear" | "payload-x" => {
                Edit::Payload(Some(self.payload_at(field, read(Measure::Length)?)?))
            }
            "trailer" if typed.is_empty() => Edit::Trailer(None),
            "trailer" => {
                // Taken off and put back, a trailer still has its load; another one takes the mass over.
                let before = self.history.last_trailer();
                let same = before.filter(|t| t.id == typed);
                Edit::Trailer(Some(TrailerLoad {
                    id: typed.to_owned(),
                    payload_kg: before.map_or(0.0, |t| t.payload_kg),
                    load_cg: same.and_then(|t| t.load_cg),
                    kingpin_to_axles_mm: same.and_then(|t| t.kingpin_to_axles_mm),
                }))
            }
            "trailer-payload" | "load-place" | "trailer-axles" => {
                let mut load = plan
                    .loads
                    .trailer
                    .clone()
                    .ok_or_else(|| Refusal(format!("{field}: no trailer is coupled")))?;
                if field == "load-place" {
                    load.load_cg = maybe(Measure::Share)?;
                } else if field == "trailer-axles" {
                    load.kingpin_to_axles_mm = match maybe(Measure::Length)? {
                        Some(mm) => Some(self.nearest_hole(mm)?),
                        None => None,
                    };
                } else {
                    load.payload_kg = maybe(Measure::Mass)?.unwrap_or(0.0);
                }
                Edit::Trailer(Some(load))
            }
            "frame-dynamic" | "frame-design" | "frame-weld" | "frame-vertical"
            | "frame-longitudinal" | "frame-lateral" => {
                let mut frame = plan.frame.clone();
                let factor = Measure::Factor;
                match field {
                    "frame-dynamic" => frame.dynamic_factor = maybe(factor)?,
                    "frame-design" => frame.design_factor = maybe(factor)?,
                    "frame-weld" => frame.weld_loss = maybe(Measure::Share)?,
                    "frame-vertical" => frame.vertical_g = maybe(factor)?,
                    "frame-longitudinal" => frame.longitudinal_g = maybe(factor)?,
                    _ => frame.lateral_g = maybe(factor)?,
                }
                Edit::Frame(Box::new(frame))
            }
            other => return self.part_edit(other, typed, &read),
        })
    }

    fn part_edit(
        &self,
        field: &str,
        typed: &str,
        read: &dyn Fn(Measure) -> Result<f64, Refusal>,
    ) -> Result<Edit, Refusal> {
        let unknown = || Refusal(format!("\"{field}\" is not a field"));
        if let Some(axle) = field.strip_prefix("raised.") {
            let axle = axle.to_owned();
            return Ok(if typed == "on" {
                Edit::Raise { axle }
            } else {
                Edit::Lower { axle }
            });
        }
        if let Some(edit) = field
            .strip_prefix("moving.")
            .and_then(|field| super::moving::edit(&self.plan().moving, field, typed, read))
        {
            return edit;
        }
        if let Some(edit) = field
            .strip_prefix("duty.")
            .and_then(|field| super::duty::edit(&self.plan().duty, field, typed, read))
        {
            return edit;
        }
        let rest = field.strip_prefix("part.").ok_or_else(unknown)?;
        let (tag, what) = rest.rsplit_once('.').ok_or_else(unknown)?;
        let vehicle = self.vehicle()?;
        let item = vehicle
            .item(tag)
            .ok_or_else(|| Refusal(format!("no part \"{tag}\" on the truck")))?;
        let run = self.plan().shafts.iter().find(|run| run.tag == tag);
        if let Some(edit) = run.and_then(|run| shaft_fields::edit(run, &vehicle, what, typed, read))
        {
            return edit;
        }
        let tag = tag.to_owned();
        let at = item.origin;
        let to = |x_mm: f64, y_mm: f64, z_mm: f64| Edit::Move {
            tag: tag.clone(),
            x_mm,
            y_mm,
            z_mm,
            zone: None,
        };
        Ok(match what {
            "x" => to(read(Measure::Length)?, at.y, at.z),
            "y" => to(at.x, read(Measure::Length)?, at.z),
            "z" => to(at.x, at.y, read(Measure::Length)?),
            "fill" => Edit::Fill {
                tag,
                share: read(Measure::Share)?,
            },
            "zone" => Edit::Zone {
                tag,
                zone: (!typed.is_empty()).then(|| typed.to_owned()),
            },
            "tag" => Edit::Retag {
                tag,
                new: typed.to_owned(),
            },
            _ => return Err(unknown()),
        })
    }

    fn nearest_hole(&self, mm: f64) -> Result<f64, Refusal> {
        let vehicle = self.vehicle()?;
        let slider = vehicle
            .trailer
            .as_ref()
            .and_then(|t| t.trailer.slider.as_ref());
        let holes = slider.map(|s| s.holes_mm());
        let near = |a: f64, b: f64| {
            if (b - mm).abs() < (a - mm).abs() {
                b
            } else {
                a
            }
        };
        let hole = holes.and_then(|holes| holes.reduce(near));
        hole.ok_or_else(|| Refusal("the axles of this trailer do not slide".to_owned()))
    }

    fn payload_at(&self, field: &str, x: f64) -> Result<Payload, Refusal> {
        let now = self.plan().loads.payload.as_ref();
        let mut at = payload_or_default(now, &self.vehicle()?.chassis);
        match (&mut at, field) {
            (PayloadPlace::Level { front_x_mm, .. }, "payload-front") => *front_x_mm = x,
            (PayloadPlace::Level { rear_x_mm, .. }, "payload-rear") => *rear_x_mm = x,
            (PayloadPlace::Cg(spot), "payload-x") => spot.x_mm = x,
            _ => {
                return Err(Refusal(format!(
                    "{field}: the payload is not given that way"
                )));
            }
        }
        Ok(Payload {
            mass_kg: now.map_or(0.0, |p| p.mass_kg),
            at,
        })
    }

    fn vehicle(&self) -> Result<Vehicle, Refusal> {
        Vehicle::resolve(self.plan(), self.library()).map_err(|p| Refusal(p.to_string()))
    }
}
