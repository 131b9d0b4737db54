//! All of the pipeline, from a project to plans.

mod beginning;

use std::collections::BTreeSet;
use std::sync::Arc;

use unicode_normalization::char::compose;

use crate::advice::{Advice, LintRun, LintScope};
use crate::bounds;
use crate::catalogue::{Exercises, Gym, Names};
use crate::diagnostics::{Code, Diagnostic, Severity, no_such, or_list, sort_and_dedup};
use crate::evaluate::paths::Paths;
use crate::evaluate::{Assumptions, CancelToken, Evaluation};
use crate::plan::{AdviceSwitch, AthletePlan, Plan};
use crate::resolve::{
    Programme, Project, Resolved, ResolvedAthlete, check_rules, check_work, lost_file, resolve,
};
use crate::sheets;
use crate::source::{FileId, Sources, Span};
use crate::syntax::fold_name;

pub use beginning::by_beginning;

/// Which programme, and whose plans.
#[derive(Clone, Debug, Default)]
pub struct Choice {
    /// The programme's name, where a project has several.
    pub programme: Option<String>,
    /// The athletes, each in full or by a beginning that no other has; all, if none is named.
    pub athletes: Vec<String>,
    /// What is assumed of what no log says.
    pub assumptions: Assumptions,
}

/// A project worked out.
#[derive(Clone, Debug)]
pub struct Compiled {
    /// The plan of the chosen programme, if there is one to choose.
    pub plan: Option<Plan>,
    /// The plan of every programme in the order of the files; only [`check`] keeps them. Where
    /// there are errors they hold what could be worked out, and no sheet is made of them.
    pub plans: Vec<Plan>,
    /// Everything there is to say about the coach's text.
    pub diagnostics: Vec<Diagnostic>,
    /// Advice on the programmes, most important first; only [`check`] gives it.
    pub advice: Vec<Diagnostic>,
    /// All exercises, the built-in ones first; of those that share a name the last one counts.
    pub exercises: Exercises,
    /// Where each name and synonym of an exercise leads.
    pub names: Arc<Names>,
    /// All gyms.
    pub gyms: Arc<Vec<Gym>>,
    /// All athletes, whether in a programme or not.
    pub athletes: Vec<ResolvedAthlete>,
    /// All files.
    pub sources: Arc<Sources>,
}

/// A choice that names something that is not there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrongChoice(pub String);

/// Compiles a project. Every programme is checked; the plan is that of the chosen one.
pub fn compile(project: Project, choice: &Choice) -> Result<Compiled, WrongChoice> {
    let mut athletes = Vec::new();
    let mut compiled = compile_in_parts(project, choice, bounds::PLANNED_SETS, &mut |part| {
        athletes.extend(part.plan.athletes);
    })?;
    if let Some(plan) = &mut compiled.plan {
        plan.athletes = athletes;
    }
    Ok(compiled)
}

/// Some athletes of the chosen programme, worked out.
#[derive(Debug)]
pub struct PlanChunk {
    /// Their plan.
    pub plan: Plan,
    /// Whether no error has been found so far: of a programme with errors no sheet is made.
    pub sound: bool,
    /// How many athletes there are, and how many of them have been worked out, with these.
    pub progress: (usize, usize),
}

/// Compiles a project and hands the chosen programme's plan on, some athletes at a time: who takes
/// them one after the other never holds a squad's plan. What comes back has a plan without athletes.
/// Errors may come to light after the first athletes. More planned sets than `most` are one.
pub fn compile_in_parts(
    project: Project,
    choice: &Choice,
    most: usize,
    take: &mut dyn FnMut(PlanChunk),
) -> Result<Compiled, WrongChoice> {
    run(
        project,
        Some(choice),
        &mut Working { besides: &[], most, take, stop: &CancelToken::default() },
    )
}

/// Checks a project: every programme for every athlete, without choosing one. Keeps the plans.
#[must_use]
pub fn check(project: Project) -> Compiled {
    let mut plans = Plans::default();
    let mut checked =
        check_in_parts(project, &[], bounds::PLANNED_SETS, &mut |part| plans.take(part));
    checked.plans = plans.0;
    checked
}

/// The plans of programmes, put together of their parts.
#[derive(Default)]
struct Plans(Vec<Plan>);

