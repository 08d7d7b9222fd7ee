#![no_main]
//! Tyre designations and trade names of wheels.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::tyre_designation(bytes));
