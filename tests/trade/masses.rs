//! Pounds and kilograms, exactly; volume load.

use setwright::quantity::{Exact, Mass, Unit};

use super::tools::{exact, kg, lb};

#[test]
fn the_1959_agreement_is_exact() {
    // NIST SP 811, App. B.8: 1 lb = 0.45359237 kg exactly. [C, exact] the rest.
    for (pounds, numerator, decimals) in [
        ("1", 45_359_237, 8),
        ("45", 2_041_165_665, 8),
        ("2.5", 1_133_980_925, 9),
        ("1.25", 5_669_904_625, 10),
    ] {
        let kilograms = Exact::ratio(numerator, 10_i64.pow(decimals));
        assert_eq!(
            Exact::from_mass(lb(pounds)),
            &kilograms * &Exact::from_mass(kg("1")),
            "{pounds}"
        );
    }
}

#[test]
fn a_pound_disc_and_a_kilogram_disc_add_without_drift() {
    let sum = lb("45") + kg("20");
    assert_eq!(sum - kg("20"), lb("45"));
    assert_eq!(sum.show(Unit::Kg), "40.412 kg");
}

#[test]
fn volume_load_is_mass_times_repetitions() {
    // [S] Handbook ch. 17: 2 x 10 x 50 lb = 1,000 lb; system mass (80 + 40) kg x 12 = 1,440 kg.
    assert_eq!(lb("50") * 2 * 10, lb("1000"));
    assert_eq!((kg("80") + kg("40")) * 12, kg("1440"));
    // [S] Volume load divided by repetitions is the average load.
    let volume = Exact::from_mass(lb("50") * 20);
    assert_eq!(&volume * &Exact::ratio(1, 20), Exact::from_mass(lb("50")));
}

#[test]
fn two_and_a_half_percent_of_a_max_is_not_rounded() {
    let max = Exact::from_mass(kg("82.5"));
    assert_eq!(&max * &exact("0.725"), Exact::from_mass(Mass::from_units(5_981_250_000_000)));
}
