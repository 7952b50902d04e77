#[path = "../tests/support/mod.rs"]
mod support;
use support::Site;
fn main() {
    let site = Site::lake_street();
    let choices = site.job.choices();
    for pass in 0..2 {
        for c in &choices {
            let t = std::time::Instant::now();
            let y = season::year(&site.input(c)).unwrap();
            let dt = t.elapsed();
            println!(
                "{} {:?} zones {} unsettled {} closure {:e}",
                c.name,
                dt,
                site.model.zones.len(),
                y.unsettled_hours,
                y.closure
            );
            if pass == 0 {
                continue;
            }
            println!("{:#?}", season::Row::of(&y));
            for u in &y.units {
                println!(
                    "{} {} hours {:?} heat {:?} COP {:?} {:?} need {:?} bal {:?} cyc {:?} des {:?} {:?} el {:?}",
                    u.name,
                    u.sheet,
                    u.hours,
                    u.heat_by_regime_j.map(|j| (j / 3.6e6).round()),
                    u.seasonal_cop(),
                    u.seasonal_cop_with_standby(),
                    u.need,
                    u.balance,
                    u.cycles_above,
                    u.at_design,
                    u.need_at_design_w,
                    u.electric
                );
                for h in &u.heads {
                    println!("   {h:?}");
                }
            }
            for r in &y.rooms {
                println!(
                    "{:10} heads {:7.0} heaters {:7.0} cool {:6.0} short1 {} short2 {} dh {:.0} u62 {} full {} least {:.1} mean {:.1} most {:.1} coldest {:.1} peak {:.0}",
                    r.name,
                    r.by_heads_j / 3.6e6,
                    r.by_heaters_j / 3.6e6,
                    r.cooling_j / 3.6e6,
                    r.short_1k_h,
                    r.short_2k_h,
                    r.short_k_h,
                    r.under_62f_h,
                    r.head_full_h,
                    r.least_c,
                    r.mean_c,
                    r.greatest_c,
                    r.at_coldest_c,
                    r.heating_peak.w
                );
            }
            println!("{:?}", y.bought);
            for f in season::findings(&site.input(c), &y) {
                println!(
                    "{:?} {} [{}] {} | {} | {} | {}",
                    f.level, f.rule, f.place, f.says, f.found, f.required, f.mend
                );
            }
            let mut book = reckon::Book::new();
            season::explain(&site.input(c), &y, &mut book).unwrap();
            println!("{} figures", book.len());
            for u in &y.units {
                println!("{:?}", u.cop_by_bin);
            }
            println!("{:?} need {:?} {:?}", y.design, y.need, y.balance);
        }
    }
    let b = season::baseline(&site.input(&choices[0])).unwrap().unwrap();
    println!("{:#?}", season::Row::of(&b));
    let t = std::time::Instant::now();
    let i = house::ideal::year_on(
        &site.model,
        &site.glasses,
        &site.drive,
        house::balance::Doors::AsUsual,
    )
    .unwrap();
    println!(
        "ideal {:?} it {} heat {}",
        t.elapsed(),
        i.iterations_per_step,
        i.heating_j / 3.6e6
    );
}
