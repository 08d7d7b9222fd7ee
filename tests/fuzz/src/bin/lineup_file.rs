#![no_main]
//! Line-up files.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::lineup_file(bytes));
