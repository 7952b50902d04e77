//! Whatever bytes come, the readers answer and do not fall; what they refuse they say shortly.

use std::path::Path;

use proptest::prelude::*;
use review::{Asked, Days, kind_of, observations, read_deliveries, read_espi, read_meter};

fn answered(bytes: &[u8]) {
    let mut said = Vec::new();
    said.extend(kind_of(bytes).err());
    said.extend(read_deliveries(bytes, &Asked::default()).err());
    said.extend(read_espi(bytes, Some(-21_600)).err());
    said.extend(Days::read_csv(bytes).err());
    match read_meter(bytes, &Asked::default()) {
        Ok(read) => {
            // what was read can be fitted or is refused; bills never run backwards
            assert!(
                read.bills
                    .periods
                    .iter()
                    .all(|p| p.days() > 0 && p.energy_j >= 0.0)
            );
            let days = Days {
                first: 0,
                mean_c: vec![Some(5.0); 100],
                typical: false,
                notes: Vec::new(),
            };
            let (seen, _) = observations(&read.bills, &days);
            said.extend(review::fit(seen, true, false).err());
        }
        Err(refused) => said.push(refused),
    }
    for refused in said {
        let text = refused.to_string();
        assert!(text.len() > 20 && text.len() < 700, "{text}");
    }
}

fn gas() -> Vec<u8> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/feeds/gas.xml");
    std::fs::read(path).expect("kept")
}

proptest! {
    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..1500)) {
        answered(&bytes);
    }

    #[test]
    fn any_table(text in "(from|date|Read Date|delivered),(to|use kWh|therms|gallons oil),(use|full|est|unit)\n([-0-9/.a-zA-Z\"()]{0,9}(,|;|\n)){0,40}") {
        answered(text.as_bytes());
    }

    #[test]
    fn any_dates(text in "from,to,use kWh\n([0-9]{1,4}[-/.][0-9]{1,2}[-/.][0-9]{1,4},[0-9]{1,4}[-/.][0-9]{1,2}[-/.][0-9]{1,4},[0-9]{1,5}\n){1,30}") {
        answered(text.as_bytes());
    }

    /// A real feed with some bytes changed and a cut anywhere.
    #[test]
    fn a_damaged_feed(changes in proptest::collection::vec((0usize..4800, any::<u8>()), 0..6), cut in 0usize..6000) {
        let mut bytes = gas();
        for (at, byte) in changes {
            if let Some(b) = bytes.get_mut(at) {
                *b = byte;
            }
        }
        bytes.truncate(cut);
        answered(&bytes);
    }
}
