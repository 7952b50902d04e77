//! For tests of several crates: text with every number to four digits, so that a kept picture of
//! numbers changes when one of them moves by more than a thousandth, and not by rounding.

/// Whole numbers stay as they are; a number with a point or an exponent is written to four digits.
pub fn rounded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, from) = rest.split_at(at);
        out.push_str(before);
        let part_of_a_word = before.ends_with(|c: char| c.is_ascii_alphabetic() || c == '_');
        let mut end = 0;
        let bytes = from.as_bytes();
        while let Some(b) = bytes.get(end) {
            let exponent = end > 0 && bytes.get(end - 1) == Some(&b'e');
            let number = b.is_ascii_digit() || matches!(b, b'.' | b'e') || exponent && *b == b'-';
            if !number {
                break;
            }
            end += 1;
        }
        let (number, after) = from.split_at(end);
        match number.parse::<f64>() {
            Ok(x) if !part_of_a_word && number.contains(['.', 'e']) => out.push_str(&digits(x)),
            _ => out.push_str(number),
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

/// Four digits.
fn digits(x: f64) -> String {
    if x == 0.0 {
        return "0.0".to_owned();
    }
    let exponent = x.abs().log10().floor();
    if exponent < -6.0 {
        // what is left of rounding
        return "tiny".to_owned();
    }
    let places = (3.0 - exponent).max(0.0);
    format!("{x:.0$}", places as usize)
}
