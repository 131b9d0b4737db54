//! The texts that sheets print: one table for each language, with all words of all sheets.
//!
//! A template has `{0}`, `{1}` … in place of numbers and names, so that a translation can change
//! their order. To add a language, add a table in a file of its own, a line in [`Labels::ALL`], and
//! its tag in `catalogue::LANGUAGES`.

mod broad;
mod french;
mod german;
mod polish;
mod review;
mod rules;
mod spanish;
mod spelling;
mod weekly;
mod why;

#[cfg(test)]
mod plural_tests;
#[cfg(test)]
mod table_tests;

use jiff::civil::Date;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use crate::plan::{Assumed, Limit, Plan, Session};

pub use broad::BroadLabels;
pub use review::ReviewLabels;
pub use rules::RuleLabels;
pub use spelling::{Counted, Numbers, Plural};
pub use weekly::WeeklyLabels;
pub use why::WhyLabels;

/// The texts of one language.
#[derive(Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "each field is named for the English words it holds")]
pub struct Labels {
    pub language: &'static str,
    /// How numbers are written.
    pub numbers: Numbers,
    /// Separator between a label and its text.
    pub colon: &'static str,
    /// Separator between parts of a list that may contain commas.
    pub semicolon: &'static str,
    pub weekdays: [&'static str; 7],
    pub months: [&'static str; 12],
    /// The first day of a month, in a date.
    pub first: &'static str,
    /// `{0}`: weekday; `{1}`: day; `{2}`: month; `{3}`: year.
    pub date: &'static str,
    /// `{0}`: week; `{1}`: number of weeks.
    pub week_of: &'static str,
    /// `{0}`: page; `{1}`: number of pages.
    pub page_of: &'static str,
    pub rack: &'static str,
    pub weeks: Counted,
    pub before: &'static str,
    pub after: &'static str,
    pub note: &'static str,
    pub limit: &'static str,
    /// `{0}`: date.
    pub until: &'static str,
    /// `{0}`: first day of the week.
    pub week_from: &'static str,
    pub time_allowed: &'static str,
    pub loads_in: &'static str,
    /// `{0}`: week.
    pub repeats_week: &'static str,
    /// For plans in which every future set reaches the top of its range.
    pub best_case: &'static str,
    /// For plans in which every future rule acts against the athlete.
    pub worst_case: &'static str,
    pub goal: &'static str,
    pub supervision: &'static str,

    pub warm_up: &'static str,
    pub set_up: &'static str,
    pub yours: &'static str,
    pub cue: &'static str,
    pub safety: &'static str,
    pub next_time: &'static str,
    /// `{0}`: replaced exercise.
    pub replaces: &'static str,
    pub instead_of: &'static str,
    /// `{0}`: replaced exercise.
    pub load_kept: &'static str,
    pub tempo: &'static str,
    pub rest: &'static str,
    pub range: &'static str,
    pub every: &'static str,
    pub rest_pause: &'static str,
    pub demo: &'static str,

    pub reps: Counted,
    pub each_side: &'static str,
    /// `{0}`: rest.
    pub between_sides: &'static str,
    /// `{0}`: pause between the parts of a cluster.
    pub between_parts: &'static str,
    pub amrap: &'static str,
    pub body_mass: &'static str,
    /// The body mass of a weigh-in, in the card's box and the summary's head.
    pub weigh_in: &'static str,
    pub assisted: &'static str,
    /// `{0}`: load.
    pub about: &'static str,
    /// `{0}`: load of the one dumbbell of a unilateral exercise.
    pub one_hand: &'static str,
    /// `{0}`: load of the one dumbbell that both hands hold.
    pub one_dumbbell: &'static str,
    /// `{0}`: load of the one kettlebell.
    pub one_bell: &'static str,
    /// `{0}`: load.
    pub pin: &'static str,
    /// `{0}`: name of the band.
    pub band: &'static str,
    /// `{0}`: requested load.
    pub asked: &'static str,
    pub load_open: &'static str,
    /// For a load that was written for the replaced exercise.
    pub choose_load: &'static str,
    pub drop: &'static str,
    pub back_off: &'static str,
    /// For numbers that depend on sessions that are not done yet.
    pub projected: &'static str,
    /// `{0}`: mass of the bar.
    pub bar: &'static str,
    /// `{0}`: mass of the collars.
    pub collars: &'static str,
    pub no_plates: &'static str,
    /// `{0}`: plates.
    pub per_side: &'static str,
    /// `{0}`: plates, in running text.
    pub a_side: &'static str,
    /// `{0}`: pieces of the added load.
    pub hung: &'static str,

    /// `{0}`: date.
    pub done_on: &'static str,
    pub skipped: &'static str,
    pub not_logged: &'static str,
    pub log_note: &'static str,
    pub extra: &'static str,
    pub done: &'static str,
    pub left_out: &'static str,
    /// `{0}`: pain, from 0 to 10.
    pub pain_of: &'static str,
    pub rule: &'static str,

    /// `{0}`: the text that is continued.
    pub continued: &'static str,
    pub superset: &'static str,
    pub giant_set: &'static str,
    pub paired: &'static str,
    pub circuit: &'static str,
    /// `{0}`, `{1}`: the two members of a group.
    pub alternate_two: &'static str,
    /// `{0}`: first member; `{1}`: last member.
    pub alternate_all: &'static str,
    pub rest_after_both: &'static str,
    pub rest_after_all: &'static str,
    pub rest_between: &'static str,
    pub rounds: Counted,
    pub change: &'static str,
    pub rest_after_round: &'static str,
    /// `{0}`: interval; `{1}`: total time.
    pub every_for: &'static str,
    pub every_one: &'static str,
    /// `{0}`: members.
    pub every_all: &'static str,
    pub every_alternate: &'static str,
    /// `{0}`: total time.
    pub rounds_in: &'static str,
    pub rounds_done: &'static str,
    pub extra_reps: &'static str,
    pub left: &'static str,
    pub right: &'static str,

    pub rpe: &'static str,
    pub session_rpe: &'static str,
    pub sleep: &'static str,
    pub pain: &'static str,
    pub notes: &'static str,
    pub what_rpe_is: &'static str,
    pub what_rir_is: &'static str,
    pub what_amrap_is: &'static str,
    pub what_tempo_is: &'static str,
    pub cautions_head: &'static str,
    pub cautions: &'static str,
    /// Title of the document. `{0}`: programme.
    pub title: &'static str,
    /// Title of the coach's copy. `{0}`: programme.
    pub title_coach: &'static str,
    pub coach_copy: &'static str,
    pub coach_notes: &'static str,
    pub loads_from: &'static str,
    pub source: &'static str,
    pub source_of_line: &'static str,
    /// `{0}`: cue.
    pub source_of_cue: &'static str,
    pub source_of_programme: &'static str,
    /// Muscles and movement patterns: the catalogue's word and this language's.
    pub words: &'static [(&'static str, &'static str)],
    /// Texts of rules.
    pub rules: &'static RuleLabels,
    /// Texts of derivations.
    pub why: &'static WhyLabels,
    /// Texts of the block, rack, overview and wall sheets.
    pub broad: &'static BroadLabels,
    /// Texts of the review.
    pub review: &'static ReviewLabels,
    /// Texts of the weekly table.
    pub weekly: &'static WeeklyLabels,
}

/// English.
///
/// The disclaimers are based on Riebe et al. 2015, Med Sci Sports Exerc 47(11):2473–2479 (screening
/// and warning signs), and on handbook practice for spotting. The wording is our own.
pub static ENGLISH: Labels = Labels {
    language: "en",
    numbers: Numbers::ENGLISH,
    colon: ": ",
    semicolon: "; ",
    weekdays: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
    months: ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"],
    first: "1",
    date: "{0} {1} {2} {3}",
    week_of: "Week {0} of {1}",
    page_of: "page {0} of {1}",
    rack: "rack {0}",
    weeks: Counted::two("{0} week", "{0} weeks"),
    before: "Before",
    after: "After",
    note: "Note",
    limit: "Limit",
    until: "until {0}",
    week_from: "from {0}",
    time_allowed: "{0} in all",
    loads_in: "loads in {0}",
    repeats_week: "repeats week {0}",
    best_case: "what if: at best",
    worst_case: "what if: at worst",
    goal: "Goal",
    supervision: "Supervision",
    warm_up: "Warm-up",
    set_up: "Set-up",
    yours: "Your settings",
    cue: "Cue",
    safety: "Safety",
    next_time: "Next time",
    replaces: "replaces {0}",
    instead_of: "Replaces",
    load_kept: "The load is the one written for {0}: start below it if unsure.",
    tempo: "tempo {0}",
    rest: "rest {0}",
    range: "range {0}",
    every: "every {0}",
    rest_pause: "rest-pause {0}",
    demo: "Demo",
    reps: Counted::two("{0} rep", "{0} reps"),
    each_side: "each side",
    between_sides: "{0} between sides",
    between_parts: "{0} between",
    amrap: "AMRAP",
    body_mass: "body mass",
    weigh_in: "body mass",
    assisted: "assisted",
    about: "about {0}",
    one_hand: "{0}, one hand",
    one_dumbbell: "{0}, one dumbbell",
    one_bell: "{0}, one bell",
    pin: "pin {0}",
    band: "{0} band",
    asked: "target {0}",
    load_open: "load open",
    choose_load: "choose a load",
    drop: "drop",
    back_off: "back-off",
    projected: "projected",
    bar: "{0} bar",
    collars: "{0} collars",
    no_plates: "no plates",
    per_side: "per side {0}",
    a_side: "{0} a side",
    hung: "add {0}",
    done_on: "Done on {0}",
    skipped: "Skipped",
    not_logged: "Not logged",
    log_note: "Log note",
    extra: "Outside the plan",
    done: "Done",
    left_out: "left out",
    pain_of: "pain {0}/10",
    rule: "Rule",
    continued: "{0}, continued",
    superset: "Superset",
    giant_set: "Giant set",
    paired: "Paired sets",
    circuit: "Circuit",
    alternate_two: "alternate {0} and {1}",
    alternate_all: "{0} to {1} in turn",
    rest_after_both: "rest {0} after both",
    rest_after_all: "rest {0} after all",
    rest_between: "rest {0} after each",
    rounds: Counted::two("{0} round", "{0} rounds"),
    change: "{0} to change over",
    rest_after_round: "rest {0} after each round",
    every_for: "Every {0} for {1}",
    every_one: "a set on each interval",
    every_all: "start {0} on each interval",
    every_alternate: "one exercise an interval, in turn",
    rounds_in: "As many rounds as possible in {0}",
    rounds_done: "rounds",
    extra_reps: "+ reps",
    left: "L",
    right: "R",
    rpe: "RPE",
    session_rpe: "Session RPE",
    sleep: "Sleep",
    pain: "Pain (0–10, where)",
    notes: "Notes",
    what_rpe_is: "RPE: effort, 10 = not one more rep",
    what_rir_is: "RIR: reps in reserve",
    what_amrap_is: "AMRAP: as many reps as possible",
    what_tempo_is: "tempo: seconds lowering–pause–lifting–pause, X = fast",
    cautions_head: "Stop",
    cautions: "on sharp pain. Chest pain, faintness, a fluttering heart or unusual breathlessness: \
        end the session, get help at once. A bar over you or on you needs safeties or a spotter. \
        Loads are estimates, technique decides: go lighter when it slips. If your health gives \
        cause, train only once a professional has cleared you. The gym’s rules come first.",
    title: "{0}: session cards",
    title_coach: "{0}: session cards, coach’s copy",
    coach_copy: "Coach’s copy",
    coach_notes: "For the coach",
    loads_from: "Load",
    source: "Source",
    source_of_line: "Source of the line",
    source_of_cue: "Source of the cue “{0}”",
    source_of_programme: "Source of the programme",
    words: &[],
    rules: &rules::NOTATION,
    why: &why::ENGLISH,
    broad: &broad::ENGLISH,
    review: &review::ENGLISH,
    weekly: &weekly::ENGLISH,
};

impl Labels {
    /// The tables of all languages.
    pub const ALL: [&'static Labels; 5] =
        [&ENGLISH, &german::LABELS, &french::LABELS, &spanish::LABELS, &polish::LABELS];

    /// The table for a BCP 47 language; English if there is none. The region matters only for the
    /// decimal separator in Spanish.
    #[must_use]
    pub fn of(language: &str) -> &'static Labels {
        if spanish::has_point(language) {
            return &spanish::WITH_POINT;
        }
        let primary = language.split('-').next().unwrap_or(language);
        let table = |labels: &&&Labels| labels.language.eq_ignore_ascii_case(primary);
        Self::ALL.iter().find(table).copied().unwrap_or(&ENGLISH)
    }

    /// A label, followed by its text.
    #[must_use]
    pub fn labelled(&self, label: &str, text: &str) -> String {
        format!("{label}{}{text}", self.colon)
    }

    /// A count with its noun: `8 weeks`.
    #[must_use]
    pub fn count(&self, what: &Counted, n: u32) -> String {
        fill(what.form(self.numbers.plural, n), &[&self.numbers.group(&n.to_string())])
    }

    /// Translates a muscle or a movement pattern from the catalogue's word.
    #[must_use]
    pub fn word<'w>(&self, word: &'w str) -> &'w str {
        self.words.iter().find(|(known, _)| *known == word).map_or(word, |(_, own)| *own)
    }

