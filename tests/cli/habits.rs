//! What people type without looking it up: short forms, names cut short, words of former versions.

use super::support::{Bench, Ran};

const TEXT: &str = "gym Shed
  bar: 20 kg
  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2

athlete Wren Tallow
  gym: Shed
  max Back squat: 100 kg
  limit Shoulder: no overhead work (physio, until 2026-01-08)

athlete Willa Ash
  gym: Shed
  max Back squat: 80 kg

programme Small
  starts: 2026-01-05
  weeks: 2
  supervision: one coach

day Lower (Mon)
  A Back squat: 3 x 5 @ 70%, rest 3:00
  B Bench press: 3 x 8 @ 40 kg, rest 2:00
  C Bent-over row: 3 x 8 @ 40 kg, rest 2:00

day Upper (Thu)
  A Back squat: 3 x 5 @ 60%, rest 3:00
";

fn run(arguments: &[&str]) -> Ran {
    Bench::with(TEXT).run(arguments)
}

fn fails(arguments: &[&str], with: &str) {
    let ran = run(arguments);
    assert_eq!(ran.code, 2, "{arguments:?}: {}{}", ran.out, ran.err);
    assert!(ran.err.contains(with), "{arguments:?}: {}", ran.err);
}

#[test]
fn a_file_or_a_folder_without_a_command_is_checked() {
    let whole = run(&["check", "programme.sets"]);
    let short = run(&["programme.sets"]);
    assert_eq!((short.code, &short.out), (whole.code, &whole.out));
    assert!(short.out.contains("info[limit-passed]"), "{}", short.out);
    let quiet = run(&["programme.sets", "--advice", "off", "--strict"]);
    assert_eq!(quiet.code, 0, "{}", quiet.err);
    assert_eq!(run(&["."]).out, whole.out);
    // What is no path is a command that there is not.
    fails(&["nowhere.sets"], "nowhere.sets");
    // A command is a command, whatever is called like it.
    let bench = Bench::with(TEXT);
    bench.write("new", "no programme");
    assert_eq!(bench.run(&["new", "block"]).code, 0);
}

#[test]
fn check_ends_with_what_it_read() {
    let bench = Bench::with(
        TEXT.replace("  limit Shoulder: no overhead work (physio, until 2026-01-08)\n", ""),
    );
    let ran = bench.run(&["check", "programme.sets", "--advice", "off"]);
    assert_eq!(ran.out, "1 file, 1 programme, 2 athletes, no problems\n");
    bench.write(
        "block/one.sets",
        TEXT.replace("  limit Shoulder: no overhead work (physio, until 2026-01-08)\n", ""),
    );
    bench.write(
        "programme.sets",
        "use gym.sets\n\nathlete Ana\n\nprogramme One\n  weeks: 1\n\nday D\n  A Push-up: 3 x 5\n",
    );
    bench.write("gym.sets", "gym Shed\n  bar: 20 kg\n");
    let ran = bench.run(&["check", ".", "--advice", "off"]);
    assert_eq!(
        ran.out,
        "./block/one.sets: 1 file, 1 programme, 2 athletes, no problems\n\
         ./programme.sets: 2 files, 1 programme, 1 athlete, no problems\n"
    );
}

