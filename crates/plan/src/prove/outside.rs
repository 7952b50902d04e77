//! Checks known to be outside, and why as far as it is known. They are shown as failing all the
//! same; nothing is fitted to them.

/// Id of the check, and the reason.
const OUTSIDE: [(&str, &str); 5] = [
    (
        "std140-650-cooling-peak",
        "0.4 % over the largest of six programs; cause not found, and no coefficient is fitted",
    ),
    (
        "std140-950-cooling-peak",
        "3 % over the largest of six programs, after a night of fan; cause not found, and no \
         coefficient is fitted",
    ),
    (
        "std140-960-cooling-peak",
        "1.4 % over the largest of five programs; cause not found, and no coefficient is fitted",
    ),
    (
        "std140-600-window-sun",
        "0.4 % under; the sun on the south wall is inside its range, so this is the glass off \
         the normal, by Fresnel from the pane's two values",
    ),
    (
        "std140-sun-horizontal",
        "this is the global column of the weather file added up; on a level face nothing is \
         computed but the sum",
    ),
];

/// Why a check is outside, where it is known to be.
pub(super) fn why(id: &str) -> Option<&'static str> {
    OUTSIDE.iter().find(|(i, _)| *i == id).map(|(_, why)| *why)
}
