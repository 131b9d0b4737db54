//! Resolves days: their lines, and who does what in which week.

use std::collections::BTreeMap;

use crate::catalogue::Cue;
use crate::diagnostics::{Code, Diagnostic};
use crate::source::{Sources, Span, Spanned};
use crate::syntax::ast::{
    Argument, GroupOption, GroupText, Head, HowText, Item, LineKey, Name, Node, OptionText,
    Prescription, RampSet, Value,
};
use crate::syntax::keys::Key;

use super::fields::Layer;
use super::phases::{PhaseWeeks, notes, overlaps, past_end};
use super::resolve_cache::{CleanProgramme, LineText};
use super::rules::{self, Parameters};
use super::unroll::Unroller;
use super::{Day, DayGroup, Definitions, How, Line, Load, ResolvedAthlete, Variant, WeekSpec};

/// The context for resolving a day.
pub struct DayContext<'a> {
    pub definitions: &'a Definitions<'a>,
    /// The programme's index, for its schemes.
    pub programme: usize,
    pub phases: &'a PhaseWeeks,
    pub trainees: &'a [ResolvedAthlete],
    /// The texts of all files.
    pub sources: &'a Sources,
}

/// Resolves a day from its block. Lines that are known to have no problems are not resolved again:
/// only their exercise is read.
pub fn resolve(
    node: &Node,
    context: &DayContext<'_>,
    mut clean: Option<&mut CleanProgramme>,
    problems: &mut Vec<Diagnostic>,
) -> Option<Day> {
    let Item::Head(Head::Day { name, weekday }) = &node.item.value else { return None };
    let mut day = Day {
        name: name.value.clone(),
        span: name.span,
        weekday: *weekday,
        time: None,
        notes: notes(&node.children),
        warm_up: None,
        before: None,
        after: None,
        groups: Vec::new(),
        lines: Vec::new(),
    };
    let mut group_lines: BTreeMap<char, (&GroupText, Span)> = BTreeMap::new();
    for child in &node.children {
        let Item::Entry { key, value } = &child.item.value else { continue };
        match (&key.value, &value.value) {
            (LineKey::Key(Key::Time), Value::Duration(time)) => day.time = Some(*time),
            (LineKey::Key(Key::WarmUp), Value::Ramp(sets)) => day.warm_up = Some(ramp(sets)),
            (LineKey::Key(Key::Before), Value::Text(text)) => day.before = Some(text.clone()),
            (LineKey::Key(Key::After), Value::Text(text)) => day.after = Some(text.clone()),
            (LineKey::Letter(order), Value::Group(group)) => {
                group_lines.insert(order.value.letter, (group, key.span));
            }
            _ => {}
        }
    }
    // The number of written members, whether they could be read or not; unknown if the letter of
    // some line could not be read.
    let mut members = Some(BTreeMap::new());
    for child in &node.children {
        let Item::Entry { key, value } = &child.item.value else {
            members = members.filter(|_| child.item.value != Item::Wrong);
            continue;
        };
        let LineKey::Order(order, name) = &key.value else { continue };
        if let Some(members) = &mut members {
            *members.entry(order.value.letter).or_insert(0) += 1;
        }
        let in_group = group_lines.get(&order.value.letter).is_some_and(|(group, _)| {
            matches!(
                group.how,
                Some(HowText::Circuit(_) | HowText::Every(..) | HowText::RoundsIn(_))
            )
        });
        let text = clean.as_ref().and_then(|_| {
            LineText::of(child, in_group, context.programme, context.definitions, context.sources)
        });
        let known = clean.as_deref_mut().zip(text);
        if let Some((clean, text)) = known
            && clean.knows(text)
        {
            day.lines.extend(bare(order.value, name, context.definitions));
            continue;
        }
        let before = problems.len();
        let mut reader =
            LineReader { context, problems, in_group, on_body: false, whole: child.item.span };
        let line = reader.line(order.value, name, value, &child.children);
        if let Some((clean, text)) = clean.as_deref_mut().zip(text)
            && line.is_some()
            && problems.len() == before
        {
            clean.keep(text, problems);
        }
        day.lines.extend(line);
    }
    day.groups = groups(&day, &group_lines, members.as_ref(), problems);
    Some(day)
}

/// A line of which only the head is asked for.
fn bare(order: crate::plan::Order, name: &Name, definitions: &Definitions<'_>) -> Option<Line> {
    Some(Line {
        order,
        exercise: definitions.exercise(&name.value)?,
        span: name.span,
        setup: None,
        setting: None,
        range: None,
        warm_up: None,
        cues: Vec::new(),
        notes: Vec::new(),
        source: None,
        over_max: None,
        common: Variant::default(),
        personal: Vec::new(),
    })
}

