#![no_main]
//! Pictures that carry a comparison.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::carried_png(bytes));
