//! What reads formats, to the same meaning and only once.
#![no_main]

use libfuzzer_sys::fuzz_target;
use setwright_fuzz::inputs::text;
use setwright_fuzz::laws::formats;

fuzz_target!(|bytes: &[u8]| formats(&text(bytes)));
