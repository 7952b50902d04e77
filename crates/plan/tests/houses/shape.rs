//! Shapes of houses: storeys, and rooms as outlines in feet, corners counterclockwise.

use super::dice::Dice;

pub type Corner = [f64; 2];

pub struct Storey {
    pub name: &'static str,
    pub floor_ft: f64,
    pub ceiling_ft: f64,
    pub under: Option<&'static str>,
    pub over: &'static str,
    pub pitch_deg: f64,
}

pub struct Room {
    pub name: String,
    pub storey: &'static str,
    pub outline: Vec<Corner>,
    pub used_for: &'static str,
    pub heated: bool,
}

#[derive(Default)]
pub struct Shape {
    pub form: &'static str,
    pub storeys: Vec<Storey>,
    pub rooms: Vec<Room>,
    /// Walls towards heated neighbours: east and west of a rowhouse.
    pub party: [bool; 2],
}

pub const FORMS: [&str; 6] = [
    "cape",
    "ranch",
    "split level",
    "two-storey",
    "rowhouse",
    "farmhouse with additions",
];

fn quarter(ft: f64) -> f64 {
    (ft * 4.0).round() / 4.0
}

fn rectangle([x0, y0]: Corner, [x1, y1]: Corner) -> Vec<Corner> {
    vec![[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
}

impl Shape {
    fn storey(&mut self, name: &'static str, floor_ft: f64, ceiling_ft: f64) -> &mut Storey {
        self.storeys.push(Storey {
            name,
            floor_ft,
            ceiling_ft,
            under: None,
            over: "attic",
            pitch_deg: 0.0,
        });
        let last = self.storeys.len() - 1;
        &mut self.storeys[last]
    }

    fn room(&mut self, storey: &'static str, used_for: &'static str, outline: Vec<Corner>) {
        let alike = self.rooms.iter().filter(|r| r.used_for == used_for).count();
        self.rooms.push(Room {
            name: format!("{used_for} {}", alike + 1),
            storey,
            outline,
            used_for,
            heated: used_for != "storage",
        });
    }

    /// Two rows of rooms over a rectangle; `uses` are given out in turn.
    fn rows(
        &mut self,
        dice: &mut Dice,
        storey: &'static str,
        low: Corner,
        high: Corner,
        uses: &[&'static str],
    ) {
        let depth = high[1] - low[1];
        let split = quarter(low[1] + depth * dice.between(0.4, 0.6));
        let rows = if depth > 14.0 {
            vec![(low[1], split), (split, high[1])]
        } else {
            vec![(low[1], high[1])]
        };
        let mut at = 0;
        for (y0, y1) in rows {
            let wide = high[0] - low[0];
            let n = dice.whole(1, ((wide / 8.0) as usize).clamp(1, 4));
            let mut x0 = low[0];
            for i in 0..n {
                let share = (i + 1) as f64
                    + if i + 1 < n {
                        dice.between(-0.2, 0.2)
                    } else {
                        0.0
                    };
                let x1 = if i + 1 == n {
                    high[0]
                } else {
                    quarter(low[0] + wide * share / n as f64)
                };
                self.room(storey, uses[at % uses.len()], rectangle([x0, y0], [x1, y1]));
                at += 1;
                x0 = x1;
            }
        }
    }

    fn beneath(&mut self, dice: &mut Dice, low: Corner, high: Corner) {
        match dice.below(3) {
            0 => {
                let floor = -quarter(dice.between(6.0, 8.0));
                self.storey("cellar", floor, -floor - 0.75 + 1.5).under = Some("ground");
                self.room("cellar", "storage", rectangle(low, high));
                if dice.chance(0.3)
                    && let Some(r) = self.rooms.last_mut()
                {
                    r.heated = true;
                }
            }
            1 => self.storeys.push(Storey {
                name: "ground",
                floor_ft: 2.0,
                ceiling_ft: 8.0,
                under: Some("crawl"),
                over: "attic",
                pitch_deg: 0.0,
            }),
            _ => self.storeys.push(Storey {
                name: "ground",
                floor_ft: 0.5,
                ceiling_ft: 8.0,
                under: Some("ground"),
                over: "attic",
                pitch_deg: 0.0,
            }),
        }
        if self.storeys.iter().all(|s| s.name != "ground") {
            self.storey("ground", 1.5, quarter(dice.between(7.5, 9.5)));
        }
    }

    /// A wing of one storey: square or with a slanted end, warm or a garage, at times with a
    /// bonus room above it.
    fn wing(&mut self, dice: &mut Dice, from: Corner, floor_ft: f64) {
        let [x, y] = from;
        let (long, deep) = (
            quarter(dice.between(10.0, 22.0)),
            quarter(dice.between(9.0, 14.0)),
        );
        let slant = if dice.chance(0.5) {
            quarter(dice.between(-4.0, 4.0))
        } else {
            0.0
        };
        let outline = vec![
            [x, y],
            [x + long, y],
            [x + long + slant, y + deep],
            [x, y + deep],
        ];
        let roof = dice.one(&["flat roof", "sloped roof", "attic"]);
        let bonus = dice.chance(0.4);
        let s = self.storey("wing", floor_ft, 8.0);
        s.under = Some(dice.one(&["ground", "crawl", "open air"]));
        if s.under == Some("crawl") {
            s.floor_ft = s.floor_ft.max(1.5);
        }
        s.over = if bonus { "attic" } else { roof };
        s.pitch_deg = dice.between(10.0, 45.0);
        let at = s.floor_ft + 9.0;
        self.room(
            "wing",
            if bonus || dice.chance(0.4) {
                "storage"
            } else {
                "living"
            },
            outline.clone(),
        );
        if bonus {
            let s = self.storey("over the wing", at, quarter(dice.between(6.5, 8.0)));
            s.over = "sloped roof";
            s.pitch_deg = dice.between(15.0, 50.0);
            self.room("over the wing", "sleeping", outline);
        }
    }

    pub fn drawn(dice: &mut Dice) -> Self {
        let mut s = Self {
            form: FORMS[dice.below(FORMS.len())],
            ..Self::default()
        };
        let day = ["living", "kitchen", "passage", "bath", "sleeping", "living"];
        let night = ["sleeping", "sleeping", "passage", "bath", "sleeping"];
        let wide = quarter(dice.between(22.0, 40.0));
        let deep = quarter(dice.between(18.0, 30.0));
        let (low, high) = ([0.0, 0.0], [wide, deep]);
        match s.form {
            "cape" => {
                s.beneath(dice, low, high);
                s.rows(dice, "ground", low, high, &day);
                let top = s.storey("upper", 11.5, quarter(dice.between(6.5, 7.5)));
                top.over = "sloped roof";
                top.pitch_deg = dice.between(30.0, 50.0);
                let in_ft = quarter(dice.between(3.0, 6.0));
                s.rows(dice, "upper", [0.0, in_ft], [wide, deep - in_ft], &night);
            }
            "ranch" => {
                let high = [wide * 1.5, deep];
                s.beneath(dice, low, high);
                s.rows(
                    dice,
                    "ground",
                    low,
                    high,
                    &[
                        "living", "kitchen", "sleeping", "bath", "sleeping", "passage",
                    ],
                );
            }
            "split level" => {
                let middle = quarter(wide * dice.between(0.4, 0.6));
                s.storey("low", -3.5, 7.5).under = Some("ground");
                s.storey("ground", 0.75, 8.0).under = Some(dice.one(&["ground", "crawl"]));
                if s.storeys[1].under == Some("crawl") {
                    s.storeys[1].floor_ft = 2.0;
                }
                s.storey("upper", 5.0, 8.0);
                s.rows(
                    dice,
                    "low",
                    [middle, 0.0],
                    high,
                    &["living", "storage", "bath"],
                );
                s.rows(dice, "ground", low, [middle, deep], &day);
                s.rows(dice, "upper", [middle, 0.0], high, &night);
            }
            "rowhouse" => {
                let high = [
                    quarter(dice.between(14.0, 20.0)),
                    quarter(dice.between(30.0, 50.0)),
                ];
                s.party = [dice.chance(0.8), dice.chance(0.8)];
                s.beneath(dice, low, high);
                s.rows(dice, "ground", low, high, &day);
                s.storey("upper", 11.5, 8.5).over = dice.one(&["flat roof", "attic"]);
                s.rows(dice, "upper", low, high, &night);
            }
            _ => {
                s.beneath(dice, low, high);
                s.rows(dice, "ground", low, high, &day);
                let out = if dice.chance(0.2) { 1.5 } else { 0.0 };
                let top = s.storey("upper", 11.5, quarter(dice.between(7.0, 8.5)));
                top.over = dice.one(&["attic", "attic", "flat roof"]);
                top.under = (out > 0.0).then_some("open air");
                s.rows(dice, "upper", [0.0, -out], high, &night);
                if s.form != "two-storey" {
                    let from = high_side(high, dice);
                    s.wing(dice, from, 0.75);
                }
            }
        }
        if s.form == "ranch" && dice.chance(0.4) {
            s.wing(dice, [wide * 1.5, 2.0], 0.75);
        }
        s
    }

    /// Whether a wall of a room looks outside along its whole length, and its length in feet.
    pub fn outside(&self, room: usize, wall: usize) -> Option<f64> {
        let r = &self.rooms[room];
        let (a, b) = (r.outline[wall], r.outline[(wall + 1) % r.outline.len()]);
        let long = (b[0] - a[0]).hypot(b[1] - a[1]);
        let out = [(b[1] - a[1]) / long * 0.3, -(b[0] - a[0]) / long * 0.3];
        let free = (0..=20).all(|i| {
            let t = 0.01 + 0.98 * f64::from(i) / 20.0;
            let p = [
                a[0] + (b[0] - a[0]) * t + out[0],
                a[1] + (b[1] - a[1]) * t + out[1],
            ];
            let level = |r: &Room| {
                self.storeys
                    .iter()
                    .find(|s| s.name == r.storey)
                    .map_or((0.0, 0.0), |s| (s.floor_ft, s.floor_ft + s.ceiling_ft))
            };
            let own = level(r);
            !self.rooms.iter().any(|o| {
                let l = level(o);
                l.0 < own.1 && own.0 < l.1 && inside(p, &o.outline)
            })
        });
        free.then_some(long)
    }

    /// Two rooms of one storey that share enough of a wall for a door.
    pub fn share_a_wall(&self, a: usize, b: usize) -> bool {
        let (ra, rb) = (&self.rooms[a], &self.rooms[b]);
        ra.storey == rb.storey
            && ra.outline.iter().enumerate().any(|(i, p)| {
                let q = ra.outline[(i + 1) % ra.outline.len()];
                let long = (q[0] - p[0]).hypot(q[1] - p[1]);
                let out = [(q[1] - p[1]) / long * 0.3, -(q[0] - p[0]) / long * 0.3];
                let hits = (0..40)
                    .filter(|k| {
                        let t = (f64::from(*k) + 0.5) / 40.0;
                        inside(
                            [
                                p[0] + (q[0] - p[0]) * t + out[0],
                                p[1] + (q[1] - p[1]) * t + out[1],
                            ],
                            &rb.outline,
                        )
                    })
                    .count();
                hits as f64 / 40.0 * long > 4.0
            })
    }
}

/// Whether the middle of one lies within the other.
pub fn over(a: &Room, b: &Room) -> bool {
    let middle = |r: &Room| {
        let n = r.outline.len() as f64;
        r.outline
            .iter()
            .fold([0.0, 0.0], |s, c| [s[0] + c[0] / n, s[1] + c[1] / n])
    };
    inside(middle(a), &b.outline) || inside(middle(b), &a.outline)
}

fn high_side(high: Corner, dice: &mut Dice) -> Corner {
    [high[0], quarter(dice.between(0.0, high[1] - 14.0).max(0.0))]
}

pub fn inside(p: Corner, outline: &[Corner]) -> bool {
    let mut odd = false;
    for (i, a) in outline.iter().enumerate() {
        let b = outline[(i + 1) % outline.len()];
        if (a[1] > p[1]) != (b[1] > p[1])
            && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
        {
            odd = !odd;
        }
    }
    odd
}
