//! Reads the number at the beginning of a text.

/// The number a text begins with and what follows it. Understands a sign, commas between
/// groups of three, a decimal point, an exponent, and fractions: `1/2`, `6 1/2`, `6-1/2`.
pub(crate) fn take_number(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let (negative, body) = match text.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    let (size, rest) = take_size(body)?;
    Some((if negative { -size } else { size }, rest))
}

fn take_size(text: &str) -> Option<(f64, &str)> {
    let whole_end = text
        .find(|c: char| !c.is_ascii_digit() && c != ',')
        .unwrap_or(text.len());
    // A comma at the end of the number separates; it does not belong to it.
    let whole = text.get(..whole_end)?.trim_end_matches(',');
    let whole_end = whole.len();
    if !grouped_in_threes(whole) {
        return None;
    }
    let mut rest = text.get(whole_end..)?;
    let mut digits: String = whole.chars().filter(|c| *c != ',').collect();
    let mut plain = true;
    if let Some(after) = rest.strip_prefix('.') {
        let (decimals, after) = take_digits(after);
        if !digits.is_empty() || !decimals.is_empty() {
            if !decimals.is_empty() {
                digits.push('.');
                digits.push_str(decimals);
                plain = false;
            }
            rest = after;
        }
    }
    if digits.is_empty() {
        return None;
    }
    if let Some(after) = rest.strip_prefix(['e', 'E']) {
        let (sign, after) = match after.strip_prefix('-') {
            Some(a) => ("-", a),
            None => ("", after.strip_prefix('+').unwrap_or(after)),
        };
        let (power, after) = take_digits(after);
        if !power.is_empty() {
            digits = format!("{digits}e{sign}{power}");
            rest = after;
            plain = false;
        }
    }
    let value: f64 = digits.parse().ok()?;
    if plain {
        if let Some((below, after)) = rest.strip_prefix('/').and_then(take_whole) {
            return Some((value / below, after));
        }
        if let Some((part, after)) = take_fraction(rest.trim_start_matches([' ', '-'])) {
            return Some((value + part, after));
        }
    }
    Some((value, rest))
}

fn take_digits(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    text.split_at_checked(end).unwrap_or((text, ""))
}

fn take_whole(text: &str) -> Option<(f64, &str)> {
    let (digits, rest) = take_digits(text);
    let value: f64 = digits.parse().ok()?;
    (value > 0.0).then_some((value, rest))
}

fn take_fraction(text: &str) -> Option<(f64, &str)> {
    let (above, rest) = take_whole(text)?;
    let (below, rest) = take_whole(rest.strip_prefix('/')?)?;
    (above < below).then_some((above / below, rest))
}

fn grouped_in_threes(whole: &str) -> bool {
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or("");
    let mut more = false;
    for group in groups {
        more = true;
        if group.len() != 3 {
            return false;
        }
    }
    !more || (1..=3).contains(&first.len())
}