    /// Sort key for words, close to this language's dictionary order. Accents and capitals are
    /// ignored.
    #[must_use]
    pub fn order_of(word: &str) -> String {
        let plain = word.nfd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase);
        // The only letter in the tables that Unicode does not decompose.
        plain.map(|c| if c == 'ł' { 'l' } else { c }).collect()
    }

    /// The mark of a plan with assumptions, which is not for training.
    #[must_use]
    pub fn show_assumed(&self, plan: &Plan) -> Option<&'static str> {
        plan.assumed.map(|assumed| match assumed {
            Assumed::Best => self.best_case,
            Assumed::Worst => self.worst_case,
        })
    }

    /// When a session takes place: its date, otherwise the start of its week.
    #[must_use]
    pub fn show_when(&self, session: &Session) -> Option<String> {
        let from = |date| fill(self.week_from, &[&self.show_date(date)]);
        session.date.map(|date| self.show_date(date)).or(session.week_starts.map(from))
    }

    /// A limit, with its author and end date in one bracket. `show` formats the date.
    #[must_use]
    pub fn show_limit(&self, limit: &Limit, show: impl Fn(Date) -> String) -> String {
        let (name, text) = (&limit.name, limit.text.trim_end());
        // The text may already contain the date.
        let until = limit.until.filter(|date| !text.contains(&date.to_string()));
        let Some(until) = until.map(|date| fill(self.until, &[&show(date)])) else {
            return self.labelled(name, text);
        };
        let text = match text.strip_suffix(')') {
            Some(open) if open.contains('(') => format!("{open}, {until})"),
            _ => format!("{text} ({until})"),
        };
        self.labelled(name, &text)
    }

    /// Names of the date's weekday and month.
    #[must_use]
    pub fn names_of(&self, date: Date) -> [&'static str; 2] {
        let index = |n: i8| usize::try_from(n).unwrap_or(0);
        let weekday = index(date.weekday().to_monday_zero_offset());
        let month = index(date.month() - 1);
        let name = |names: &[&'static str], at: usize| names.get(at).copied().unwrap_or_default();
        [name(&self.weekdays, weekday), name(&self.months, month)]
    }

    /// A date, such as `Mon 5 Jan 2026`.
    #[must_use]
    pub fn show_date(&self, date: Date) -> String {
        let [weekday, month] = self.names_of(date);
        fill(self.date, &[weekday, &self.day(date), month, &date.year().to_string()])
    }

    /// The day of the month.
    #[must_use]
    pub fn day(&self, date: Date) -> String {
        if date.day() == 1 { self.first.to_owned() } else { date.day().to_string() }
    }
}

