//! Texts of the review.

use super::Counted;

/// Texts of the review in one language.
#[derive(Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each field is named for the English words it holds")]
pub struct ReviewLabels {
    /// `{0}`: programme.
    pub title: &'static str,
    pub head: &'static str,
    /// `{0}`: unit.
    pub masses_in: &'static str,
    pub nothing_yet: &'static str,
    /// `{0}`: session.
    pub so_far: &'static str,
    /// `{0}`: week; `{1}`: day; `{2}`: date.
    pub sitting: &'static str,
    /// `{0}`: week; `{1}`: day.
    pub sitting_undated: &'static str,

    pub look_first: &'static str,
    pub look_about: &'static str,
    pub athlete: &'static str,
    pub score: &'static str,
    pub ask_about: &'static str,
    pub nothing_stands_out: &'static str,
    /// `{0}`: pain; `{1}`: exercise; `{2}`: week.
    pub pain: &'static str,
    pub nothing_logged: &'static str,
    /// `{0}`: exercise; `{1}`: day; `{2}`: order letter; `{3}`: number of sessions.
    pub misses_in_a_row: &'static str,
    /// `{0}`: number of sessions.
    pub sessions_missing: &'static str,
    /// `{0}`: number of sessions.
    pub sessions_skipped: &'static str,
    /// `{0}`: lift; `{1}`: slope.
    pub falling: &'static str,
    /// `{0}`: points; `{1}`: number of lines.
    pub effort_above: &'static str,

    pub sessions: &'static str,
    pub sets_made: &'static str,
    /// `{0}`: done; `{1}`: planned.
    pub of: &'static str,
    /// `{0}`: skipped sessions; `{1}`: sessions without a log.
    pub not_done: &'static str,
    pub week: &'static str,
    pub planned: &'static str,
    pub done: &'static str,
    /// `{0}`: unit.
    pub volume: &'static str,
    pub hard_sets: &'static str,
    pub volumes: &'static str,
    pub last_week: &'static str,
    /// `{0}`: future sessions.
    pub to_come: &'static str,
    pub without_load: Counted,
    /// `{0}`: week.
    pub lifts_of_week: &'static str,
    pub lift: &'static str,
    /// `{0}`: week.
    pub muscles_of_week: &'static str,
    pub muscle: &'static str,
    pub direct: &'static str,
    pub indirect: &'static str,
    pub fractional: &'static str,

    pub strength: &'static str,
    /// `{0}`: equation; `{1}`: maximum number of repetitions.
    pub strength_about: &'static str,
    /// `{0}`: lift; `{1}`: unit.
    pub strength_of: &'static str,
    pub with_body_mass: &'static str,
    /// `{0}`: slope.
    pub per_week: &'static str,
    pub no_trend: &'static str,
    pub trend_a_week: &'static str,
    pub latest: &'static str,
    pub estimated: &'static str,
    pub no_estimates: &'static str,

    pub effort: &'static str,
    pub effort_about: &'static str,
    pub mean: &'static str,
    pub range: &'static str,
    pub session: &'static str,
    pub no_efforts: &'static str,

    pub missed: &'static str,
    pub nothing_missed: &'static str,
    pub session_skipped: &'static str,
    pub session_missing: &'static str,
    pub left_out: &'static str,
    pub not_logged: &'static str,
    /// `{0}`: sets done; `{1}`: prescribed repetitions.
    pub sets_short: &'static str,

    pub rules: &'static str,
    pub new_maxes: &'static str,
    /// `{0}`: lift; `{1}`: max before; `{2}`: max now; `{3}`: line.
    pub new_max: &'static str,
    pub changes: &'static str,
    pub no_changes: &'static str,
    pub nothing_to_come: &'static str,
    pub load_open: &'static str,
    /// `{0}`: rule; `{1}`: session.
    pub by_rule: &'static str,
    /// `{0}`: rule; `{1}`: session.
    pub by_projected: &'static str,
    /// `{0}`: lift; `{1}`: max.
    pub by_new_max: &'static str,
    /// `{0}`: phase.
    pub by_phase: &'static str,
    /// `{0}`: the phase that ends.
    pub by_phase_end: &'static str,
    /// `{0}`: percentage before; `{1}`: percentage now.
    pub by_percent: &'static str,
    pub by_programme: &'static str,

