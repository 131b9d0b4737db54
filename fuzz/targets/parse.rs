//! Any text reads, and what is wrong with it lies in it.
#![no_main]

use libfuzzer_sys::fuzz_target;
use setwright_fuzz::inputs::text;
use setwright_fuzz::laws::parses;

fuzz_target!(|bytes: &[u8]| parses(&text(bytes)));
