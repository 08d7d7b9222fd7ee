#![no_main]
//! Lines of specification lists.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::specification(bytes));
