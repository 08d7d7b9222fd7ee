#![no_main]
//! Headset codes.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::headset_code(bytes));
