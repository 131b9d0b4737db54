//! Laws of any text, however it was made. Each law is a function that panics if the law is broken.
//! Proptest tests them on several kinds of texts, `fuzz/` on the fuzzer's inputs.

use std::fmt::Write;

use setwright::compile::{evaluate_all, reading};
use setwright::diagnostics::{Diagnostic, has_errors, render_json, render_text};
use setwright::evaluate::CancelToken;
use setwright::export::json;
use setwright::history::review;
use setwright::plan::{Plan, replay};
use setwright::resolve::{DayGroup, How, Programme, Project, Resolved, Variant, resolve};
use setwright::sheets::{
    CardCopy, CardOptions, Paper, Poster, Sheet, TwoUp, Wanted, print, review_text, summary,
    weekly_text,
};
use setwright::source::{FileId, MemoryLoader, Sources, Span};
use setwright::syntax::{Document, ParseCache, ast, format, parse, parse_again};
use setwright::tally::weekly;

/// The most planned sets that a law works out: a short text may ask for two million of them
/// (`bounds::PLANNED_SETS`), which takes seconds and shows nothing that a thousand do not.
const SETS: u64 = 2_000;
/// The most planned sets that are printed, for the same reason.
const PRINTED: usize = 250;

/// A project of one file; what it may use is a file that uses others in a ring.
pub fn project(text: &str) -> Project {
    let loader = MemoryLoader::new().with("ring.sets", "use made.sets\nuse ring.sets\n");
    Project::from_text(&loader, "made.sets", text.to_owned())
}

/// A file's mark is taken off before the reader sees it.
fn unmarked(text: &str) -> &str {
    text.strip_prefix('\u{feff}').unwrap_or(text)
}

/// Every place lies in its text, on whole characters, and says something.
fn assert_places(found: &[Diagnostic], text: impl Fn(Span) -> Option<String>) {
    for one in found {
        let others = one.related.iter().map(|other| other.span);
        let fixes = one.fixes.iter().flat_map(|fix| &fix.edits).map(|edit| edit.span);
        for span in std::iter::once(one.label.span).chain(others).chain(fixes) {
            assert!(span.start <= span.end && text(span).is_some(), "{span:?} of {one:?}");
        }
        assert!(!one.message.is_empty() && !one.message.ends_with('.'), "{one:?}");
    }
}

/// Every finding lies in its file, and is shown to people and to machines.
fn assert_shown(found: &[Diagnostic], sources: &Sources) {
    assert_places(found, |span| {
        let text = &sources.get(span.file)?.text;
        Some(text.get(span.start as usize..span.end as usize)?.to_owned())
    });
    for one in found {
        assert!(!render_text(one, sources, true).is_empty());
        assert!(render_json(one, sources).is_object());
    }
}

/// Any text reads, line by line, and what is wrong with it lies in it; read again after a change, it is
/// read as new.
pub fn parses(text: &str) {
    let text = unmarked(text);
    let (document, found) = parse(text, FileId(0));
    assert_places(&found, |span| {
        Some(text.get(span.start as usize..span.end as usize)?.to_owned())
    });
    let mut memory = ParseCache::default();
    let half = text.floor_char_boundary(text.len() / 2);
    let _ = parse_again(&text[half..], FileId(0), &mut memory);
    assert!(parse_again(text, FileId(1), &mut memory) == parse(text, FileId(1)));
    assert!((document, found) == parse(text, FileId(0)), "the same text reads otherwise");
    let read = project(text);
    assert_shown(&read.diagnostics, &read.sources);
}

/// What reads formats to a fixed point with the same meaning.
pub fn formats(text: &str) {
    let text = unmarked(text);
    let (document, found) = parse(text, FileId(0));
    if let (Some(once), true) = (format(&document, text), found.is_empty()) {
        let (again, found) = parse(&once, FileId(0));
        assert_eq!(found, [], "formatted:\n{once}");
        assert_eq!(meaning(&document), meaning(&again), "formatted:\n{once}");
        assert_eq!(format(&again, &once).as_ref(), Some(&once), "not a fixed point");
    }
}

/// Any project is worked out as far as it goes; every derivation leads to its load, and what is wrong
/// lies in the files.
pub fn compiles(text: &str) {
    drop(plans(text));
}

/// What the logs say is brought together with the plan: every session's, every week's.
pub fn reviews(text: &str) {
    for plan in plans(text) {
        assert!(!review_text(&review(&plan)).is_empty());
        assert!(!weekly_text(&weekly(&plan)).is_empty());
        assert!(!summary(&plan).is_empty());
    }
}

