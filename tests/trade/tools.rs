//! Helpers of the tests: masses, plates of a load, and reproducible randomness.

use setwright::plan::{Built, Implement};
use setwright::quantity::{Decimal, Exact, Mass, Unit};
use setwright::strength::{Bar, BarLoads, Plate, Rounding};

pub fn exact(decimal: &str) -> Exact {
    Decimal::parse(decimal).unwrap().into()
}

pub fn kg(decimal: &str) -> Mass {
    Mass::from_decimal(Decimal::parse(decimal).unwrap(), Unit::Kg).unwrap()
}

pub fn lb(decimal: &str) -> Mass {
    Mass::from_decimal(Decimal::parse(decimal).unwrap(), Unit::Lb).unwrap()
}

/// `"25 20 2.5"` in kilograms.
pub fn kgs(list: &str) -> Vec<Mass> {
    list.split_whitespace().map(kg).collect()
}

/// `"45 35 2.5"` in pounds.
pub fn lbs(list: &str) -> Vec<Mass> {
    list.split_whitespace().map(lb).collect()
}

/// As many of each as the sleeve holds.
pub fn unlimited(masses: &[Mass]) -> Vec<Plate> {
    masses.iter().copied().map(Plate::unlimited).collect()
}

/// So many single discs of each.
pub fn counted(stock: &[(Mass, u32)]) -> Vec<Plate> {
    stock.iter().map(|&(mass, count)| Plate::counted(mass, count)).collect()
}

/// All loads of a bar without collars.
pub fn loads(bar: Mass, plates: &[Plate]) -> BarLoads {
    BarLoads::new(&Bar::plain(bar), plates, Mass::ZERO).unwrap()
}

/// The load nearest to a mass.
pub fn nearest(loads: &BarLoads, mass: Mass) -> Built {
    loads.build(&mass.into(), Rounding::Nearest)
}

/// The plates of one side.
pub fn side(built: &Built) -> &[Mass] {
    match &built.how {
        Implement::Bar { per_side, .. } => per_side,
        other => panic!("not a bar: {other:?}"),
    }
}

/// Chance that repeats itself: a linear congruential generator with Knuth's MMIX constants.
pub struct Chance(pub u64);

impl Chance {
    /// A number from 0 up to, not including, `end`.
    pub fn below(&mut self, end: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % end
    }

    /// One of a list.
    pub fn pick<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }
}
