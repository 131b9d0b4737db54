//! Any project is worked out as far as it goes, and every derivation leads to its load.
#![no_main]

use libfuzzer_sys::fuzz_target;
use setwright_fuzz::inputs::text;
use setwright_fuzz::laws::compiles;

fuzz_target!(|bytes: &[u8]| compiles(&text(bytes)));
