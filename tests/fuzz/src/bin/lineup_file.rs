#![no_main]
//! Line-up files.

use spandrel::lineup::{Findings, read_lineup, write_lineup};

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if let Ok(lineup) = read_lineup(bytes) {
        let text = write_lineup(&lineup).expect("a line-up can be written");
        let again = read_lineup(text.as_bytes()).unwrap_or_else(|e| panic!("{e}\n{text}"));
        assert_eq!(again, lineup, "{text}");
        let findings = Findings::of(&lineup);
        for frame in 0..findings.frames.len() {
            for figure in spandrel::frameset::Figure::ALL {
                if let Some(difference) = findings.difference(frame, *figure) {
                    assert!(difference.value.is_finite() && difference.u.is_finite(), "{figure:?} {difference:?}");
                }
            }
        }
    }
});