fn ramp(sets: &[Spanned<RampSet>]) -> Vec<RampSet> {
    sets.iter().map(|set| set.value.clone()).collect()
}

/// The letters of a day in the order of their first line.
fn groups(
    day: &Day,
    written: &BTreeMap<char, (&GroupText, Span)>,
    members: Option<&BTreeMap<char, u32>>,
    problems: &mut Vec<Diagnostic>,
) -> Vec<DayGroup> {
    // How many lines of a letter are written; unknown, where a line could not be read.
    let count = |letter: char| members.map(|m| m.get(&letter).copied().unwrap_or(0));
    let mut groups: Vec<DayGroup> = Vec::new();
    for line in &day.lines {
        if groups.iter().all(|group| group.letter != line.order.letter) {
            let text = written.get(&line.order.letter);
            groups.push(group(line.order.letter, text.copied(), problems));
        }
    }
    for (letter, (_, span)) in written {
        if count(*letter) == Some(0) {
            problems.push(
                Diagnostic::new(
                    Code::EmptyGroup,
                    *span,
                    format!("the group {letter} has no exercises"),
                )
                .help(format!("add its lines: `{letter}1 …`, `{letter}2 …`")),
            );
        }
    }
    for line in &day.lines {
        let mut members = day.lines.iter().filter(|other| other.order.letter == line.order.letter);
        let other = members.find(|other| other.order != line.order);
        if let (None, Some(other)) = (line.order.number, other) {
            problems.push(
                Diagnostic::new(
                    Code::DuplicateOrder,
                    line.span,
                    format!(
                        "`{}` has the same letter as other exercises, but no number",
                        line.order
                    ),
                )
                .and(other.span, "for example this one")
                .help(format!(
                    "number all exercises of a group: `{0}1`, `{0}2`",
                    line.order.letter
                )),
            );
        }
        let alone =
            count(line.order.letter) == Some(1) && !written.contains_key(&line.order.letter);
        if alone && line.order.number.is_some() {
            problems.push(
                Diagnostic::new(
                    Code::LoneMember,
                    line.span,
                    format!("`{}` is the only exercise of its group", line.order),
                )
                .help(format!(
                    "write `{}` for a single exercise, or add the other exercise",
                    line.order.letter
                )),
            );
        }
    }
    groups
}

fn group(
    letter: char,
    written: Option<(&GroupText, Span)>,
    problems: &mut Vec<Diagnostic>,
) -> DayGroup {
    let mut group = DayGroup { letter, how: None, rest: None, scaled: true };
    let Some((text, span)) = written else { return group };
    let (mut change, mut alternate) = (None, false);
    for option in &text.options {
        match &option.value {
            GroupOption::Change(time) => change = Some(*time),
            GroupOption::Alternate => alternate = true,
            GroupOption::Common(OptionText::Rest(rest)) => {
                group.rest = rest.values.first().map(|rest| rest.value);
            }
            GroupOption::Common(OptionText::AsWritten) => group.scaled = false,
            GroupOption::Common(_) => {}
        }
    }
    let is_circuit = matches!(text.how, Some(HowText::Circuit(_)));
    let is_every = matches!(text.how, Some(HowText::Every(..)));
    for option in &text.options {
        let misfit = match &option.value {
            GroupOption::Change(_) if !is_circuit => Some("`change` only works in a circuit"),
            GroupOption::Alternate if !is_every => Some("`alternate` only works with `every`"),
            _ => None,
        };
        if let Some(misfit) = misfit {
            problems.push(
                Diagnostic::new(Code::BadPrescription, option.span, misfit)
                    .help("delete it, or write how the group is done"),
            );
        }
    }
    group.how = text.how.as_ref().and_then(|how| match how {
        HowText::Circuit(None) => {
            problems.push(
                Diagnostic::new(
                    Code::BadPrescription,
                    span,
                    "this circuit has no number of rounds",
                )
                .help(format!("write `{letter}: circuit 3 rounds`")),
            );
            None
        }
        HowText::Circuit(Some(rounds)) => Some(How::Circuit(*rounds, change)),
        HowText::Every(interval, length) => {
            let fits = interval.as_seconds() > 0 && length >= interval;
            let count = length.as_seconds() / interval.as_seconds().max(1);
            if !fits || count > crate::bounds::SETS {
                problems.push(
                    Diagnostic::new(
                        Code::NumberOutOfRange,
                        span,
                        format!("every {interval} for {length} makes {count} sets"),
                    )
                    .help(format!("the number of sets must be from 1 to {}", crate::bounds::SETS)),
                );
                return None;
            }
            Some(How::Every(*interval, *length, alternate))
        }
        HowText::RoundsIn(length) => Some(How::RoundsIn(*length)),
        HowText::Paired => Some(How::Paired),
    });
    group
}

