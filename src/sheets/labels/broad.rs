//! Texts of the block, rack, overview and wall sheets.

use super::Counted;

/// Texts of these sheets in one language.
#[derive(Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each field is named for the English words it holds")]
pub struct BroadLabels {
    /// Title of a document that contains more than session cards. `{0}`: programme.
    pub title: &'static str,
    pub cards: &'static str,
    pub block: &'static str,
    pub block_sheets: &'static str,
    pub rack: &'static str,
    pub rack_sheets: &'static str,
    pub overview: &'static str,
    pub overviews: &'static str,
    pub wall: &'static str,
    /// Label of the load on a wall card.
    pub heaviest: &'static str,
    /// The disclaimers of sheets that athletes do not take with them as their only sheet.
    pub cautions: &'static str,

    /// `{0}`: first week; `{1}`: last week; `{2}`: number of weeks.
    pub weeks_of: &'static str,
    /// `{0}`: first week; `{1}`: last week.
    pub weeks: &'static str,
    /// `{0}`: week.
    pub week: &'static str,
    /// First day of a week. `{0}`: day; `{1}`: month.
    pub day_month: &'static str,
    /// `{0}`: weekday; `{1}`: day of the month.
    pub weekday_month: &'static str,
    pub lighter: &'static str,
    /// The mark of a number that may change.
    pub projected_sign: &'static str,
    /// `{0}`: that mark.
    pub projected_about: &'static str,
    pub block_about: &'static str,
    pub hatched: &'static str,
    pub nothing: &'static str,
    /// `{0}`: number of further sets, which are on the card.
    pub more_on_card: Counted,

    pub athletes: Counted,
    pub rack_of: &'static str,
    pub no_rack: &'static str,
    pub rack_about: &'static str,

    pub overview_about: &'static str,
    pub intensity: &'static str,
    /// `{0}`: unit.
    pub volume: &'static str,
    pub muscles: &'static str,
    /// `{0}`: number of muscles left out.
    pub muscles_more: Counted,
    /// `{0}`: unit.
    pub top_sets: &'static str,
    pub volume_small: &'static str,
    pub intensity_small: &'static str,
    pub no_intensity: &'static str,
    pub no_muscles: &'static str,
    pub no_lifts: &'static str,
}

/// English.
pub static ENGLISH: BroadLabels = BroadLabels {
    title: "{0}: sheets",
    cards: "Session cards",
    block: "Block sheet",
    block_sheets: "Block sheets",
    rack: "Rack sheet",
    rack_sheets: "Rack sheets",
    overview: "Overview",
    overviews: "Overviews",
    wall: "Wall cards",
    heaviest: "heaviest in this plan",
    cautions: "on sharp pain. Chest pain, faintness, a fluttering heart or unusual breathlessness: end \
        the session, get help at once. A bar over you or on you needs safeties or a spotter. Loads \
        are estimates, technique decides: go lighter when it slips. The gym’s rules come first.",
    weeks_of: "Weeks {0}–{1} of {2}",
    weeks: "Weeks {0}–{1}",
    week: "Week {0}",
    day_month: "{0} {1}",
    weekday_month: "{0} {1}",
    lighter: "lighter",
    projected_sign: "°",
    projected_about: "{0} depends on sessions that are not logged yet.",
    block_about: "Plates shown are for one side.",
    hatched: "Hatched: a lighter week.",
    nothing: "–",
    more_on_card: Counted::two("and {0} more set: see the card", "and {0} more sets: see the card"),
    athletes: Counted::two("{0} athlete", "{0} athletes"),
    rack_of: "Rack {0}",
    no_rack: "No rack",
    rack_about: "At each bar the athletes stand in the order that moves the fewest plates, set after set.",
    overview_about: "As planned. Hard sets are working sets: no warm-ups, no drops. Volume load is \
        reps times load of what really moves. Intensity is the mean over hard sets, in percent of \
        the lift’s own 1RM, where that is known. A muscle’s sets count by its share in each.",
    intensity: "Average intensity, % 1RM",
    volume: "Volume load, {0}",
    muscles: "Hard sets a week, by muscle",
    muscles_more: Counted::two(
        "{0} more muscle has fewer sets.",
        "{0} more muscles have fewer sets.",
    ),
    top_sets: "Planned top sets of the main lifts, {0}",
    volume_small: "a week",
    intensity_small: "mean over hard sets",
    no_intensity: "no known 1RM",
    no_muscles: "No exercise that names its muscles.",
    no_lifts: "No lift with a load that is known beforehand.",
};
