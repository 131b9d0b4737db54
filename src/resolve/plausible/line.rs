//! What lines of days prescribe, and what phases change.

use super::{Context, doubt};
use crate::catalogue::{Exercise, LIBRARY_FILE};
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Duration, Exact, HalfPoints, Mass, RepCount, Tempo, TempoPart};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{
    CountedIn, EffortText, EquipmentKind, GroupOption, Item, LineKey, LoadText, Name, Node,
    OptionText, OverWeeks, Prescription, RepsText, SetGroup, SignedMass, Value, WorkText,
};

/// Rests outside these are doubted; none at all is not. Twice the longest and a sixth of the
/// shortest that the handbook has for any goal (Haff & Triplett 2016, ch. 17: 30 s to 5 min) are
/// well within.
const SHORT_REST: Duration = Duration::seconds(5);
const LONG_REST: Duration = Duration::seconds(15 * 60);
/// More repetitions in reserve than anybody can tell.
const MOST_RESERVE: HalfPoints = HalfPoints(2 * 10);
/// The longest part of a tempo that is not doubted.
const MOST_TEMPO_S: u8 = 10;
/// A range is doubted when its top is so many times its bottom …
const RANGE_TIMES: u32 = 5;
/// … and at least this.
const RANGE_TOP: u32 = 60;
/// From so many on, a number without a unit on a timed exercise is an error: see `missing-unit`.
const NO_REPS: u32 = 20;
/// A set in seconds on a lift that is counted is doubted below this: longer ones are held.
const SHORT_SET_S: u32 = 10;
/// Fewer repetitions of a carry than these may be lengths of the hall.
const LENGTHS: u32 = 5;
/// Help beyond this, or more added than twice this, is doubted on a body-mass load.
const MOST_HELP: Mass = Mass::from_kg(100);
/// A deload takes off at least this, in percent, or it hardly is one.
const DELOAD_PERCENT: i64 = 10;

impl Context<'_> {
    /// The lines of a day.
    pub(super) fn day(&self, lines: &[Node], problems: &mut Vec<Diagnostic>) {
        for node in lines {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                (LineKey::Order(_, name), value) => {
                    self.line(self.exercise(name), value, &node.children, problems);
                }
                (LineKey::Letter(_), Value::Group(group)) => {
                    for option in &group.options {
                        if let GroupOption::Common(OptionText::Rest(rest)) = &option.value {
                            rests(rest, problems);
                        }
                    }
                }
                _ => {}
            }
        }
    }

    /// The lines of a scheme: whichever exercise follows it.
    pub(super) fn scheme(&self, lines: &[Node], problems: &mut Vec<Diagnostic>) {
        self.line(None, &Value::Empty, lines, problems);
    }

    /// A line, with its `week` and `for` lines.
    fn line(
        &self,
        exercise: Option<&Exercise>,
        value: &Value,
        below: &[Node],
        problems: &mut Vec<Diagnostic>,
    ) {
        if let Value::Prescription(prescription) = value {
            self.prescription(exercise, prescription, problems);
        }
        for node in below {
            let Item::Entry { key, value } = &node.item.value else { continue };
            if matches!(key.value, LineKey::Weeks(_) | LineKey::For(_)) {
                self.line(exercise, &value.value, &node.children, problems);
            }
        }
    }

    fn prescription(
        &self,
        exercise: Option<&Exercise>,
        prescription: &Prescription,
        problems: &mut Vec<Diagnostic>,
    ) {
        for group in &prescription.groups {
            if let Some(reps) = &group.reps {
                reps_in_doubt(reps, exercise, problems);
            }
            load(group, problems);
            for option in &group.options {
                match &option.value {
                    OptionText::Rest(rest) => rests(rest, problems),
                    OptionText::Effort(effort) => in_reserve(effort, problems),
                    OptionText::Tempo(tempo) => problems.extend(slow(*tempo, option.span)),
                    _ => {}
                }
            }
        }
    }
}

fn load(group: &SetGroup, problems: &mut Vec<Diagnostic>) {
    match group.load.as_ref().map(|load| &load.value) {
        Some(LoadText::Effort(effort)) => in_reserve(effort, problems),
        Some(LoadText::Bodyweight(Some(over))) => {
            let found = over.values.iter().filter_map(|by| on_body(by.value, by.span));
            problems.extend(found);
        }
        _ => {}
    }
}

/// A doubt about what is added to the body mass, or taken off it.
pub fn on_body(by: SignedMass, span: Span) -> Option<Diagnostic> {
    let within = |by: SignedMass| {
        let mass = by.mass.mass();
        let most = if mass.is_negative() { MOST_HELP } else { MOST_HELP * 2 };
        mass.abs() <= most
    };
    if within(by) {
        return None;
    }
    let message = format!("`{by}` on the body mass is unlikely");
    let found = doubt(Code::UnlikelyValue, span, message);
    let tenth = SignedMass { mass: super::times(by.mass, 1, 10) };
    Some(if within(tenth) { found.guess(span, tenth.to_string()) } else { found })
}

