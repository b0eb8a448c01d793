//! Circuits, what they cool, and what their temperatures do.
//!
//! Two circuits with one thermal mass each: the source's, and that of motors and inverters; the packs
//! are a third mass, cooled by the chiller. Where there is a source, motors and inverters have a quarter
//! of every radiator (common practice). A radiator's conductance follows from the heat that it is rated
//! for, at its coolant temperature, 40 °C outside and its fan at full speed.

use crate::plant::{Circuit, Cooled, FAN_M_S, Radiator, Stand};
use crate::vehicle::{Item, Vehicle};

/// Coolant temperature that motors and inverters allow, °C (common practice).
const DRIVE_LIMIT_C: f64 = 65.0;
/// Share of the radiators that motors and inverters have beside a source.
const DRIVE_SHARE: f64 = 0.25;
/// Heat capacity of an engine or a cell with its coolant, joule per kelvin and kilogram (common
/// practice: half metal, half coolant).
const SOURCE_J_KG_K: f64 = 900.0;
/// Heat capacity of the drives' coolant and metal, joule per kelvin (common practice).
const DRIVE_J_K: f64 = 250e3;
/// Heat capacity of packs, joule per kilogram and kelvin (common practice).
const PACK_J_KG_K: f64 = 1_000.0;
/// Packs are cooled above this, °C (common practice).
const PACK_COOL_C: f64 = 32.0;
/// Packs are heated below this, and the heater is at full power this much lower, °C and kelvin (common
/// practice).
const PACK_WARM_C: f64 = 10.0;
const PACK_WARM_SPAN_K: f64 = 2.0;
/// Heater of the packs, watt per kilogram of pack (common practice: 4 kW for 800 kg).
const PACK_HEATER_W_KG: f64 = 5.0;
/// Heat that packs lose to the air, watt per kelvin and kilogram (common practice: some 3 W/m² K through
/// the walls of a pack).
const PACK_LOSS_W_K_KG: f64 = 0.02;
/// Coolant flow of a radiator for each kilowatt that it is rated for, kilogram per second (common practice:
/// a drop of about 6 K).
const FLOW_KG_S_KW: f64 = 0.045;
/// Temperature outside at which radiators are rated, °C.
const RATED_C: f64 = 40.0;

/// Cooling of a truck.
#[derive(Clone, Debug)]
pub struct Cooling {
    /// The source's circuit, if there is a source.
    pub source: Option<Circuit>,
    /// Motors and inverters.
    pub drive: Circuit,
    /// Heat that the chiller takes from the packs, watt.
    pub chiller_w: f64,
    /// Power that the chiller draws, watt.
    pub chiller_draw_w: f64,
    /// Heat capacity of the packs, joule per kelvin.
    pub pack_j_k: f64,
    /// Power of the packs' heater, watt.
    pub heater_w: f64,
    /// Heat that the packs lose to the air, watt per kelvin.
    pub pack_loss_w_k: f64,
}

/// Electric power that heat took in a step, watt.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Drawn {
    /// Fans and chiller.
    pub fans_w: f64,
    /// Heater of the packs.
    pub heater_w: f64,
}

/// Temperatures, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Temperatures {
    pub source_c: f64,
    pub drive_c: f64,
    pub pack_c: f64,
}

