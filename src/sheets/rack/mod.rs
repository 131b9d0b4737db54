//! The rack sheet: one session of the whole squad, by lift. Athletes are listed by rack and bar in
//! the order that moves the fewest plates. Their sets are side by side, each with a box for
//! writing.

mod lifts;
mod order;
mod row;

use crate::plan::{Plan, Session, name_in};
use crate::quantity::{Duration, Unit};

use super::CardOptions;
use super::card::Deck;
use super::card::parts::{capped, inked, packed, tag};
use super::card::target::{common, shared_details};
use super::labels::{Labels, fill};
use super::layout::{
    Align, Block, Fragment, Ink, Page, Row, Style, StyledText, flow, line, lines, stack,
};
use super::leaf::{Leaf, PageHead, limits};
use super::pdf::Bookmark;
use super::runs::Run;
use super::together::how_done;
use super::wording::{PRINTED, Wording};
use lifts::{Gathering, Lift, LiftEntry, Station, gatherings};
use row::{RackMetrics, Rows};

/// Lays out a rack sheet for every session of the plan.
#[must_use]
pub fn deck(plan: &Plan, options: &CardOptions) -> Deck {
    let mut deck = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    for gathering in gatherings(plan) {
        let Some((_, session)) = gathering.present.first() else { continue };
        let text = name(plan, session);
        deck.bookmarks.push(Bookmark { text, page: deck.pages.len(), below: Vec::new() });
        deck.pages.extend(pages(plan, &gathering, session, options));
    }
    deck
}

/// When a session takes place: its week and its date.
fn when(plan: &Plan, session: &Session) -> Vec<String> {
    let labels = Labels::of(&plan.language);
    let week = fill(labels.week_of, &[&session.week.to_string(), &plan.weeks.to_string()]);
    [Some(week), labels.show_when(session)].into_iter().flatten().collect()
}

fn name(plan: &Plan, session: &Session) -> String {
    let mut parts = when(plan, session);
    parts.insert(1.min(parts.len()), session.day.clone());
    parts.join(" · ")
}

/// The pages of one session, as roomy as possible without an additional page.
fn pages(
    plan: &Plan,
    gathering: &Gathering<'_>,
    session: &Session,
    options: &CardOptions,
) -> Vec<Page> {
    let labels = Labels::of(&plan.language);
    let leaf = leaf(plan, gathering, session, options);
    let lifts = gathering.lifts();
    let mut best: Option<Vec<Fragment>> = None;
    for measures in RackMetrics::all(leaf.width()) {
        let sheet = RackSheet { plan, labels, m: measures };
        let mut blocks = sheet.limits(gathering);
        let mut letter = None;
        for lift in &lifts {
            let first = letter != Some(lift.order.letter);
            letter = Some(lift.order.letter);
            blocks.extend(sheet.lift(lift, first));
        }
        let bodies: Vec<Fragment> = flow(&blocks, |_| leaf.height())
            .iter()
            .map(|column| {
                let mut body = Fragment::default();
                for (y, row) in &column.rows {
                    body.put(row.piece.clone(), 0.0, *y);
                }
                body
            })
            .collect();
        if best.as_ref().is_none_or(|best| bodies.len() < best.len()) {
            best = Some(bodies);
        }
    }
    leaf.pages(best.unwrap_or_default())
}

fn leaf(plan: &Plan, gathering: &Gathering<'_>, session: &Session, options: &CardOptions) -> Leaf {
    let labels = Labels::of(&plan.language);
    let present = u32::try_from(gathering.present.len()).unwrap_or(u32::MAX);
    let present = labels.count(&labels.broad.athletes, present);
    let mut gyms: Vec<&str> =
        gathering.present.iter().filter_map(|(athlete, _)| athlete.gym.as_deref()).collect();
    gyms.dedup();
    let gym = gyms.first().filter(|_| gyms.len() == 1).map(|gym| (*gym).to_owned());
    let facts = [Some(plan.programme.clone()), session.phase.clone(), gym, Some(present)];
    let head = PageHead {
        title: session.day.clone(),
        kind: labels.broad.rack.to_owned(),
        when: when(plan, session).join(" · "),
        ..PageHead::default()
    }
    .telling(plan, labels, facts);
    Leaf::new(
        options.paper.sheet(),
        false,
        head,
        &[labels.broad.block_about, labels.broad.rack_about],
        labels,
    )
}

/// Number of athletes up to which a station is kept on one page.
const SHORT: usize = 4;

/// A rack sheet that is being laid out.
struct RackSheet<'a> {
    plan: &'a Plan,
    labels: &'static Labels,
    m: RackMetrics,
}

