#![no_main]
//! Frame files.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::frame_file(bytes));
