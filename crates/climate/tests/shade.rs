//! Shade by hand, by crossed strings and by counting rays.

use climate::shade::{Fin, Overhang, ShadedWindow, SunSide, sky_shares, sun_side, sunlit_share};
use proptest::prelude::*;

/// Unit vector from across : up : out.
fn sun(across: f64, up: f64, out: f64) -> SunSide {
    let length = (across * across + up * up + out * out).sqrt();
    SunSide {
        across: across / length,
        up: up / length,
        out: out / length,
    }
}

/// Standard 140 case 610: window 3 x 2 m, overhang 1 m deep, 0.5 m above, past both sides.
fn case_610() -> ShadedWindow {
    ShadedWindow {
        width_m: 3.0,
        height_m: 2.0,
        overhang: Some(Overhang {
            depth_m: 1.0,
            above_m: 0.5,
            past_left_m: 0.5,
            past_right_m: 4.5,
        }),
        left_fin: None,
        right_fin: None,
    }
}

/// Standard 140 case 630: the same overhang as wide as the window, fins at its edges from the
/// sill up to the overhang.
fn case_630() -> ShadedWindow {
    let fin = Fin {
        depth_m: 1.0,
        beside_m: 0.0,
        past_top_m: 0.5,
        past_bottom_m: 0.0,
    };
    ShadedWindow {
        width_m: 3.0,
        height_m: 2.0,
        overhang: Some(Overhang {
            depth_m: 1.0,
            above_m: 0.5,
            past_left_m: 0.0,
            past_right_m: 0.0,
        }),
        left_fin: Some(fin),
        right_fin: Some(fin),
    }
}

#[track_caller]
fn near(got: f64, want: f64) {
    assert!((got - want).abs() < 1e-12, "{got} against {want}");
}

/// By hand; the numbers are simple fractions, so the tolerance is that of the arithmetic.
#[test]
fn overhang_by_hand() {
    // Straight ahead, drop 1 per metre out: shadow edge 1 m below the plate, 0.5 m of 2 dark.
    near(sunlit_share(&case_610(), sun(0.0, 1.0, 1.0)), 0.75);
    // Drop 2.5: the edge reaches the sill.
    near(sunlit_share(&case_610(), sun(0.0, 2.5, 1.0)), 0.0);
    // Drop 0.5: the edge just touches the top.
    near(sunlit_share(&case_610(), sun(0.0, 0.5, 1.0)), 1.0);
    // Sun from the left (across -1): the shadow slides right by its drop. Its left edge runs from
    // (-0.5, 2.5) to (0.5, 1.5): it cuts the window's top left corner off the dark strip, a
    // triangle of 0.5 x 0.5. Dark 3 x 0.5 - 0.125 = 1.375 of 6.
    near(
        sunlit_share(&case_610(), sun(-1.0, 1.0, 1.0)),
        1.0 - 1.375 / 6.0,
    );
    // From the right the plate is long enough.
    near(sunlit_share(&case_610(), sun(1.0, 1.0, 1.0)), 0.75);
    // Behind the wall, and from below.
    near(sunlit_share(&case_610(), sun(0.0, 1.0, -1.0)), 0.0);
    near(sunlit_share(&case_610(), sun(0.0, -1.0, 1.0)), 1.0);
}

/// By hand, as above.
#[test]
fn fins_by_hand() {
    // Level sun from the right, 45 degrees: the right fin darkens 1 m of 3.
    near(sunlit_share(&case_630(), sun(1.0, 0.0, 1.0)), 2.0 / 3.0);
    near(sunlit_share(&case_630(), sun(-1.0, 0.0, 1.0)), 2.0 / 3.0);
    // Up 1 as well: fin and overhang together darken all but 2 m x 1.5 m: overhang's strip is
    // 0.5 m, fin's strip 1 m wide down to the sill but for a triangle of 1 x 1 under the slanted
    // end of its shadow... which lies below the sill. Sunlit 2 x 1.5 of 6.
    near(sunlit_share(&case_630(), sun(1.0, 1.0, 1.0)), 0.5);
    // Straight ahead only the overhang counts.
    near(sunlit_share(&case_630(), sun(0.0, 1.0, 1.0)), 0.75);
}

/// By hand: south wall at an equinox noon at 40 N; the sun is due south, 50 degrees up.
#[test]
fn axes_of_a_wall() {
    let (up, south) = (50.0_f64.to_radians().sin(), 50.0_f64.to_radians().cos());
    let s = sun_side(0.0, -south, up, 180.0);
    assert!(s.across.abs() < 1e-12 && (s.out - south).abs() < 1e-12);
    // An east wall has the south on its left, seen from outside.
    let s = sun_side(0.0, -1.0, 0.0, 90.0);
    assert!((s.across + 1.0).abs() < 1e-12, "{s:?}");
}

