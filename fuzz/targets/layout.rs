//! What is right is printed, whatever it is, on any sheet.
#![no_main]

use libfuzzer_sys::fuzz_target;
use setwright_fuzz::inputs::{knobs, text};
use setwright_fuzz::laws::prints;

fuzz_target!(|bytes: &[u8]| prints(&text(bytes), knobs(bytes)));
