//! Exact arithmetic.

use proptest::prelude::*;
use setwright::quantity::{Decimal, Exact, Mass, Unit};

use super::support::cases;

fn masses() -> impl Strategy<Value = Mass> {
    // Up to a hundred tonnes either way: sums and products stay far from the ends of the type.
    (-10_000_000_000_000_000_i64..10_000_000_000_000_000).prop_map(Mass::from_units)
}

fn ratios() -> impl Strategy<Value = Exact> {
    (-1_000_000_i64..1_000_000, 1_i64..10_000).prop_map(|(a, b)| Exact::ratio(a, b))
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn masses_add_like_numbers(a in masses(), b in masses(), c in masses(), n in -100_i64..100) {
        prop_assert_eq!(a + b, b + a);
        prop_assert_eq!((a + b) + c, a + (b + c));
        prop_assert_eq!((a + b) - b, a);
        prop_assert_eq!((a + b) * n, a * n + b * n);
        prop_assert_eq!(a + Mass::ZERO, a);
        prop_assert_eq!((Mass::ZERO - a).abs(), a.abs());
        prop_assert_eq!(a.checked_add(b), Some(a + b));
        prop_assert_eq!(Exact::from(a + b), &Exact::from(a) + &Exact::from(b));
    }

    #[test]
    fn fractions_never_round(a in ratios(), b in ratios(), c in ratios()) {
        prop_assert_eq!(&(&a + &b) + &c, &a + &(&b + &c));
        prop_assert_eq!(&a * &(&b + &c), &(&a * &b) + &(&a * &c));
        if !b.is_zero() {
            prop_assert_eq!(&(&a / &b) * &b, a.clone());
        }
        prop_assert_eq!(&a - &a, Exact::zero());
        prop_assert_eq!(a < b, &a - &b < Exact::zero());
    }

    /// What is written to three decimals is kept, in either unit, and read back from its own show.
    #[test]
    fn three_decimals_are_exact(thousandths in 0_i64..9_000_000, pounds in any::<bool>()) {
        let unit = if pounds { Unit::Lb } else { Unit::Kg };
        let written = Decimal::new(thousandths, 3);
        let mass = Mass::from_decimal(written, unit).unwrap();
        prop_assert_eq!(mass.in_unit(unit), written);
        let shown = mass.show(unit);
        let number = shown.split(' ').next().unwrap();
        prop_assert_eq!(Decimal::parse(number), Some(written));
    }

    /// The pound of 1959 (NIST SP 811, appendix B.8): 45,359,237 kg are 100,000,000 lb.
    #[test]
    fn a_pound_is_exact(n in 1_i64..3) {
        let kg = Mass::from_units(Unit::Kg.in_units()) * 45_359_237 * n;
        let lb = Mass::from_units(Unit::Lb.in_units()) * 100_000_000 * n;
        // Both are above what may be written down, twice of each is near the type's end.
        prop_assert_eq!(kg, lb);
    }

    #[test]
    fn halves_go_up(n in 0_i64..1_000_000) {
        prop_assert_eq!(Exact::ratio(2 * n + 1, 2).round_half_up(), n + 1);
        prop_assert_eq!(Exact::ratio(4 * n + 1, 4).round_half_up(), n);
    }
}
