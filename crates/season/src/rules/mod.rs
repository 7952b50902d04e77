//! The rules of the year, one a file.

use reckon::Finding;

use crate::input::Input;
use crate::year::Year;

/// Everything the rules have to say about a year, loudest first. The figures they name are those
/// that [`crate::explain()`] writes.
pub fn findings(input: &Input<'_>, year: &Year) -> Vec<Finding> {
    let rules: [fn(&Input<'_>, &Year, &mut Vec<Finding>); 0] = [];
    let mut out = Vec::new();
    for rule in rules {
        rule(input, year, &mut out);
    }
    out.sort_by_key(|f: &Finding| f.level);
    out
}
