//! The JSON Schema of the plan: the committed file is the generated one, and an independent
//! validator (the Python module `jsonschema`) checks plans against it.

use std::path::{Path, PathBuf};

use setwright::compile::{Choice, compile};
use setwright::diagnostics::has_errors;
use setwright::evaluate::{Assumptions, Path as Future};
use setwright::resolve::Project;
use setwright::source::FolderLoader;

use super::support::{Bench, python, repository};

const COMMITTED: &str = "docs/plan.schema.json";

/// `SETWRIGHT_ACCEPT_SCHEMA=1 cargo test --test cli schema` writes it again.
#[test]
fn the_committed_schema_is_the_generated_one() {
    let path = repository().join(COMMITTED);
    let ran = Bench::new().run(&["plan", "--schema"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    if std::env::var("SETWRIGHT_ACCEPT_SCHEMA").is_ok_and(|v| v == "1") {
        std::fs::write(&path, &ran.out).unwrap();
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == ran.out, "{COMMITTED} is stale: SETWRIGHT_ACCEPT_SCHEMA=1 writes it");
}

fn projects(folder: &Path, found: &mut Vec<PathBuf>) {
    let mut entries: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            projects(&path, found);
        } else if path.extension().is_some_and(|e| e == "sets") {
            found.push(path);
        }
    }
}

/// A project's plan as JSON, if it has one without errors.
fn json(file: &Path, path: Future) -> Option<String> {
    let name = file.file_name()?.to_str()?;
    let project = Project::open(&FolderLoader::new(file.parent()?), name).unwrap();
    let assumptions = Assumptions { path, ..Assumptions::default() };
    let compiled = compile(project, &Choice { assumptions, ..Choice::default() }).ok()?;
    let sound = !has_errors(&compiled.diagnostics);
    compiled.plan.filter(|_| sound).map(|plan| setwright::export::json(&plan).unwrap())
}

/// Every plan that can be made of the examples and of the tests' programmes.
fn plans(bench: &Bench) -> Vec<String> {
    let mut files = Vec::new();
    for folder in ["examples", "tests/programmes", "tests/advice"] {
        projects(&repository().join(folder), &mut files);
    }
    let mut made = Vec::new();
    for file in files {
        let example = file.starts_with(repository().join("examples"));
        for future in [Future::Planned, Future::Worst].into_iter().take(if example { 2 } else { 1 })
        {
            if let Some(json) = json(&file, future) {
                let name = format!("{}.json", made.len());
                bench.write(&name, json);
                made.push(bench.path(&name).to_str().unwrap().to_owned());
            }
        }
    }
    made
}

/// Objects with the same fields of the same types are looked at once: a plan has thousands of them.
const THIN: &str = "
TAGS = {'step', 'how', 'kind', 'of', 'status', 'decision', 'implement'}
def shape(at):
    if isinstance(at, dict):
        return tuple((k, at[k] if k in TAGS else shape(at[k])) for k in sorted(at))
    if isinstance(at, list):
        return tuple(sorted({str(shape(x)) for x in at}))
    return type(at).__name__
def thin(at, seen):
    if isinstance(at, dict):
        return {k: thin(x, seen) for k, x in at.items()}
    if isinstance(at, list):
        kept = []
        for x in at:
            s = str(shape(x))
            if not isinstance(x, dict):
                kept.append(x)
            elif s not in seen:
                seen.add(s)
                kept.append(thin(x, seen))
        return kept
    return at
";

#[test]
fn every_plan_is_as_the_schema_says() {
    let bench = Bench::new();
    let plans = plans(&bench);
    assert!(plans.len() > 60, "{} plans", plans.len());
    let script = "
import json, sys
from jsonschema import Draft202012Validator as V
schema = json.load(open(sys.argv[1]))
V.check_schema(schema)
v = V(schema)
seen = set()
for name in sys.argv[2:]:
    for e in v.iter_errors(thin(json.load(open(name)), seen)):
        sys.exit(f'{name}: {list(e.absolute_path)}: {e.message[:300]}')
";
    let schema = repository().join(COMMITTED);
    let mut arguments = vec![schema.to_str().unwrap()];
    arguments.extend(plans.iter().map(String::as_str));
    let script = format!("{THIN}{script}");
    if let Some((valid, told)) = python("jsonschema", &script, &arguments) {
        assert!(valid, "{told}");
    }
}

/// Every field of every object of a plan that has much in it is taken away, given another type,
/// and joined by a stranger: the validator refuses each of these, but for the taking away of what
/// may be left out.
#[test]
fn a_plan_that_is_not_as_the_schema_says_is_refused() {
    let bench = Bench::new();
    let example = repository().join("examples/rowing-club/winter-so-far.sets");
    let path = bench.path("plan.json").to_str().unwrap().to_owned();
    let arguments = ["plan", example.to_str().unwrap(), "--weeks", "2-4", "-o", &path];
    let ran = bench.run(&[&arguments[..], &["--athlete", "Wren Tallow"]].concat());
    assert_eq!(ran.code, 0, "{}", ran.err);
    let script = "
import copy, json, sys
from jsonschema import Draft202012Validator as V
v = V(json.load(open(sys.argv[1])))
plan = json.load(open(sys.argv[2]))
assert v.is_valid(plan)
plan = thin(plan, set())
def objects(at, path, shapes):
    if isinstance(at, dict):
        shape = (path[-1] if path and isinstance(path[-1], str) else path[-2:-1], tuple(sorted(at)))
        if str(shape) not in shapes:
            shapes.add(str(shape))
            yield path, at
        for k, x in at.items():
            yield from objects(x, path + [k], shapes)
    elif isinstance(at, list):
        for i, x in enumerate(at):
            yield from objects(x, path + [i], shapes)
def there(root, path):
    for step in path:
        root = root[step]
    return root
may_go = {'goal', 'supervision', 'source', 'notes', 'advice', 'exercise_names'}
tried = 0
bare = []
for path, obj in list(objects(plan, [], set())):
    if 'exercise_names' in path:
        continue
    other = copy.deepcopy(plan)
    there(other, path)['stranger'] = 1
    if v.is_valid(other):
        sys.exit(f'a stranger is let in at {path}')
    for key, value in obj.items():
        other = copy.deepcopy(plan)
        there(other, path)[key] = {'wrong': [1]}
        if key != 'exercise_names' and v.is_valid(other):
            sys.exit(f'a wrong type is let in at {path} {key}')
        other = copy.deepcopy(plan)
        del there(other, path)[key]
        if v.is_valid(other):
            bare.append(key)
        tried += 3
# What must always be there.
must = {'programme', 'weeks', 'athletes', 'language', 'estimate', 'name', 'unit', 'gym', 'sessions',
    'week', 'day', 'date', 'status', 'groups', 'exercises', 'order', 'each_side', 'sets', 'kind',
    'reps_min', 'reps_max', 'open_ended', 'target_kg', 'load_kg', 'about', 'plates_per_side_kg',
    'derivation', 'result_kg', 'how', 'letter', 'file', 'line', 'muscle', 'share',
    'all_made', 'skipped', 'made', 'done_on'}
wrong = must & set(bare)
if wrong:
    sys.exit(f'may be left out: {wrong}')
if tried < 200:
    sys.exit(f'only {tried} tries')
";
    let schema = repository().join(COMMITTED);
    if let Some((refused, told)) =
        python("jsonschema", &format!("{THIN}{script}"), &[schema.to_str().unwrap(), &path])
    {
        assert!(refused, "{told}");
    }
}
