#![no_main]
//! Pasted tables, and spreadsheet files.

use spandrel::frameset::take::{Reading, read_bytes, report};

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Ok(mut reading) = read_bytes(bytes) else { return };
    is_sound(&reading);
    // Every question is answered, one after the other, with its last choice.
    for _ in 0..20 {
        let Some((subject, last)) = reading.open_questions().next().map(|q| (q.subject.clone(), q.choices.len() - 1)) else {
            break;
        };
        reading.answer(&subject, last);
    }
    is_sound(&reading);
});

fn is_sound(reading: &Reading) {
    assert!(!report(reading).is_empty());
    if let Ok(frameset) = reading.to_frameset("Marrowby", "Drift") {
        spandrel_fuzz::comes_back(&frameset);
    }
}
