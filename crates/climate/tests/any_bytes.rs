//! Whatever bytes come, the readers answer and do not fall.

use climate::{read_any, read_epw, read_tmy3};
use proptest::prelude::*;
use std::io::Read as _;

fn start_of_denver() -> Vec<u8> {
    let path = format!(
        "{}/../../weather/denver-725650.epw.gz",
        env!("CARGO_MANIFEST_DIR")
    );
    let packed = std::fs::read(path).expect("shipped");
    let mut plain = Vec::new();
    flate2::read::GzDecoder::new(&packed[..])
        .read_to_end(&mut plain)
        .expect("gzip");
    plain.truncate(6000);
    plain
}

proptest! {
    #[test]
    fn any_bytes_are_refused(bytes in proptest::collection::vec(any::<u8>(), 0..2000)) {
        prop_assert!(read_any(&bytes).is_err());
        prop_assert!(read_epw(&bytes).is_err());
        prop_assert!(read_tmy3(&bytes).is_err());
    }

    #[test]
    fn any_cells_are_refused(text in "LOCATION(,[-0-9.a-z]{0,6}){0,12}(\r|\n|\r\n)(DATA PERIODS,1,1,Data,Sunday\n)?([-0-9.,]{0,80}\n){0,9}") {
        prop_assert!(read_any(text.as_bytes()).is_err());
        prop_assert!(read_tmy3(text.as_bytes()).is_err());
    }

    /// A real beginning with one byte changed and a cut anywhere.
    #[test]
    fn a_damaged_file_is_refused(at in 0usize..6000, byte in any::<u8>(), cut in 0usize..6000) {
        let mut bytes = start_of_denver();
        if let Some(b) = bytes.get_mut(at) {
            *b = byte;
        }
        bytes.truncate(cut);
        let says = read_any(&bytes).map(|_| ()).expect_err("no whole year").to_string();
        prop_assert!(says.len() > 20 && says.len() < 400, "{}", says);
    }
}
