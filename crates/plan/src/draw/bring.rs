//! The list of the day as a sheet to tick off.

use install::Item;

use super::judged::{LEFT, RIGHT, WIDTH};
use super::numbered::broken;
use super::page::{cell, page, path, text};
use crate::Plan;

/// The sheet; `None` before the installation is begun.
pub fn bring(plan: &Plan) -> Option<String> {
    let list = &plan.install.done()?.list;
    let title = "What to bring";
    let mut out = String::new();
    text(&mut out, 16.0, 26.0, "start", "bold", title);
    let mut y = 40.0;
    let parts: [(&str, &[Item]); 3] = [
        ("Cut list", &list.cut),
        ("Tools", &list.tools),
        ("To lift", &list.lifts),
    ];
    for (name, items) in parts {
        y += 12.0;
        text(&mut out, LEFT, y, "start", "small bold", name);
        path(
            &mut out,
            "hair",
            1.0,
            &format!("M{LEFT} {:.1}H{RIGHT}", y + 4.0),
        );
        y += 18.0;
        for i in items {
            let of = if i.of.is_empty() {
                String::new()
            } else {
                format!(" [{}]", i.of)
            };
            let tick = format!("M{LEFT} {:.1}h9v9h-9Z", y - 9.0);
            path(&mut out, "ink", 1.0, &tick);
            // what on the left, how much on the right, each in its own room
            let what = broken(&format!("{}{of}", i.what), 290.0);
            let much = broken(&i.amount, 150.0);
            for k in 0..what.len().max(much.len()) {
                if let Some(w) = what.get(k) {
                    text(&mut out, LEFT + 16.0, y, "start", "small", w);
                }
                if let Some(m) = much.get(k) {
                    text(&mut out, RIGHT, y, "end", "small", m);
                }
                y += 14.0;
            }
        }
    }
    y += 12.0;
    text(&mut out, LEFT, y, "start", "small bold", "Cautions");
    y += 16.0;
    for c in &list.cautions {
        for line in broken(c, RIGHT - LEFT) {
            text(&mut out, LEFT, y, "start", "small", &line);
            y += 13.0;
        }
    }
    let count = list.cut.len() + list.tools.len() + list.lifts.len();
    let cells = [
        cell("Amounts with a twentieth spare", plan.name.clone()),
        cell("Things", count.to_string()),
    ];
    Some(page(WIDTH, y + 8.0, title, &cells, &out))
}
