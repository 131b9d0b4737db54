//! What lines of days prescribe, and what phases change.

use super::{Context, amount, doubt};
use crate::catalogue::{Exercise, LIBRARY_FILE};
use crate::diagnostics::{Code, Diagnostic};
use crate::quantity::{Decimal, Duration, Exact, HalfPoints, Mass, RepCount, Tempo, TempoPart};
use crate::source::{Span, Spanned};
use crate::syntax::ast::{
    CountedIn, EffortText, EquipmentKind, GroupOption, GroupText, HowText, Item, LineKey, LoadText,
    Name, Node, OptionText, OverWeeks, Prescription, RepsText, SetGroup, SignedMass, Value,
    WorkText,
};

/// Rests outside these are doubted; none at all is not. Twice the longest and a sixth of the
/// shortest that the handbook has for any goal (Haff & Triplett 2016, ch. 17: 30 s to 5 min) are
/// well within.
const SHORT_REST: Duration = Duration::seconds(5);
const LONG_REST: Duration = Duration::seconds(15 * 60);
/// More repetitions in reserve than most people can tell.
const MOST_RESERVE: HalfPoints = HalfPoints(2 * 5);
/// An RPE below this says no more than that it is easy.
const LEAST_RPE: HalfPoints = HalfPoints(2 * 5);
/// Between straight sets, a rest is doubted below this.
const SHORT_STRAIGHT_REST: Duration = Duration::seconds(15);
/// The longest change of station in a circuit that is not doubted.
const LONG_CHANGE: Duration = Duration::seconds(5 * 60);
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
        let rounds = in_rounds(lines);
        for node in lines {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                (LineKey::Order(order, name), value) => {
                    let place = Place {
                        exercise: self.exercise(name),
                        grouped: order.value.number.is_some(),
                        in_rounds: rounds.contains(&order.value.letter),
                    };
                    self.line(&place, value, &node.children, problems);
                }
                (LineKey::Letter(_), Value::Group(group)) => {
                    of_group(group, value.span, problems);
                }
                _ => {}
            }
        }
    }

    /// The lines of a scheme: whichever exercise follows it.
    pub(super) fn scheme(&self, lines: &[Node], problems: &mut Vec<Diagnostic>) {
        let place = Place { exercise: None, grouped: true, in_rounds: false };
        self.line(&place, &Value::Empty, lines, problems);
    }

    /// A line, with its `week` and `for` lines.
    fn line(
        &self,
        place: &Place<'_>,
        value: &Value,
        below: &[Node],
        problems: &mut Vec<Diagnostic>,
    ) {
        if let Value::Prescription(prescription) = value {
            self.prescription(place, prescription, problems);
        }
        for node in below {
            let Item::Entry { key, value } = &node.item.value else { continue };
            if matches!(key.value, LineKey::Weeks(_) | LineKey::For(_)) {
                self.line(place, &value.value, &node.children, problems);
            }
        }
    }

    fn prescription(
        &self,
        place: &Place<'_>,
        prescription: &Prescription,
        problems: &mut Vec<Diagnostic>,
    ) {
        for group in &prescription.groups {
            if let Some(reps) = &group.reps {
                reps_in_doubt(reps, place.exercise, problems);
            }
            amount::check(group, place.exercise, place.in_rounds, problems);
            self.load(group, problems);
            // Short rests between holds and within groups are common.
            let timed = |reps: &Spanned<RepsText>| !matches!(reps.value.work, WorkText::Reps(_));
            let pauses = place.grouped || place.in_rounds || group.reps.as_ref().is_some_and(timed);
            let shortest = if pauses { SHORT_REST } else { SHORT_STRAIGHT_REST };
            for option in &group.options {
                match &option.value {
                    OptionText::Rest(rest) => rests(rest, shortest, problems),
                    OptionText::Effort(effort) => asked(effort, option.span, problems),
                    OptionText::Tempo(tempo) => problems.extend(slow(*tempo, option.span)),
                    _ => {}
                }
            }
        }
    }
}

/// Where a prescription stands.
struct Place<'a> {
    exercise: Option<&'a Exercise>,
    /// It has a number after its letter: others may share the letter.
    grouped: bool,
    /// Its letter is done in a circuit, at intervals or in as many rounds as possible.
    in_rounds: bool,
}

/// The letters that are done in rounds.
fn in_rounds(lines: &[Node]) -> Vec<char> {
    let letter = |node: &Node| match &node.item.value {
        Item::Entry { key, value } => match (&key.value, &value.value) {
            (LineKey::Letter(order), Value::Group(group)) => {
                let how = group.how.as_ref();
                how.filter(|how| !matches!(how, HowText::Paired)).map(|_| order.value.letter)
            }
            _ => None,
        },
        _ => None,
    };
    lines.iter().filter_map(letter).collect()
}