impl RackSheet<'_> {
    /// The limits in force, with the names of their athletes.
    fn limits(&self, gathering: &Gathering<'_>) -> Vec<Block> {
        let labels = self.labels;
        let mut texts = Vec::new();
        for (athlete, session) in &gathering.present {
            for limit in &session.limits {
                let text = labels.show_limit(limit, |date| labels.show_date(date));
                texts.push(format!("{} – {text}", athlete.name));
            }
        }
        let frames = limits(&texts, self.m.w, labels);
        frames.into_iter().map(|frame| Block::of_lines(3.0, vec![frame])).collect()
    }

    /// An exercise's name in the squad's language.
    fn named<'n>(&'n self, exercise: &'n str) -> &'n str {
        name_in(&self.plan.exercise_names, &self.plan.language, exercise)
    }

    fn words(&self, entry: &LiftEntry<'_>) -> Wording {
        Wording::new(&self.plan.language, entry.athlete, PRINTED)
    }

    /// A lift: its head, then each station, kept together if a page has room for it.
    fn lift(&self, lift: &Lift<'_>, first_of_letter: bool) -> Vec<Block> {
        let entries: Vec<&LiftEntry<'_>> =
            lift.stations.iter().flat_map(|station| &station.entries).collect();
        let Some(first) = entries.first() else { return Vec::new() };
        let words = self.words(first);
        let told = how_done(first.session, lift.order.letter, &words);
        let runs = all_runs(&entries);
        let (common, equipment) = shared_details(&words, &runs, told.1);
        let single = lift.stations.len() == 1;
        let bare = single && lift.stations.iter().all(|station| station.rack.is_none());
        let mut details = common.clone();
        details.extend(equipment.filter(|_| bare));
        let how = told.0.filter(|_| first_of_letter);
        let rows = Rows::new(&entries, &self.m, told.1);
        let mut blocks = Vec::new();
        for (at, station) in lift.stations.iter().enumerate() {
            let head = |continued| self.lift_head(lift, &details, how.as_deref(), continued);
            let own = (!bare).then(|| self.station_head(station, &entries, &common, told.1));
            let again = stack([Some(head(true)), own.clone()].into_iter().flatten(), 2.0);
            if at == 0 {
                blocks.push(Block {
                    rows: vec![Row::new(10.0, head(false))],
                    keep_with_next: true,
                    again: None,
                });
            }
            if let Some(own) = own {
                let before = if at == 0 { 2.0 } else { 5.0 };
                let again = Some(Row::new(0.0, head(true))).filter(|_| at > 0);
                blocks.push(Block {
                    rows: vec![Row::new(before, own)],
                    keep_with_next: true,
                    again,
                });
            }
            let last = station.entries.len() - 1;
            let mut shared = Shares::default();
            for (at, entry) in station.entries.iter().enumerate() {
                let words = self.words(entry);
                let row = rows.row(entry, shared.of(station, &words, told.1), &words);
                let again = Some(Row::new(0.0, again.clone())).filter(|_| at > 0);
                // A long station would leave half a page blank, so only two rows are kept with its
                // head.
                let keep_with_next = at < last && (at == 0 || last < SHORT);
                blocks.push(Block { rows: vec![Row::new(0.0, row)], keep_with_next, again });
            }
        }
        blocks
    }

    /// The letter, the name and what all athletes share; how the group is done; the safety note.
    fn lift_head(
        &self,
        lift: &Lift<'_>,
        details: &[String],
        how: Option<&str>,
        continued: bool,
    ) -> Fragment {
        let m = &self.m;
        let entry = lift.stations.first().and_then(|station| station.entries.first());
        let exercise = entry.map(|entry| entry.exercise);
        let mut out = Fragment::space(m.w, 0.0);
        out.put(Fragment::rule(m.w, 1.2, Ink::Black), 0.0, 0.0);
        let letter = line(&lift.order.to_string(), m.title);
        let indent = letter.w.max(14.0) + 7.0;
        out.put(letter, 0.0, 2.0);
        let name = self.named(lift.name);
        let name = if continued { fill(self.labels.continued, &[name]) } else { name.to_owned() };
        let name = lines(&[StyledText::new(name, m.title)], m.w - indent, Align::Left);
        let reach = name.last().map_or(0.0, |last| inked(last).0);
        let mut y = 2.0;
        let rows = name.len().min(3);
        for text in name.into_iter().take(3) {
            let h = text.h;
            out.put(text, indent, y);
            y += h;
        }
        let replaces = exercise.and_then(|exercise| exercise.replaces.as_ref());
        let mut facts: Vec<String> = replaces
            .map(|replaced| fill(self.labels.replaces, &[self.named(&replaced.name)]))
            .into_iter()
            .collect();
        facts.extend(details.iter().cloned());
        let facts_line = facts.join("  ·  ");
        let from = indent + reach + 10.0;
        let beside = !facts.is_empty()
            && super::layout::width(&facts_line, m.meta) + from <= m.w
            && rows == 1;
        if beside {
            let drop = m.title.baseline() - m.meta.baseline();
            out.put(line(&facts_line, m.meta), from, 2.0 + drop);
        } else {
            for text in
                packed(&facts, "  ·  ", m.meta, m.w - indent, Align::Left).into_iter().take(3)
            {
                let h = text.h;
                out.put(text, indent, y);
                y += h;
            }
        }
        if continued {
            return out;
        }
        let safety = exercise.and_then(|exercise| {
            exercise.programme_safety.clone().or_else(|| exercise.safety.clone())
        });
        let strong = Style { face: Style::strong(0.0).face, ..m.small };
        let small = [
            how.map(|how| vec![StyledText::new(how, m.small)]),
            safety.map(|text| {
                let label = format!("{}\u{a0} ", self.labels.safety);
                vec![StyledText::new(label, strong), StyledText::new(text, m.small)]
            }),
        ];
        for spans in small.into_iter().flatten() {
            for text in lines(&spans, m.w - indent, Align::Left).into_iter().take(3) {
                let h = text.h;
                out.put(text, indent, y);
                y += h;
            }
        }
        out
    }

    /// The rack, the bar, and what is the same for all athletes there but not for all athletes of
    /// the lift.
    fn station_head(
        &self,
        station: &Station<'_>,
        all: &[&LiftEntry<'_>],
        common: &[String],
        rest_told: Option<Duration>,
    ) -> Fragment {
        let m = &self.m;
        let mut out = Fragment::space(m.w, m.meta.leading() + 3.0);
        let Some(first) = station.entries.first() else { return out };
        let words = self.words(first);
        let entries: Vec<&LiftEntry<'_>> = station.entries.iter().collect();
        let (own, equipment) = shared_details(&words, &all_runs(&entries), rest_told);
        let rack = match station.rack {
            Some(rack) => fill(self.labels.broad.rack_of, &[rack]),
            None => self.labels.broad.no_rack.to_owned(),
        };
        let racks = all.iter().any(|entry| entry.athlete.rack.is_some()) && station.barred;
        let mut x = 0.0;
        if racks {
            let rack = capped(&rack, Style::strong(m.meta.size), 120.0, Align::Left, 1);
            let text = rack.first().map(inked).unwrap_or_default().1;
            let rack = tag(&text, Style::strong(m.meta.size));
            x = rack.w + 6.0;
            out.put(rack, 0.0, 1.0);
        }
        let gyms = all.windows(2).any(|pair| match pair {
            [a, b] => a.athlete.gym != b.athlete.gym,
            _ => false,
        });
        let gym = station.gym.filter(|_| gyms).map(str::to_owned);
        let own = own.into_iter().filter(|detail| !common.contains(detail));
        let facts: Vec<String> = gym.into_iter().chain(equipment).chain(own).collect();
        let facts = packed(&facts, "  ·  ", m.meta, m.w - x, Align::Left);
        out.put(stack(facts.into_iter().take(2), 0.0), x, 1.4);
        out
    }
}

/// What all sets of a station share, in the athletes' units. It is computed once for all athletes
/// with the same units.
#[derive(Default)]
struct Shares(Vec<(Units, Vec<Option<String>>)>);

/// The unit of an athlete's loads, and the other one, if both are shown.
type Units = (Unit, Option<Unit>);

impl Shares {
    fn of(
        &mut self,
        station: &Station<'_>,
        words: &Wording,
        rest_told: Option<Duration>,
    ) -> &[Option<String>] {
        let units = (words.unit, words.also);
        let at = self.0.iter().position(|(known, _)| *known == units).unwrap_or_else(|| {
            let entries: Vec<&LiftEntry<'_>> = station.entries.iter().collect();
            self.0.push((units, common(words, &all_runs(&entries), rest_told)));
            self.0.len() - 1
        });
        self.0.get(at).map_or(&[], |(_, shared)| shared)
    }
}

/// The runs of some entries.
fn all_runs<'a>(entries: &[&LiftEntry<'a>]) -> Vec<Run<'a>> {
    entries.iter().flat_map(|entry| entry.runs.iter().copied()).collect()
}
