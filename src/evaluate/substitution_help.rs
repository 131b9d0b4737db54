//! Diagnostics that propose replacements, with lines to paste.

use std::collections::{BTreeMap, BTreeSet};

use crate::catalogue::{Nearness, Replacement};
use crate::diagnostics::{Code, Diagnostic, Edit};
use crate::resolve::{ExerciseId, Programme, ResolvedAthlete};
use crate::source::Span;

use super::substitute::{Cause, Need, Proposal};

/// A commented line below an athlete or an exercise, for the coach to fill in. No number is invented.
pub fn to_fill(programme: &Programme, place: Span, line: &str) -> Vec<Edit> {
    let at = below(programme, place);
    let edit = at.map(|(span, indent)| {
        let text = format!("\n{:indent$}# {line}", "");
        Edit { span, text }
    });
    edit.into_iter().collect()
}

/// The usual indentation of a line below an athlete.
const INDENT: usize = 2;
/// The most athletes that are named; the rest is counted.
pub const NAMED: usize = 8;
/// The most blocks that are named as the place for a line.
const BLOCKS: usize = 2;

/// One diagnostic for each need, with all athletes that have it.
pub fn findings(programme: &Programme, needs: &BTreeMap<Need, Vec<usize>>) -> Vec<Diagnostic> {
    let found = needs.iter().filter_map(|(need, athletes)| {
        let who = athletes.iter().filter_map(|index| programme.trainees.get(*index)).collect();
        NeedReport { programme, need, who }.diagnostic()
    });
    found.collect()
}

struct NeedReport<'a> {
    programme: &'a Programme,
    need: &'a Need,
    who: Vec<&'a ResolvedAthlete>,
}