struct LineReader<'a, 'p> {
    context: &'a DayContext<'a>,
    problems: &'p mut Vec<Diagnostic>,
    /// In a circuit, an interval or a timed group.
    in_group: bool,
    /// The line's exercise may be done with nothing but the body mass.
    on_body: bool,
    whole: Span,
}

/// A line that lays something over another: for which weeks or whom, what it prescribes, and what
/// stands below it.
type OverrideLayer<'n, For, What> = (For, Option<What>, &'n [Node]);

/// A scheme's name and the arguments for its parameters.
type Followed<'n> = (&'n Name, &'n [Argument]);

/// The lines below an order line or a `for` line, sorted by what they are.
#[derive(Default)]
struct Below<'n> {
    weeks: Vec<OverrideLayer<'n, Spanned<crate::syntax::ast::WeekSpan>, Layer<'n>>>,
    fors: Vec<OverrideLayer<'n, &'n Name, &'n Prescription>>,
    follow: Option<Followed<'n>>,
    setup: Option<String>,
    setting: Option<String>,
    range: Option<String>,
    warm_up: Option<Vec<RampSet>>,
    cues: Vec<Cue>,
    notes: Vec<String>,
    source: Option<String>,
    over_max: Option<String>,
}

fn below(nodes: &[Node]) -> Below<'_> {
    let mut found = Below::default();
    for node in nodes {
        let Item::Entry { key, value } = &node.item.value else { continue };
        let prescription = match &value.value {
            Value::Prescription(prescription) => Some(prescription),
            _ => None,
        };
        match (&key.value, &value.value) {
            (LineKey::Weeks(weeks), _) => {
                let layer = prescription.map(|p| Layer::new(Some(weeks.value), p));
                found.weeks.push((weeks.clone(), layer, &node.children));
            }
            (LineKey::For(name), _) => found.fors.push((name, prescription, &node.children)),
            (LineKey::Key(Key::Follow), Value::Follow(name, arguments)) => {
                found.follow = Some((name, arguments));
            }
            (LineKey::Key(Key::WarmUp), Value::Ramp(sets)) => found.warm_up = Some(ramp(sets)),
            (LineKey::Key(key), Value::Text(text)) => {
                let text = text.clone();
                match key {
                    Key::Setup => found.setup = Some(text),
                    Key::Setting => found.setting = Some(text),
                    Key::Range => found.range = Some(text),
                    Key::Cue => found.cues.push(Cue::read(&text, &node.children)),
                    Key::Note => found.notes.push(text),
                    Key::Source => found.source = Some(text),
                    Key::OverMax => found.over_max = Some(text),
                    _ => {}
                }
            }
            _ => {}
        }
    }
    found
}