impl Plans {
    fn take(&mut self, part: PlanChunk) {
        match self.0.last_mut().filter(|last| last.line == part.plan.line) {
            Some(last) => last.athletes.extend(part.plan.athletes),
            None => self.0.push(part.plan),
        }
    }
}

/// The same, with more decisions about advice than the programmes hold; hands plans on, some
/// athletes at a time, and keeps none. More planned sets than `most` of a programme are an error.
#[must_use]
pub fn check_in_parts(
    project: Project,
    besides: &[AdviceSwitch],
    most: usize,
    take: &mut dyn FnMut(PlanChunk),
) -> Compiled {
    let empty = Compiled {
        plan: None,
        plans: Vec::new(),
        diagnostics: Vec::new(),
        advice: Vec::new(),
        exercises: Exercises::default(),
        names: Arc::default(),
        gyms: Arc::default(),
        athletes: Vec::new(),
        sources: Arc::default(),
    };
    run(project, None, &mut Working { besides, most, take, stop: &CancelToken::default() })
        .unwrap_or(empty)
}

/// What the programmes of a project come to, besides what reading them says.
#[derive(Clone, Debug, Default)]
pub struct Evaluated {
    /// The plan of every programme that was asked for, in the order of the files.
    pub plans: Vec<Plan>,
    /// What is wrong.
    pub diagnostics: Vec<Diagnostic>,
    /// Advice; none while there are errors.
    pub advice: Vec<Diagnostic>,
}

/// Works out every programme for every athlete, and whether the advice holds; nothing, where it is
/// asked to stop before the end.
#[must_use]
pub fn evaluate_all(
    resolved: &Resolved,
    besides: &[AdviceSwitch],
    stop: &CancelToken,
) -> Option<Evaluated> {
    let mut plans = Plans::default();
    let take = &mut |part| plans.take(part);
    let mut worked =
        work(resolved, None, &mut Working { besides, most: bounds::PLANNED_SETS, take, stop })?;
    worked.plans = plans.0;
    Some(worked)
}

/// How programmes are worked out.
struct Working<'a> {
    /// More decisions about advice than they hold.
    besides: &'a [AdviceSwitch],
    /// The most planned sets of a programme.
    most: usize,
    /// What becomes of the plans.
    take: &'a mut dyn FnMut(PlanChunk),
    stop: &'a CancelToken,
}

/// What reading says of a project, from what resolving it found: its files, its lines, its names.
#[must_use]
pub fn reading(resolved: &[Diagnostic], sources: &Sources, root: FileId) -> Vec<Diagnostic> {
    let mut found = resolved.to_vec();
    found.extend(missing_glyphs(sources, root));
    // A file that cannot be read as what it is leaves holes: what follows from them is not told.
    if found.iter().any(is_newer) {
        found.retain(is_newer);
    }
    sort_and_dedup(&mut found);
    found
}

fn is_newer(found: &Diagnostic) -> bool {
    found.code == Code::NewerNotation
}

fn run(
    project: Project,
    choice: Option<&Choice>,
    working: &mut Working<'_>,
) -> Result<Compiled, WrongChoice> {
    let root = project.root;
    let resolved = resolve(project);
    let mut full = choice.cloned();
    let chosen = match &mut full {
        Some(choice) => {
            let known: Vec<&str> =
                resolved.athletes.iter().map(|a| a.athlete.name.as_str()).collect();
            let chosen =
                choose(&resolved.programmes, &resolved.in_root, choice.programme.as_deref())?;
            for name in &mut choice.athletes {
                *name = by_beginning("athlete", name, &known).map_err(WrongChoice)?.to_owned();
            }
            chosen
        }
        None => None,
    };
    let picked = full.as_ref().map(|choice| (choice, chosen));
    let worked = work(&resolved, picked, working).unwrap_or_default();
    let mut diagnostics = reading(&resolved.diagnostics, &resolved.sources, root);
    diagnostics.extend(worked.diagnostics);
    sort_and_dedup(&mut diagnostics);
    let plan = worked.plans.into_iter().next();
    // Handed on already, where nobody chose one.
    let plans = Vec::new();
    let Resolved { sources, athletes, exercises, names, gyms, .. } = resolved;
    let advice = worked.advice;
    Ok(Compiled { plan, plans, diagnostics, advice, exercises, names, gyms, athletes, sources })
}

