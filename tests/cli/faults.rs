//! Faults of the machine and hostile files: read-only folders, full disks, interrupted runs, links
//! in a ring, names that would control a terminal or leave a folder. There is never half a file or
//! a lost line, and always a message that explains the fault.

#![allow(clippy::cast_possible_truncation, reason = "the moments of these tests are short")]

use std::collections::BTreeSet;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

use super::support::{Bench, missing, programme};

const PROGRAM: &str = env!("CARGO_BIN_EXE_setwright");

fn told(ran: &Output) -> String {
    String::from_utf8_lossy(&[ran.stdout.as_slice(), ran.stderr.as_slice()].concat()).into_owned()
}

/// The program as somebody who may only do what permissions say: root may write anywhere. `None`,
/// with a word about it, where that cannot be.
fn as_anybody(bench: &Bench) -> Option<impl Fn(&[&str]) -> Output> {
    let id = Command::new("id").arg("-u").output().unwrap();
    let is_root = String::from_utf8_lossy(&id.stdout).trim() == "0";
    // Its own copy, in a folder that everybody may enter.
    std::fs::set_permissions(bench.path("."), PermissionsExt::from_mode(0o755)).unwrap();
    std::fs::copy(PROGRAM, bench.path("setwright")).unwrap();
    let (program, folder) = (bench.path("setwright"), bench.path("."));
    let run = move |arguments: &[&str]| {
        let mut command = Command::new(if is_root { Path::new("setpriv") } else { &program });
        if is_root {
            command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(&program);
        }
        command.args(arguments).current_dir(&folder).stdin(Stdio::null()).output()
    };
    match run(&["--version"]) {
        Ok(ran) if ran.status.success() => Some(move |arguments: &[&str]| run(arguments).unwrap()),
        Ok(ran) => {
            missing("setpriv", &told(&ran));
            None
        }
        Err(error) => {
            missing("setpriv", &error);
            None
        }
    }
}

/// The names in a folder.
fn names(bench: &Bench, folder: &str) -> BTreeSet<String> {
    let entries = std::fs::read_dir(bench.path(folder)).unwrap();
    entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect()
}

#[test]
fn a_project_that_may_only_be_read_is_read() {
    let bench = Bench::new();
    bench.write("p/programme.sets", programme(""));
    bench.write("p/logs.sets", "log Robin Vale: Small\n");
    bench.write("p/loose.sets", programme("").replace("  A Back", "   A  Back"));
    for name in ["programme.sets", "logs.sets", "loose.sets"] {
        std::fs::set_permissions(
            bench.path(&format!("p/{name}")),
            PermissionsExt::from_mode(0o444),
        )
        .unwrap();
    }
    std::fs::set_permissions(bench.path("p"), PermissionsExt::from_mode(0o555)).unwrap();
    let Some(run) = as_anybody(&bench) else { return };
    let file = "p/programme.sets";
    for arguments in [
        &["check", file][..],
        &["summary", file],
        &["plan", file],
        &["why", file, "--week", "1", "--order", "A"],
        &["review", file],
        &["compare", file, file],
        &["cards", file, "-o", "-"],
        &["fmt", "--check", file],
        &["check", "p"],
    ] {
        let ran = run(arguments);
        let code = ran.status.code();
        assert!(matches!(code, Some(0..=2)), "{arguments:?}: {}", told(&ran));
        assert!(!told(&ran).contains("denied"), "{arguments:?}: {}", told(&ran));
    }
    let log = ["log", file, "--athlete", "Robin Vale", "--date", "2026-01-05", "-o", "p/logs.sets"];
    for arguments in [&log[..], &["fmt", "p/loose.sets"], &["cards", file, "-o", "p/cards.pdf"]] {
        let ran = run(arguments);
        assert_eq!(ran.status.code(), Some(3), "{arguments:?}: {}", told(&ran));
        let said = told(&ran);
        assert!(said.contains("p/") && said.contains("ermission denied"), "{said}");
    }
    assert_eq!(names(&bench, "p").len(), 3);
}

