//! Numbers and words as the SVG back end writes them: short, finite, and never markup.

use super::plane::FARTHEST_MM;

/// Writes a number with at most one decimal. What is not finite, or absurdly far, never gets out.
pub fn number(out: &mut String, value: f64) {
    let value = if value.is_finite() {
        value.clamp(-FARTHEST_MM, FARTHEST_MM)
    } else {
        0.0
    };
    // Half away from zero, as people round.
    #[expect(clippy::cast_possible_truncation, reason = "clamped above")]
    let tenths = (value * 10.0 + if value < 0.0 { -0.5 } else { 0.5 }) as i32;
    if tenths < 0 {
        out.push('-');
    }
    // From the last digit forward, then letter by letter: there are ten thousand numbers in a drawing
    // of many parts, and in the browser a copy of memory costs more than these few letters.
    let (mut text, mut at) = ([0_u8; 8], 8);
    let mut rest = tenths.unsigned_abs();
    let tenth = rest % 10;
    rest /= 10;
    loop {
        at -= 1;
        text[at] = b'0' + (rest % 10) as u8;
        rest /= 10;
        if rest == 0 {
            break;
        }
    }
    for digit in &text[at..] {
        out.push(char::from(*digit));
    }
    if tenth > 0 {
        out.push('.');
        out.push(char::from(b'0' + tenth as u8));
    }
}

/// Writes one of the house's own words: short, and plain letters only.
pub fn word(out: &mut String, word: &'static str) {
    for letter in word.bytes() {
        out.push(char::from(letter));
    }
}

/// Letters that XML 1.0 cannot hold are left out.
fn allowed(c: char) -> bool {
    let page_break = c.is_control() && c != '\n' && c != '\t';
    !page_break && !matches!(c, '\u{fffe}' | '\u{ffff}')
}

/// Writes text so that it can stand between tags and inside quotes.
pub fn escaped(out: &mut String, text: &str) {
    if text
        .bytes()
        .all(|b| b >= b' ' && !b"&<>\"'\x7f".contains(&b) && b < 0x80)
    {
        out.push_str(text);
        return;
    }
    for c in text.chars().filter(|c| allowed(*c)) {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            _ => out.push(c),
        }
    }
}

/// For nodes of the crate, which escapes markup but keeps letters that XML cannot hold.
pub fn plain(text: &str) -> String {
    text.chars().filter(|c| allowed(*c)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(value: f64) -> String {
        let mut out = String::new();
        number(&mut out, value);
        out
    }

    #[test]
    fn numbers_have_at_most_one_decimal_and_are_always_finite() {
        assert_eq!(shown(4_699.04), "4699");
        assert_eq!(shown(-0.26), "-0.3");
        assert_eq!(shown(-0.04), "0");
        assert_eq!(shown(12.5), "12.5");
        assert_eq!(shown(f64::NAN), "0");
        assert_eq!(shown(f64::INFINITY), "0");
        assert_eq!(shown(1e308), "100000");
    }

    #[test]
    fn markup_and_control_letters_cannot_get_out() {
        let mut out = String::new();
        escaped(&mut out, "<b>\"O'Neil\" & \u{0}Co</b>");
        assert_eq!(out, "&lt;b&gt;&quot;O&#39;Neil&quot; &amp; Co&lt;/b&gt;");
    }
}
