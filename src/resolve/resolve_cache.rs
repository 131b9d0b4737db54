//! Cache of the lines of days that were resolved without problems.
//!
//! The problems of a line depend only on its text, its scheme, the weeks of its programme, and the
//! exercises and athletes of the project. An editor asks for problems at every keystroke, and usually
//! only one line has changed; the others need not be resolved again for every week and athlete.

use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

use super::Definitions;
use super::definitions::SchemeText;
use super::phases::PhaseWeeks;
use crate::catalogue::Names;
use crate::diagnostics::{Code, Diagnostic};
use crate::source::{Sources, Span};
use crate::syntax::ast::{Item, LineKey, Node, Value};
use crate::syntax::keys::Key;

/// More lines are kept than a programme has, for what is typed and taken back; no more than so many.
const SPARE_LINES: usize = 200;

/// Clean lines by programme.
#[derive(Clone, Debug, Default)]
pub struct ResolveCache {
    names: Arc<Names>,
    athletes: BTreeMap<String, usize>,
    programmes: BTreeMap<usize, CleanProgramme>,
}

/// The clean lines of a programme.
#[derive(Clone, Debug)]
pub struct CleanProgramme {
    weeks: PhaseWeeks,
    lines: HashMap<Box<str>, Kept>,
    /// How often it has been read.
    readings: u32,
    /// How many of its lines the last reading asked for.
    asked: usize,
}

/// Beside its text, what a clean line was found clean with.
#[derive(Clone, Debug)]
struct Kept {
    scheme: Option<Box<str>>,
    in_group: bool,
    /// The reading that last asked for it.
    used: u32,
}

/// A line of a day as far as what is found in it depends on it.
#[derive(Clone, Copy, Debug)]
pub struct LineText<'t> {
    /// All its lines, from the margin.
    text: &'t str,
    /// The scheme it follows, with its place.
    scheme: Option<(&'t str, Span)>,
    /// It is a member of a circuit, an interval or a timed group.
    in_group: bool,
}

impl ResolveCache {
    /// The clean lines of a programme, of which nothing that they rest on has changed.
    pub fn of(
        &mut self,
        programme: usize,
        weeks: &PhaseWeeks,
        definitions: &Definitions<'_>,
    ) -> &mut CleanProgramme {
        if self.names != definitions.names || self.athletes != *definitions.athlete_names() {
            self.names = definitions.names.clone();
            self.athletes.clone_from(definitions.athlete_names());
            self.programmes.clear();
        }
        let fresh = || CleanProgramme {
            weeks: weeks.clone(),
            lines: HashMap::new(),
            readings: 0,
            asked: 0,
        };
        let known = self.programmes.entry(programme).or_insert_with(fresh);
        if known.weeks != *weeks {
            *known = fresh();
        }
        known.begin();
        known
    }
}

impl CleanProgramme {
    /// Lets go of lines that are no longer written, when there are many of them.
    fn begin(&mut self) {
        if self.lines.len() > self.asked + SPARE_LINES {
            let now = self.readings;
            self.lines.retain(|_, kept| kept.used == now);
        }
        self.readings = self.readings.wrapping_add(1);
        self.asked = 0;
    }

    /// Whether a line is known to be clean.
    pub fn knows(&mut self, line: LineText<'_>) -> bool {
        self.asked += 1;
        let Some(kept) = self.lines.get_mut(line.text) else { return false };
        kept.used = self.readings;
        kept.in_group == line.in_group
            && kept.scheme.as_deref() == line.scheme.map(|(text, _)| text)
    }

    /// Keeps a line of which nothing was said, unless what was said before may be why.
    pub fn keep(&mut self, line: LineText<'_>, said: &[Diagnostic]) {
        let hides = |found: &Diagnostic| {
            let at = found.label.span;
            let in_scheme = line.scheme.is_some_and(|(_, scheme)| {
                at.file == scheme.file && scheme.start <= at.start && at.start <= scheme.end
            });
            found.code == Code::MissingPrescription || in_scheme
        };
        if !said.iter().any(hides) {
            let scheme = line.scheme.map(|(text, _)| text.into());
            let kept = Kept { scheme, in_group: line.in_group, used: self.readings };
            self.lines.insert(line.text.into(), kept);
        }
    }
}

impl<'t> LineText<'t> {
    /// The text of a line; `None` where it follows a scheme that is not there.
    pub fn of(
        node: &Node,
        in_group: bool,
        programme: usize,
        definitions: &Definitions<'_>,
        sources: &'t Sources,
    ) -> Option<Self> {
        let follows = node.children.iter().rev().find_map(|node| match &node.item.value {
            Item::Entry { key, value } => match (&key.value, &value.value) {
                (LineKey::Key(Key::Follow), Value::Follow(name, arguments)) => {
                    Some((name, arguments))
                }
                _ => None,
            },
            _ => None,
        });
        let scheme = match follows {
            Some((name, arguments)) => {
                let (scheme, _) = definitions.followed(name, arguments, programme)?;
                Some(of_scheme(scheme, sources))
            }
            None => None,
        };
        let text = block(node.item.span, &node.children, sources).0;
        Some(Self { text, scheme, in_group })
    }
}

