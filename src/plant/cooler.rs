//! Radiators by effectiveness and number of transfer units.
//!
//! Cross flow, both streams unmixed: ε = 1 − exp[(NTU^0.22 / Cr)(exp(−Cr NTU^0.78) − 1)], F. P. Incropera
//! and others, "Fundamentals of Heat and Mass Transfer", eq. 11.32.

use crate::numeric::{exp, pow};

/// Effectiveness of a cross-flow heat exchanger, both streams unmixed. `ntu` ≥ 0, `ratio` of the
/// smaller to the larger heat-capacity flow, 0 to 1.
#[must_use]
pub fn cross_flow(ntu: f64, ratio: f64) -> f64 {
    if ntu <= 0.0 {
        0.0
    } else if ratio < 1e-9 {
        1.0 - exp(-ntu)
    } else {
        1.0 - exp(pow(ntu, 0.22) / ratio * (exp(-ratio * pow(ntu, 0.78)) - 1.0))
    }
}

/// A radiator in a stream of air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Radiator {
    /// Conductance at the rated air flow, watt per kelvin.
    pub ua_w_k: f64,
    /// Coolant flow, kilogram per second.
    pub coolant_kg_s: f64,
    /// Heat capacity of the coolant, joule per kilogram and kelvin (water-glycol 50/50: 3550).
    pub coolant_cp: f64,
    /// Face area, square metre.
    pub face_m2: f64,
    /// Rated face velocity of the air, metre per second.
    pub rated_m_s: f64,
}

/// Density of air at which radiators are rated, kilogram per cubic metre.
const RATED_AIR: f64 = 1.127;
/// Heat capacity of air, joule per kilogram and kelvin.
const AIR_CP: f64 = 1007.0;

impl Radiator {
    /// Heat that goes to the air, watt, at a coolant inlet and an air inlet temperature (°C) and a
    /// face velocity. Conductance goes with the velocity to the power 0.6 (common practice: the air
    /// side governs).
    #[must_use]
    pub fn heat_w(&self, coolant_c: f64, air_c: f64, face_m_s: f64, air_kg_m3: f64) -> f64 {
        if face_m_s <= 0.0 || coolant_c <= air_c {
            return 0.0;
        }
        let air = face_m_s * self.face_m2 * air_kg_m3 * AIR_CP;
        let coolant = self.coolant_kg_s * self.coolant_cp;
        let (least, most) = if air < coolant {
            (air, coolant)
        } else {
            (coolant, air)
        };
        let flow = face_m_s * air_kg_m3 / (self.rated_m_s * RATED_AIR);
        let ua = self.ua_w_k * pow(flow, 0.6);
        cross_flow(ua / least, least / most) * least * (coolant_c - air_c)
    }

    /// A radiator that gives this heat at this coolant temperature, air temperature and rated
    /// velocity: the conductance is found by halving. `None` when no conductance gives it.
    #[must_use]
    pub fn rated(
        heat_w: f64,
        coolant_c: f64,
        air_c: f64,
        face_m2: f64,
        rated_m_s: f64,
        coolant_kg_s: f64,
    ) -> Option<Self> {
        let with = |ua_w_k: f64| Self {
            ua_w_k,
            coolant_kg_s,
            coolant_cp: 3550.0,
            face_m2,
            rated_m_s,
        };
        let miss = |ua: f64| with(ua).heat_w(coolant_c, air_c, rated_m_s, RATED_AIR) - heat_w;
        crate::numeric::bisect(miss, 1.0, 1e6, 1e-6).map(with)
    }
}

/// Where a radiator stands, and so what air it gets (common practice).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stand {
    /// In the nose: a quarter of the road speed goes through it.
    Front,
    /// Behind the cab or at the side: a tenth of the road speed, and air that is 5 K warmer because
    /// some of it has been through already.
    Sheltered,
}

/// A radiator with its fan, at its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooled {
    /// The radiator.
    pub radiator: Radiator,
    /// Where.
    pub stand: Stand,
    /// Fan power at full speed, watt.
    pub fan_w: f64,
}

/// Air of a fan at full speed through a face, metre per second (common practice).
pub const FAN_M_S: f64 = 6.0;

impl Cooled {
    /// Heat and fan power, watt, with the fan at a share of its speed. Fan power goes with the cube of
    /// its speed.
    #[must_use]
    pub fn heat_w(
        &self,
        coolant_c: f64,
        outside_c: f64,
        road_mps: f64,
        fan: f64,
        air_kg_m3: f64,
    ) -> (f64, f64) {
        let (ram, warmer) = match self.stand {
            Stand::Front => (0.25, 0.0),
            Stand::Sheltered => (0.1, 5.0),
        };
        let face = (FAN_M_S * fan).max(ram * road_mps);
        let heat = self
            .radiator
            .heat_w(coolant_c, outside_c + warmer, face, air_kg_m3);
        (heat, self.fan_w * fan * fan * fan)
    }
}

/// A cooling circuit: one mass at one temperature, and the radiators that it shares.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// Radiators.
    pub radiators: Vec<Cooled>,
    /// Share of their conductance and air that this circuit has.
    pub share: f64,
    /// Heat capacity of metal and coolant, joule per kelvin.
    pub capacity_j_k: f64,
    /// Coolant temperature above which power is taken back, °C.
    pub limit_c: f64,
}

/// Above the limit, power is taken back over this span, kelvin (common practice).
const DERATE_SPAN_K: f64 = 5.0;
/// The fan starts this far below the limit and is at full speed at the limit, kelvin (common practice).
const FAN_SPAN_K: f64 = 8.0;

/// Coldest air in which cooling is asked for, °C.
const COLDEST_C: f64 = -60.0;

impl Circuit {
    /// The fan's speed at a coolant temperature, as a share.
    #[must_use]
    pub fn fan(&self, coolant_c: f64) -> f64 {
        ((coolant_c - (self.limit_c - FAN_SPAN_K)) / FAN_SPAN_K).clamp(0.0, 1.0)
    }

    /// Heat given away and fan power, watt.
    #[must_use]
    pub fn rejected_w(
        &self,
        coolant_c: f64,
        outside_c: f64,
        road_mps: f64,
        air_kg_m3: f64,
    ) -> (f64, f64) {
        let fan = self.fan(coolant_c);
        self.radiators
            .iter()
            .map(|r| r.heat_w(coolant_c, outside_c, road_mps, fan, air_kg_m3))
            .fold((0.0, 0.0), |sum, one| {
                (sum.0 + one.0 * self.share, sum.1 + one.1 * self.share)
            })
    }

    /// Air outside up to which this heat is given away for good, with the coolant at its limit and the fans
    /// at full speed, °C; `None` where not even hard frost is cold enough.
    #[must_use]
    pub fn cooled_to_c(&self, heat_w: f64, road_mps: f64, air_kg_m3: f64) -> Option<f64> {
        let spare = |outside_c: f64| {
            let given = self.rejected_w(self.limit_c, outside_c, road_mps, air_kg_m3);
            given.0 - heat_w
        };
        crate::numeric::bisect(spare, COLDEST_C, self.limit_c, 1e-6)
    }

    /// Share of the power that the temperature allows.
    #[must_use]
    pub fn allowed(&self, coolant_c: f64) -> f64 {
        1.0 - ((coolant_c - self.limit_c) / DERATE_SPAN_K).clamp(0.0, 1.0)
    }
}
