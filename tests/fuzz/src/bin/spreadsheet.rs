#![no_main]
//! Spreadsheets.

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| spandrel_fuzz::spreadsheet(bytes));
