//! Tests with real `git`: revisions as sides, and the output of `git diff` after the set-up.
//!
//! They are skipped with a message if git is not installed; with `SETWRIGHT_TOOLS=required` they
//! fail.

use std::process::{Command, Output};

use super::support::{Bench, programme, repository};

/// Whether git is installed; a word about it where not.
pub fn is_installed() -> bool {
    let Err(error) = Command::new("git").arg("--version").output() else { return true };
    let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
    assert!(!required, "git is required here: {error}");
    eprintln!("skipped: git is not installed");
    false
}

/// A repository in a bench; `None` where git is not installed.
fn repository_in(bench: &Bench) -> Option<()> {
    if !is_installed() {
        return None;
    }
    git(bench, &["init", "--quiet", "--initial-branch", "main"]);
    Some(())
}

/// Nothing of the machine's own settings, and always the same person and time.
fn variables(bench: &Bench) -> Vec<(String, String)> {
    let nowhere = bench.path("no-such-file").display().to_string();
    let all = [
        ("GIT_CONFIG_GLOBAL", nowhere.as_str()),
        ("GIT_CONFIG_NOSYSTEM", "1"),
        ("GIT_PAGER", "cat"),
        ("GIT_AUTHOR_NAME", "Coach"),
        ("GIT_AUTHOR_EMAIL", "coach@example.org"),
        ("GIT_AUTHOR_DATE", "2026-01-05T10:00:00Z"),
        ("GIT_COMMITTER_NAME", "Coach"),
        ("GIT_COMMITTER_EMAIL", "coach@example.org"),
        ("GIT_COMMITTER_DATE", "2026-01-05T10:00:00Z"),
    ];
    all.into_iter().map(|(name, value)| (name.to_owned(), value.to_owned())).collect()
}

fn git(bench: &Bench, arguments: &[&str]) -> String {
    let output = git_in(bench, ".", arguments);
    assert!(
        output.status.success(),
        "git {arguments:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn git_in(bench: &Bench, folder: &str, arguments: &[&str]) -> Output {
    let mut command = Command::new("git");
    command.args(arguments).current_dir(bench.path(folder)).envs(variables(bench));
    // A hook or a test run by git itself says where its repository is: not here.
    for name in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX"] {
        command.env_remove(name);
    }
    command.output().unwrap()
}

/// The program, run in a folder of the bench.
fn setwright(bench: &Bench, folder: &str, arguments: &[&str]) -> (i32, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_setwright"));
    command.args(arguments).current_dir(bench.path(folder)).envs(variables(bench));
    for name in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX"] {
        command.env_remove(name);
    }
    let output = command.output().unwrap();
    (
        output.status.code().unwrap_or(-1),
        String::from_utf8_lossy(&output.stdout).into_owned(),
        String::from_utf8_lossy(&output.stderr).into_owned(),
    )
}

fn commit(bench: &Bench, why: &str) {
    git(bench, &["add", "--all"]);
    git(bench, &["commit", "--quiet", "-m", why]);
}

/// A club below a folder, committed, then changed in two files.
fn club(bench: &Bench) {
    let folder = repository().join("examples/rowing-club");
    for name in ["gym.sets", "squad.sets", "winter.sets"] {
        bench.write(&format!("club/{name}"), std::fs::read(folder.join(name)).unwrap());
    }
    // Another file of the same name, to be told apart from the club's.
    bench.write("other/winter.sets", programme(""));
    commit(bench, "The winter block");
    let edit = |name: &str, from: &str, to: &str| {
        let path = bench.path(name);
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.contains(from), "{from}");
        std::fs::write(path, text.replace(from, to)).unwrap();
    };
    edit("club/winter.sets", "4 x 5 @ 75% -> 80%", "4 x 5 @ 75% -> 82.5%");
    edit("club/winter.sets", "E1 Cable chop: 3 x 8-12", "E1 Cable chop: 3 x 8-10");
    edit("club/squad.sets", "max Deadlift: 110 kg", "max Deadlift: 115 kg");
}

