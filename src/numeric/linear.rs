//! Small dense systems of linear equations, as the spring statics of a chassis need them.
//!
//! Method: Gaussian elimination with scaled partial pivoting (Golub and Van Loan, *Matrix
//! Computations*, section 3.4): each row is weighed by its largest entry when the pivot is
//! chosen, so that rows in newtons and rows in newton metres may stand side by side. Meant for
//! up to a few dozen unknowns; the work grows with the cube of their number.

/// A pivot smaller than this share of its row's largest entry counts as zero.
const SINGULAR: f64 = 1e-12;

/// The `x` with `a · x = b`, where `a` is given row by row.
///
/// `None` when the system has no single answer that can be trusted: not square, a right-hand side
/// of another length, a number that is not finite, or rows that depend on each other (a pivot
/// below 1e-12 of its row). No unknowns at all give an empty answer.
///
/// ```
/// use axlewright_core::numeric::solve;
/// let x = solve(vec![vec![0.0, 2.0], vec![1.0, 1.0]], vec![4.0, 5.0]);
/// assert_eq!(x, Some(vec![3.0, 2.0]));
/// ```
#[must_use]
pub fn solve(mut a: Vec<Vec<f64>>, mut b: Vec<f64>) -> Option<Vec<f64>> {
    let n = b.len();
    let square = a.len() == n && a.iter().all(|row| row.len() == n);
    let finite = a.iter().flatten().chain(&b).all(|value| value.is_finite());
    if !square || !finite {
        return None;
    }
    let mut scale: Vec<f64> = a
        .iter()
        .map(|row| row.iter().fold(0.0, |big: f64, value| big.max(value.abs())))
        .collect();
    if scale.contains(&0.0) {
        return None;
    }
    for column in 0..n {
        let mut pivot = column;
        for row in column + 1..n {
            if a[row][column].abs() * scale[pivot] > a[pivot][column].abs() * scale[row] {
                pivot = row;
            }
        }
        if a[pivot][column].abs() <= SINGULAR * scale[pivot] {
            return None;
        }
        a.swap(column, pivot);
        b.swap(column, pivot);
        scale.swap(column, pivot);
        let pivot_row = a[column].clone();
        for row in column + 1..n {
            let factor = a[row][column] / pivot_row[column];
            if factor != 0.0 {
                for (entry, above) in a[row].iter_mut().zip(&pivot_row).skip(column) {
                    *entry -= factor * above;
                }
                b[row] -= factor * b[column];
            }
        }
    }
    let mut x = vec![0.0; n];
    for row in (0..n).rev() {
        let known: f64 = (row + 1..n).map(|k| a[row][k] * x[k]).sum();
        x[row] = (b[row] - known) / a[row][row];
    }
    x.iter().all(|value| value.is_finite()).then_some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_springs_under_a_rigid_beam_share_the_load() {
        // Unknown: three reactions; equal stiffness, load above the middle spring.
        let a = vec![
            vec![1.0, 1.0, 1.0],
            vec![0.0, 1.0, 2.0],
            vec![1.0, -2.0, 1.0],
        ];
        let x = solve(a, vec![90.0, 90.0, 0.0]).unwrap();
        for reaction in x {
            assert!((reaction - 30.0).abs() < 1e-12);
        }
    }

    #[test]
    fn rows_in_different_units_do_not_spoil_the_answer() {
        let a = vec![vec![1e-9, 1e9], vec![1.0, 1.0]];
        let x = solve(a, vec![1e9, 2.0]).unwrap();
        assert!((x[0] - 1.0).abs() < 1e-9 && (x[1] - 1.0).abs() < 1e-9);
    }

    #[test]
    fn what_has_no_single_answer_gives_none() {
        assert_eq!(
            solve(vec![vec![1.0, 2.0], vec![2.0, 4.0]], vec![1.0, 2.0]),
            None
        );
        assert_eq!(solve(vec![vec![0.0]], vec![1.0]), None);
        assert_eq!(solve(vec![vec![1.0, 2.0]], vec![1.0]), None);
        assert_eq!(solve(vec![vec![f64::NAN]], vec![1.0]), None);
        assert_eq!(solve(vec![], vec![]), Some(vec![]));
    }
}
