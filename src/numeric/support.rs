//! How a mass anywhere on a rigid frame divides among its supports.

use super::solve;

/// One support: an axle group.
#[derive(Clone, Debug, PartialEq)]
pub struct Support {
    /// Where it acts, mm behind the front axle.
    pub x_mm: f64,
    /// Vertical rate, N/mm; needed when more than two supports share.
    pub rate: Option<f64>,
    /// It carries this much whatever the load, kg.
    pub fixed_kg: Option<f64>,
    /// It is off the ground.
    pub raised: bool,
    /// What it carried when weighed, kg.
    pub weighed_kg: f64,
}

/// Reaction of each support as a linear function of total mass and first moment:
/// `constant + per_kg · mass + per_kg_mm · moment`.
#[derive(Clone, Debug, PartialEq)]
pub struct Influence {
    /// Part that does not depend on the load, kg.
    pub constant_kg: Vec<f64>,
    /// Part for each kilogram.
    pub per_kg: Vec<f64>,
    /// Part for each kilogram-millimetre of first moment about the front axle.
    pub per_kg_mm: Vec<f64>,
}

impl Influence {
    /// Share of a mass at `x_mm` that support `index` carries. Negative when the mass lifts it.
    #[must_use]
    pub fn share(&self, index: usize, x_mm: f64) -> f64 {
        self.per_kg[index] + self.per_kg_mm[index] * x_mm
    }

    /// Reaction of support `index` under this mass and moment, kg.
    #[must_use]
    pub fn reaction_kg(&self, index: usize, mass_kg: f64, moment_kg_mm: f64) -> f64 {
        self.constant_kg[index]
            + self.per_kg[index] * mass_kg
            + self.per_kg_mm[index] * moment_kg_mm
    }
}

/// Works out the influence of mass and moment on each support.
///
/// # Errors
/// What is missing: fewer than two supports on the ground, or a spring rate with three or more.
pub fn influence(supports: &[Support]) -> Result<Influence, String> {
    let count = supports.len();
    let mut result = Influence {
        constant_kg: vec![0.0; count],
        per_kg: vec![0.0; count],
        per_kg_mm: vec![0.0; count],
    };
    // What fixed supports carry is taken off before the others share the rest.
    let (mut fixed, mut fixed_moment) = (0.0, 0.0);
    for (index, support) in supports.iter().enumerate() {
        if let (Some(kg), false) = (support.fixed_kg, support.raised) {
            result.constant_kg[index] = kg;
            fixed += kg;
            fixed_moment += kg * support.x_mm;
        }
    }
    let free: Vec<usize> = (0..count)
        .filter(|&i| !supports[i].raised && supports[i].fixed_kg.is_none())
        .collect();
    match free.as_slice() {
        [] | [_] => return Err("fewer than two axle groups carry the frame".to_owned()),
        &[first, second] => {
            let (x1, x2) = (supports[first].x_mm, supports[second].x_mm);
            let span = x2 - x1;
            if span.abs() < 1.0 {
                return Err("two axle groups stand at the same place".to_owned());
            }
            result.per_kg[first] = x2 / span;
            result.per_kg_mm[first] = -1.0 / span;
            result.per_kg[second] = -x1 / span;
            result.per_kg_mm[second] = 1.0 / span;
        }
        many => on_springs(supports, many, &mut result)?,
    }
    for &index in &free {
        result.constant_kg[index] -=
            result.per_kg[index] * fixed + result.per_kg_mm[index] * fixed_moment;
    }
    Ok(result)
}

/// Rigid frame on springs, counted from the weighed state: R = weighed + k·(heave + pitch·x), where
/// heave and pitch follow from what the load differs from the weighed one.
fn on_springs(supports: &[Support], free: &[usize], out: &mut Influence) -> Result<(), String> {
    let mut rates = Vec::new();
    for &index in free {
        let rate = supports[index].rate.filter(|rate| *rate > 0.0);
        rates.push(rate.ok_or_else(|| {
            "three or more axle groups share the load, and a spring rate is missing".to_owned()
        })?);
    }
    let sum = |power: i32| -> f64 {
        free.iter()
            .zip(&rates)
            .map(|(&i, k)| k * supports[i].x_mm.powi(power))
            .sum()
    };
    let (s0, s1, s2) = (sum(0), sum(1), sum(2));
    let unit = |mass: f64, moment: f64| {
        solve(vec![vec![s0, s1], vec![s1, s2]], vec![mass, moment])
            .ok_or_else(|| "the axle groups stand at one place".to_owned())
    };
    let for_mass = unit(1.0, 0.0)?;
    let for_moment = unit(0.0, 1.0)?;
    let weighed: f64 = free.iter().map(|&i| supports[i].weighed_kg).sum();
    let weighed_moment: f64 = free
        .iter()
        .map(|&i| supports[i].weighed_kg * supports[i].x_mm)
        .sum();
    for (&index, rate) in free.iter().zip(&rates) {
        let x = supports[index].x_mm;
        let per_kg = rate * (for_mass[0] + for_mass[1] * x);
        let per_kg_mm = rate * (for_moment[0] + for_moment[1] * x);
        out.per_kg[index] = per_kg;
        out.per_kg_mm[index] = per_kg_mm;
        out.constant_kg[index] +=
            supports[index].weighed_kg - per_kg * weighed - per_kg_mm * weighed_moment;
    }
    Ok(())
}