impl LineReader<'_, '_> {
    fn line(
        &mut self,
        order: crate::plan::Order,
        name: &Name,
        value: &Spanned<Value>,
        nodes: &[Node],
    ) -> Option<Line> {
        let base = match &value.value {
            Value::Prescription(prescription) => Some(Layer::new(None, prescription)),
            _ => None,
        };
        let own = below(nodes);
        let definitions = self.context.definitions;
        let exercise = definitions.known_exercise(name, self.problems);
        if value.value == Value::Unread {
            // What hangs on the prescription would be said of a line that is not there.
            return None;
        }
        let followed = own.follow.and_then(|(scheme, arguments)| {
            let programme = self.context.programme;
            let (found, arguments) =
                definitions.known_followed(scheme, arguments, programme, self.problems)?;
            let parameters = Parameters::of(found, scheme.span, arguments, self.problems);
            Some((found, parameters))
        });
        let scheme_below = followed.as_ref().map(|(scheme, _)| below(scheme.lines));
        self.check_weeks(&own);
        if let Some(scheme) = &scheme_below {
            self.check_weeks(scheme);
        }
        let scheme_rules = followed.as_ref().map_or_else(Vec::new, |(scheme, parameters)| {
            let mut found = rules::read(scheme.lines, None, parameters, true, self.problems);
            for (weeks, _, lines) in scheme_below.iter().flat_map(|below| &below.weeks) {
                let inner = rules::read(lines, Some(weeks.value), parameters, true, self.problems);
                found.splice(0..0, inner);
            }
            found
        });
        let parameters = followed.map(|(_, parameters)| parameters).unwrap_or_default();
        let own_rules = rules::read(nodes, None, &parameters, false, self.problems);
        let mut week_rules = Vec::new();
        for (weeks, _, lines) in &own.weeks {
            week_rules.extend(rules::read(
                lines,
                Some(weeks.value),
                &parameters,
                false,
                self.problems,
            ));
        }
        self.on_body = exercise.is_some_and(|id| {
            let found = definitions.exercises.get(id.0);
            found.is_some_and(super::work_checks::may_go_without_load)
        });
        let mut common = self.variant(base.as_ref(), scheme_below.as_ref(), &own, None);
        common.rules = [week_rules.clone(), own_rules.clone(), scheme_rules.clone()].concat();
        self.check_load_rules(&common);
        let mut personal = Vec::new();
        for (who, prescription, lines) in &own.fors {
            let Some(athlete) = definitions.known_athlete(who, self.problems) else { continue };
            let wanted = definitions.athletes.get(athlete).map(|a| a.span);
            let theirs = below(lines);
            self.check_weeks(&theirs);
            let layer = Personal { prescription: *prescription, below: &theirs };
            let mut variant =
                self.variant(base.as_ref(), scheme_below.as_ref(), &own, Some(&layer));
            let mut their_rules = Vec::new();
            for (weeks, _, inner) in &theirs.weeks {
                their_rules.extend(rules::read(
                    inner,
                    Some(weeks.value),
                    &parameters,
                    false,
                    self.problems,
                ));
            }
            their_rules.extend(rules::read(lines, None, &parameters, false, self.problems));
            variant.rules =
                [their_rules, week_rules.clone(), own_rules.clone(), scheme_rules.clone()].concat();
            self.check_load_rules(&variant);
            variant.cues.clone_from(&theirs.cues);
            variant.notes.clone_from(&theirs.notes);
            variant.source.clone_from(&theirs.source);
            variant.setup.clone_from(&theirs.setup);
            variant.setting.clone_from(&theirs.setting);
            variant.range.clone_from(&theirs.range);
            variant.warm_up.clone_from(&theirs.warm_up);
            variant.over_max.clone_from(&theirs.over_max);
            self.nested(lines, &["follow", "for"]);
            // Somebody who does not take part in this programme may still be named.
            let index = self.context.trainees.iter().position(|t| Some(t.athlete.span) == wanted);
            personal.extend(index.map(|index| (index, variant)));
        }
        Some(Line {
            order,
            exercise: exercise?,
            span: name.span,
            setup: own.setup,
            setting: own.setting,
            range: own.range,
            warm_up: own.warm_up,
            cues: own.cues,
            notes: own.notes,
            source: own.source,
            over_max: own.over_max,
            common,
            personal,
        })
    }

    /// Lines that have no meaning below a `week` or a `for` line.
    fn nested(&mut self, nodes: &[Node], forbidden: &[&str]) {
        for node in nodes {
            let Item::Entry { key, .. } = &node.item.value else { continue };
            let word = match &key.value {
                LineKey::Key(key) => key.word(),
                LineKey::For(_) => "for",
                LineKey::Weeks(_) => "week",
                _ => continue,
            };
            if forbidden.contains(&word) {
                self.problems.push(
                    Diagnostic::new(
                        Code::MisplacedLine,
                        key.span,
                        format!("a `{word}` line has no effect below this line"),
                    )
                    .help("write it directly below the exercise"),
                );
            }
        }
    }

    fn check_weeks(&mut self, below: &Below<'_>) {
        for (_, _, lines) in &below.weeks {
            self.nested(lines, &["follow", "for", "week", "warm-up"]);
        }
        let spans: Vec<_> = below.weeks.iter().map(|(weeks, ..)| weeks.clone()).collect();
        for weeks in &spans {
            past_end(weeks, self.context.phases.weeks, self.problems);
        }
        overlaps(&spans, "line", self.problems);
    }

