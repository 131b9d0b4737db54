//! A program that does nothing: what starting one costs, against which a cold start is held.

fn main() {}