#[test]
fn a_full_standard_output_is_said() {
    let bench = Bench::with(programme(""));
    bench.write("other.sets", programme("  B Push-up: 3 x 5\n"));
    if !Path::new("/dev/full").exists() {
        return missing("/dev/full", &"this system has none");
    }
    for arguments in [
        &["summary", "programme.sets"][..],
        &["plan", "programme.sets"],
        &["cards", "programme.sets", "-o", "-"],
        &["cards", "programme.sets", "-o", "/dev/full"],
        &["check", "programme.sets"],
        &["check", "programme.sets", "--format", "json"],
        &["explain"],
        &["explain", "bad-weekday"],
        &["exercises"],
        &["fmt", "-"],
        &["why", "programme.sets", "--week", "1", "--order", "A"],
        &["review", "programme.sets"],
        &["compare", "programme.sets", "other.sets"],
        &["completions", "bash"],
        &["man", "summary"],
    ] {
        let full = std::fs::File::options().write(true).open("/dev/full").unwrap();
        let mut command = Command::new(PROGRAM);
        command.args(arguments).current_dir(bench.path(".")).stdout(full);
        command.stdin(std::fs::File::open(bench.path("programme.sets")).unwrap());
        let ran = command.output().unwrap();
        assert_eq!(ran.status.code(), Some(3), "{arguments:?}: {}", told(&ran));
        assert!(told(&ran).contains("No space left"), "{arguments:?}: {}", told(&ran));
        // Nobody reads the other end of a pipe.
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        if arguments.contains(&"/dev/full") {
            continue;
        }
        let mut command = Command::new(PROGRAM);
        command.args(arguments).current_dir(bench.path(".")).stdout(writer);
        command.stdin(std::fs::File::open(bench.path("programme.sets")).unwrap());
        let ran = command.output().unwrap();
        assert_eq!(ran.status.code(), Some(3), "{arguments:?}: {}", told(&ran));
        assert!(told(&ran).contains("standard output was closed"), "{arguments:?}: {}", told(&ran));
    }
}

#[test]
fn a_suffix_that_no_command_writes_is_refused() {
    let bench = Bench::with(programme(""));
    bench.write("other.sets", programme("  B Push-up: 3 x 5\n"));
    let file = "programme.sets";
    let why = ["why", file, "--week", "1", "--order", "A", "-o", "x.docx"];
    for (arguments, said) in [
        (&["cards", file, "-o", "x.docx"][..], "`.pdf`, `.svg` or `.png`"),
        (&["cards", file, "--format", "svg", "-o", "x.docx"], "`.pdf`, `.svg` or `.png`"),
        (&["watch", file, "-o", "x.docx"], "`.pdf`, `.svg` or `.png`"),
        (&["plan", file, "-o", "x.docx"], "`.json`, `.csv` or `.ics`"),
        (&["plan", file, "-o", "x.csv"], "add --format csv"),
        (&["summary", file, "-o", "x.pdf"], "`.txt`, `.json` or `.csv`"),
        (&["summary", file, "-o", "x.csv"], "add --weekly --format csv"),
        (&["check", file, "-o", "x.html"], "`.txt` or `.json`"),
        (&["review", file, "-o", "x.PDF"], "add --format pdf"),
        (&["exercises", "-o", "x.xlsx"], "`.txt` or `.json`"),
        (&["compare", file, "other.sets", "-o", "x.docx"], "`.txt` or `.json`"),
        (&why, "`.txt`"),
        (
            &["log", file, "--athlete", "Robin Vale", "--date", "2026-01-05", "-o", "x.txt"],
            "`.sets`",
        ),
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code, 2, "{arguments:?}: {}", ran.err);
        assert!(ran.err.contains(said), "{arguments:?}: {}", ran.err);
        assert!(
            names(&bench, ".")
                .iter()
                .all(|name| Path::new(name).extension() == Some("sets".as_ref())),
            "{arguments:?}"
        );
        assert_eq!(names(&bench, ".").len(), 2, "{arguments:?}");
    }
    // A point in a name is no suffix, and a name without one is as good as any.
    for arguments in [
        &["summary", file, "-o", "week-1.5"][..],
        &["summary", file, "-o", "week"],
        &["summary", file, "-o", "week.TXT"],
        &["summary", file, "--weekly", "--format", "csv", "-o", "week.csv"],
        &["cards", file, "-o", "cards-1.5"],
    ] {
        assert_eq!(bench.run(arguments).code, 0, "{arguments:?}");
    }
}