fn rests(rest: &OverWeeks<Spanned<Duration>>, problems: &mut Vec<Diagnostic>) {
    for rest in &rest.values {
        let seconds = rest.value.as_seconds();
        let long = rest.value > LONG_REST;
        if seconds == 0 || !long && rest.value >= SHORT_REST {
            continue;
        }
        // Minutes and seconds taken for each other: `90 min` for 90 s, `3 s` for 3 min.
        let meant = if long { seconds / 60 } else { seconds * 60 };
        let meant = Duration::seconds(meant);
        let message = format!("a rest of {} is unlikely", rest.value);
        let found = doubt(Code::UnlikelyValue, rest.span, message);
        let sane = (SHORT_REST..=LONG_REST).contains(&meant);
        problems.push(if sane { found.guess(rest.span, meant.to_string()) } else { found });
    }
}

fn in_reserve(effort: &EffortText, problems: &mut Vec<Diagnostic>) {
    if effort.is_rpe {
        return;
    }
    for points in effort.points.values.iter().filter(|points| points.value > MOST_RESERVE) {
        let message = format!("nobody can judge that {} repetitions are left", points.value);
        let found = doubt(Code::UnlikelyValue, points.span, message)
            .help("RIR is the number of repetitions left before failure: hard sets leave 0 to 4");
        // A digit too many: `20` for 2, `12` for 2.
        let whole = points.value.0 / 2;
        let meant = if whole.is_multiple_of(10) { whole / 10 } else { whole % 10 };
        let exact = points.value.0.is_multiple_of(2) && whole < 100;
        problems.push(if exact { found.guess(points.span, meant.to_string()) } else { found });
    }
}

fn slow(tempo: Tempo, span: Span) -> Option<Diagnostic> {
    let Tempo(parts) = tempo;
    let long = parts.iter().find_map(|part| match part {
        TempoPart::Seconds(seconds) if *seconds > MOST_TEMPO_S => Some(*seconds),
        _ => None,
    })?;
    let meant = parts.map(|part| match part {
        TempoPart::Seconds(seconds) if seconds > MOST_TEMPO_S => TempoPart::Seconds(seconds / 10),
        part => part,
    });
    let message = format!("a part of this tempo takes {long} s in every repetition");
    Some(
        doubt(Code::UnlikelyValue, span, message)
            .help("a tempo is four numbers of seconds: lowering, pause, lifting, pause")
            .guess(span, format!("tempo {}", Tempo(meant))),
    )
}

fn reps_in_doubt(
    reps: &Spanned<RepsText>,
    exercise: Option<&Exercise>,
    problems: &mut Vec<Diagnostic>,
) {
    match &reps.value.work {
        WorkText::Reps(over) => {
            wide(over, "", problems);
            problems.extend(exercise.and_then(|exercise| without_unit(over, exercise)));
        }
        WorkText::Seconds(over) => {
            wide(over, " s", problems);
            problems.extend(exercise.and_then(|exercise| short_for_a_lift(over, exercise)));
        }
        WorkText::Metres(over) => {
            wide(over, " m", problems);
            problems.extend(exercise.and_then(|exercise| far_for_a_lift(over, exercise)));
        }
        WorkText::Amrap | WorkText::Cluster(..) => {}
    }
    problems.extend(exercise.and_then(|exercise| two_sided(reps, exercise)));
}

/// A range whose top has a digit too many.
fn wide(over: &OverWeeks<Spanned<RepCount>>, unit: &str, problems: &mut Vec<Diagnostic>) {
    for count in &over.values {
        let RepCount { min, max: Some(max) } = count.value else { continue };
        if max < RANGE_TOP || max < RANGE_TIMES * min {
            continue;
        }
        let message = format!("the range {min}-{max}{unit} is unlikely");
        let found = doubt(Code::UnlikelyValue, count.span, message);
        let tenth = max / 10;
        let fits = tenth > min && over.step.is_none();
        problems.push(if fits {
            found.guess(count.span, format!("{min}-{tenth}{unit}"))
        } else {
            found
        });
    }
}

/// All values of a number in another unit, where no step beside them has one of its own.
fn recounted(found: Diagnostic, over: &OverWeeks<Spanned<RepCount>>, unit: &str) -> Diagnostic {
    if over.step.is_some() {
        return found;
    }
    let counts: Vec<String> =
        over.values.iter().map(|count| format!("{}{unit}", count.value)).collect();
    found.guess(over.span, counts.join(" -> "))
}

