//! One step of an ordinary differential equation.

/// Advances a state by one step of the classic fourth-order Runge-Kutta method: error of the fifth
/// power of the step each time, of the fourth over a fixed stretch.
///
/// ```
/// use axlewright_core::numeric::rk4;
/// let mut y = [1.0];
/// for i in 0..10 {
///     y = rk4(|_, y| [y[0]], f64::from(i) * 0.1, y, 0.1);
/// }
/// assert!((y[0] - 2.718_281_828).abs() < 3e-6);
/// ```
#[must_use]
pub fn rk4<const N: usize>(
    rate: impl Fn(f64, [f64; N]) -> [f64; N],
    at: f64,
    state: [f64; N],
    step: f64,
) -> [f64; N] {
    let moved = |by: [f64; N], share: f64| {
        let mut new = state;
        for (value, rate) in new.iter_mut().zip(by) {
            *value += rate * share;
        }
        new
    };
    let half = step / 2.0;
    let a = rate(at, state);
    let b = rate(at + half, moved(a, half));
    let c = rate(at + half, moved(b, half));
    let d = rate(at + step, moved(c, step));
    let mut mean = [0.0; N];
    for i in 0..N {
        mean[i] = (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]) / 6.0;
    }
    moved(mean, step)
}
