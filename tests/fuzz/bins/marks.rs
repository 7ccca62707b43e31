#![no_main]
libfuzzer_sys::fuzz_target!(|data: &[u8]| hilum_fuzz::tried("marks", data));