impl Cooling {
    /// Makes it of a vehicle.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn of(vehicle: &Vehicle) -> Result<Self, String> {
        let mut radiators = Vec::new();
        let (mut chiller_w, mut chiller_draw_w) = (0.0, 0.0);
        for item in &vehicle.items {
            let Some(cooler) = &item.part.cooler else {
                continue;
            };
            let heat_w = cooler.heat_kw_at_40c.ok_or_else(|| {
                format!("the heat that {} gives away is not known", item.part.name)
            })? * 1e3;
            let fan_w = cooler.fan_kw.unwrap_or(0.0) * 1e3;
            match cooler.face_m2 {
                Some(face_m2) => {
                    radiators.push(radiator(item, heat_w, fan_w, face_m2, cooler.coolant_c)?)
                }
                None => {
                    chiller_w += heat_w;
                    chiller_draw_w += fan_w;
                }
            }
        }
        if radiators.is_empty() {
            return Err("no radiator is on the truck".to_owned());
        }
        let source = vehicle
            .items
            .iter()
            .filter_map(|i| i.part.power_source.as_ref().map(|s| (i.mass_kg, s)))
            .try_fold(None, |sum: Option<(f64, f64)>, (kg, unit)| {
                let limit = unit.coolant_out_c?;
                let (mass, least) = sum.unwrap_or((0.0, f64::INFINITY));
                Some(Some((mass + kg, least.min(limit))))
            })
            .ok_or_else(|| "the coolant temperature of the source is not known".to_owned())?;
        let pack_kg: f64 = vehicle
            .items
            .iter()
            .filter(|i| i.part.battery.is_some())
            .map(|i| i.mass_kg)
            .sum();
        let drive_share = if source.is_some() { DRIVE_SHARE } else { 1.0 };
        Ok(Self {
            source: source.map(|(kg, limit_c)| Circuit {
                radiators: radiators.clone(),
                share: 1.0 - DRIVE_SHARE,
                capacity_j_k: kg * SOURCE_J_KG_K,
                limit_c,
            }),
            drive: Circuit {
                radiators,
                share: drive_share,
                capacity_j_k: DRIVE_J_K,
                limit_c: DRIVE_LIMIT_C,
            },
            chiller_w,
            chiller_draw_w,
            pack_j_k: (pack_kg * PACK_J_KG_K).max(1.0),
            heater_w: pack_kg * PACK_HEATER_W_KG,
            pack_loss_w_k: pack_kg * PACK_LOSS_W_K_KG,
        })
    }

    /// One step: heats in watt, road speed, air. Gives the power that fans, chiller and heater draw.
    #[expect(
        clippy::too_many_arguments,
        reason = "three heats and three sides of the weather"
    )]
    pub(super) fn step(
        &self,
        now: &mut Temperatures,
        source_w: f64,
        drive_w: f64,
        pack_w: f64,
        road_mps: f64,
        outside_c: f64,
        air_kg_m3: f64,
        dt: f64,
    ) -> Drawn {
        let mut drawn = 0.0;
        let mut settle = |circuit: &Circuit, temperature: &mut f64, heat_w: f64| {
            let (away, fan) = circuit.rejected_w(*temperature, outside_c, road_mps, air_kg_m3);
            // A thermostat keeps the coolant warm: below the fan's start nothing is given away.
            let open = circuit.fan(*temperature) > 0.0 || *temperature > circuit.limit_c - 12.0;
            let away = if open { away } else { 0.0 };
            *temperature =
                (*temperature + (heat_w - away) * dt / circuit.capacity_j_k).max(outside_c);
            drawn += fan;
        };
        if let Some(circuit) = &self.source {
            settle(circuit, &mut now.source_c, source_w);
        }
        settle(&self.drive, &mut now.drive_c, drive_w);
        let cool = if now.pack_c > PACK_COOL_C { 1.0 } else { 0.0 };
        let cold = ((PACK_WARM_C - now.pack_c) / PACK_WARM_SPAN_K).clamp(0.0, 1.0);
        let heater_w = cold * self.heater_w;
        let lost_w = self.pack_loss_w_k * (now.pack_c - outside_c);
        let kept_w = pack_w + heater_w - lost_w - cool * self.chiller_w;
        now.pack_c += kept_w * dt / self.pack_j_k;
        Drawn {
            fans_w: drawn + cool * self.chiller_draw_w,
            heater_w,
        }
    }
}

fn radiator(
    item: &Item,
    heat_w: f64,
    fan_w: f64,
    face_m2: f64,
    coolant_c: Option<f64>,
) -> Result<Cooled, String> {
    let name = &item.part.name;
    let coolant_c = coolant_c
        .ok_or_else(|| format!("the coolant temperature for the heat of {name} is not known"))?;
    let flow = heat_w / 1e3 * FLOW_KG_S_KW;
    let radiator = Radiator::rated(heat_w, coolant_c, RATED_C, face_m2, FAN_M_S, flow)
        .ok_or_else(|| format!("{name} cannot give that heat through its face"))?;
    // Ahead of the front axle is the nose.
    let stand = if item.bounds.centre().x < 0.0 {
        Stand::Front
    } else {
        Stand::Sheltered
    };
    Ok(Cooled {
        radiator,
        stand,
        fan_w,
    })
}
