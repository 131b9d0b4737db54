//! The overview: an athlete's block on one page. Weeks have the same columns from top to bottom, so
//! that volume, intensity, top sets and muscles of a week can be compared. Each number is below its
//! mark.

mod rows;

use crate::plan::{AthletePlan, Plan};
use crate::tally::{AthleteWeeks, weekly};

use super::CardOptions;
use super::card::Deck;
use super::columns::{Columns, weeks, when};
use super::labels::{Labels, fill};
use super::layout::{Fragment, Ink, Page, Style, line};
use super::leaf::{Leaf, PageHead};
use super::pdf::Bookmark;
use rows::{Heights, Panel};

/// Width of the column of names, in points.
const NAMES: f32 = 112.0;

/// Lays out an overview of every athlete who has a session.
#[must_use]
pub fn deck(plan: &Plan, options: &CardOptions) -> Deck {
    let mut deck = Deck { pages: Vec::new(), bookmarks: Vec::new() };
    let weekly = weekly(plan);
    let document = Labels::of(&plan.language).language;
    for (athlete, tally) in plan.athletes.iter().zip(&weekly.athletes) {
        if athlete.sessions.is_empty() {
            continue;
        }
        let text = athlete.name.clone();
        deck.bookmarks.push(Bookmark { text, page: deck.pages.len(), below: Vec::new() });
        let language = Labels::of(&athlete.language).language;
        let page = page(plan, athlete, tally, options);
        deck.pages.push(page.speaking(language, document));
    }
    deck
}

fn page(plan: &Plan, athlete: &AthletePlan, tally: &AthleteWeeks, options: &CardOptions) -> Page {
    let labels = Labels::of(&athlete.language);
    let facts = [
        Some(plan.programme.clone()),
        athlete.gym.clone(),
        Some(fill(labels.review.masses_in, &[athlete.unit.symbol()])),
        plan.goal.as_ref().map(|goal| labels.labelled(labels.goal, goal)),
    ];
    let weeks = weeks(&athlete.sessions);
    let head = PageHead {
        title: athlete.name.clone(),
        kind: labels.broad.overview.to_owned(),
        when: when(&weeks, plan.weeks, labels),
        ..PageHead::default()
    }
    .telling(plan, labels, facts);
    let about = [labels.broad.overview_about, labels.broad.hatched];
    let leaf = Leaf::new(options.paper.sheet(), false, head, &about, labels);
    // Many weeks are narrow; every number should still fit below its mark.
    let inset = match weeks.len() {
        0..=12 => 4.0,
        13..=24 => 1.2,
        _ => 0.6,
    };
    let columns = Columns { weeks, names: NAMES, w: leaf.width(), inset };
    let header = columns.header(labels, false);
    let room = leaf.height() - header.h - 2.0;
    let names = (&plan.exercise_names, athlete.language.as_str());
    let panel = Panel { columns: &columns, tally, labels, names };
    let mut body = header;
    body.h += 2.0;
    for (title, rows) in fitting(&panel, room) {
        if let Some(title) = title {
            let title = title_row(&title, columns.w);
            let y = body.h;
            body.put(title, 0.0, y);
        }
        for row in rows {
            let y = body.h;
            body.put(row, 0.0, y);
        }
    }
    leaf.page(body, (1, 1))
}

/// The title of a panel, and its rows.
type PanelPart = (Option<String>, Vec<Fragment>);

/// All panels, as tall as the page allows. Muscles without room are counted.
fn fitting(panel: &Panel<'_>, room: f32) -> Vec<PanelPart> {
    let mut last = Vec::new();
    for heights in Heights::ALL {
        let parts = parts(panel, heights, usize::MAX);
        if height(&parts) <= room {
            return parts;
        }
        last = parts;
    }
    let muscles = last.last().map_or(0, |(_, rows)| rows.len());
    for most in (0..muscles).rev() {
        let parts = parts(panel, Heights::LEAST, most);
        if height(&parts) <= room {
            return parts;
        }
    }
    last.truncate(2);
    last
}

fn parts(panel: &Panel<'_>, heights: Heights, most: usize) -> Vec<PanelPart> {
    let labels = panel.labels.broad;
    vec![
        (None, vec![panel.volume(heights), panel.intensity(heights)]),
        (Some(fill(labels.top_sets, &[panel.tally.unit.symbol()])), panel.top_sets(heights)),
        (Some(labels.muscles.to_owned()), panel.muscles(heights, most)),
    ]
}

/// Height of a panel's title, in points.
const TITLE: f32 = 17.0;

fn height(parts: &[PanelPart]) -> f32 {
    let one = |(title, rows): &PanelPart| {
        let title = if title.is_some() { TITLE } else { 0.0 };
        title + rows.iter().map(|row| row.h).sum::<f32>()
    };
    parts.iter().map(one).sum()
}

fn title_row(title: &str, w: f32) -> Fragment {
    let mut out = Fragment::space(w, TITLE);
    out.put(Fragment::rule(w, 1.0, Ink::Black), 0.0, 0.0);
    out.put(line(title, Style::strong(9.4)), 0.0, 3.0);
    out
}
