#![no_main]
//! Headset codes.

use spandrel::parts::standards::{End, Headset, HeadsetEnd};

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    for end in [End::Upper, End::Lower] {
        if let Ok(read) = HeadsetEnd::read(end, text) {
            assert_eq!(HeadsetEnd::read(end, &read.to_string()).as_ref(), Ok(&read), "{text:?} as {read}");
        }
    }
    // A whole headset is not written back: its two ends are.
    drop(Headset::read(text));
});