/// Works programmes out and hands their plans on: the chosen one's, its advice among the findings;
/// without a choice every plan, the advice apart. What comes back has the chosen one's plan without
/// its athletes.
fn work(
    resolved: &Resolved,
    picked: Option<(&Choice, Option<usize>)>,
    working: &mut Working<'_>,
) -> Option<Evaluated> {
    if resolved.diagnostics.iter().any(is_newer) {
        return Some(Evaluated::default());
    }
    let nobody = Vec::new();
    let names = picked.map_or(&nobody, |(choice, _)| &choice.athletes);
    let names: BTreeSet<String> = names.iter().map(|name| fold_name(name)).collect();
    let wanted = |name: &str| names.is_empty() || names.contains(&fold_name(name));
    // A file whose lines did not all read would give a plan that misleads, and findings that
    // follow from findings.
    let broken = crate::diagnostics::has_errors(&resolved.diagnostics);
    let lost = lost_file(&resolved.diagnostics);
    let assumptions = picked.map(|(choice, _)| choice.assumptions).unwrap_or_default();
    let mut done = Evaluated::default();
    for (index, (programme, history)) in
        resolved.programmes.iter().zip(&resolved.histories).enumerate()
    {
        let written = if broken { Vec::new() } else { written(programme) };
        let unclear = crate::diagnostics::has_errors(&written);
        done.diagnostics.extend(written);
        let evaluation = Evaluation::new(programme, history, assumptions, &wanted);
        let mut evaluation = evaluation.at_most(working.most).stopping(working.stop);
        let mut paths = (picked.is_none() && !broken)
            .then(|| Paths::new(programme, history, &wanted, (working.most, working.stop)));
        let is_chosen = picked.is_none_or(|(_, chosen)| chosen == Some(index));
        // Who makes sheets asks only the lints about a load.
        let asked = if picked.is_some() { LintScope::OnSheet } else { LintScope::All };
        let head = evaluation.head();
        let mut review =
            (is_chosen && !broken).then(|| LintRun::new(&head, working.besides, asked));
        let mut athletes = evaluation.batch();
        // Without athletes there still is a plan.
        loop {
            if working.stop.is_asked() {
                // What was cut short is nobody's plan.
                return None;
            }
            let sound = !broken && !unclear && !evaluation.has_errors();
            let progress @ (all, worked_out) = evaluation.progress();
            let mut read = |athletes: Vec<AthletePlan>| {
                if let Some(paths) = &mut paths {
                    paths.compare(&athletes);
                }
                let plan = Plan { athletes, ..head.clone() };
                if let Some(review) = &mut review {
                    review.look(&plan);
                }
                if is_chosen && (!broken || picked.is_none()) {
                    (working.take)(PlanChunk { plan, sound, progress });
                }
            };
            if worked_out == all {
                read(athletes);
                break;
            }
            if evaluation.is_long() {
                read(athletes);
                athletes = evaluation.batch();
            } else {
                // While these are read, the next ones are worked out.
                let mut next = Vec::new();
                rayon::in_place_scope(|scope| {
                    scope.spawn(|_| next = evaluation.batch());
                    read(athletes);
                });
                athletes = next;
            }
            if athletes.is_empty() {
                break;
            }
        }
        // Where numbers did not read, warnings about them would mislead.
        let firm = |d: &Diagnostic| {
            let elsewhere = lost && d.code == Code::MissingGym;
            let follows = matches!(d.code, Code::OverMax | Code::LoadRunsOut)
                && follows_from(d, &resolved.diagnostics, &resolved.sources);
            !broken || d.severity() == Severity::Error && !elsewhere && !follows
        };
        let found = evaluation.finish();
        // What already happens if all goes as planned needs no warning of what may happen.
        let over = |d: &Diagnostic| {
            let same = |other: &&Diagnostic| other.label.span == d.label.span;
            found.iter().filter(same).any(|other| other.code == Code::OverMax)
        };
        let paths = paths.map(Paths::finish).unwrap_or_default();
        let paths = paths.into_iter().filter(|d| d.code != Code::PathPastMax || !over(d));
        done.diagnostics.extend(paths);
        done.diagnostics.extend(found.into_iter().filter(firm));
        let Some(review) = review else { continue };
        let (wrong, given) = review.finish();
        let place = |advice| at_place(advice, &resolved.sources);
        done.diagnostics.extend(wrong.into_iter().filter_map(place));
        let given = given.into_iter().filter_map(place);
        if picked.is_some() {
            // Advice on what does not hold would mislead.
            if !crate::diagnostics::has_errors(&done.diagnostics) {
                done.diagnostics.extend(given);
            }
            done.plans.push(head);
        } else {
            done.advice.extend(given);
        }
    }
    // Advice on what does not hold would mislead.
    if broken || crate::diagnostics::has_errors(&done.diagnostics) {
        done.advice.clear();
    }
    Some(done)
}

