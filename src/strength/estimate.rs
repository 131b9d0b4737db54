//! Equations that estimate a one-repetition maximum (1RM) from a set to failure.

use crate::quantity::Exact;

/// An equation for the 1RM.
///
/// All equations are fitted to few repetitions and diverge above ten (`LeSuer` et al. 1997, J
/// Strength Cond Res 11(4):211–213; Reynolds et al. 2006, J Strength Cond Res 20(3):584–592). So
/// the name of the equation is always given with the result.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Equation {
    /// `w(1 + r/30)`.
    #[default]
    Epley,
    /// `36w/(37 − r)`.
    Brzycki,
    /// `100w/(101.3 − 2.67123r)`.
    Lander,
    /// `w·r^0.10`.
    Lombardi,
    /// `100w/(52.2 + 41.9e^(−0.055r))`.
    Mayhew,
    /// `w(1 + 0.025r)`.
    OConner,
    /// `100w/(48.8 + 53.8e^(−0.075r))`.
    Wathen,
}

impl Equation {
    /// All equations, sorted by name.
    pub const ALL: [Self; 7] = [
        Self::Epley,
        Self::Brzycki,
        Self::Lander,
        Self::Lombardi,
        Self::Mayhew,
        Self::OConner,
        Self::Wathen,
    ];

    /// Maximum number of repetitions, including those in reserve, for an estimate. It is below the
    /// poles of Brzycki (37) and Lander (near 37.92); no study behind any equation goes as far.
    pub const MOST_REPS: i64 = 30;

    /// Maximum number of repetitions of a set that gives an estimate without a remark: 10 for
    /// linear equations (Reynolds et al. 2006, J Strength Cond Res 20(3):584–592).
    pub const SURE_REPS: u32 = 10;

    /// Maximum number of repetitions of a set that gives an estimate at all. Beyond it, the
    /// equations differ by more than the progress of any block. Common practice, no source.
    pub const MOST_SET_REPS: u32 = 15;

    /// The smallest and the largest [`Self::factor`] of all equations.
    #[must_use]
    pub fn spread(reps: u32) -> Option<(Exact, Exact)> {
        let reps = Exact::whole(i64::from(reps));
        let factors: Option<Vec<Exact>> =
            Self::ALL.into_iter().map(|equation| equation.factor(&reps)).collect();
        let factors = factors?;
        Some((factors.iter().min()?.clone(), factors.iter().max()?.clone()))
    }