/// The same in small: a programme, what it uses, and another file of the programme's name.
fn small(bench: &Bench) {
    let squad = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2\n\nathlete Robin Vale\n  max Deadlift: 110 kg\n";
    let text = "use squad.sets\n\nprogramme Small\n  weeks: 2\n\nday One\n  A Deadlift: 3 x 5 @ 70% -> 80%\n";
    bench.write("club/squad.sets", squad);
    bench.write("club/winter.sets", text);
    bench.write("other/winter.sets", programme(""));
    commit(bench, "The winter block");
    bench.write("club/squad.sets", squad.replace("110 kg", "115 kg"));
    bench.write("club/winter.sets", text.replace("80%", "82.5%"));
}

#[test]
fn revisions_are_sides_with_what_they_use() {
    let bench = Bench::new();
    if repository_in(&bench).is_none() {
        return;
    }
    small(&bench);
    let from =
        |folder: &str, old: &str, new: &str| setwright(&bench, folder, &["compare", old, new]);
    let (code, out, err) = from("club", "HEAD:./winter.sets", "winter.sets");
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    // The squad of the old side is that of the old revision.
    assert!(out.contains("Robin Vale: max Deadlift 110 kg → 115 kg"), "{out}");
    assert!(out.contains("Robin Vale, week 2: asks 80% → 82.5%"), "{out}");
    for (folder, old, new) in [
        (".", "HEAD:club/winter.sets", "club/winter.sets"),
        ("club", "HEAD:club/winter.sets", "./winter.sets"),
        ("other", "HEAD:../club/winter.sets", "../club/winter.sets"),
        ("club", "main^{commit}:./winter.sets", "winter.sets"),
        (".", "HEAD:club", "club"),
        ("club", "HEAD:.", "."),
        ("club", ":./winter.sets", "winter.sets"),
        ("club", "HEAD^{/The: winter}:./winter.sets", "winter.sets"),
    ] {
        let (code, told, err) = from(folder, old, new);
        if old.contains("The: winter") {
            // The message has no colon: git finds no such revision, and the colon was no end.
            assert_eq!(code, 2);
            assert!(err.contains("there is no revision `HEAD^{/The: winter}`"), "{err}");
        } else {
            assert_eq!((code, told.as_str(), err.as_str()), (0, out.as_str(), ""), "{old} {new}");
        }
    }
    let (code, told, _) = from("club", "HEAD:club", "HEAD:club");
    assert_eq!((code, told.as_str()), (0, "Small: nothing changed\n"));
    // A file whose name holds a colon and that is there is that file.
    #[cfg(unix)]
    {
        bench
            .write("club/HEAD:winter.sets", std::fs::read(bench.path("club/winter.sets")).unwrap());
        let (code, told, _) = from("club", "HEAD:winter.sets", "winter.sets");
        assert_eq!((code, told.as_str()), (0, "Small: nothing changed\n"));
        std::fs::remove_file(bench.path("club/HEAD:winter.sets")).unwrap();
    }
}