/// What is right is printed, on any paper in any language; `how` picks which.
pub fn prints(text: &str, how: u32) {
    let pick = |shift: u32, of: usize| (how >> shift) as usize % of;
    let options = CardOptions {
        paper: Paper::ALL[pick(0, 4)].1,
        plate_colours: pick(2, 2) == 1,
        large_print: pick(3, 2) == 1,
        left_handed: pick(4, 2) == 1,
        two_up: [None, None, Some(TwoUp::Landscape), Some(TwoUp::Portrait)][pick(5, 4)],
        copy: if pick(7, 2) == 1 { CardCopy::Coach } else { CardCopy::Athlete },
        ..CardOptions::default()
    };
    let sheet = Sheet::ALL[pick(8, Sheet::ALL.len())];
    let languages = setwright::catalogue::LANGUAGES;
    let language = languages[pick(16, languages.len())].0;
    for mut plan in plans(text) {
        if sets(&plan).count() > PRINTED || sets(&plan).next().is_none() {
            continue;
        }
        if pick(24, 2) == 1 {
            language.clone_into(&mut plan.language);
            plan.athletes.iter_mut().for_each(|one| language.clone_into(&mut one.language));
        }
        let names = plan.athletes.iter().flat_map(|a| &a.sessions).flat_map(|s| &s.exercises);
        let posters = names.take(3).map(|e| Poster { name: e.name.clone(), ..Poster::default() });
        let wanted = Wanted { sheets: vec![sheet], posters: posters.collect() };
        let printed = print(&plan, &wanted, &options).unwrap();
        assert!(printed.pages > 0 && printed.bytes.starts_with(b"%PDF"));
    }
}

/// The plans of a text without errors; of one that plans too much for a law, none.
fn plans(text: &str) -> Vec<Plan> {
    let resolved = resolve(project(unmarked(text)));
    let mut found = reading(&resolved.diagnostics, &resolved.sources, FileId(1));
    let mut plans = Vec::new();
    if planned(&resolved) <= SETS {
        let worked = evaluate_all(&resolved, &[], &CancelToken::default()).unwrap();
        found.extend(worked.diagnostics);
        found.extend(worked.advice);
        plans = worked.plans;
    }
    assert_shown(&found, &resolved.sources);
    for plan in &plans {
        for set in sets(plan) {
            if let Some(built) = &set.load {
                assert_eq!(replay(&set.derivation).to_mass(), built.mass, "{set:?}");
            }
        }
        assert!(json(plan).unwrap().starts_with('{'));
    }
    if has_errors(&found) {
        plans.clear();
    }
    plans
}

fn sets(plan: &Plan) -> impl Iterator<Item = &setwright::plan::PlannedSet> {
    let exercises = plan.athletes.iter().flat_map(|a| &a.sessions).flat_map(|s| &s.exercises);
    exercises.flat_map(|exercise| &exercise.sets)
}

/// About how many sets the programmes of a project plan.
fn planned(resolved: &Resolved) -> u64 {
    let rounds = |group: &DayGroup| match group.how {
        Some(How::Circuit(rounds, _)) => u64::from(rounds),
        Some(How::Every(..) | How::RoundsIn(_)) => 100,
        _ => 1,
    };
    let variant = |variant: &Variant| -> u64 {
        let groups = variant.weeks.iter().flat_map(|week| &week.groups);
        groups
            .map(|group| {
                let drops = group.drop.as_ref().map_or(0, |(_, count, _)| u64::from(*count));
                u64::from(group.sets.unwrap_or(1)) * (1 + drops) + 5
            })
            .sum()
    };
    let programme = |programme: &Programme| -> u64 {
        let days = programme.days.iter().map(|day| {
            let most = day.groups.iter().map(rounds).max().unwrap_or(1);
            let lines = day.lines.iter().map(|line| {
                let personal = line.personal.iter().map(|(_, own)| variant(own)).max().unwrap_or(0);
                variant(&line.common).max(personal)
            });
            most * lines.sum::<u64>()
        });
        days.sum::<u64>() * programme.trainees.len() as u64
    };
    resolved.programmes.iter().map(programme).sum()
}

/// The tree without places: what a text means. Keys that stand once mean the same in any order, so
/// they are shown by their words; keys that may stand several times, and all other lines, keep theirs.
pub fn meaning(document: &Document) -> String {
    fn word(node: &ast::Node) -> Option<(&'static str, &str)> {
        match &node.item.value {
            ast::Item::Entry { key, .. } => match &key.value {
                ast::LineKey::Key(key) => Some((key.word(), "")),
                ast::LineKey::Named(key, name) => Some((key.word(), &name.value)),
                _ => None,
            },
            _ => None,
        }
    }
    fn show(nodes: &[ast::Node], depth: usize, out: &mut String) {
        let mut nodes: Vec<&ast::Node> = nodes.iter().collect();
        nodes.sort_by_key(|node| word(node));
        for node in nodes {
            let item = format!("{:?}", node.item.value);
            let parts = item.split("Span {");
            let bare: String =
                parts.map(|part| part.split_once('}').map_or(part, |(_, r)| r)).collect();
            writeln!(out, "{depth} {bare}").unwrap();
            show(&node.children, depth + 1, out);
        }
    }
    let mut out = String::new();
    show(&document.nodes, 0, &mut out);
    out
}
