#![no_main]
//! Tyre designations and trade names of wheels.

use spandrel::frameset::TyreSize;
use spandrel::parts::standards::named_tyre;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for tyre in [text.parse::<TyreSize>().ok(), named_tyre(text).ok()].into_iter().flatten() {
        assert!((90.0..=600.0).contains(&tyre.radius_mm()), "{tyre}");
        assert_eq!(tyre.to_string().parse::<TyreSize>(), Ok(tyre));
    }
});
