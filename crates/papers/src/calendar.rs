//! Days that come back: filters, coil, visit, and the review after the second winter, as a
//! calendar file (RFC 5545).

use crate::desk::Input;

/// Bytes of a line before it is folded.
const LONGEST_LINE: usize = 74;

/// A calendar; `None` where the job names no day of installation or hand-over.
pub fn calendar(input: &Input<'_>) -> Option<String> {
    let words = input.words();
    let from = input
        .day("handed_over")
        .or_else(|| input.day("installed"))?;
    let [year, month, day] = parts(from)?;
    let stamp = format!("{year:04}{month:02}{day:02}");
    let mut out = Vec::new();
    line(&mut out, "BEGIN:VCALENDAR");
    line(&mut out, "VERSION:2.0");
    line(&mut out, "PRODID:-//Northwall//papers//EN");
    line(&mut out, "CALSCALE:GREGORIAN");
    let (next_year, next_month) = if month == 12 {
        (year + 1, 1)
    } else {
        (year, month + 1)
    };
    // A day every month has.
    let filter = format!("{next_year:04}{next_month:02}{:02}", day.min(28));
    // The winter the work falls into is the first; the next whole one is the second.
    let review = format!("{:04}0501", year + 2);
    let spring = format!("{:04}0415", year + 1);
    let visit = format!("{:04}1001", year + 2);
    let events = [
        ("filter", filter, "FREQ=MONTHLY", "owner.care-filter"),
        (
            "coil",
            spring,
            "FREQ=YEARLY;BYMONTH=4,10",
            "owner.care-leaves",
        ),
        ("visit", visit, "FREQ=YEARLY;INTERVAL=2", "owner.care-visit"),
        ("review", review, "", "owner.care-review"),
    ];
    for (name, start, rule, key) in events {
        line(&mut out, "BEGIN:VEVENT");
        line(
            &mut out,
            &format!("UID:{name}-{}@northwall.invalid", input.issue.code),
        );
        line(&mut out, &format!("DTSTAMP:{stamp}T000000Z"));
        line(&mut out, &format!("DTSTART;VALUE=DATE:{start}"));
        if !rule.is_empty() {
            line(&mut out, &format!("RRULE:{rule}"));
        }
        line(&mut out, &format!("SUMMARY:{}", escaped(&words.say(key))));
        line(&mut out, &format!("DESCRIPTION:{}", escaped(&about(input))));
        line(&mut out, "TRANSP:TRANSPARENT");
        line(&mut out, "END:VEVENT");
    }
    line(&mut out, "END:VCALENDAR");
    Some(out.concat())
}

fn about(input: &Input<'_>) -> String {
    let firm = input.job.paperwork.firm.as_ref();
    let firm = firm.map(|f| {
        let phone = f.phone.clone().unwrap_or_default();
        format!("{}, {phone}", f.name)
    });
    let all = [Some(input.job.name.clone()), firm];
    all.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// Year, month, day of a day as typed.
pub(crate) fn parts(day: &str) -> Option<[u32; 3]> {
    let mut parts = day.split('-').map(|p| p.parse::<u32>().ok());
    let all = [parts.next()??, parts.next()??, parts.next()??];
    let [year, month, day] = all;
    ((1..=9997).contains(&year) && (1..=12).contains(&month) && (1..=31).contains(&day))
        .then_some(all)
}

fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => {
                out.push('\\');
                out.push(c);
            }
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// A line, folded between characters where it is long.
fn line(out: &mut Vec<String>, text: &str) {
    let mut folded = String::new();
    let mut bytes = 0;
    for c in text.chars() {
        if bytes + c.len_utf8() > LONGEST_LINE {
            folded.push_str("\r\n ");
            bytes = 1;
        }
        folded.push(c);
        bytes += c.len_utf8();
    }
    folded.push_str("\r\n");
    out.push(folded);
}
