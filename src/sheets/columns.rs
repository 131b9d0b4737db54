//! Weeks side by side, shared by the block sheet and the overview. Phases are bands above the
//! weeks, hatched for deloads, and a heavier line ends a phase.

use jiff::civil::Date;

use crate::plan::Session;

use super::card::parts::{capped, inked};
use super::labels::{Labels, fill};
use super::layout::{Align, Fragment, Ink, Role, Shape, Style, count, line, width};
use super::leaf::{TINY, hatch};

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// Its number, counted from 1.
    pub number: u32,
    /// The phase that it belongs to.
    pub phase: Option<String>,
    /// Whether the phase takes away sets or load.
    pub deload: bool,
    /// Its first day.
    pub starts: Option<Date>,
}

/// Every week from the first to the last that has a session.
#[must_use]
pub fn weeks(sessions: &[Session]) -> Vec<Week> {
    let numbers = sessions.iter().map(|session| session.week);
    let (Some(first), Some(last)) = (numbers.clone().min(), numbers.max()) else {
        return Vec::new();
    };
    let week = |number| {
        let session = sessions.iter().find(|session| session.week == number);
        Week {
            number,
            phase: session.and_then(|session| session.phase.clone()),
            deload: session.is_some_and(|session| session.deload),
            starts: session.and_then(|session| session.week_starts),
        }
    };
    (first..=last).map(week).collect()
}

