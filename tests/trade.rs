//! Values from outside the project: every test names its source.
//!
//! Marks: [S] seen in the source (or its abstract); [S2] seen quoted elsewhere; [M] from memory;
//! [C] computed from the printed formula, not a published number. "Handbook" is Haff & Triplett
//! (eds), Essentials of Strength Training and Conditioning, 4th ed., 2016.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "tests may fail loudly")]

mod trade {
    mod advice;
    mod bars;
    mod bounds;
    mod estimates;
    mod handbook;
    mod load_tables;
    mod masses;
    mod progression;
    mod ramps;
    mod rounding;
    mod solver;
    mod stocks;
    mod time;
    mod tools;
}