/// Crossed strings: window 2 m, long plate 1 m deep 0.5 m above sees
/// (2.5 + sqrt(1.25) - 0.5 - sqrt(7.25)) / 4 = 0.10636 of the half space, of 0.5 that is sky.
/// 0.003: the 24 by 24 directions.
#[test]
fn sky_past_a_long_overhang() {
    let mut window = case_610();
    window.overhang = Some(Overhang {
        depth_m: 1.0,
        above_m: 0.5,
        past_left_m: 100.0,
        past_right_m: 100.0,
    });
    let seen = (2.5 + 1.25_f64.sqrt() - 0.5 - 7.25_f64.sqrt()) / 4.0;
    let shares = sky_shares(&window);
    assert!(
        (shares.sky - (1.0 - seen / 0.5)).abs() < 0.003,
        "{shares:?}"
    );
    assert_eq!((shares.horizon, shares.ground), (1.0, 1.0));
    window.overhang = None;
    assert_eq!(sky_shares(&window).sky, 1.0);
    let fins = sky_shares(&case_630());
    assert!(
        fins.sky < shares.sky && fins.ground < 1.0 && fins.horizon < 1.0,
        "{fins:?}"
    );
    // Upright and without an overhang, above and below are alike but for the fins' ends.
    let fin = Fin {
        depth_m: 1.0,
        beside_m: 0.0,
        past_top_m: 0.3,
        past_bottom_m: 0.3,
    };
    let between = ShadedWindow {
        overhang: None,
        left_fin: Some(fin),
        right_fin: Some(fin),
        ..window
    };
    let shares = sky_shares(&between);
    assert!((shares.sky - shares.ground).abs() < 1e-9, "{shares:?}");
}

#[test]
fn measures_that_cannot_be() {
    let mut window = case_630();
    window.width_m = 0.0;
    let says = |w: ShadedWindow| w.checked().map(|_| ()).map_err(|e| e.to_string());
    assert_eq!(
        says(window),
        Err("shade of a window: width is 0 m, usable above 0 to 100 m".to_owned())
    );
    window.width_m = 3.0;
    window.left_fin = Some(Fin {
        depth_m: f64::NAN,
        beside_m: 0.0,
        past_top_m: 0.0,
        past_bottom_m: 0.0,
    });
    assert_eq!(
        says(window),
        Err("shade of a window: fin depth is NaN m, usable 0 to 100 m".to_owned())
    );
    assert_eq!(says(case_630()), Ok(()));
}

/// Whether a ray from a point of the window to the sun passes all plates.
fn passes(w: &ShadedWindow, (x, y): (f64, f64), sun: SunSide) -> bool {
    let hits_overhang = w.overhang.is_some_and(|o| {
        let rise = w.height_m + o.above_m - y;
        let out = rise * sun.out / sun.up;
        let across = x + rise * sun.across / sun.up;
        sun.up > 0.0
            && out <= o.depth_m
            && (-o.past_left_m..=w.width_m + o.past_right_m).contains(&across)
    });
    let hits = |at: f64, f: Option<Fin>| {
        f.is_some_and(|f| {
            let run = (at - x) / sun.across;
            let (out, up) = (run * sun.out, y + run * sun.up);
            run > 0.0
                && out <= f.depth_m
                && (-f.past_bottom_m..=w.height_m + f.past_top_m).contains(&up)
        })
    };
    let left = hits(w.left_fin.map_or(0.0, |f| -f.beside_m), w.left_fin);
    let right = hits(
        w.width_m + w.right_fin.map_or(0.0, |f| f.beside_m),
        w.right_fin,
    );
    !(hits_overhang || left || right)
}

fn fins() -> impl Strategy<Value = Option<Fin>> {
    proptest::option::of(
        (0.0..2.0, 0.0..1.0, 0.0..1.0, 0.0..1.0).prop_map(|(d, b, t, s)| Fin {
            depth_m: d,
            beside_m: b,
            past_top_m: t,
            past_bottom_m: s,
        }),
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Counting rays on a grid of 80 by 80: edges of shadows cut at most a few rows of cells, so
    /// 0.03 of the area.
    #[test]
    fn as_counted_ray_by_ray(
        (w, h) in (0.4..4.0, 0.4..3.0),
        hang in proptest::option::of((0.0..3.0, 0.0..1.0, 0.0..2.0, 0.0..2.0)),
        left_fin in fins(),
        right_fin in fins(),
        (across, up, out) in (-2.0..2.0, 0.01..3.0, 0.05..2.0),
    ) {
        let overhang = hang.map(|(depth_m, above_m, past_left_m, past_right_m)| Overhang {
            depth_m, above_m, past_left_m, past_right_m,
        });
        let window = ShadedWindow { width_m: w, height_m: h, overhang, left_fin, right_fin };
        let sun = sun(across, up, out);
        let n = 80;
        let mut lit = 0;
        for i in 0..n {
            for k in 0..n {
                let at = |j: i32, of: f64| (f64::from(j) + 0.5) / f64::from(n) * of;
                lit += i32::from(passes(&window, (at(i, w), at(k, h)), sun));
            }
        }
        let counted = f64::from(lit) / f64::from(n * n);
        let ours = sunlit_share(&window, sun);
        prop_assert!((ours - counted).abs() < 0.03, "{} against {}", ours, counted);
    }
}
