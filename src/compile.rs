//! Runs the whole pipeline, from a project to plans.

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
    /// What to assume about sessions without a log.
    pub assumptions: Assumptions,
}

/// A compiled project.
#[derive(Clone, Debug)]
pub struct Compiled {
    /// The plan of the chosen programme, if there is one to choose.
    pub plan: Option<Plan>,
    /// The plans of all programmes in the order of the files; only [`check`] keeps them. If there are
    /// errors, they contain what could be worked out, and no sheets are made from them.
    pub plans: Vec<Plan>,
    /// All problems in the coach's text.
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

/// The error for a choice that does not exist.
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

/// The finished plans of some athletes of the chosen programme.
#[derive(Debug)]
pub struct PlanChunk {
    /// Their plan.
    pub plan: Plan,
    /// Whether no error has been found so far. No sheets are made for a programme with errors.
    pub sound: bool,
    /// How many athletes are finished, including these, and how many there are.
    pub progress: (usize, usize),
}

/// Compiles a project and passes on the chosen programme's plan in chunks of some athletes, so that the
/// plan of a whole squad is never in memory. The returned plan has no athletes. Errors can also be
/// found after the first chunk. More planned sets than `most` are an error.
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

/// Checks a project with additional decisions about advice. Passes plans on in chunks of some athletes
/// and keeps none. More planned sets than `most` in a programme are an error.
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

/// The result of evaluating the programmes of a project, without the problems of parsing them.
#[derive(Clone, Debug, Default)]
pub struct Evaluated {
    /// The plans of the requested programmes, in the order of the files.
    pub plans: Vec<Plan>,
    /// The problems.
    pub diagnostics: Vec<Diagnostic>,
    /// Advice; empty while there are errors.
    pub advice: Vec<Diagnostic>,
}

/// Evaluates every programme for every athlete and gives advice. Returns nothing if it is cancelled.
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

/// How programmes are evaluated.
struct Working<'a> {
    /// Additional decisions about advice.
    besides: &'a [AdviceSwitch],
    /// The most planned sets of a programme.
    most: usize,
    /// Receives the plans.
    take: &'a mut dyn FnMut(PlanChunk),
    stop: &'a CancelToken,
}

/// The diagnostics of parsing and resolving a project: files, lines and names.
#[must_use]
pub fn reading(resolved: &[Diagnostic], sources: &Sources, root: FileId) -> Vec<Diagnostic> {
    let mut found = resolved.to_vec();
    found.extend(missing_glyphs(sources, root));
    // Where a file cannot be read, do not report the problems that follow from that.
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

/// Evaluates programmes and passes their plans on. With a chosen programme, its advice is among the
/// diagnostics and the returned plan has no athletes; without a choice, all plans are passed on and
/// advice is separate.
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
    // If not all lines of a file can be read, the plan would be misleading, and so would the
    // problems that follow from it.
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
        // Commands that make sheets only run the lints about loads.
        let asked = if picked.is_some() { LintScope::OnSheet } else { LintScope::All };
        let head = evaluation.head();
        let mut review =
            (is_chosen && !broken).then(|| LintRun::new(&head, working.besides, asked));
        let mut athletes = evaluation.batch();
        // There is a plan even without athletes.
        loop {
            if working.stop.is_asked() {
                // A cancelled evaluation returns no plan.
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
                // Evaluate the next athletes while these are processed.
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
        // If numbers cannot be read, warnings about them would be misleading.
        let firm = |d: &Diagnostic| {
            let elsewhere = lost && d.code == Code::MissingGym;
            let follows = matches!(d.code, Code::OverMax | Code::LoadRunsOut)
                && follows_from(d, &resolved.diagnostics, &resolved.sources);
            !broken || d.severity() == Severity::Error && !elsewhere && !follows
        };
        let found = evaluation.finish();
        // A problem of the plan itself needs no warning about a possible path.
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
            // Advice on a plan with errors would be misleading.
            if !crate::diagnostics::has_errors(&done.diagnostics) {
                done.diagnostics.extend(given);
            }
            done.plans.push(head);
        } else {
            done.advice.extend(given);
        }
    }
    // Advice on a plan with errors would be misleading.
    if broken || crate::diagnostics::has_errors(&done.diagnostics) {
        done.advice.clear();
    }
    Some(done)
}

/// Problems in the prescriptions and rules of a programme that do not depend on the athlete.
fn written(programme: &Programme) -> Vec<Diagnostic> {
    let mut found = check_work(programme);
    found.extend(check_rules(programme));
    found
}

/// Whether a problem can be a consequence of an error in the same line.
fn follows_from(problem: &Diagnostic, known: &[Diagnostic], sources: &Sources) -> bool {
    let place = |d: &Diagnostic| sources.locate(d.label.span);
    let own = place(problem);
    let errors = known.iter().filter(|d| d.severity() == Severity::Error);
    errors.map(place).any(|place| place == own)
}

/// Advice as a diagnostic; `None` if its location is unknown.
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
            "there are several programmes: choose one with --programme: {}",
            or_list(&known)
        ))),
    }
}

/// Characters that the font of the sheets cannot print, each at its first place outside a comment.
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
                // A combining accent is printed with its letter.
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
                    .help("the sheet shows a crossed box instead: write it with other characters"),
                );
            }
        }
    }
    found
}
