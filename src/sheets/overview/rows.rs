//! The rows of an overview: a name, and a plot over the weeks with its numbers.

use crate::plan::{ExerciseNames, name_in};
use crate::quantity::{Exact, Mass};
use crate::sheets::card::parts::capped;
use crate::sheets::columns::Columns;
use crate::sheets::labels::{Labels, capital, fill};
use crate::sheets::layout::{Align, Fragment, Ink, Style, StyledText, lines, stack};
use crate::sheets::plot::{Axis, Mark, bars, points};
use crate::sheets::wording::{PRINTED, grouped};
use crate::tally::{AthleteWeeks, LiftTally, TopSet, WeekTally};

/// Heights of the plots, in points.
#[derive(Clone, Copy, Debug)]
pub struct Heights {
    volume: f32,
    intensity: f32,
    lift: f32,
    muscle: f32,
}

impl Heights {
    /// The smallest heights.
    pub const LEAST: Heights = Heights { volume: 44.0, intensity: 28.0, lift: 19.0, muscle: 9.0 };
    /// All heights, tallest first.
    pub const ALL: [Heights; 6] = [
        Heights { volume: 96.0, intensity: 64.0, lift: 50.0, muscle: 26.0 },
        Heights { volume: 84.0, intensity: 56.0, lift: 42.0, muscle: 21.0 },
        Heights { volume: 72.0, intensity: 48.0, lift: 35.0, muscle: 17.0 },
        Heights { volume: 62.0, intensity: 42.0, lift: 29.0, muscle: 14.0 },
        Heights { volume: 54.0, intensity: 36.0, lift: 24.0, muscle: 11.0 },
        Heights::LEAST,
    ];
}

/// The input of the rows.
pub struct Panel<'a> {
    /// The weeks.
    pub columns: &'a Columns,
    /// Their sums.
    pub tally: &'a AthleteWeeks,
    /// The words.
    pub labels: &'static Labels,
    /// The names of exercises, and the language to use.
    pub names: (&'a ExerciseNames, &'a str),
}

/// A row's name.
const NAME: Style = Style { size: 8.6, ..Style::strong(8.6) };
/// The text below the name.
const SMALL: Style = Style { size: 7.2, ..Style::regular(7.2) };
/// Maximum number of lifts that are plotted.
const MOST_LIFTS: usize = 4;