fn of_scheme<'t>(scheme: &SchemeText<'_>, sources: &'t Sources) -> (&'t str, Span) {
    block(scheme.name.span, scheme.lines, sources)
}

/// The text of a line and all below it, from the margin.
fn block<'t>(head: Span, lines: &[Node], sources: &'t Sources) -> (&'t str, Span) {
    let end = lines.last().map_or(head.end, |line| line.last().item.span.end);
    let whole = sources.get(head.file).map_or("", |file| &*file.text);
    let before = whole.get(..head.start as usize).unwrap_or("");
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    let text = whole.get(start..end as usize).unwrap_or("");
    (text, Span { end, ..Span::new(head.file, start, start) })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use crate::resolve::{Memory, Project, resolve, resolve_cached};
    use crate::source::MemoryLoader;

    const TEXT: &str = "\
exercise Yard walk
  pattern: carry

athlete Wren
  max Back squat: 100 kg

athlete Robin Vale

programme Winter
  weeks: 4

phase Light: week 3, load -10%

scheme Wave
  jump: 2.5 kg
  week 1: 3 x 5 @ 70%
  weeks 2-4: 3 x 5 @ 70% -> 75% -> 80%
  when all reps made: load +jump

day One
  A: circuit 3 rounds
  A1 Yard walk: 20 m
  A2 Push-up: 10
  B Back squat: 3 x 5 @ 60% +2.5%/week
     week 4: 2 x 3
     for Wren: 4 x 5 @ 50% of Deadlift
       week 2: 5 x 5

     cue: Down. # and up
       source: Nobody
     note: Twice.
     when any rep missed: load -5%
  C Deadlift: 3 x 5
     follow: Wave
  D Bench press: 3 x 5 @ 60 kg
     follow: Wave, jump 5 kg
     when any rep missed: load -7.5%
  E Front squat: 3 x 5 @ RPE 8
day Two
  A Deadlift: 3 x 5
     follow: Wave
  B Yard walk: 2 x 20 m, rest 60 s
log Wren: Winter
  2026-01-05 week 1, One
    B Back squat: 5, 5, 5 @ 60 kg
";

    /// What is typed over a piece of the text.
    fn typed() -> impl Strategy<Value = String> {
        let snippet = prop::sample::select(vec![
            "",
            "",
            "x",
            " ",
            "\n",
            "\n  ",
            "\n     ",
            "1",
            "5",
            "%",
            ": ",
            "week 3: 3 x 5\n     ",
            "for Robin Vale: 2 x 2\n     ",
            "follow: Wave\n     ",
            " @ ",
            " -> ",
            "\n  F Plank: ",
            "+1 kg/week",
            "weeks: 5\n  ",
            "Wave",
            "circuit",
            "\nscheme Other\n",
            "\nathlete Ada\n",
            "Deadlift",
            "\nexercise Sled\n",
        ]);
        snippet.prop_map(str::to_owned)
    }

    proptest! {
        // What is found becomes a test of its own.
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn what_is_found_after_edits_is_what_a_fresh_reading_finds(
            edits in prop::collection::vec((0..TEXT.len(), 0..12_usize, typed(), any::<bool>()), 1..8)
        ) {
            let mut memory = Memory::default();
            let mut text = TEXT.to_owned();
            let found = |text: &str, memory: &mut Memory| {
                let loader = MemoryLoader::new().with("a.sets", text);
                let again = Project::open_again(&loader, "a.sets", memory).unwrap();
                let fresh = Project::open(&loader, "a.sets").unwrap();
                let nodes = |project: &Project| project.documents[0].nodes.clone();
                assert_eq!(nodes(&again), nodes(&fresh), "{text}");
                (resolve_cached(again, memory).diagnostics, resolve(fresh).diagnostics)
            };
            let (again, fresh) = found(&text, &mut memory);
            prop_assert_eq!(again, fresh);
            for (at, length, typed, is_undone) in edits {
                let start = text.floor_char_boundary(at.min(text.len()));
                let end = text.floor_char_boundary((at + length).min(text.len()));
                let before = text.clone();
                text.replace_range(start..end, &typed);
                let (again, fresh) = found(&text, &mut memory);
                prop_assert_eq!(again, fresh, "{}", text);
                if is_undone {
                    text = before;
                }
            }
        }
    }
}