/// Capitalises a word that starts a line or a label.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    first + letters.as_str()
}

/// Replaces `{0}`, `{1}` … in a template by values.
#[must_use]
pub fn fill(template: &str, values: &[&str]) -> String {
    // One pass over the template, so that braces in values are left alone.
    let mut out = String::new();
    let mut rest = template;
    while let Some((text, tail)) = rest.split_once('{') {
        out.push_str(text);
        let Some((index, tail)) = tail.split_once('}') else {
            rest = tail;
            break;
        };
        let value = index.parse().ok().and_then(|i: usize| values.get(i));
        out.push_str(value.copied().unwrap_or_default());
        rest = tail;
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_read_as_on_a_calendar() {
        let (first, fifth) = (jiff::civil::date(2026, 5, 1), jiff::civil::date(2026, 1, 5));
        for (language, one, five) in [
            ("en", "Fri 1 May 2026", "Mon 5 Jan 2026"),
            ("de", "Fr, 1. Mai 2026", "Mo, 5. Jan. 2026"),
            ("fr", "ven. 1er mai 2026", "lun. 5 janv. 2026"),
            ("es", "vie, 1 may 2026", "lun, 5 ene 2026"),
            ("pl", "pt., 1 maja 2026", "pon., 5 sty 2026"),
        ] {
            assert_eq!(Labels::of(language).show_date(first), one);
            assert_eq!(Labels::of(language).show_date(fifth), five);
        }
    }

    #[test]
    fn a_limit_has_one_bracket() {
        let until = Some(jiff::civil::date(2026, 2, 1));
        for (text, shown) in [
            ("no pressing (physio)", "Shoulder: no pressing (physio, until Sun 1 Feb 2026)"),
            ("no pressing", "Shoulder: no pressing (until Sun 1 Feb 2026)"),
            ("no jumping (until 2026-02-01)", "Shoulder: no jumping (until 2026-02-01)"),
        ] {
            let limit = Limit { name: "Shoulder".to_owned(), text: text.to_owned(), until };
            assert_eq!(ENGLISH.show_limit(&limit, |date| ENGLISH.show_date(date)), shown);
        }
    }

    #[test]
    fn templates_leave_braces_in_names_alone() {
        assert_eq!(fill("Week {0} of {1}", &["{1}", "8"]), "Week {1} of 8");
    }

    #[test]
    fn an_unknown_language_falls_back_to_english() {
        assert_eq!(Labels::of("en-GB").language, "en");
        assert_eq!(Labels::of("DE-AT").language, "de");
        assert_eq!(Labels::of("tlh").language, "en");
    }
}