    /// The author's name, as used on cards and in files.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Epley => "Epley",
            Self::Brzycki => "Brzycki",
            Self::Lander => "Lander",
            Self::Lombardi => "Lombardi",
            Self::Mayhew => "Mayhew",
            Self::OConner => "O'Conner",
            Self::Wathen => "Wathen",
        }
    }

    /// The equation of that name, without regard to case; `O'Conner` with either apostrophe or
    /// none, `Wathan` for Wathen.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        let is = |name: &str| text.to_lowercase() == name.to_lowercase();
        if is("OConner") || is("O’Conner") {
            return Some(Self::OConner);
        }
        if is("Wathan") {
            return Some(Self::Wathen);
        }
        Self::ALL.into_iter().find(|equation| is(equation.name()))
    }

    /// Source of the equation.
    #[must_use]
    pub fn source(self) -> &'static str {
        match self {
            Self::Epley => "Epley 1985, poundage chart; in the r/30 form",
            Self::Brzycki => "Brzycki 1993, J Phys Educ Recreat Dance 64(1):88–90",
            Self::Lander => "Lander 1985, NSCA Journal 6(6):60–61",
            Self::Lombardi => "Lombardi 1989, Beginning Weight Training",
            Self::Mayhew => "Mayhew et al. 1992, J Appl Sport Sci Res 6(4):200–206",
            Self::OConner => "O'Conner et al. 1989, Weight Training Today",
            Self::Wathen => {
                "Wathen 1994, in Baechle (ed.), Essentials of Strength Training and Conditioning, 435–446"
            }
        }
    }

    /// The 1RM divided by the load lifted for `reps`: repetitions done plus repetitions in reserve,
    /// which may be a fraction.
    ///
    /// The factor is exactly 1 at one repetition. Five of the equations give another value there;
    /// between one and two repetitions they are replaced by a straight line to their value at two,
    /// so that more repetitions never mean a heavier load. `None` below one repetition and above
    /// [`Self::MOST_REPS`].
    #[must_use]
    pub fn factor(self, reps: &Exact) -> Option<Exact> {
        let one = Exact::one();
        if *reps < one || *reps > Exact::whole(Self::MOST_REPS) {
            return None;
        }
        let two = Exact::whole(2);
        if self.starts_at_one() || *reps >= two {
            return self.formula(reps);
        }
        let rise = &self.formula(&two)? - &one;
        Some(&one + &(&rise * &(reps - &one)))
    }

    /// The share of the 1RM that can be lifted for `reps`: 1 divided by [`Self::factor`].
    #[must_use]
    pub fn share(self, reps: &Exact) -> Option<Exact> {
        Exact::one().checked_div(&self.factor(reps)?)
    }

    /// Whether the published equation gives the load itself at one repetition.
    fn starts_at_one(self) -> bool {
        matches!(self, Self::Brzycki | Self::Lombardi)
    }

    /// The published equation for `w = 1`. It is exact if it is a fraction, and has nine decimals
    /// if it contains a power or an exponential.
    fn formula(self, reps: &Exact) -> Option<Exact> {
        let one = Exact::one();
        let decay = |floor: f64, span: f64, rate: f64| {
            Exact::from_estimate(100.0 / (floor + span * libm::exp(-rate * reps.to_f64())))
        };
        match self {
            Self::Epley => Some(&one + &(reps * &Exact::ratio(1, 30))),
            Self::Brzycki => Exact::whole(36).checked_div(&(&Exact::whole(37) - reps)),
            // Numerator and denominator are multiplied by 100,000 to stay in whole numbers.
            Self::Lander => Exact::whole(10_000_000)
                .checked_div(&(&Exact::whole(10_130_000) - &(&Exact::whole(267_123) * reps))),
            Self::Lombardi => Exact::from_estimate(libm::pow(reps.to_f64(), 0.1)),
            Self::Mayhew => decay(52.2, 41.9, 0.055),
            Self::OConner => Some(&one + &(reps * &Exact::ratio(1, 40))),
            Self::Wathen => decay(48.8, 53.8, 0.075),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_reads_back() {
        for equation in Equation::ALL {
            assert_eq!(Equation::parse(equation.name()), Some(equation));
            assert_eq!(Equation::parse(&equation.name().to_uppercase()), Some(equation));
        }
        for text in ["OConner", "o’conner", " o'conner "] {
            assert_eq!(Equation::parse(text), Some(Equation::OConner), "{text}");
        }
        assert_eq!(Equation::parse("O''Conner"), None);
        assert_eq!(Equation::default(), Equation::Epley);
    }

    #[test]
    fn every_source_names_its_author_and_a_year() {
        for equation in Equation::ALL {
            let source = equation.source();
            assert!(source.starts_with(equation.name()), "{source}");
            assert!(source.contains(" 19"), "{source}");
        }
    }

    #[test]
    fn one_rep_is_the_load_and_more_reps_never_a_heavier_one() {
        for equation in Equation::ALL {
            assert_eq!(equation.factor(&Exact::one()), Some(Exact::one()));
            let tenths: Vec<_> = (10..=300)
                .map(|tenth| equation.share(&Exact::ratio(tenth, 10)).expect("within range"))
                .collect();
            assert!(tenths.is_sorted_by(|more, fewer| more > fewer), "{equation:?}");
        }
    }

    /// At 12 and 13 repetitions, from the printed formulas [C]: Lombardi 128.2 and 129.2, Lander
    /// 144.4 and 150.2.
    #[test]
    fn the_equations_part_ways_above_ten_repetitions() {
        let apart = |reps| {
            let (low, high) = Equation::spread(reps).expect("within range");
            (&(&high - &low) / &low).to_f64()
        };
        assert!(apart(10) < 0.08, "{}", apart(10));
        assert!((0.12..0.13).contains(&apart(12)), "{}", apart(12));
        assert!((0.16..0.17).contains(&apart(13)), "{}", apart(13));
        assert_eq!(Equation::spread(31), None);
    }

    #[test]
    fn nothing_is_estimated_out_of_range() {
        for equation in Equation::ALL {
            for reps in
                [Exact::zero(), Exact::ratio(9, 10), Exact::ratio(301, 10), Exact::whole(37)]
            {
                assert_eq!(equation.factor(&reps), None);
                assert_eq!(equation.share(&reps), None);
            }
        }
    }
}
