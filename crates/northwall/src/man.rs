//! The man page: one page for all commands, each with its own flags.

use clap::{Command, CommandFactory};
use clap_mangen::Man;

use crate::arguments::Arguments;

/// The page as roff.
pub fn page() -> std::io::Result<Vec<u8>> {
    let mut all = Arguments::command();
    all.build();
    let mut out = Vec::new();
    let man = Man::new(all.clone());
    man.render_title(&mut out)?;
    man.render_name_section(&mut out)?;
    man.render_synopsis_section(&mut out)?;
    man.render_description_section(&mut out)?;
    man.render_options_section(&mut out)?;
    out.extend_from_slice(b".SH COMMANDS\n");
    for command in shown(&all) {
        one(command, &mut out)?;
        for under in shown(command) {
            one(under, &mut out)?;
        }
    }
    man.render_extra_section(&mut out)?;
    man.render_version_section(&mut out)?;
    Ok(out)
}

fn shown(of: &Command) -> impl Iterator<Item = &Command> {
    of.get_subcommands()
        .filter(|c| !c.is_hide_set() && c.get_name() != "help")
}

/// A command under its name, without the flags that all have.
fn one(command: &Command, out: &mut Vec<u8>) -> std::io::Result<()> {
    let own = command.clone().mut_args(|a| {
        let usual = a.is_global_set() || a.get_id() == "help";
        a.hide(usual)
    });
    let name = own.get_bin_name().unwrap_or(own.get_name()).to_owned();
    let has_flags = own.get_arguments().any(|a| !a.is_hide_set());
    let man = Man::new(own);
    let mut body = Vec::new();
    man.render_synopsis_section(&mut body)?;
    man.render_description_section(&mut body)?;
    if has_flags {
        man.render_options_section(&mut body)?;
    }
    // one heading a command: what stands under it goes without its own
    out.extend_from_slice(format!(".SS {name}\n").as_bytes());
    for line in String::from_utf8_lossy(&body).lines() {
        if line.starts_with(".SH ") {
            out.extend_from_slice(b".PP\n");
        } else if !line.starts_with(".ie ") && !line.starts_with(".el ") {
            out.extend_from_slice(line.as_bytes());
            out.push(b'\n');
        }
    }
    Ok(())
}