fn of_group(group: &GroupText, span: Span, problems: &mut Vec<Diagnostic>) {
    if let Some(HowText::Circuit(Some(rounds))) = group.how {
        problems.extend(amount::rounds(rounds, span));
    }
    for option in &group.options {
        match &option.value {
            GroupOption::Common(OptionText::Rest(rest)) => rests(rest, SHORT_REST, problems),
            GroupOption::Change(time) if *time > LONG_CHANGE => {
                let message = format!("a change of {time} between exercises is unlikely");
                let found = doubt(Code::UnlikelyValue, option.span, message);
                // Minutes for seconds: `change 20 min` for 20 s.
                let meant = Duration::seconds(time.as_seconds() / 60);
                problems.push(found.guess(option.span, format!("change {meant}")));
            }
            _ => {}
        }
    }
}

impl Context<'_> {
    fn load(&self, group: &SetGroup, problems: &mut Vec<Diagnostic>) {
        let Some(load) = &group.load else { return };
        match &load.value {
            LoadText::Effort(effort) => asked(effort, load.span, problems),
            LoadText::Bodyweight(Some(over)) => {
                let found = over
                    .values
                    .iter()
                    .filter_map(|by| on_body(by.value, by.span).or_else(|| self.all_of_body(by)));
                problems.extend(found);
            }
            _ => {}
        }
    }

    /// Help that takes off the whole body mass of an athlete.
    fn all_of_body(&self, by: &Spanned<SignedMass>) -> Option<Diagnostic> {
        let help = by.value.mass.mass();
        let known = self
            .definitions
            .athletes
            .iter()
            .filter_map(|athlete| Some((athlete.body_mass?, &athlete.name)));
        let (body, name) = known.min_by_key(|(body, _)| *body)?;
        if !help.is_negative() || help.abs() < body {
            return None;
        }
        let tenth = SignedMass { mass: super::times(by.value.mass, 1, 10) };
        let message = format!(
            "`{}` takes off the whole body mass of {name}, {}",
            by.value,
            body.show(by.value.mass.unit)
        );
        Some(doubt(Code::UnlikelyValue, by.span, message).guess(by.span, tenth.to_string()))
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

fn rests(rest: &OverWeeks<Spanned<Duration>>, shortest: Duration, problems: &mut Vec<Diagnostic>) {
    for rest in &rest.values {
        let seconds = rest.value.as_seconds();
        let long = rest.value > LONG_REST;
        if seconds == 0 || !long && rest.value >= shortest {
            continue;
        }
        // Minutes and seconds taken for each other: `90 min` for 90 s, `3 s` for 3 min. Or a digit
        // is missing: `9 s` for 90 s.
        let meant = match rest.value {
            value if value > LONG_REST => seconds / 60,
            value if value < SHORT_REST => seconds * 60,
            _ => seconds * 10,
        };
        let meant = Duration::seconds(meant);
        let message = format!("a rest of {} is unlikely", rest.value);
        let found = doubt(Code::UnlikelyValue, rest.span, message);
        let sane = (shortest..=LONG_REST).contains(&meant);
        problems.push(if sane { found.guess(rest.span, meant.to_string()) } else { found });
    }
}

/// An effort that is hardly asked for; the span is that of the whole of it.
fn asked(effort: &EffortText, span: Span, problems: &mut Vec<Diagnostic>) {
    let alone = effort.points.step.is_none() && !effort.points.is_series();
    let low = |points: HalfPoints| {
        if effort.is_rpe { points < LEAST_RPE } else { points > MOST_RESERVE }
    };
    let Some(points) = effort.points.values.iter().find(|points| low(points.value)) else { return };
    let written = points.value;
    if effort.is_rpe {
        let message = format!("RPE {written} is too easy for a set that trains");
        let found = doubt(Code::UnlikelyValue, points.span, message)
            .help("hard sets are RPE 6 to 10; repetitions left before failure are written `RIR 3`");
        let guess = alone && written <= MOST_RESERVE;
        problems.push(if guess { found.guess(span, format!("RIR {written}")) } else { found });
        return;
    }
    let message = format!("hardly anybody can judge that {written} repetitions are left");
    let found = doubt(Code::UnlikelyValue, points.span, message)
        .help("RIR is the number of repetitions left before failure: hard sets leave 0 to 4");
    // The other scale: `RIR 8` for RPE 8. Or a digit too many: `20` for 2, `12` for 2.
    let whole = written.0 / 2;
    let digit = if whole.is_multiple_of(10) { whole / 10 } else { whole % 10 };
    let exact = written.0.is_multiple_of(2) && whole < 100 && digit <= 5;
    problems.push(match whole {
        6..=9 if alone => found.guess(span, format!("RPE {written}")),
        10.. if exact => found.guess(points.span, digit.to_string()),
        _ => found,
    });
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

/// Whether the top of a range is far above its bottom.
pub fn is_wide(count: RepCount) -> bool {
    count.max.is_some_and(|max| max >= RANGE_TOP && max >= RANGE_TIMES.saturating_mul(count.min))
}

/// A range whose top has a digit too many.
fn wide(over: &OverWeeks<Spanned<RepCount>>, unit: &str, problems: &mut Vec<Diagnostic>) {
    for count in &over.values {
        let RepCount { min, max: Some(max) } = count.value else { continue };
        if !is_wide(count.value) {
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