#[test]
fn a_full_disk_leaves_what_was_there() {
    let bench = Bench::with(programme(""));
    std::fs::create_dir(bench.path("full")).unwrap();
    // A file system of four pages, of this test's own, where one may have it.
    let script = "mount -t tmpfs -o size=16k none full || exit 77\n\
         printf 'the last good cards' > full/cards.pdf\n\
         cp programme.sets full/programme.sets\n\
         \"$0\" cards programme.sets -o full/cards.pdf; echo \"ended with $?\"\n\
         \"$0\" cards programme.sets --format svg -o full/; echo \"ended with $?\"\n\
         cat full/cards.pdf; echo; ls -A full";
    let mut command = Command::new("unshare");
    command.args(["-m", "sh", "-c", script, PROGRAM]).current_dir(bench.path("."));
    let ran = match command.output() {
        Ok(ran) if ran.stdout.is_empty() => {
            return eprintln!("skipped: no file system may be mounted here: {}", told(&ran));
        }
        Ok(ran) => ran,
        Err(error) => return missing("unshare", &error),
    };
    let said = told(&ran);
    assert_eq!(said.matches("ended with 3").count(), 2, "{said}");
    assert!(said.contains("No space left"), "{said}");
    let left = String::from_utf8_lossy(&ran.stdout);
    let left: Vec<&str> = left.lines().filter(|line| !line.starts_with("ended")).collect();
    assert_eq!(left, ["the last good cards", "cards.pdf", "programme.sets"]);
}

/// Numbers that look random and are the same on every run (a linear congruential generator;
/// constants [M]).
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u128) -> u128 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u128::from(self.0 >> 33) % most.max(1)
    }
}

/// Runs the program and kills it at a moment; says whether it was still alive.
fn killed_after(bench: &Bench, arguments: &[&str], moment: Duration) -> bool {
    let mut command = Command::new(PROGRAM);
    command.args(arguments).current_dir(bench.path("."));
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let mut child = command.spawn().unwrap();
    std::thread::sleep(moment);
    let _ = child.kill();
    child.wait().unwrap().signal().is_some()
}

/// How long a run takes, the shortest of three.
fn length(bench: &Bench, arguments: &[&str], before: impl Fn()) -> Duration {
    let once = |_| {
        before();
        let start = Instant::now();
        assert_eq!(bench.run(arguments).code, 0);
        start.elapsed()
    };
    (0..3).map(once).min().unwrap()
}

#[test]
fn a_run_that_is_killed_leaves_the_old_file_or_the_new_one() {
    let bench = Bench::with(programme(""));
    let mut dice = Dice(20_261_125);
    let (mut killed, mut done) = (0, 0);
    // Printing.
    let cards = ["cards", "programme.sets", "-o", "out/cards.pdf"];
    let old = "the last good cards".repeat(1_000);
    bench.write("out/cards.pdf", &old);
    let long = length(&bench, &cards, || ());
    let new = std::fs::read(bench.path("out/cards.pdf")).unwrap();
    for _ in 0..50 {
        bench.write("out/cards.pdf", &old);
        let moment = dice.below(long.as_micros() * 5 / 4);
        killed += usize::from(killed_after(&bench, &cards, Duration::from_micros(moment as u64)));
        let found = std::fs::read(bench.path("out/cards.pdf")).unwrap();
        done += usize::from(found == new);
        assert!(found == new || found == old.as_bytes(), "torn: {} bytes", found.len());
    }
    // Rewriting the coach's own text.
    let fmt = ["fmt", "out/long.sets"];
    let lines = "  # as it was\n\n  B   Push-up:  3x10 # yes\n".to_owned();
    let old = programme(&(lines + &"  note:   the same again\n".repeat(2_000)));
    bench.write("out/long.sets", &old);
    let long = length(&bench, &fmt, || bench.write("out/long.sets", &old));
    let new = std::fs::read_to_string(bench.path("out/long.sets")).unwrap();
    assert_ne!(new, old);
    for _ in 0..150 {
        bench.write("out/long.sets", &old);
        let moment = dice.below(long.as_micros() * 5 / 4);
        killed += usize::from(killed_after(&bench, &fmt, Duration::from_micros(moment as u64)));
        let found = std::fs::read_to_string(bench.path("out/long.sets")).unwrap();
        done += usize::from(found == new);
        assert!(found == new || found == old, "torn: {} bytes", found.len());
    }
    eprintln!("200 runs: {killed} killed alive, {done} had written");
    assert!(killed > 50, "only {killed} of 200 were still running");
    // What they left is hidden, and the next run takes it away.
    let is_named = |name: &String| {
        name.starts_with(".setwright-")
            && [".part", ".lock"].iter().any(|end| name.strip_suffix(end).is_some())
    };
    let left = |bench: &Bench| -> Vec<String> {
        let known = ["cards.pdf", "long.sets"];
        names(bench, "out").into_iter().filter(|name| !known.contains(&name.as_str())).collect()
    };
    assert!(left(&bench).iter().all(is_named), "{:?}", left(&bench));
    assert_eq!(bench.run(&cards).code, 0);
    assert_eq!(left(&bench), Vec::<String>::new());
}