/// A hold or a carry counted in repetitions.
fn without_unit(over: &OverWeeks<Spanned<RepCount>>, exercise: &Exercise) -> Option<Diagnostic> {
    let first = over.values.first()?.value;
    let name = &exercise.name;
    let (message, unit) = match exercise.counted_in()? {
        CountedIn::Seconds => {
            // More than these are no repetitions of a hold: that is an error of its own.
            if over.values.iter().any(|count| count.value.min >= NO_REPS) {
                return None;
            }
            (format!("{name} is held for a time, but this reads as {first} repetitions"), " s")
        }
        CountedIn::Metres if first.min >= LENGTHS => {
            (format!("{name} is done over a distance, but this reads as {first} repetitions"), " m")
        }
        CountedIn::Metres | CountedIn::Reps => return None,
    };
    let found = doubt(Code::UnlikelyValue, over.span, message)
        .help(format!("write `{first}{unit}`, or write `counted in: reps` below the exercise"));
    Some(recounted(found, over, unit))
}

/// Whether it is counted in repetitions and nothing else: it says so, or it is of the library, and
/// no jump or lunge, which may go over a distance.
fn is_counted(exercise: &Exercise) -> bool {
    let moves = matches!(exercise.pattern.as_deref(), Some("jump" | "lunge" | "rotate"));
    let by_pattern = exercise.counted_in() == Some(CountedIn::Reps) && !moves;
    exercise.counted_in == Some(CountedIn::Reps) || by_pattern && is_built_in(exercise)
}

fn is_built_in(exercise: &Exercise) -> bool {
    exercise.span.file == LIBRARY_FILE
}

fn short_for_a_lift(
    over: &OverWeeks<Spanned<RepCount>>,
    exercise: &Exercise,
) -> Option<Diagnostic> {
    let first = over.values.first()?.value;
    if !is_counted(exercise) || first.max.unwrap_or(first.min) >= SHORT_SET_S {
        return None;
    }
    let message = format!("a set of {} lasts {first} s here", exercise.name);
    let found = doubt(Code::UnlikelyValue, over.span, message).help(
        "write only the number for repetitions; for a hold, write `counted in: seconds` below the exercise",
    );
    Some(recounted(found, over, ""))
}

fn far_for_a_lift(over: &OverWeeks<Spanned<RepCount>>, exercise: &Exercise) -> Option<Diagnostic> {
    let first = over.values.first()?.value;
    if !is_counted(exercise) {
        return None;
    }
    let message = format!("{} is done over {first} m here", exercise.name);
    let found = doubt(Code::UnlikelyValue, over.span, message).help(
        "write only the number for repetitions, and `min` for minutes; for a distance, write \
         `counted in: metres` below the exercise",
    );
    Some(recounted(found, over, ""))
}

/// `each side` on a lift of the library that both hands do with one bar.
fn two_sided(reps: &Spanned<RepsText>, exercise: &Exercise) -> Option<Diagnostic> {
    let bar = exercise.equipment.first().is_some_and(|item| item.kind == EquipmentKind::Barbell);
    if !reps.value.each_side || exercise.each_side || !bar || !is_built_in(exercise) {
        return None;
    }
    let both = RepsText { each_side: false, between: None, ..reps.value.clone() };
    let message =
        format!("{} works both sides at once, so `each side` doubles the work", exercise.name);
    Some(
        doubt(Code::UnlikelyValue, reps.span, message)
            .help("delete `each side`, or write the unilateral exercise")
            .guess(reps.span, both.to_string()),
    )
}

/// A phase that takes off hardly anything.
pub fn deload(
    name: &Name,
    sets: Option<&Spanned<Decimal>>,
    load: Option<&Spanned<Decimal>>,
    problems: &mut Vec<Diagnostic>,
) {
    let named = [("sets", sets), ("load", load)];
    let changes = || named.iter().filter_map(|(word, change)| Some((*word, (*change)?)));
    let percent = |change: &Spanned<Decimal>| Exact::from(change.value);
    let least = Exact::whole(-DELOAD_PERCENT);
    let small =
        |change: &Spanned<Decimal>| percent(change).is_negative() && percent(change) > least;
    // More of one thing and less of another is no deload; nor is less of both, one of them by much.
    if !changes().all(|(_, change)| small(change)) {
        return;
    }
    let Some((word, change)) = changes().next() else { return };
    let mut found = Diagnostic::new(
        Code::ShortDeload,
        change.span,
        format!("`{}` takes off only {}%, which is hardly a deload", name.value, -change.value),
    )
    .help("a deload usually takes off at least a tenth of the load or a third of the sets");
    let meant = &percent(change) * &Exact::whole(10);
    if meant >= Exact::whole(-60) {
        found = found.guess(change.span, format!("{word} {}%", meant.to_decimal(1)));
    }
    problems.push(found);
}
