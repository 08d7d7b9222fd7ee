#![no_main]
//! Frame files.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if let Ok(frameset) = spandrel::frameset::read_frameset(bytes) {
        spandrel_fuzz::comes_back(&frameset);
        spandrel_fuzz::answers_without_nan(&frameset);
    }
});