#[test]
fn links_in_a_ring_end() {
    let bench = Bench::with(programme(""));
    symlink("self.sets", bench.path("self.sets")).unwrap();
    symlink("b.sets", bench.path("a.sets")).unwrap();
    symlink("a.sets", bench.path("b.sets")).unwrap();
    symlink(".", bench.path("loop")).unwrap();
    std::fs::create_dir(bench.path("below")).unwrap();
    symlink("..", bench.path("below/up")).unwrap();
    for arguments in [
        &["check", "."][..],
        &["check", "programme.sets", "loop/programme.sets"],
        &["fmt", "--check", "."],
        &["fmt", "loop"],
        &["compare", ".", "programme.sets"],
        &["compare", "below/up", "."],
    ] {
        let ran = bench.run(arguments);
        assert!(ran.code == 0 || ran.code == 1, "{arguments:?}: {}{}", ran.out, ran.err);
    }
    for arguments in [
        &["check", "self.sets"][..],
        &["fmt", "a.sets"],
        &["cards", "programme.sets", "-o", "a.sets"],
        &["cards", "programme.sets", "-o", "self.sets"],
        &[
            "log",
            "programme.sets",
            "--athlete",
            "Robin Vale",
            "--date",
            "2026-01-05",
            "-o",
            "b.sets",
        ],
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code, 3, "{arguments:?}: {}{}", ran.out, ran.err);
        assert!(ran.err.contains("symbolic link"), "{arguments:?}: {}", ran.err);
    }
    assert!(bench.path("a.sets").is_symlink() && bench.path("self.sets").is_symlink());
    bench.write("uses.sets", format!("use self.sets\n{}", programme("")));
    bench.write("far.sets", format!("use loop/loop/far.sets\n{}", programme("")));
    let ran = bench.run(&["check", "uses.sets"]);
    assert!(ran.code == 1 && ran.out.contains("error[file-unreadable]"), "{}", ran.out);
    let ran = bench.run(&["check", "far.sets"]);
    assert!(ran.code == 1 && ran.out.contains("error["), "{}", ran.out);
}

/// Escapes as a stranger's file might hold them: a title, a colour, a C1 introducer, an override.
const NASTY: &str = "\u{1b}]0;pwn\u{7}\u{1b}[31mpwn\u{9b}31mpwn\u{202e}pwn";

/// Whether there is something that a terminal would act on, but for the program's own codes of
/// colour and weight.
fn steers(said: &str) -> bool {
    let raw = |sign: char| matches!(sign, '\u{7}' | '\u{80}'..='\u{9f}' | '\u{202e}');
    said.contains("\u{1b}[31mpwn") || said.contains("\u{1b}]") || said.chars().any(raw)
}

