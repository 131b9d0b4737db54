//! The format of numbers, counted nouns and dates in a language.
//!
//! Separators and plural classes follow the Unicode Common Locale Data Repository (CLDR), from
//! memory.

/// How a language writes numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Numbers {
    /// Decimal separator.
    pub decimal: char,
    /// Separator between groups of three digits.
    pub thousands: char,
    /// Least number of digits of a whole part that is grouped.
    pub least_grouped: usize,
    /// Text after a percentage, including the space before it.
    pub percent: &'static str,
    /// The plural rule.
    pub plural: Plural,
}

/// A plural rule: which numbers take which form of a noun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Plural {
    /// 1, and all others.
    OneOrMore,
    /// 0 and 1, and all others.
    UpToOne,
    /// 1; numbers that end in 2, 3 or 4 (except 12 to 14); all others.
    Slavic,
}

/// A noun in its plural forms, each a template for the number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Counted {
    /// The form for 1.
    pub one: &'static str,
    /// The form for a few, if the language has one, otherwise the same as `many`.
    pub few: &'static str,
    /// The form for all others.
    pub many: &'static str,
}

impl Counted {
    /// A noun with one form for 1 and one for all others.
    #[must_use]
    pub const fn two(one: &'static str, many: &'static str) -> Self {
        Self { one, few: many, many }
    }

    /// A noun or abbreviation that is the same for every number.
    #[must_use]
    pub const fn same(always: &'static str) -> Self {
        Self { one: always, few: always, many: always }
    }

    /// The template for a number.
    #[must_use]
    pub fn form(&self, plural: Plural, n: u32) -> &'static str {
        match (plural, n) {
            (_, 1) | (Plural::UpToOne, 0) => self.one,
            (Plural::Slavic, _) if matches!(n % 10, 2..=4) && !matches!(n % 100, 12..=14) => {
                self.few
            }
            _ => self.many,
        }
    }
}

impl Numbers {
    /// As in English.
    pub const ENGLISH: Self = Self {
        decimal: '.',
        thousands: ',',
        least_grouped: 4,
        percent: "%",
        plural: Plural::OneOrMore,
    };

    /// Formats the numbers in a text, which have decimal points: `RPE 7,5`, `−10 %`. A point that
    /// is not between two digits is left alone.
    #[must_use]
    pub fn spell(&self, text: &str) -> String {
        let mut out = String::with_capacity(text.len());
        let mut after_digit = false;
        let mut signs = text.chars().peekable();
        while let Some(sign) = signs.next() {
            match sign {
                '.' if after_digit && signs.peek().is_some_and(char::is_ascii_digit) => {
                    out.push(self.decimal);
                }
                '%' if after_digit => out.push_str(self.percent),
                _ => out.push(sign),
            }
            after_digit = sign.is_ascii_digit();
        }
        out
    }

    /// Groups the thousands of a number without a sign.
    #[must_use]
    pub fn group(&self, number: &str) -> String {
        let (whole, part) = number.split_once('.').map_or((number, None), |(w, p)| (w, Some(p)));
        let mut out = String::new();
        for (at, digit) in whole.chars().enumerate() {
            let left = whole.len() - at;
            if at > 0 && left.is_multiple_of(3) && whole.len() >= self.least_grouped {
                out.push(self.thousands);
            }
            out.push(digit);
        }
        if let Some(part) = part {
            out.push(self.decimal);
            out.push_str(part);
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const POLISH: Numbers = super::super::polish::LABELS.numbers;

    #[test]
    fn numbers_are_spelled_and_other_points_are_not() {
        let german = super::super::german::LABELS.numbers;
        assert_eq!(german.spell("RPE 7.5, load -2.5%. 3.x"), "RPE 7,5, load -2,5\u{a0}%. 3.x");
        assert_eq!(german.group("12345.5"), "12.345,5");
        assert_eq!(Numbers::ENGLISH.spell("2.5%"), "2.5%");
        assert_eq!(Numbers::ENGLISH.group("1234"), "1,234");
        assert_eq!(POLISH.group("1234"), "1\u{a0}234");
        assert_eq!(POLISH.group("12345"), "12\u{a0}345");
    }

    #[test]
    fn polish_counts_in_three_forms() {
        let week = Counted { one: "tydzień", few: "tygodnie", many: "tygodni" };
        let forms: Vec<&str> =
            [1, 2, 4, 5, 12, 14, 21, 22, 25, 104, 112].map(|n| week.form(POLISH.plural, n)).into();
        let (one, few, many) = (week.one, week.few, week.many);
        assert_eq!(forms, [one, few, few, many, many, many, many, few, many, few, many]);
    }
}
