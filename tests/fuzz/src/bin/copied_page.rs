#![no_main]
//! Web pages as they are copied.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::copied_page(bytes));
