//! Texts of the weekly table.

/// Texts of the weekly table in one language.
#[derive(Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each field is named for the English words it holds")]
pub struct WeeklyLabels {
    /// `{0}`: programme.
    pub title: &'static str,
    /// `{0}`: unit.
    pub masses_in: &'static str,
    pub no_sessions: &'static str,
    /// `{0}`: phase; `{1}`: its only week.
    pub phase_week: &'static str,
    /// `{0}`: phase; `{1}`: its first week; `{2}`: its last week.
    pub phase_weeks: &'static str,
    pub week: &'static str,
    pub sessions: &'static str,
    pub hard_sets: &'static str,
    /// `{0}`: unit.
    pub volume: &'static str,
    /// `{0}`: unit.
    pub average_load: &'static str,
    pub percent_by_sets: &'static str,
    pub percent_by_reps: &'static str,
    pub without_load: &'static str,
    pub minutes: &'static str,
    /// `{0}`: unit.
    pub top_sets: &'static str,
    pub lift_intensity: &'static str,
    pub sets_by_share: &'static str,
    pub sets_direct: &'static str,
    /// `{0}`: unit.
    pub volume_by_share: &'static str,
    pub patterns: &'static str,
    pub conventions: &'static str,
}

/// English.
pub static ENGLISH: WeeklyLabels = WeeklyLabels {
    title: "{0}: week by week, as planned",
    masses_in: "masses in {0}",
    no_sessions: "No session.",
    phase_week: "{0}: week {1}",
    phase_weeks: "{0}: weeks {1}-{2}",
    week: "Week",
    sessions: "Sessions",
    hard_sets: "Hard sets",
    volume: "Volume load, {0}",
    average_load: "Average load, {0}",
    percent_by_sets: "Intensity by sets, % 1RM",
    percent_by_reps: "Intensity by reps, % 1RM",
    without_load: "Sets without a load",
    minutes: "Minutes per session, estimated",
    top_sets: "Top sets of main lifts: reps @ {0}",
    lift_intensity: "Intensity of main lifts by sets, % 1RM",
    sets_by_share: "Hard sets per muscle, each by the muscle’s share",
    sets_direct: "Hard sets per muscle, direct + indirect",
    volume_by_share: "Volume load per muscle, {0}, each set by the muscle’s share",
    patterns: "Hard sets per movement pattern",
    conventions: "Hard sets are working sets: no warm-ups, no drops. Volume load is reps times load: \
        both bells of a pair, both sides of a one-sided set, body mass with what is added where the \
        body mass is known, and the least that makes a set. Average load is volume load divided by \
        its reps. Intensity is what the sets ask for in percent of the lift’s own 1RM, where that is \
        known: the mean over sets, and the mean over reps. Direct is a share of one, indirect a \
        lower share (Pelland et al. 2024). ~ is estimated from an effort; + and - are on the body \
        mass.",
};
