//! A number with its thousands grouped, as the words of every view need hundreds of.

/// Beyond this, and with more decimals, the standard library writes the digits.
const LARGEST: f64 = 1e9;
/// Ten to the power of the decimals that are written here.
const TENS: [u64; 4] = [1, 10, 100, 1_000];
/// Nearer than this to the middle between two numbers a product may have fallen on the wrong side.
const UNSURE: f64 = 1e-6;

/// Writes a number at the end of a text, with a true minus sign; never "−0".
pub(super) fn write(out: &mut String, value: f64, decimals: usize) {
    if !value.is_finite() {
        out.push_str("unknown");
        return;
    }
    if let Some(scaled) = scaled(value.abs(), decimals) {
        let tens = TENS[decimals];
        let mut digits = [itoa::Buffer::new(), itoa::Buffer::new()];
        let [whole, rest] = &mut digits;
        // One digit more in front keeps the noughts behind the point.
        let rest = rest.format(tens + scaled % tens);
        let whole = whole.format(scaled / tens);
        put(out, value < 0.0 && scaled > 0, whole, &rest[1..]);
    } else {
        let plain = format!("{:.decimals$}", value.abs());
        let (whole, rest) = plain.split_once('.').unwrap_or((&plain, ""));
        let any = plain.bytes().any(|b| (b'1'..=b'9').contains(&b));
        put(out, value < 0.0 && any, whole, rest);
    }
}

/// The digits as one whole number, where a product of doubles is sure to round as the number does.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "neither negative nor larger than the limit"
)]
fn scaled(value: f64, decimals: usize) -> Option<u64> {
    let scaled = value * *TENS.get(decimals)? as f64;
    if scaled >= LARGEST {
        return None;
    }
    let below = scaled as u64;
    let beyond = scaled - below as f64;
    ((beyond - 0.5).abs() > UNSURE).then_some(below + u64::from(beyond > 0.5))
}

fn put(out: &mut String, negative: bool, whole: &str, rest: &str) {
    if negative {
        out.push('−');
    }
    let first = match whole.len() % 3 {
        0 => whole.len().min(3),
        some => some,
    };
    let (head, mut tail) = whole.split_at(first);
    out.push_str(head);
    while !tail.is_empty() {
        let (three, more) = tail.split_at(3);
        out.push(',');
        out.push_str(three);
        tail = more;
    }
    if !rest.is_empty() {
        out.push('.');
        out.push_str(rest);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// As the standard library rounds it, grouped digit by digit.
    fn slowly(value: f64, decimals: usize) -> String {
        let plain = format!("{:.decimals$}", value.abs());
        let (whole, rest) = plain.split_once('.').unwrap_or((&plain, ""));
        let mut out = String::new();
        if value < 0.0 && plain.bytes().any(|b| (b'1'..=b'9').contains(&b)) {
            out.push('−');
        }
        for (index, digit) in whole.chars().enumerate() {
            if index > 0 && (whole.len() - index).is_multiple_of(3) {
                out.push(',');
            }
            out.push(digit);
        }
        if !rest.is_empty() {
            out.push('.');
            out.push_str(rest);
        }
        out
    }

    fn quickly(value: f64, decimals: usize) -> String {
        let mut out = String::new();
        write(&mut out, value, decimals);
        out
    }

    #[test]
    fn in_the_middle_between_two_as_the_standard_library_rounds() {
        for value in [
            0.5, 1.5, 2.5, 0.25, 0.35, 1.005, 999.95, 999_999.5, 1e9, 1e12, -0.04, -0.05,
        ] {
            for decimals in 0..5 {
                assert_eq!(quickly(value, decimals), slowly(value, decimals), "{value}");
            }
        }
    }

    proptest! {
        #[test]
        fn any_number_as_the_standard_library_rounds_it(value in -2e9..2e9_f64, fine in -50.0..50.0_f64, decimals in 0..4_usize) {
            prop_assert_eq!(quickly(value, decimals), slowly(value, decimals));
            prop_assert_eq!(quickly(fine, decimals), slowly(fine, decimals));
            // Numbers as people type them.
            let typed = (fine * 100.0).trunc() / 100.0;
            prop_assert_eq!(quickly(typed, decimals), slowly(typed, decimals));
        }
    }
}