    pub extras: &'static str,
    pub notes: &'static str,
    pub pains: &'static str,
    /// `{0}`: a number from 0 to 10.
    pub of_ten: &'static str,
    pub body_mass: &'static str,
    pub conventions: &'static str,
}

/// English.
pub static ENGLISH: ReviewLabels = ReviewLabels {
    title: "{0}: review",
    head: "Review",
    masses_in: "masses in {0}",
    nothing_yet: "Nothing logged yet.",
    so_far: "Logged so far: to {0}",
    sitting: "week {0}, {1}, {2}",
    sitting_undated: "week {0}, {1}",
    look_first: "Who needs a look first",
    look_about: "A score orders the list: pain reported lately 10 and the pain; a line missed twice \
        in a row or more 2 for each session; a session lately without a log 2, skipped 1; a lift \
        whose estimated 1RM falls by 1 % a week or more 2; effort above the prescription its \
        points; nothing logged, though others have, 5. Lately is the last logged week and the one \
        before. It is a reason to ask, not a finding.",
    athlete: "Athlete",
    score: "Score",
    ask_about: "Ask about",
    nothing_stands_out: "nothing stands out",
    pain: "pain {0} of 10 ({1}, week {2})",
    nothing_logged: "nothing logged yet",
    misses_in_a_row: "{0} ({1}, {2}) missed {3} in a row",
    sessions_missing: "sessions without a log: {0}",
    sessions_skipped: "sessions skipped: {0}",
    falling: "{0}: estimated 1RM {1}",
    effort_above: "effort above the prescription (points: {0}, lines: {1})",
    sessions: "Sessions",
    sets_made: "Sets done",
    of: "{0} of {1}",
    not_done: "{0} skipped, {1} without a log",
    week: "Week",
    planned: "planned",
    done: "done",
    volume: "Volume load, {0}",
    hard_sets: "Hard sets",
    volumes: "Volume load a week",
    last_week: "Latest week’s load",
    to_come: "{0} to come",
    without_load: Counted::two(
        "{0} set without a known load counts as a set only.",
        "{0} sets without a known load count as sets only.",
    ),
    lifts_of_week: "Week {0}, lift by lift",
    lift: "Lift",
    muscles_of_week: "Week {0}, hard sets per muscle: done of planned",
    muscle: "Muscle",
    direct: "direct",
    indirect: "indirect",
    fractional: "fractional",
    strength: "Best estimated 1RM",
    strength_about: "{0}’s equation, sets of at most {1} reps, as if they had gone to failure: a \
        floor where reps were left in reserve.",
    strength_of: "{0}: estimated 1RM, {1}",
    with_body_mass: "with body mass",
    per_week: "{0} a week",
    no_trend: "no trend yet",
    trend_a_week: "a week",
    latest: "Latest",
    estimated: "1RM",
    no_estimates: "No set of at most 10 reps with a known load yet.",
    effort: "Effort reported, RPE",
    effort_about: "mean (lowest–highest)",
    mean: "mean",
    range: "range",
    session: "Session",
    no_efforts: "No effort reported yet.",
    missed: "Missed",
    nothing_missed: "Nothing missed.",
    session_skipped: "session skipped",
    session_missing: "session without a log",
    left_out: "left out",
    not_logged: "not in the session’s log",
    sets_short: "{0} for {1}",
    rules: "Rules applied",
    new_maxes: "Tested again",
    new_max: "{0}: {1} → {2} ({3})",
    changes: "What changes next, and why",
    no_changes: "The next sessions are the same as the last ones.",
    nothing_to_come: "No session is left.",
    load_open: "load open",
    by_rule: "{0} (after {1})",
    by_projected: "{0} (after {1}, if it goes as planned)",
    by_new_max: "{0} tested again: {1}",
    by_phase: "phase {0}",
    by_phase_end: "phase {0} is over",
    by_percent: "programme: {0}% → {1}%",
    by_programme: "programme",
    extras: "Outside the plan",
    notes: "Notes from the logs",
    pains: "Pain reported",
    of_ten: "{0} of 10",
    body_mass: "Body mass",
    conventions: "Volume load is reps times load of working sets: both bells of a pair, both sides \
        of a one-sided set, body mass with what is added where the body mass is known; planned \
        counts the least that makes a set. Hard sets are working sets; fractional counts each by \
        the muscle’s share (Pelland et al. 2024). Estimates: at most 10 reps (Reynolds et al. \
        2006). The trend is a least-squares line over the days.",
};
