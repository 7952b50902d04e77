//! What may go wrong around the program: disks, networks, clocks, databases, versions.
#![cfg(target_os = "linux")]

#[path = "../../store/tests/support/mod.rs"]
mod database;
#[path = "faults/disk.rs"]
mod disk;
#[path = "faults/network.rs"]
mod network;
mod served;
#[path = "faults/versions.rs"]
mod versions;
