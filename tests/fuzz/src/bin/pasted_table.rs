#![no_main]
//! Pasted tables, and files offered as tables.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::pasted_table(bytes));