    fn variant(
        &mut self,
        base: Option<&Layer<'_>>,
        scheme: Option<&Below<'_>>,
        own: &Below<'_>,
        personal: Option<&Personal<'_>>,
    ) -> Variant {
        let mut layers: Vec<Layer<'_>> = base.into_iter().cloned().collect();
        layers
            .extend(personal.and_then(|p| p.prescription).map(|p| Layer::new(None, p).personal()));
        let theirs = personal.map(|personal| (personal.below, true));
        let weekly = scheme.into_iter().chain(std::iter::once(own)).map(|below| (below, false));
        let weekly = weekly.chain(theirs);
        let mut extras: Vec<(crate::syntax::ast::WeekSpan, Below<'_>)> = Vec::new();
        for (below_lines, is_own) in weekly {
            for (weeks, layer, lines) in &below_lines.weeks {
                let layer = layer.iter().cloned();
                layers.extend(layer.map(|layer| if is_own { layer.personal() } else { layer }));
                if !lines.is_empty() {
                    extras.push((weeks.value, below(lines)));
                }
            }
        }
        let mut unroller = Unroller {
            definitions: self.context.definitions,
            phases: self.context.phases,
            line: self.whole,
            on_body: self.on_body,
            personal: personal.is_some(),
            problems: self.problems,
        };
        let mut weeks = unroller.unroll(&layers);
        for (week, spec) in (1..).zip(&mut weeks) {
            for (_, extra) in extras.iter().filter(|(span, _)| span.contains(week)) {
                spec.cues.extend(extra.cues.iter().cloned());
                spec.notes.extend(extra.notes.iter().cloned());
                spec.source = extra.source.clone().or(spec.source.take());
                spec.setup = extra.setup.clone().or(spec.setup.take());
                spec.setting = extra.setting.clone().or(spec.setting.take());
                spec.range = extra.range.clone().or(spec.range.take());
                spec.over_max = extra.over_max.clone().or(spec.over_max.take());
            }
        }
        self.check_groups(&weeks);
        Variant { weeks, ..Variant::default() }
    }

    /// Something to do in every week; no sets in a circuit; a top set before what is a share of it.
    fn check_groups(&mut self, weeks: &[WeekSpec]) {
        let empty: Vec<u32> =
            (1..).zip(weeks).filter(|(_, spec)| spec.groups.is_empty()).map(|(w, _)| w).collect();
        let told = |d: &Diagnostic| {
            d.code == Code::MissingPrescription
                && d.label.span.file == self.whole.file
                && d.label.span.start >= self.whole.start
        };
        if !empty.is_empty() && !self.problems.iter().any(told) {
            let all = empty.len() == weeks.len();
            let which = if all {
                "in any week".to_owned()
            } else {
                format!("in {}", super::unroll::weeks_in_words(&empty))
            };
            self.problems.push(
                Diagnostic::new(
                    Code::MissingPrescription,
                    self.whole,
                    format!("this exercise has no sets and reps {which}"),
                )
                .help("write sets x reps after the colon, such as `3 x 8 @ 70%`"),
            );
        }
        for spec in weeks {
            for (index, group) in spec.groups.iter().enumerate() {
                let of_top =
                    matches!(group.load, Load::Percent { of: super::PercentBase::TopSet, .. });
                if of_top && index == 0 {
                    self.problems.push(
                        Diagnostic::new(
                            Code::NoTopSet,
                            group.load_span,
                            "there is no set before this one to take a percentage of",
                        )
                        .label("this needs a top set")
                        .help("write the top set first: `1 x 5 @ 80%, 3 x 5 @ 90% of top set`"),
                    );
                }
                if self.in_group && group.sets.is_some() {
                    self.problems.push(
                        Diagnostic::new(
                            Code::SetsInGroup,
                            self.whole,
                            "an exercise in a circuit, an interval or a timed group cannot have its own number of sets",
                        )
                        .help("write only the work of one round, such as `10` or `30 s`"),
                    );
                    return;
                }
            }
        }
    }

    fn check_load_rules(&mut self, variant: &Variant) {
        for rule in &variant.rules {
            let Some(span) = rules::changes_load(rule) else { continue };
            let by_effort = (1..).zip(&variant.weeks).find_map(|(week, spec): (u32, _)| {
                let runs = rule.weeks.is_none_or(|weeks| weeks.contains(week));
                let chosen =
                    |group: &&super::Group| matches!(group.load, Load::Effort(_) | Load::Open);
                let group = spec.groups.iter().find(chosen)?;
                runs.then_some((group.load_span, matches!(group.load, Load::Open)))
            });
            if let Some((load, open)) = by_effort {
                let (message, label) = if open {
                    (
                        "this rule changes the load, but this exercise has no load",
                        "no load is written here",
                    )
                } else {
                    (
                        "this rule changes the load, but the load of this exercise is set by effort",
                        "the effort sets the load here",
                    )
                };
                self.problems.push(
                    Diagnostic::new(Code::LoadOnEffort, span, message)
                        .and(load, label)
                        .help("change `reps` or `sets` instead, or write a load"),
                );
            }
        }
    }
}

/// What a `for` line says.
struct Personal<'n> {
    prescription: Option<&'n Prescription>,
    below: &'n Below<'n>,
}