impl NeedReport<'_> {
    fn diagnostic(&self) -> Option<Diagnostic> {
        let names: Vec<String> =
            self.who.iter().map(|trainee| trainee.athlete.name.clone()).collect();
        let (who, lift) = (listed(&names, NAMED), self.name(self.need.lift));
        let line = self.need.line;
        let found = match &self.need.cause {
            Cause::Missing(gym, missing) => {
                let gym = self.programme.gyms.get(*gym)?;
                let what = missing.sentence(gym);
                Diagnostic::new(
                    Code::MissingEquipment,
                    line,
                    format!("{who} cannot do {lift}: {what}"),
                )
            }
            Cause::Avoided(place, word) => {
                let what = word.as_ref().map_or_else(String::new, |word| format!(" ({word})"));
                let message = format!("{who} must avoid {lift}{what}");
                Diagnostic::new(Code::AvoidedExercise, line, message)
                    .and(*place, "written here for this athlete")
            }
        };
        let mut found = found.help(self.help());
        for proposal in &self.need.proposals.found {
            let whom = listed(&names, BLOCKS);
            let title = format!("replace {lift} with {} for {whom}", proposal.name);
            found = found.suggest(title, self.edits(proposal));
        }
        Some(found)
    }

    fn name(&self, exercise: ExerciseId) -> &str {
        self.programme.exercises.get(exercise.0).map_or("", |exercise| exercise.name.as_str())
    }

    /// What to do: the lines to paste, the closest first, and what is left to decide.
    fn help(&self) -> String {
        let proposals = &self.need.proposals;
        let written = self.name(self.need.written);
        let under: Vec<String> =
            self.who.iter().map(|trainee| format!("`athlete {}`", trainee.athlete.name)).collect();
        let under = match under.len() {
            1 => format!("under {}", listed(&under, BLOCKS)),
            n if n <= BLOCKS => format!("under each of {}", listed(&under, BLOCKS)),
            n => format!("under each of the {n} athletes"),
        };
        let in_gym = matches!(self.need.cause, Cause::Missing(..));
        if proposals.found.is_empty() {
            let lead = match proposals.unloaded.as_slice() {
                [] => format!(
                    "no known exercise that is similar to {written} can be done: define one \
                     and write\n`replace {written}: …`"
                ),
                [first, ..] => format!(
                    "without the load of this exercise, these could be done: {}\nto use \
                     one, write `replace {written}: {first}`",
                    proposals.unloaded.join(", ")
                ),
            };
            let rest = if in_gym { ",\nor add what is missing to the gym" } else { "" };
            return format!("{lead} {under}{rest}");
        }
        let lead = match proposals.nearness {
            Nearness::Swap => String::new(),
            Nearness::SwapOfSwap => {
                format!("no swap of {written} can be done, but swaps of its swaps can;\n")
            }
            Nearness::Alike => format!(
                "no swap of {written} can be done, but exercises with its pattern and main muscle can;\n"
            ),
        };
        let (what, order) = match proposals.found.as_slice() {
            [_] => ("this", ""),
            _ => ("one of these", ", the closest first"),
        };
        let over = if self.need.lift == self.need.written {
            String::new()
        } else {
            format!(" in place of `replace {}: {}`", self.replaced(), self.name(self.need.lift))
        };
        let mut text = format!("{lead}write {what} {under}{over}{order}:");
        for proposal in &proposals.found {
            text.push_str(&format!("\n  {}", self.line(proposal)));
            if let Some(max) = &proposal.max {
                text.push_str(&format!("\n  {max}"));
            }
        }
        if in_gym {
            text.push_str("\nor add what is missing to the gym");
        }
        if self.who.len() > 1 && self.who.len() == self.programme.trainees.len() {
            text.push_str(
                "\nor, because it concerns everybody, write another exercise in the programme",
            );
        }
        if proposals.found.iter().any(|proposal| proposal.max.is_some()) {
            text.push_str(&format!(
                "\nreplace `…` with a tested load, or with a percentage such as \
                 `…% of {written}`\n(the load is a percentage, and a max is not taken over from another \
                 exercise: without\none the card leaves the load open)"
            ));
        }
        let pairs: BTreeSet<&str> = proposals.found.iter().filter_map(|own| own.pair).collect();
        for one in pairs {
            text.push_str(&format!("\nwith a pair of {one}s, the max is the mass of one {one}"));
        }
        if proposals.kilograms {
            text.push_str(
                "\nthe load in kilograms is kept only if implement and pattern are the same; otherwise the \
                 card\nleaves it open, unless a `for` line below the exercise gives one",
            );
        }
        text
    }

    /// The line to paste.
    fn line(&self, proposal: &Proposal) -> String {
        let own = self.replacement().and_then(|own| own.reason.clone());
        let reason = own.or_else(|| self.need.cause.reason());
        let reason = reason.map_or_else(String::new, |reason| format!(" ({reason})"));
        format!("replace {}: {}{reason}", self.replaced(), proposal.name)
    }

    /// The changes that take a proposal for everybody who needs it. A max that is the coach's to
    /// give stands in a comment.
    fn edits(&self, proposal: &Proposal) -> Vec<Edit> {
        let taken = self.who.iter().filter_map(|trainee| {
            let max = proposal.max.as_ref().map(|max| format!("# {max}"));
            if self.need.lift != self.need.written {
                let own = self.replacement_of(trainee)?;
                return Some(Edit { span: own.by.span, text: proposal.name.clone() });
            }
            let (span, indent) = below(self.programme, trainee.athlete.span)?;
            let lines = std::iter::once(self.line(proposal)).chain(max);
            let margin = format!("\n{:indent$}", "");
            let lines: Vec<String> = lines.map(|line| format!("{margin}{line}")).collect();
            Some(Edit { span, text: lines.concat() })
        });
        taken.collect()
    }

    /// The line of the one athlete that replaces the exercise already.
    fn replacement(&self) -> Option<&Replacement> {
        let [only] = self.who.as_slice() else { return None };
        self.replacement_of(only)
    }

    /// The line of an athlete that leads to what is done: the last one of a chain.
    fn replacement_of<'t>(&self, only: &'t ResolvedAthlete) -> Option<&'t Replacement> {
        let names = &self.programme.names;
        let (written, lift) = (self.need.written, self.need.lift);
        let replaces = |own: &&Replacement, of: ExerciseId| names.find(&own.of.value) == Some(of.0);
        let own = || only.athlete.replacements.iter().rev();
        let mut from = vec![written];
        while let Some(found) = own().find(|own| {
            let unseen =
                names.find(&own.by.value).is_some_and(|by| !from.contains(&ExerciseId(by)));
            from.last().is_some_and(|last| replaces(own, *last)) && unseen
        }) {
            let by = names.find(&found.by.value).map(ExerciseId)?;
            if by == lift {
                return Some(found);
            }
            from.push(by);
        }
        None
    }

    /// The exercise that the line to be written replaces.
    fn replaced(&self) -> &str {
        let written = self.need.written;
        let own = self.replacement().filter(|_| self.need.lift != written);
        own.map_or_else(|| self.name(written), |own| own.of.value.as_str())
    }
}

/// The end of the line of a place, and the indentation of the lines below it.
fn below(programme: &Programme, place: Span) -> Option<(Span, usize)> {
    let file = programme.sources.get(place.file)?;
    let start = file.text.get(..place.start as usize)?.rfind('\n').map_or(0, |at| at + 1);
    let own = file.text.get(start..)?.chars().take_while(|sign| *sign == ' ').count();
    let rest = file.text.get(place.end as usize..)?;
    let line = rest.split('\n').next().unwrap_or("");
    let end = place.end as usize + line.trim_end_matches('\r').len();
    let said = |line: &&str| !matches!(line.trim_start().chars().next(), None | Some('#'));
    let indent = rest.split('\n').skip(1).find(said).map(|line| {
        let spaces = line.chars().take_while(|sign| *sign == ' ');
        spaces.count()
    });
    let indent = indent.filter(|indent| *indent > own).unwrap_or(own + INDENT);
    Some((Span::new(place.file, end, end), indent))
}

/// Some names in a sentence; of more than `most`, how many more there are.
pub fn listed(names: &[String], most: usize) -> String {
    let (shown, rest) = names.split_at(names.len().min(most));
    match (shown, rest.len()) {
        (shown, 1..) => format!("{} and {} more", shown.join(", "), rest.len()),
        ([others @ .., last], 0) if !others.is_empty() => {
            format!("{} and {last}", others.join(", "))
        }
        (shown, 0) => shown.concat(),
    }
}
