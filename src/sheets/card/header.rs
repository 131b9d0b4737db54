//! The head of a page: whose card it is, and which session.

use crate::plan::{AthletePlan, Plan, Session};
use crate::sheets::labels::{Labels, fill};
use crate::sheets::layout::{Align, Fragment, Ink, Style, stack, width};

use super::metrics::Metrics;
use super::parts::{capped, packed, plain};

/// Lays out the head; `page` is this page and how many the session has.
#[must_use]
pub fn header(
    plan: &Plan,
    athlete: &AthletePlan,
    session: &Session,
    page: (usize, usize),
    m: &Metrics,
) -> Fragment {
    let labels = Labels::of(&plan.language);
    let gap = 12.0;
    let strong = Style::strong(m.meta.size);
    let week = fill(labels.week_of, &[&session.week.to_string(), &plan.weeks.to_string()]);
    let when = [Some(week), labels.show_when(session)];
    let when: Vec<String> = when.into_iter().flatten().map(|t| t.replace(' ', "\u{a0}")).collect();
    let when = when.join(" · ");
    // The right side takes what it needs, the left what remains.
    let most = m.content() * 0.46;
    let right_w = width(&session.day, m.day).max(width(&when, strong)).min(most);
    let left_w = m.content() - gap - right_w;

    let mut left = capped(&athlete.name, m.title, left_w, Align::Left, 3);
    let facts = [
        Some(plan.programme.clone()),
        session.phase.clone(),
        athlete.gym.clone(),
        athlete.rack.as_ref().map(|rack| fill(labels.rack, &[rack]).replace(' ', "\u{a0}")),
        session.time.map(|time| fill(labels.time_allowed, &[&time.to_string()])),
    ];
    let facts: Vec<String> = facts.into_iter().flatten().collect();
    left.extend(packed(&facts, "  ·  ", m.meta, left_w, Align::Left).into_iter().take(6));

    let day = stack(capped(&session.day, m.day, right_w, Align::Right, 4), 0.0);
    let mut right = plain(&when, strong, right_w, Align::Right);
    if page.1 > 1 {
        let (this, all) = (page.0.to_string(), page.1.to_string());
        let text = fill(labels.page_of, &[&this, &all]);
        right.extend(plain(&text, m.meta, right_w, Align::Right));
    }

    let mut out = Fragment::space(m.content(), 0.0);
    out.put(stack(left, 0.0), 0.0, 0.0);
    // The day's name stands on the athlete's baseline.
    let drop = (m.title.leading() - m.day.leading()) / 2.0 + (m.title.size - m.day.size) * 0.345;
    // The week stands level with the programme, where the day leaves it room.
    let week = (drop + day.h).max(m.title.leading());
    out.put(day, left_w + gap, drop);
    out.put(stack(right, 0.0), left_w + gap, week);
    let rule = out.h + 3.0;
    out.put(Fragment::rule(m.content(), 1.8, Ink::Black), 0.0, rule);
    out.h += 3.0;
    out
}