/// The weeks of a plan that are shown, and the start of the first: `Weeks 1–8 of 8`.
#[must_use]
pub fn when(weeks: &[Week], all: u32, labels: &Labels) -> String {
    let all = all.to_string();
    let first = weeks.first().map_or(1, |week| week.number).to_string();
    let last = weeks.last().map_or(1, |week| week.number).to_string();
    let when = if first == last {
        fill(labels.week_of, &[&first, &all])
    } else {
        fill(labels.broad.weeks_of, &[&first, &last, &all])
    };
    let from = weeks.first().and_then(|week| week.starts);
    let from = from.map(|date| fill(labels.week_from, &[&labels.show_date(date)]));
    [Some(when), from].into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// A day of a month, such as `5 Jan`.
#[must_use]
pub fn day_month(date: Date, labels: &Labels) -> String {
    let [_, month] = labels.names_of(date);
    fill(labels.broad.day_month, &[&labels.day(date), month])
}

/// A day of a month with its weekday, such as `Mon 5 Jan`.
#[must_use]
pub fn weekday_month(date: Date, labels: &Labels) -> String {
    let [weekday, _] = labels.names_of(date);
    fill(labels.broad.weekday_month, &[weekday, &day_month(date, labels)])
}

/// The columns of a table of weeks.
#[derive(Clone, Debug)]
pub struct Columns {
    /// The weeks.
    pub weeks: Vec<Week>,
    /// Width of the column of names on the left.
    pub names: f32,
    /// Width of the table.
    pub w: f32,
    /// Space on both sides of a week's content.
    pub inset: f32,
}

/// Width in points below which there are lines only between phases.
const LEAST_RULED: f32 = 36.0;
/// Height of a phase's band, in points.
const BAND: f32 = 15.0;

impl Columns {
    /// Width of a week.
    #[must_use]
    pub fn week_w(&self) -> f32 {
        (self.w - self.names) / count(self.weeks.len().max(1))
    }

    /// Width of the content of a week's column.
    #[must_use]
    pub fn inner(&self) -> f32 {
        self.week_w() - 2.0 * self.inset
    }

    /// Left edge of a week's column.
    #[must_use]
    pub fn x(&self, at: usize) -> f32 {
        self.names + self.week_w() * count(at)
    }

    /// The head: phases as bands, and the numbers of the weeks. It includes their first days if no
    /// other dates are printed.
    #[must_use]
    pub fn header(&self, labels: &Labels, dated: bool) -> Fragment {
        let mut out = Fragment::space(self.w, 0.0);
        let mut y = 0.0;
        if self.weeks.iter().any(|week| week.phase.is_some()) {
            let mut at = 0;
            for run in self.weeks.chunk_by(|a, b| a.phase == b.phase) {
                if let Some(band) = self.band(run) {
                    out.put(band, self.x(at), 0.0);
                }
                at += run.len();
            }
            y = BAND + 2.0;
        }
        let strong = Style::strong(10.4);
        let long = self.weeks.iter().all(|week| {
            let name = fill(labels.broad.week, &[&week.number.to_string()]);
            width(&name, strong) <= self.inner()
        });
        let asides: Vec<Fragment> =
            self.weeks.iter().map(|week| self.aside(week, dated || !long, labels)).collect();
        let named = |week: &Week| {
            let number = week.number.to_string();
            line(&if long { fill(labels.broad.week, &[&number]) } else { number }, strong)
        };
        // Numbers without a word have a label on their left, if there is room.
        if !long {
            let head = line(labels.weekly.week, strong);
            if head.w <= self.names - 4.0 {
                out.put(head, 0.0, y);
            }
        }
        // The text that goes with a number is next to it for all weeks, or below it for all.
        let beside =
            self.weeks.iter().zip(&asides).all(|(week, aside)| {
                aside.w <= 0.1 || named(week).w + 4.0 + aside.w <= self.inner()
            });
        let mut free = 0.0;
        let mut bottom = y + strong.leading();
        for (at, (week, aside)) in self.weeks.iter().zip(asides).enumerate() {
            let name = named(week);
            let x = self.x(at) + self.inset;
            // If weeks are narrow, only some numbers are printed.
            if x < free {
                continue;
            }
            free = x + name.w + 3.0;
            let (aside_x, aside_y) = if beside {
                (x + name.w + 4.0, y + strong.baseline() - TINY.baseline())
            } else {
                (x, y + name.h)
            };
            if !aside.items.is_empty() {
                bottom = bottom.max(aside_y + aside.h);
                out.put(aside, aside_x, aside_y);
            }
            out.put(name, x, y);
        }
        out.h = bottom + 1.0;
        out
    }

    /// A week's first day and the mark of a deload, or as much of that as there is room for.
    fn aside(&self, week: &Week, dated: bool, labels: &Labels) -> Fragment {
        let starts = week.starts.filter(|_| !dated).map(|date| day_month(date, labels));
        let lighter = week.deload.then(|| labels.broad.lighter.to_owned());
        let both = starts.clone().zip(lighter.clone()).map(|(a, b)| format!("{a} · {b}"));
        let texts = [both, lighter, starts].into_iter().flatten();
        let mut set = texts.map(|text| line(&text, TINY)).filter(|text| text.w <= self.inner());
        set.next().unwrap_or_default()
    }

    /// A phase: a frame above its weeks with its name, hatched for a deload.
    fn band(&self, run: &[Week]) -> Option<Fragment> {
        let first = run.first()?;
        let name = first.phase.as_ref()?;
        let w = self.week_w() * count(run.len()) - 2.0;
        let mut out = Fragment::space(w, BAND);
        let sizes = [8.8, 8.0].into_iter().map(Style::strong);
        let fits = |style: &Style| width(name, *style) <= w - 8.0;
        let style = sizes.into_iter().find(fits).unwrap_or(Style::strong(7.2));
        let text = if w > 24.0 {
            capped(name, style, w - 8.0, Align::Left, 1).into_iter().next()?
        } else {
            // If there is no room for the name, its initials, or the first of them.
            let style = Style::strong(7.2);
            let initials: String =
                name.split_whitespace().filter_map(|word| word.chars().next()).collect();
            let first: String = initials.chars().take(1).collect();
            let mut texts = [initials, first].into_iter().map(|text| line(&text, style));
            let fits = texts.find(|text| text.w <= w - 5.0);
            fits.unwrap_or_else(|| Fragment::space(0.0, style.leading()))
        };
        let from = if text.items.is_empty() { 0.0 } else { inked(&text).0 + 10.0 };
        if first.deload && w - from > 4.0 {
            out.put(hatch(w - from, BAND, 4.0), from, 0.0);
        }
        let y = (BAND - text.h) / 2.0;
        out.put(text, 4.0, y);
        out.w = w;
        let stroke = Some((0.9, Ink::Black));
        out.put(Fragment::shape(w, BAND, stroke, None, Role::Decoration), 0.0, 0.0);
        Some(out)
    }

    /// The line before a week, heavier at the end of a phase. Many narrow weeks have no other
    /// lines, which would be too dense.
    fn upright(&self, at: usize) -> Option<(f32, Ink)> {
        let before = at.checked_sub(1).and_then(|before| self.weeks.get(before));
        let week = self.weeks.get(at)?;
        if before.is_none_or(|before| before.phase != week.phase) {
            return Some((0.9, Ink::Black));
        }
        (self.week_w() >= LEAST_RULED).then_some((0.4, Ink::Faint))
    }

    /// How far content that starts in a week may extend: to the next line.
    #[must_use]
    pub fn reach(&self, at: usize) -> f32 {
        let next = (at + 1..self.weeks.len()).find(|next| self.upright(*next).is_some());
        next.map_or(self.w, |next| self.x(next) - 2.0)
    }

    /// Draws lines between the weeks over the height of the fragment, heavier at the end of a
    /// phase. The edge of a deload week is hatched, so that it is visible far below the head.
    pub fn uprights(&self, out: &mut Fragment) {
        let h = out.h;
        for (at, week) in self.weeks.iter().enumerate() {
            let Some((weight, ink)) = self.upright(at) else { continue };
            let x = self.x(at) - 1.0;
            out.draw(Shape::Line { from: (x, 0.0), to: (x, h), weight, ink });
            if week.deload && self.inset > 3.0 {
                let strip = hatch(2.6, h, 2.6);
                out.items.extend(strip.items.into_iter().map(|item| item.moved(x + 0.6, 0.0)));
            }
        }
    }
}