#[test]
fn cards_of_a_folder_are_those_of_its_one_programme() {
    let bench = Bench::new();
    bench.write("club/winter.sets", TEXT);
    bench.write("club/notes.sets", "gym Spare\n  bar: 20 kg\n");
    let ran = bench.run(&["cards", "club"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.err.contains("winter.pdf: 8 cards for 2 athletes"), "{}", ran.err);
    assert!(bench.path("winter.pdf").exists());
    bench.write("club/spring.sets", TEXT);
    let ran = bench.run(&["cards", "club"]);
    assert_eq!(ran.code, 2);
    let list = "club is a folder: name a programme: `club/spring.sets` or `club/winter.sets`";
    assert!(ran.err.contains(list), "{}", ran.err);
}

#[cfg(target_os = "linux")]
#[test]
fn open_hands_the_pdf_to_the_system_and_is_no_failure_where_that_fails() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::with(TEXT);
    let opener = bench.path("bin/xdg-open");
    bench.write("bin/xdg-open", "#!/bin/sh\nprintf '%s' \"$1\" > \"$OPENED\"\n");
    std::fs::set_permissions(&opener, std::fs::Permissions::from_mode(0o755)).unwrap();
    let path = bench.path("bin").display().to_string();
    let opened = bench.path("opened").display().to_string();
    let open = ["cards", "programme.sets", "--open"];
    let ran = bench.run_with(&open, None, &[("PATH", &path), ("OPENED", &opened)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let whole = std::fs::read_to_string(&opened).unwrap();
    assert!(whole.starts_with('/') && whole.ends_with("/programme.pdf"), "{whole}");
    bench.write("bin/xdg-open", "#!/bin/sh\nexit 3\n");
    for (path, why) in [(path.as_str(), "exit status: 3"), ("/nowhere", "No such file")] {
        let ran = bench.run_with(&open, None, &[("PATH", path)]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        assert!(ran.err.contains("cannot open ") && ran.err.contains(why), "{}", ran.err);
        assert!(bench.path("programme.pdf").exists());
    }
    fails(&["cards", "programme.sets", "--open", "-o", "-"], "--open opens a file");
    fails(&["cards", "programme.sets", "--open", "--format", "png"], "--open opens a PDF");
    fails(&["cards", "programme.sets", "--open", "--per-athlete"], "cannot be used with");
}

#[test]
fn new_says_what_comes_next() {
    let ran = Bench::new().run(&["new", "block"]);
    let next = "next:\n  setwright check block/programme.sets\n  \
                setwright cards block/programme.sets --open\n";
    assert!(ran.err.ends_with(next), "{}", ran.err);
}

#[test]
fn paper_is_named_in_any_case() {
    for paper in ["a5", "A5", "Letter", "HALF-LETTER"] {
        assert_eq!(run(&["cards", "programme.sets", "--paper", paper]).code, 0, "{paper}");
    }
}

#[test]
fn a_beginning_of_a_name_is_enough_where_no_other_has_it() {
    let of = |name| run(&["summary", "programme.sets", "--athlete", name]);
    assert_eq!(of("wr").out, of("Wren Tallow").out);
    assert!(of("wr").out.contains("3 x 5 @ 70 kg"), "{}", of("wr").out);
    assert!(!of("wr").out.contains("Willa"));
    let several = "`W` could be `Wren Tallow` or `Willa Ash`: write more of the athlete's name";
    fails(&["summary", "programme.sets", "--athlete", "W"], several);
    fails(&["compare", "programme.sets", "programme.sets", "--athlete", "W"], "could be");
    assert_eq!(run(&["review", "programme.sets", "--athlete", "Will"]).code, 0);
    fails(&["plan", "programme.sets", "--athlete", ""], "there is no athlete ``");
}

#[test]
fn a_day_is_named_by_its_weekday() {
    let of = |day| run(&["summary", "programme.sets", "--athlete", "Wren", "--day", day]);
    for day in ["Mon", "monday", "LOWER"] {
        let out = of(day).out;
        assert!(out.contains("Bench press") && !out.contains("Upper"), "{day}: {out}");
    }
    assert!(of("thurs").out.contains("Upper"), "{}", of("thurs").out);
    fails(&["summary", "programme.sets", "--day", "Tue"], "there is no day `Tue`");
    fails(&["summary", "programme.sets", "--day", "Mo"], "there is no day `Mo`");
}

#[test]
fn why_takes_an_exercise_by_its_name() {
    let why = |order: &str| {
        let day = ["why", "programme.sets", "--athlete", "wren", "--weeks", "1", "--day", "mon"];
        run(&[&day[..], &["--order", order]].concat())
    };
    assert_eq!(why("back").out, why("A").out);
    assert!(why("bent over").out.contains("Bent-over row"), "{}", why("bent").err);
    let ran = why("be");
    assert_eq!(ran.code, 2);
    let several =
        "`be` could be `B Bench press` or `C Bent-over row`: choose with the order letter";
    assert!(ran.err.contains(several), "{}", ran.err);
    let ran = why("Deadlift");
    assert!(ran.err.contains("Lower has no exercise `Deadlift`: there is `A Back squat`, "));
}

/// The same lines of a file at each print would be read by nobody.
#[test]
fn what_is_worth_knowing_about_limits_comes_with_check_only() {
    for text in [TEXT.to_owned(), TEXT.replace(", until 2026-01-08", "")] {
        let bench = Bench::with(text);
        let out = bench.run(&["check", "programme.sets"]).out;
        assert!(out.contains("info[limit-"), "{out}");
        for command in ["cards", "summary", "plan"] {
            let ran = bench.run(&[command, "programme.sets"]);
            assert_eq!((ran.code, ran.err.contains("limit-")), (0, false), "{}", ran.err);
        }
        assert!(bench.run(&["summary", "programme.sets"]).out.contains("no overhead work"));
    }
}

#[test]
fn words_of_former_versions_lead_to_those_of_today() {
    let now = "`--assume ask` is now written `--assume neutral`";
    fails(&["summary", "programme.sets", "--assume", "ask"], now);
    fails(&["review", "programme.sets", "--assume", "ask"], now);
    assert_eq!(run(&["summary", "programme.sets", "--assume", "neutral"]).code, 0);
    fails(&["summary", "programme.sets", "--assume", "nothing"], "possible values: neutral, ");
    let first = "the file comes first: setwright log programme.sets --athlete \"Wren Tallow\"";
    fails(&["log", "Wren Tallow", "programme.sets"], first);
    let bench = Bench::new();
    assert_eq!(bench.run(&["man", "--out", "old"]).code, 0);
    assert_eq!(bench.run(&["man", "-o", "new"]).code, 0);
    assert!(bench.path("old/setwright.1").exists() && bench.path("new/setwright.1").exists());
}

#[test]
fn weeks_are_chosen_by_either_name() {
    let of = |option| run(&["summary", "programme.sets", option, "2"]);
    assert_eq!(of("--week").out, of("--weeks").out);
    assert!(of("--week").out.contains("Week 2"), "{}", of("--week").out);
}

#[test]
fn a_log_is_of_the_only_athlete_or_of_the_one_that_is_named() {
    let whose = "whose session? choose with --athlete: `Wren Tallow` or `Willa Ash`";
    fails(&["log", "programme.sets"], whose);
    let bench = Bench::with(TEXT);
    let log = ["log", "programme.sets", "--athlete", "willa", "--day", "Thursday", "--weeks", "1"];
    let ran = bench.run(&log);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let text = std::fs::read_to_string(bench.path("logs.sets")).unwrap();
    assert!(text.starts_with("log Willa Ash: Small\n  2026-01-08 week 1, Upper\n"), "{text}");
    let alone = TEXT.split("athlete Willa").next().unwrap().to_owned()
        + TEXT.split("80 kg\n\n").nth(1).unwrap();
    let bench = Bench::with(alone);
    assert_eq!(bench.run(&["log", "programme.sets"]).code, 0);
    let text = std::fs::read_to_string(bench.path("logs.sets")).unwrap();
    assert!(text.starts_with("log Wren Tallow: Small\n"), "{text}");
}

/// Two days on one Monday: a log is of one session.
#[test]
fn a_weekday_of_two_days_is_asked_about() {
    let bench = Bench::with(TEXT.replace("(Thu)", "(Mon)"));
    let ran = bench.run(&["log", "programme.sets", "--athlete", "Wren", "--day", "Mon"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("`Mon` could be `Lower` or `Upper`"), "{}", ran.err);
}

/// The equation is D. Wathen's; former versions spelled him otherwise.
#[test]
fn the_old_spelling_of_an_equation_still_reads() {
    let plan = |name: &str| {
        let text = TEXT.replace("weeks: 2", &format!("weeks: 2\n  estimate: {name}"));
        let text = text.replace("squat: 100 kg", "squat: 5 @ 87.5 kg");
        Bench::with(text).run(&["plan", "programme.sets"])
    };
    let (old, new) = (plan("Wathan"), plan("Wathen"));
    assert_eq!((old.code, &old.out), (0, &new.out), "{}", old.err);
    assert!(new.out.contains("\"estimate\": \"Wathen\""));
}