impl Panel<'_> {
    fn week(&self, number: u32) -> Option<&WeekTally> {
        self.tally.weeks.iter().find(|week| week.week == number)
    }

    /// A mark for each column.
    fn marks(&self, mark: impl Fn(&WeekTally) -> Mark) -> Vec<Mark> {
        let weeks = self.columns.weeks.iter();
        weeks.map(|week| self.week(week.number).map(&mark).unwrap_or_default()).collect()
    }

    /// A number to one decimal.
    fn one_place(&self, number: &Exact) -> String {
        self.labels.numbers.spell(&number.to_decimal(1).to_string())
    }

    fn plain(&self, mass: &Exact) -> f64 {
        (mass / &Exact::whole(self.tally.unit.in_units())).to_f64()
    }

    /// A name next to a plot, with a hairline above.
    fn row(&self, name: &str, small: &str, plot: Fragment, rule: Option<(f32, Ink)>) -> Fragment {
        let room = self.columns.names - 8.0;
        let mut names = capped(name, NAME, room, Align::Left, 2);
        let small = lines(&[StyledText::new(small, SMALL.in_ink(Ink::Soft))], room, Align::Left);
        names.extend(small.into_iter().take(2));
        let names = stack(names, 0.0);
        let (top, bottom) = (3.0, 2.0);
        let h = (names.h + 2.0 + bottom).max(plot.h + top + bottom);
        let mut out = Fragment::space(self.columns.w, h);
        if let Some((weight, ink)) = rule {
            out.put(Fragment::rule(self.columns.w, weight, ink), 0.0, 0.0);
        }
        out.put(names, 0.0, 2.4);
        let drop = h - bottom - plot.h;
        out.put(plot, 0.0, drop);
        self.columns.uprights(&mut out);
        out
    }

    /// A name on the baseline of a low plot, which separates it from the next row.
    fn short_row(&self, name: &str, plot: Fragment) -> Fragment {
        let name = capped(name, NAME, self.columns.names - 8.0, Align::Left, 1);
        let name = stack(name, 0.0);
        let h = (plot.h + 3.0).max(name.h);
        let mut out = Fragment::space(self.columns.w, h);
        let (a, b) = (h - name.h, h - plot.h);
        out.put(name, 0.0, a);
        out.put(plot, 0.0, b);
        out.put(Fragment::rule(self.columns.names, 0.4, Ink::Faint), 0.0, h - 0.4);
        self.columns.uprights(&mut out);
        out
    }

    /// A row that explains why it is empty.
    fn nothing(&self, why: &str) -> Vec<Fragment> {
        let text = lines(&[StyledText::new(why, SMALL)], self.columns.w, Align::Left);
        vec![stack(text, 0.0).padded(0.0, 2.0, 0.0, 4.0)]
    }

    /// Volume load, as bars.
    #[must_use]
    pub fn volume(&self, heights: Heights) -> Fragment {
        let unit = self.tally.unit;
        let marks = self.marks(|week| Mark {
            value: Some(self.plain(&week.total.volume)),
            texts: vec![grouped(&week.total.volume, unit, 0, (self.labels, PRINTED))],
        });
        let axis = Axis::tight(marks.iter().filter_map(|mark| mark.value), true);
        let name = fill(self.labels.broad.volume, &[unit.symbol()]);
        let plot = bars(self.columns, &marks, &axis, heights.volume);
        self.row(&name, self.labels.broad.volume_small, plot, Some((1.0, Ink::Black)))
    }

    /// Average intensity, as points.
    #[must_use]
    pub fn intensity(&self, heights: Heights) -> Fragment {
        let marks = self.marks(|week| {
            let mean = week.total.intensity.mean_percent();
            let texts = mean.iter().map(|mean| self.one_place(mean)).collect();
            Mark { value: mean.map(|mean| mean.to_f64()), texts }
        });
        let labels = self.labels.broad;
        let none = marks.iter().all(|mark| mark.value.is_none());
        let axis = Axis::tight(marks.iter().filter_map(|mark| mark.value), false);
        let small = if none { labels.no_intensity } else { labels.intensity_small };
        let h = if none { 12.0 } else { heights.intensity };
        let plot = points(self.columns, &marks, &axis, h);
        self.row(labels.intensity, small, plot, Some((0.4, Ink::Faint)))
    }

    /// The top sets of the main lifts, as points.
    #[must_use]
    pub fn top_sets(&self, heights: Heights) -> Vec<Fragment> {
        let lifts = self.main_lifts();
        if lifts.is_empty() {
            return self.nothing(self.labels.broad.no_lifts);
        }
        let row = |(at, name): (usize, &&str)| {
            let marks = self.marks(|week| {
                let lift = week.lifts.iter().find(|lift| lift.lift == **name);
                lift.and_then(|lift| lift.top_set.as_ref())
                    .map(|top| self.top(top))
                    .unwrap_or_default()
            });
            let axis = Axis::tight(marks.iter().filter_map(|mark| mark.value), false);
            let plot = points(self.columns, &marks, &axis, heights.lift);
            let rule = (at > 0).then_some((0.4, Ink::Faint));
            let (names, language) = self.names;
            self.row(name_in(names, language, name), "", plot, rule)
        };
        lifts.iter().enumerate().map(row).collect()
    }

    fn top(&self, top: &TopSet) -> Mark {
        let load = grouped(&Exact::from_mass(top.load), self.tally.unit, 2, (self.labels, PRINTED));
        let sign = if top.with_body_mass && !top.load.is_negative() { "+" } else { "" };
        let about = if top.about { "~" } else { "" };
        let reps = top.reps.replace('-', PRINTED.to);
        Mark {
            value: Some(self.plain(&Exact::from_mass(top.load))),
            texts: vec![format!("{about}{sign}{load}"), format!("×\u{a0}{reps}")],
        }
    }

    /// The lifts whose loads are percentages of their own 1RMs; if there are none, those with a
    /// load.
    fn main_lifts(&self) -> Vec<&str> {
        let loaded =
            |lift: &LiftTally| lift.top_set.as_ref().is_some_and(|top| top.load != Mass::ZERO);
        let named = |wanted: &dyn Fn(&LiftTally) -> bool| {
            let mut names: Vec<&str> = Vec::new();
            for lift in self.tally.weeks.iter().flat_map(|week| &week.lifts) {
                if wanted(lift) && !names.contains(&lift.lift.as_str()) {
                    names.push(&lift.lift);
                }
            }
            names.truncate(MOST_LIFTS);
            names
        };
        let main = named(&|lift| lift.main && loaded(lift));
        if main.is_empty() { named(&loaded) } else { main }
    }

    /// Fractional hard sets of each muscle, as bars on one scale, highest first.
    #[must_use]
    pub fn muscles(&self, heights: Heights, most: usize) -> Vec<Fragment> {
        let mut all: Vec<(&str, Exact)> = Vec::new();
        for muscle in self.tally.weeks.iter().flat_map(|week| &week.muscles) {
            let sets = &muscle.sets.fractional_sets;
            match all.iter_mut().find(|(name, _)| *name == muscle.muscle) {
                Some((_, total)) => *total = &*total + sets,
                None => all.push((&muscle.muscle, sets.clone())),
            }
        }
        if all.is_empty() {
            return self.nothing(self.labels.broad.no_muscles);
        }
        // Equal ones by name.
        all.sort_by(|(name, sets), (other, more)| more.cmp(sets).then(name.cmp(other)));
        let of = |week: &WeekTally, name: &str| {
            let muscle = week.muscles.iter().find(|muscle| muscle.muscle == name);
            muscle.map(|muscle| muscle.sets.fractional_sets.clone())
        };
        let every = self.tally.weeks.iter().flat_map(|week| &week.muscles);
        let axis = Axis::tight(every.map(|muscle| muscle.sets.fractional_sets.to_f64()), true);
        let row = |(name, _): &(&str, Exact)| {
            let marks = self.marks(|week| {
                let sets = of(week, name);
                let texts = sets.iter().map(|sets| self.one_place(sets)).collect();
                Mark { value: sets.map(|sets| sets.to_f64()), texts }
            });
            self.short_row(
                &capital(self.labels.word(name)),
                bars(self.columns, &marks, &axis, heights.muscle),
            )
        };
        let mut rows: Vec<Fragment> = all.iter().take(most).map(row).collect();
        let left = all.len().saturating_sub(most);
        if left > 0 {
            let left = u32::try_from(left).unwrap_or(u32::MAX);
            let more = self.labels.count(&self.labels.broad.muscles_more, left);
            rows.extend(self.nothing(&more));
        }
        rows
    }
}
