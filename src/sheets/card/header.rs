//! The head of a page: athlete, programme and session.

use crate::sheets::labels::{Labels, fill};
use crate::sheets::layout::{Align, Fragment, Ink, Style, stack, width};
use crate::sheets::summary::done::status;

use super::metrics::Metrics;
use super::parts::{capped, fits, framed, inked, packed, plain};
use super::{Card, CardSubject};

/// The text of a head, and the widths of its sides.
struct CardHeader {
    when: String,
    facts: Vec<String>,
    left: f32,
    right: f32,
}

/// Space between its sides, in points.
const GAP: f32 = 12.0;
/// Maximum number of lines of the athlete's name, of the day, and of the text below the name. Every
/// page repeats them.
const MOST: (usize, usize, usize) = (3, 4, 6);

impl CardHeader {
    fn new(card: &Card<'_>) -> Self {
        let Card { of: CardSubject { plan, athlete, session, .. }, metrics: m, .. } = card;
        let labels = card.labels();
        let week = fill(labels.week_of, &[&session.week.to_string(), &plan.weeks.to_string()]);
        let when = [Some(week), labels.show_when(session)].into_iter().flatten();
        let when: Vec<String> = when.map(|text| text.replace(' ', "\u{a0}")).collect();
        let when = when.join(" · ");
        let facts = [
            labels.show_assumed(plan).map(|text| text.to_uppercase().replace(' ', "\u{a0}")),
            status(session, labels),
            Some(plan.programme.clone()),
            session
                .repeats_week
                .map(|week| fill(labels.repeats_week, &[&week.to_string()]).replace(' ', "\u{a0}")),
            session.phase.clone(),
            athlete.gym.clone(),
            athlete.rack.as_ref().map(|rack| fill(labels.rack, &[rack]).replace(' ', "\u{a0}")),
            session.time.map(|time| fill(labels.time_allowed, &[&time.to_string()])),
        ];
        // The right side gets the width it needs, the left side the rest.
        let most = m.content() * 0.46;
        let strong = Style::strong(m.meta.size);
        let right = width(&session.day, m.day).max(width(&when, strong)).min(most);
        let left = m.content() - GAP - right;
        Self { when, facts: facts.into_iter().flatten().collect(), left, right }
    }

    fn facts(&self, m: &Metrics) -> Vec<Fragment> {
        packed(&self.facts, "  ·  ", m.meta, self.left, Align::Left)
    }
}

/// Texts that the head has to shorten, in full, for the body of the card.
#[must_use]
pub fn cut_short(card: &Card<'_>) -> Vec<String> {
    let Card { of: CardSubject { athlete, session, .. }, metrics: m, .. } = card;
    let head = CardHeader::new(card);
    let lines = |text: &str, style, max| {
        if fits(text, style, max) { 1 } else { plain(text, style, max, Align::Left).len() }
    };
    let name = (lines(&athlete.name, m.title, head.left) > MOST.0).then(|| athlete.name.clone());
    let day = (lines(&session.day, m.day, head.right) > MOST.1).then(|| session.day.clone());
    let short = |fact: &String| fits(fact, m.meta, head.left);
    let few = head.facts.len() <= MOST.2 && head.facts.iter().all(short);
    let facts = (!few && head.facts(m).len() > MOST.2).then(|| head.facts.join(" · "));
    [name, day, facts].into_iter().flatten().collect()
}

/// Lays out the head; `page` is the page's number and the session's number of pages.
#[must_use]
pub fn header(card: &Card<'_>, page: (usize, usize)) -> Fragment {
    let Card { of: CardSubject { athlete, session, .. }, metrics: m, .. } = card;
    let labels = card.labels();
    let head = CardHeader::new(card);
    let (left_w, right_w, gap) = (head.left, head.right, GAP);
    let mut left = capped(&athlete.name, m.title, left_w, Align::Left, MOST.0);
    mark(card, &mut left, left_w);
    left.extend(head.facts(m).into_iter().take(MOST.2));

    let day = stack(capped(&session.day, m.day, right_w, Align::Right, MOST.1), 0.0);
    let mut right = plain(&head.when, Style::strong(m.meta.size), right_w, Align::Right);
    if page.1 > 1 {
        let (this, all) = (page.0.to_string(), page.1.to_string());
        let text = fill(labels.page_of, &[&this, &all]);
        right.extend(plain(&text, m.meta, right_w, Align::Right));
    }

    let mut out = Fragment::space(m.content(), 0.0);
    out.put(stack(left, 0.0), 0.0, 0.0);
    // The day's name shares the baseline of the athlete's name.
    let drop = (m.title.leading() - m.day.leading()) / 2.0 + (m.title.size - m.day.size) * 0.345;
    // The week is level with the programme, if the day leaves enough room.
    let week = (drop + day.h).max(m.title.leading());
    out.put(day, left_w + gap, drop);
    out.put(stack(right, 0.0), left_w + gap, week);
    let rule = out.h + 3.0;
    out.put(Fragment::rule(m.content(), 1.8, Ink::Black), 0.0, rule);
    out.h += 3.0;
    out
}

/// The small mark of a coach's copy: next to the athlete's name if there is room, otherwise below
/// it.
fn mark(card: &Card<'_>, name: &mut Vec<Fragment>, room: f32) {
    if !card.is_for_coach() {
        return;
    }
    let m = &card.metrics;
    let mark = framed(Labels::of(&card.plan.language).coach_copy, m.meta);
    let [only] = name.as_mut_slice() else {
        name.push(mark);
        return;
    };
    let (x, y) = (inked(only).0 + GAP, (m.title.leading() - mark.h) / 2.0);
    if x + mark.w > room {
        name.push(mark);
    } else {
        only.items.extend(mark.items.into_iter().map(|item| item.moved(x, y)));
    }
}
