//! Prints the text that an input stands for: `show FILE`.

// What the library's counters are told to.
use libfuzzer_sys as _;

use setwright_fuzz::inputs::text;

fn main() -> std::io::Result<()> {
    for path in std::env::args().skip(1) {
        print!("{}", text(&std::fs::read(path)?));
    }
    Ok(())
}