#[test]
fn wrong_revisions_are_named_and_never_options() {
    let bench = Bench::new();
    if repository_in(&bench).is_none() {
        return;
    }
    small(&bench);
    for (old, code, part) in [
        ("nothing:./winter.sets", 2, "there is no revision `nothing` (`git log --oneline` lists"),
        ("mian:./winter.sets", 2, "there is no revision `mian`: did you mean `main`? (`git log"),
        ("HEAD~9:./winter.sets", 2, "there is no revision `HEAD~9` (`git log --oneline` lists"),
        // The path is the other side's.
        ("HEAD", 3, "write REV:PATH, such as HEAD:./winter.sets"),
        ("main", 3, "write REV:PATH, such as main:./winter.sets"),
        ("HEAD:winter.sets", 3, "for a path from the current folder, write HEAD:./winter.sets"),
        ("HEAD:./nowhere.sets", 3, "there is no such file"),
        ("HEAD:../../x.sets", 2, "is outside the repository"),
        ("HEAD:./a\nb.sets", 3, "there is no such file"),
    ] {
        let (ended, out, err) = setwright(&bench, "club", &["compare", old, "winter.sets"]);
        assert_eq!((ended, out.as_str()), (code, ""), "{old}: {err}");
        assert!(err.contains(part), "{old}: {err}");
    }
    for old in ["--output=stolen:x", "-h:x"] {
        let (ended, _, err) = setwright(&bench, "club", &["compare", "--", old, "winter.sets"]);
        assert_eq!(ended, 2, "{err}");
        assert!(err.contains("cannot start with a dash"), "{err}");
    }
    assert!(!bench.path("club/stolen:x").exists() && !bench.path("club/stolen").exists());
    // Outside every repository git says so.
    let lone = Bench::with(programme(""));
    let ceiling = lone.path("..").canonicalize().unwrap().display().to_string();
    let ran = lone.run_with(
        &["compare", "HEAD:x.sets", "programme.sets"],
        None,
        &[("GIT_CEILING_DIRECTORIES", &ceiling)],
    );
    assert_eq!(ran.code, 3);
    assert!(ran.err.contains("not a git repository"), "{}", ran.err);
}

/// What git shows of a programme whose text is changed.
fn shown(bench: &Bench, old: &str, from: &str, to: &str) -> String {
    assert!(old.contains(from), "{from}");
    bench.write("programme.sets", old.replace(from, to));
    let diff = git(bench, &["diff", "-U0", "--", "programme.sets"]);
    let changed = |line: &&str| {
        (line.starts_with(['+', '-'])) && !line.starts_with("+++") && !line.starts_with("---")
    };
    diff.lines().filter(changed).map(|line| format!("{line}\n")).collect()
}

#[test]
fn a_change_of_all_days_is_told_once_and_a_moved_day_stays_in_its_place() {
    let bench = Bench::new();
    if repository_in(&bench).is_none() {
        return;
    }
    bench.write(".gitattributes", "*.sets diff=sets\n");
    assert_eq!(setwright(&bench, ".", &["compare", "--set-up-git"]).0, 0);
    let text = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 5 kg x 2, 2.5 kg x 2\n\nathlete Robin Vale\n\nprogramme Small\n  weeks: 2\n  starts: 2026-02-02\n  time: 60 min\n\nphase Base: week 1\nphase Deload: week 2, load -10%\n\nday Squat (Mon)\n  A Back squat: 3 x 5 @ 100 kg\n\nday Press (Wed)\n  A Bench press: 3 x 5 @ 20 kg\n\nday Pull (Fri)\n  A Deadlift: 3 x 5 @ 120 kg\n";
    bench.write("programme.sets", text);
    commit(&bench, "As it was");
    for (from, to, told) in [
        ("(Wed)", "(Sat)", "-  every athlete: on Wed\n+  every athlete: on Sat\n"),
        ("2026-02-02", "2026-02-09", "-  first day 2026-02-02\n+  first day 2026-02-09\n"),
        ("60 min", "75 min", "-  time 60 min\n+  time 75 min\n"),
        (
            "phase Base: week 1\nphase Deload",
            "phase Base: week 1\nphase Rest",
            "-  phase Deload (week 2)\n+  phase Rest (week 2)\n",
        ),
    ] {
        assert_eq!(shown(&bench, text, from, to), told);
    }
    let lighter = shown(&bench, text, "load -10%", "load -15%");
    let phase = |line: &&str| line.contains("phase");
    let phases: Vec<&str> = lighter.lines().filter(phase).collect();
    let told = ["-  the phase's load -10% (week 2)", "+  the phase's load -15% (week 2)"];
    assert_eq!(phases, told, "{lighter}");
}