/// What the programme's own text says of its prescriptions and rules, whoever does them.
fn written(programme: &Programme) -> Vec<Diagnostic> {
    let mut found = check_work(programme);
    found.extend(check_rules(programme));
    found
}

/// Whether a problem may follow from an error in the same line.
fn follows_from(problem: &Diagnostic, known: &[Diagnostic], sources: &Sources) -> bool {
    let place = |d: &Diagnostic| sources.locate(d.label.span);
    let own = place(problem);
    let errors = known.iter().filter(|d| d.severity() == Severity::Error);
    errors.map(place).any(|place| place == own)
}

/// Advice at its place; `None` where that is nowhere.
fn at_place(advice: Advice, sources: &Sources) -> Option<Diagnostic> {
    let mut found = Diagnostic::new(advice.code, sources.line(&advice.at)?, advice.message);
    for (line, remark) in advice.others {
        found = match sources.line(&line) {
            Some(span) => found.and(span, remark),
            None => found,
        };
    }
    found.level = Some(advice.level);
    found.source = advice.source.map(str::to_owned);
    Some(found.help(advice.help))
}

fn choose(
    programmes: &[crate::resolve::Programme],
    in_root: &[bool],
    name: Option<&str>,
) -> Result<Option<usize>, WrongChoice> {
    let known: Vec<&str> = programmes.iter().map(|p| p.name.as_str()).collect();
    if let Some(name) = name {
        let found = known.iter().position(|k| fold_name(k) == fold_name(name));
        return match found {
            Some(found) => Ok(Some(found)),
            None => Err(WrongChoice(no_such("programme", name, &known))),
        };
    }
    let here: Vec<usize> =
        in_root.iter().enumerate().filter(|(_, here)| **here).map(|(index, _)| index).collect();
    match (here.as_slice(), known.len()) {
        ([only], _) => Ok(Some(*only)),
        ([], 0) => Ok(None),
        ([], 1) => Ok(Some(0)),
        _ => Err(WrongChoice(format!(
            "there are several programmes: choose one with --programme, {}",
            or_list(&known)
        ))),
    }
}

/// Signs that the sheets' font cannot print, each where it first stands outside a comment.
fn missing_glyphs(sources: &Sources, root: FileId) -> Vec<Diagnostic> {
    let mut seen = BTreeSet::new();
    let mut found = Vec::new();
    for (id, file) in sources.iter().filter(|(id, _)| *id >= root) {
        if file.text.is_ascii() {
            continue;
        }
        let (lines, _) = crate::syntax::lines::split(&file.text, id);
        for line in lines {
            let text = file.text.get(line.start..line.end).unwrap_or("");
            let mut before = None;
            for (at, sign) in text.char_indices() {
                // An accent that stands apart is printed with its letter.
                let joined = before.and_then(|letter| compose(letter, sign));
                before = Some(joined.unwrap_or(sign));
                if sign.is_ascii() || sheets::covers(joined.unwrap_or(sign)) || !seen.insert(sign) {
                    continue;
                }
                let start = line.start + at;
                let code = u32::from(sign);
                found.push(
                    Diagnostic::new(
                        Code::MissingGlyph,
                        Span::new(id, start, start + sign.len_utf8()),
                        format!("the font of the sheets has no `{sign}` (U+{code:04X})"),
                    )
                    .help("the sheet shows a crossed box in its place: write it another way"),
                );
            }
        }
    }
    found
}