#[test]
fn nothing_in_a_file_steers_the_terminal() {
    let nasty = NASTY;
    {
        let bench = Bench::new();
        let text = programme("").replace("Robin Vale", &format!("Robin {nasty} Vale"));
        bench.write("name.sets", &text);
        bench.write("exercise.sets", programme(&format!("  B Psh{nasty}up: 3 x 5\n")));
        bench.write("own.sets", format!("exercise Own {nasty}\n  cue: {nasty}\n{}", programme("")));
        bench.write("comment.sets", programme(&format!("  B Pshup: 3 x 5 # {nasty}\n")));
        bench.write("uses.sets", format!("use {nasty}.sets\n{}", programme("")));
        let odd = format!("odd{nasty}.sets");
        bench.write(&odd, programme("  B Pshup: 3 x 5\n"));
        bench.write("loose.sets", programme("").replace("  A Back", "   A  Back"));
        std::fs::copy(bench.path("loose.sets"), bench.path(&format!("loose{nasty}.sets"))).unwrap();
        let loose = format!("loose{nasty}.sets");
        let nowhere = format!("nowhere{nasty}.sets");
        let dashed = format!("-{nasty}");
        let mut runs: Vec<Vec<&str>> = Vec::new();
        for file in ["name.sets", "exercise.sets", "own.sets", "comment.sets", "uses.sets", &odd] {
            for command in ["check", "summary", "review", "cards"] {
                runs.push(vec![command, file]);
            }
            runs.push(vec!["check", file, "--format", "json"]);
            runs.push(vec!["why", file, "--week", "1", "--order", "A"]);
            runs.push(vec!["exercises", "own", "--file", file]);
            runs.push(vec!["compare", file, file]);
            runs.push(vec![
                "log",
                file,
                "--athlete",
                "Robin Vale",
                "--date",
                "2026-01-05",
                "-o",
                "l.sets",
            ]);
        }
        runs.push(vec!["check", "."]);
        runs.push(vec!["fmt", "--check", &loose]);
        runs.push(vec!["cards", &loose]);
        runs.push(vec!["cards", "loose.sets", "-o", &nowhere]);
        for given in [&nowhere, &dashed] {
            for command in ["check", "cards", "fmt", "explain", "exercises"] {
                runs.push(vec![command, given]);
            }
            runs.push(vec!["compare", given, "."]);
            runs.push(vec!["summary", "loose.sets", "--athlete", given]);
            runs.push(vec![given]);
        }
        for arguments in &runs {
            // As to a terminal that has colours.
            let ran = bench.run_with(arguments, None, &[("CLICOLOR_FORCE", "1")]);
            let said = format!("{}{}", ran.out, ran.err);
            assert!((0..=3).contains(&ran.code), "{arguments:?}: {said}");
            assert!(!steers(&said), "{arguments:?}: {said:?}");
        }
        // Completion: the shell prints what it is told.
        for words in [
            &["setwright", "summary", "name.sets", "--athlete", ""][..],
            &["setwright", "check", ""],
        ] {
            let index = (words.len() - 1).to_string();
            let variables = [
                ("COMPLETE", "bash"),
                ("_CLAP_COMPLETE_INDEX", &*index),
                ("_CLAP_COMPLETE_COMP_TYPE", "9"),
                ("_CLAP_COMPLETE_SPACE", "true"),
                ("_CLAP_IFS", "\n"),
            ];
            let arguments: Vec<&str> = std::iter::once("--").chain(words.iter().copied()).collect();
            let ran = bench.run_with(&arguments, None, &variables);
            assert!(!steers(&ran.out), "{words:?}: {:?}", ran.out);
        }
    }
}

#[test]
fn no_name_leaves_the_folder_that_output_goes_to() {
    let names_of =
        ["../../x", "/etc/x", "a/b", "..", ".", "C:\\x", "-rf", "con", "~", "a\u{2044}b"];
    let athletes: String = names_of.iter().map(|name| format!("athlete {name}\n\n")).collect();
    let text =
        format!("{athletes}programme ../../up\n  weeks: 1\n\nday ../../One\n  A Push-up: 3 x 8\n");
    let bench = Bench::new();
    bench.write("a/b/programme.sets", text);
    std::fs::create_dir(bench.path("a/b/out")).unwrap();
    let file = "a/b/programme.sets";
    for (arguments, kind) in [
        (&["cards", file, "--per-athlete", "-o", "a/b/out"][..], "pdf"),
        (&["cards", file, "--format", "svg", "-o", "a/b/out/"], "svg"),
        (&["cards", file, "--format", "png", "--per-athlete", "-o", "a/b/out"], "png"),
        (&["plan", file, "--format", "csv", "--per-athlete", "-o", "a/b/out"], "csv"),
        (&["plan", file, "--per-athlete", "-o", "a/b/out"], "json"),
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.err);
        let made = names(&bench, "a/b/out");
        let made = made.iter().filter(|name| name.ends_with(kind)).count();
        assert_eq!(made, names_of.len(), "{arguments:?}");
    }
    for (folder, holds) in
        [(".", vec!["a"]), ("a", vec!["b"]), ("a/b", vec!["out", "programme.sets"])]
    {
        assert_eq!(names(&bench, folder).iter().collect::<Vec<_>>(), holds, "{folder}");
    }
}