#[cfg(unix)]
#[test]
fn links_of_a_revision_stay_in_it() {
    let bench = Bench::new();
    if repository_in(&bench).is_none() {
        return;
    }
    bench.write("shared/gym.sets", "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 5 kg x 2\n");
    let text = "use gym.sets\n\nathlete Robin Vale\n\nprogramme Small\n  weeks: 1\n\nday One\n  A Deadlift: 3 x 5 @ 70 kg\n";
    bench.write("block/programme.sets", text);
    std::os::unix::fs::symlink("../shared/gym.sets", bench.path("block/gym.sets")).unwrap();
    commit(&bench, "Linked");
    let same = ["compare", "HEAD:block/programme.sets", "HEAD:block/programme.sets"];
    assert_eq!(setwright(&bench, ".", &same).0, 0);
    std::fs::remove_file(bench.path("block/gym.sets")).unwrap();
    std::os::unix::fs::symlink("/etc/passwd", bench.path("block/gym.sets")).unwrap();
    commit(&bench, "Out");
    let (code, _, err) = setwright(&bench, ".", &same);
    assert_eq!(code, 1);
    assert!(err.contains("outside the project folder"), "{err}");
}

#[test]
fn git_shows_plans_once_it_is_set_up() {
    let bench = Bench::new();
    if repository_in(&bench).is_none() {
        return;
    }
    bench.write(".gitattributes", "*.pdf binary");
    club(&bench);
    let (code, _, err) = setwright(&bench, "club", &["compare", "--set-up-git"]);
    assert_eq!(code, 0, "{err}");
    let attributes = || std::fs::read_to_string(bench.path(".gitattributes")).unwrap();
    assert_eq!(attributes(), "*.pdf binary\n*.sets diff=sets\n");
    // Once more changes nothing.
    assert_eq!(setwright(&bench, ".", &["compare", "--set-up-git"]).0, 0);
    assert_eq!(attributes(), "*.pdf binary\n*.sets diff=sets\n");

    let diff = git(&bench, &["diff", "--word-diff=plain", "--", "club"]);
    for part in [
        // The programme, in athletes' terms, under its day and exercise.
        "Winter water-strength, Catch, A Front squat",
        "every athlete: asks 75%; [-80-]{+82.5+}%; 82.5%;",
        "Wren Tallow: load 55 kg; [-60-]{+62.5+} kg; 62.5 kg;",
        // A file without a programme as it is, under its athlete.
        "athlete Wren Tallow",
        "max Deadlift: [-110-]{+115+} kg (tested 2025-12-18)",
    ] {
        assert!(diff.contains(part), "{part}\n{diff}");
    }
    let hunks: Vec<&str> = diff.lines().filter(|line| line.starts_with("@@")).collect();
    assert!(
        hunks
            .iter()
            .all(|hunk| hunk.contains("Winter water-strength, ") || hunk.contains("athlete "))
    );
    let lines =
        git(&bench, &["diff", "--no-textconv", "--word-diff=plain", "--", "club/winter.sets"]);
    assert!(lines.contains("75% -> [-80-]{+82.5+}% -> 82.5%"), "{lines}");
    assert!(
        lines.lines().any(|l| l.starts_with("@@") && l.ends_with("day Finish (Fri)")),
        "{lines}"
    );

    commit(&bench, "Heavier");
    // Both versions are old now: git hands temporary files over.
    let log = git(&bench, &["log", "-p", "--word-diff=plain", "-1", "--", "club/winter.sets"]);
    assert!(log.contains("Wren Tallow: load 55 kg; [-60-]{+62.5+} kg; 62.5 kg;"), "{log}");
    // A broken version is shown as its text.
    let broken = std::fs::read_to_string(bench.path("club/winter.sets")).unwrap();
    bench.write("club/winter.sets", broken.replace("A  Deadlift", "A  Dedlift"));
    let diff = git(&bench, &["diff", "--", "club/winter.sets"]);
    assert!(diff.contains("+  A  Dedlift: 1 x 5"), "{diff}");
}
