//! Inputs of the installation that cannot be used are refused, with the place and how to mend.

mod support;

/// Tables with one thing wrong, and a word the complaint must have: the key it is about.
const BAD: &[(&str, &str)] = &[
    ("[codes]\nelectrical = 2023", "electrical"),
    ("[codes]\nelectrical = \"\"", "electrical"),
    ("[codes]\ninstall_day = \"7 Dec\"", "install_day"),
    ("[codes]\ninstall_day = \"2026-13-01\"", "install_day"),
    ("[codes]\nedition = \"2023\"", "edition"),
    ("[[outdoor_place]]\non = \"stand\"", "outdoor"),
    ("[[outdoor_place]]\noutdoor = \"nobody\"", "outdoor"),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\non = \"string\"",
        "on",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nwall = \"left\"",
        "wall",
    ),
    ("[[outdoor_place]]\noutdoor = \"out\"\nbase = 24", "base"),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nbase = \"24\"",
        "base",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nbase = \"-1 in\"",
        "base",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nbase = \"24 psi\"",
        "base",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\ndryer = \"-3 ft\"",
        "dryer",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\ndryer = \"near\"",
        "dryer",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nfaces_wind = \"yes\"",
        "faces_wind",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nice_area = \"0 ft2\"",
        "ice_area",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nfixings = 0",
        "fixings",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nfixings = 2.5",
        "fixings",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\nfixed_to = \"hope\"",
        "fixed_to",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\naround = \"4\"",
        "around",
    ),
    (
        "[[outdoor_place]]\noutdoor = \"out\"\n[[outdoor_place]]\noutdoor = \"out\"",
        "outdoor",
    ),
    ("[[head_place]]\nhead = \"attic\"", "head"),
    ("[[head_place]]\nhead = \"living\"\nat = \"3 ft\"", "at"),
    (
        "[[head_place]]\nhead = \"living\"\nblows = \"south\"",
        "blows",
    ),
    (
        "[[head_place]]\nhead = \"living\"\nheight = \"40 ft\"",
        "height",
    ),
    ("[[head_place]]\nhead = \"living\"\nseats = []", "seats"),
    (
        "[[head_place]]\nhead = \"living\"\nseats = [\"3\"]",
        "seats",
    ),
    (
        "[[head_place]]\nhead = \"living\"\nfixed_to = \"air\"",
        "fixed_to",
    ),
    ("[[listener]]\nname = \"n\"", "hears"),
    (
        "[[listener]]\nname = \"n\"\nhears = [{ outdoor = \"out\" }]",
        "distance",
    ),
    (
        "[[listener]]\nname = \"n\"\nhears = [{ outdoor = \"x\", distance = \"9 ft\" }]",
        "outdoor",
    ),
    (
        "[[listener]]\nname = \"n\"\nhears = [{ outdoor = \"out\", distance = \"0 ft\" }]",
        "distance",
    ),
    (
        "[[listener]]\nname = \"n\"\nhears = [{ outdoor = \"out\", distance = \"9 ft\" }]\nnight = 45",
        "night",
    ),
    (
        "[[listener]]\nname = \"n\"\nhears = [{ outdoor = \"out\", distance = \"9 ft\" }]\nnight = \"450 dB(A)\"",
        "night",
    ),
    ("[[line]]\nhead = \"living\"", "pieces"),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\" }]",
        "length",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ length = \"3 m\" }]",
        "name",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"0 m\" }]",
        "length",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\", bends = -1 }]",
        "bends",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\", rise = \"90 m\" }]",
        "rise",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\" }]\nliquid = \"3 in\"",
        "liquid",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\" }]\ntest_pressure = \"600\"",
        "test_pressure",
    ),
    (
        "[[line]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\" }]\ntest_pressure = \"6000 psi\"",
        "test_pressure",
    ),
    (
        "[[drain]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\", fall = \"1/4\" }]",
        "fall",
    ),
    (
        "[[drain]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\" }]\nends = \"neighbour\"",
        "ends",
    ),
    (
        "[[drain]]\nhead = \"living\"\npieces = [{ name = \"w\", length = \"3 m\" }]\npump_lift = \"-1 ft\"",
        "pump_lift",
    ),
    ("[[circuit]]\noutdoor = \"out\"\nwire = \"10\"", "wire"),
    (
        "[[circuit]]\noutdoor = \"out\"\nbreaker = \"35\"",
        "breaker",
    ),
    (
        "[[circuit]]\noutdoor = \"out\"\nbreaker = \"350 A\"",
        "breaker",
    ),
    (
        "[[circuit]]\noutdoor = \"out\"\nterminals = \"20 C\"",
        "terminals",
    ),
    ("[[circuit]]\noutdoor = \"out\"\nvolts = \"24 V\"", "volts"),
    (
        "[[circuit]]\noutdoor = \"out\"\nground_fault = \"maybe\"",
        "ground_fault",
    ),
    ("[[circuit]]\nwire = 10", "outdoor"),
    ("[panel]\nrating = 100", "rating"),
    ("[panel]\nrating = \"3 A\"", "rating"),
    ("[panel]\nappliances = [{ name = \"range\" }]", "power"),
    ("[panel]\ndays = 0", "days"),
    ("[panel]\nsolar = \"no\"", "solar"),
    (
        "[[requirement]]\nof = \"moon\"\nat_least = \"3 ft\"\nsource = \"s\"",
        "of",
    ),
    (
        "[[requirement]]\nof = \"dryer\"\nat_least = \"3 ft\"",
        "source",
    ),
    ("[[weighing]]\ncylinder = \"7\"", "outdoor"),
    (
        "[[weighing]]\ncylinder = \"7\"\noutdoor = \"out\"\nrefrigerant = \"R-32\"\nday = \"2026-12-07\"\nbefore = \"9\"\nafter = \"8 kg\"\nwho = \"A\"",
        "before",
    ),
    (
        "[[tool]]\nname = \"scale\"\ncalibrated_until = \"soon\"",
        "calibrated_until",
    ),
];

#[test]
fn bad_inputs_are_refused_where_they_stand() {
    assert!(BAD.len() >= 50, "{}", BAD.len());
    for (text, key) in BAD {
        let problems = jobfile::read(&support::job_text(text))
            .err()
            .unwrap_or_default();
        assert!(!problems.is_empty(), "taken: {text}");
        let said = format!("{problems:?}");
        assert!(said.contains(key), "{text}\n{said}");
    }
    assert!(jobfile::read(&support::job_text("")).is_ok());
}
