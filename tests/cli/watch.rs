//! `setwright watch`, with files that are saved, replaced, broken and fixed as an editor does it.

use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use super::support::{Bench, example};

/// Generous: a loaded machine compiles and prints slowly.
const PATIENCE: usize = 1200;
const STEP: Duration = Duration::from_millis(50);

/// Stops the program when a test fails before it does.
struct Running(Child);

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn start(bench: &Bench) -> Running {
    let err = std::fs::File::create(bench.path("err.txt")).unwrap();
    let child = Command::new(env!("CARGO_BIN_EXE_setwright"))
        .args(["watch", "programme.sets", "-o", "cards.pdf"])
        .current_dir(bench.path("."))
        .stdout(Stdio::null())
        .stderr(err)
        .spawn()
        .unwrap();
    Running(child)
}

/// Waits until something holds.
fn wait(what: &str, bench: &Bench, mut holds: impl FnMut() -> bool) {
    for _ in 0..PATIENCE {
        if holds() {
            return;
        }
        std::thread::sleep(STEP);
    }
    panic!("waited in vain for {what}; it said:\n{}", said(bench));
}

fn said(bench: &Bench) -> String {
    std::fs::read_to_string(bench.path("err.txt")).unwrap_or_default()
}

/// The PDF, if there is one: never half of one.
fn pdf(path: &Path) -> Option<Vec<u8>> {
    let bytes = std::fs::read(path).ok()?;
    let end = bytes.trim_ascii_end();
    assert!(bytes.starts_with(b"%PDF") && end.ends_with(b"%%EOF"), "half a file");
    Some(bytes)
}

#[test]
fn every_save_prints_again_and_a_broken_file_leaves_the_last_print() {
    let text = std::fs::read_to_string(example("first-steps/programme.sets")).unwrap();
    let bench = Bench::with(&text);
    let path = bench.path("cards.pdf");
    let mut running = start(&bench);
    wait("the first print", &bench, || pdf(&path).is_some());
    let first = pdf(&path).unwrap();

    // Saved in place.
    bench.write("programme.sets", text.replace("3 x 5", "4 x 5"));
    wait("a second print", &bench, || pdf(&path).unwrap() != first);
    let second = pdf(&path).unwrap();

    // Broken: it says so, and the last print stays.
    let before = said(&bench).matches("error").count();
    bench.write("programme.sets", text.replace("3 x 5", "3 y 5"));
    wait("an error", &bench, || said(&bench).matches("error").count() > before);
    assert_eq!(pdf(&path).unwrap(), second);

    // Fixed, as editors do it: another file takes its place.
    bench.write("programme.sets.new", &text);
    std::fs::rename(bench.path("programme.sets.new"), bench.path("programme.sets")).unwrap();
    wait("a third print", &bench, || pdf(&path).unwrap() == first);

    let id = running.0.id().to_string();
    assert!(Command::new("kill").args(["-INT", &id]).status().unwrap().success());
    let mut code = None;
    wait("the end", &bench, || {
        code = running.0.try_wait().unwrap();
        code.is_some()
    });
    assert_eq!(code.and_then(|status| status.code()), Some(0), "{}", said(&bench));
    let left: Vec<String> = std::fs::read_dir(bench.path("."))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.contains(".part"))
        .collect();
    assert_eq!(left, Vec::<String>::new());
}

#[test]
fn what_cannot_be_watched_is_refused() {
    let bench = Bench::new();
    for (arguments, code) in [
        (&["watch", "-", "-o", "cards.pdf"][..], 2),
        (&["watch", "programme.sets", "-o", "-"], 2),
        (&["watch", "nowhere.sets", "-o", "cards.pdf"], 3),
    ] {
        assert_eq!(bench.run(arguments).code, code, "{arguments:?}");
    }
}
