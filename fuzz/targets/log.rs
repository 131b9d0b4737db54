//! A made programme with a log that may say anything: the plan, and what was done of it.
#![no_main]

use libfuzzer_sys::fuzz_target;
use setwright_fuzz::inputs::logged;
use setwright_fuzz::laws::reviews;

fuzz_target!(|bytes: &[u8]| reviews(&logged(bytes)));
