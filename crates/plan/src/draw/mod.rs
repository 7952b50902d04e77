//! Charts as SVG.
