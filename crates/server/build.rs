//! Says when the page was not built. Never builds it: `make page` does.

fn main() {
    println!("cargo::rerun-if-changed=../../web/dist");
    println!("cargo::rerun-if-changed=../../catalogue");
    println!("cargo::rerun-if-env-changed=NORTHWALL_PAGE");
    let there = std::path::Path::new("../../web/dist/index.html").is_file();
    let wanted = std::env::var("NORTHWALL_PAGE").is_ok_and(|v| v == "required");
    assert!(
        there || !wanted,
        "web/dist is not there, and NORTHWALL_PAGE=required asks for it: build the page first"
    );
}
