//! A beam in equilibrium: shear and bending from end to end, exactly, piece by piece.
//!
//! Between two places where something happens the load on each millimetre is constant, so the shear
//! is a straight line and the moment a parabola; no grid is laid over the beam. Forces in newton,
//! lengths in millimetres, moments in newton millimetre. A moment is positive where the beam sags.

/// What happens at one place of a beam.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BeamEvent {
    /// Where, mm.
    pub x_mm: f64,
    /// A force that begins and ends here, positive downward.
    pub force_n: f64,
    /// A jump of the bending moment: a couple that is led in here.
    pub couple_nmm: f64,
    /// How much more load lies on each millimetre behind this place, positive downward.
    pub more_n_per_mm: f64,
}

/// A stretch of the beam on which the load on each millimetre is constant.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BeamPiece {
    /// Its front end, mm.
    pub from_mm: f64,
    /// Its rear end, mm.
    pub to_mm: f64,
    /// Shear at its front end, N: what lies ahead pushes up by so much.
    pub shear_n: f64,
    /// Bending moment at its front end, N·mm; positive where the beam sags.
    pub moment_nmm: f64,
    /// Load on it, N/mm, positive downward.
    pub load_n_per_mm: f64,
}

impl BeamPiece {
    /// Shear at a place of the piece, N.
    #[must_use]
    pub fn shear_at(&self, x_mm: f64) -> f64 {
        self.shear_n - self.load_n_per_mm * (x_mm - self.from_mm)
    }

    /// Bending moment at a place of the piece, N·mm.
    #[must_use]
    pub fn moment_at(&self, x_mm: f64) -> f64 {
        let t = x_mm - self.from_mm;
        self.moment_nmm + (self.shear_n - self.load_n_per_mm * t / 2.0) * t
    }

    /// Where inside the piece the shear vanishes and the moment therefore turns round.
    #[must_use]
    pub fn turns_at(&self) -> Option<f64> {
        let t = self.shear_n / self.load_n_per_mm;
        (t > 0.0 && t < self.to_mm - self.from_mm).then_some(self.from_mm + t)
    }
}

/// Cuts the beam into its pieces. The events must be in order of place. A beam in equilibrium ends
/// without shear and moment; what [`beam_remainder`] finds there is what was out of balance.
#[must_use]
pub fn beam_pieces(events: &[BeamEvent]) -> Vec<BeamPiece> {
    let mut pieces = Vec::with_capacity(events.len());
    let (mut shear, mut moment, mut load) = (0.0, 0.0, 0.0);
    let mut at = events.first().map_or(0.0, |event| event.x_mm);
    for event in events {
        if event.x_mm > at {
            let piece = BeamPiece {
                from_mm: at,
                to_mm: event.x_mm,
                shear_n: shear,
                moment_nmm: moment,
                load_n_per_mm: load,
            };
            shear = piece.shear_at(event.x_mm);
            moment = piece.moment_at(event.x_mm);
            at = event.x_mm;
            pieces.push(piece);
        }
        shear -= event.force_n;
        moment += event.couple_nmm;
        load += event.more_n_per_mm;
    }
    pieces
}

/// Shear, N, and moment, N·mm, that are left behind the last event: zero in equilibrium.
#[must_use]
pub fn beam_remainder(events: &[BeamEvent]) -> (f64, f64) {
    let end = events.last().map_or(0.0, |event| event.x_mm);
    let (mut shear, mut moment) = (0.0, 0.0);
    for event in events {
        let arm = end - event.x_mm;
        shear -= event.force_n + event.more_n_per_mm * arm;
        moment += event.couple_nmm - event.force_n * arm - event.more_n_per_mm * arm * arm / 2.0;
    }
    (shear, moment)
}

/// Divides a force and its moment about the origin among rows that hold one rigid thing: by lever on
/// two rows, as on equal springs on more. `put` gets each row's place and force; the return value is
/// the moment that the rows could not take, which is only other than zero when there is one of them.
pub fn on_rows(force: f64, moment: f64, rows: &[f64], mut put: impl FnMut(f64, f64)) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a handful of rows")]
    let count = rows.len() as f64;
    let middle = rows.iter().sum::<f64>() / count.max(1.0);
    let spread: f64 = rows.iter().map(|x| (x - middle) * (x - middle)).sum();
    let about = moment - force * middle;
    for x in rows {
        let tilt = if spread > 1e-9 {
            about * (x - middle) / spread
        } else {
            0.0
        };
        put(*x, force / count + tilt);
    }
    if spread > 1e-9 { 0.0 } else { about }
}
