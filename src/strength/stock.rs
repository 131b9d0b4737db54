//! What a gym has for loading a bar: plates, bars, and the direction of rounding.

use crate::quantity::{Mass, Unit};

/// Plates of one kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Plate {
    /// Mass of one disc. Discs of zero or less are never loaded.
    pub mass: Mass,
    /// Number of single discs; `None` for as many as the sleeve has room for.
    pub count: Option<u32>,
    /// Thickness of one disc in millimetres; `None` for the usual thickness of its mass.
    pub thickness_mm: Option<u32>,
}

/// A bar.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Bar {
    /// Its name, if the gym gives it one.
    pub name: Option<String>,
    /// Mass of the empty bar.
    pub mass: Mass,
}

/// How to choose a load if the target cannot be built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Rounding {
    /// The nearest load; of two equally near, the lighter.
    #[default]
    Nearest,
    /// The nearest load that is not heavier; below the lightest load, the lightest.
    Down,
}

/// Usual thickness in millimetres of an iron disc, from this many grams up. Common practice, no
/// source. The values are rather small, so that no ordinary load is refused. Rubber discs are
/// thicker; gyms that have them give their thickness.
const USUAL_THICKNESS: [(i64, u32); 7] =
    [(25_000, 45), (20_000, 38), (15_000, 34), (10_000, 28), (4_500, 22), (2_000, 18), (1_000, 14)];
/// Thickness of the smallest discs, in millimetres. Common practice, no source.
const THINNEST_USUAL: u32 = 10;

/// Sleeve length of a 20 kg competition bar, in millimetres (rules of the weightlifting federation,
/// quoted elsewhere).
const LONG_SLEEVE: u32 = 415;
/// Sleeve length of a 15 kg competition bar, in millimetres (the same rules).
const SHORT_SLEEVE: u32 = 320;

impl Plate {
    /// As many discs of this mass as the sleeve has room for, with the usual thickness.
    #[must_use]
    pub fn unlimited(mass: Mass) -> Self {
        Self { mass, count: None, thickness_mm: None }
    }

    /// A number of single discs of this mass, with the usual thickness.
    #[must_use]
    pub fn counted(mass: Mass, count: u32) -> Self {
        Self { mass, count: Some(count), thickness_mm: None }
    }

    /// Thickness of one disc in millimetres; at least 1.
    #[must_use]
    pub fn thickness(&self) -> u32 {
        let grams = self.mass.units() / (Unit::Kg.in_units() / 1000);
        let usual = || {
            let found = USUAL_THICKNESS.iter().find(|(from, _)| grams >= *from);
            found.map_or(THINNEST_USUAL, |(_, thickness)| *thickness)
        };
        self.thickness_mm.unwrap_or_else(usual).max(1)
    }
}

impl Bar {
    /// A bar without a name.
    #[must_use]
    pub fn plain(mass: Mass) -> Self {
        Self { name: None, mass }
    }

    /// Length of one sleeve in millimetres: 415 for bars of 20 kg and more (including 45 lb bars),
    /// 320 for lighter ones.
    #[must_use]
    pub fn sleeve_mm(&self) -> u32 {
        if self.mass >= Mass::from_kg(20) { LONG_SLEEVE } else { SHORT_SLEEVE }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heavier_discs_are_not_thinner_and_pounds_follow_kilograms() {
        let lb = |n| Mass::from_units(n * Unit::Lb.in_units());
        let kg = |n| Plate::unlimited(Mass::from_kg(n)).thickness();
        for (pounds, kilograms) in [(45, 20), (35, 15), (25, 10), (10, 5), (5, 2)] {
            assert_eq!(Plate::unlimited(lb(pounds)).thickness(), kg(kilograms));
        }
        assert!((1..40).map(kg).is_sorted());
    }

    #[test]
    fn a_pound_bar_has_a_long_sleeve() {
        assert_eq!(Bar::plain(Mass::from_units(45 * Unit::Lb.in_units())).sleeve_mm(), 415);
        assert_eq!(Bar::plain(Mass::from_kg(15)).sleeve_mm(), 320);
    }
}
