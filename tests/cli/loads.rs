//! Loads that must not be printed without a message: above the max, beyond the equipment, turned
//! into assistance, scaled to grams; and cards of past sessions. Numbers are worked out by hand
//! (plain arithmetic, no source); the bounds (100 %, 110 %, 2.5 kg, half kilograms) are common
//! practice, no source.

use super::support::{Bench, Ran, tool};

const GYM: &str = "\
gym Shed
  bar: 20 kg
  plates: 20 kg x 8, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 4
  dumbbells: 1-40 kg by 1 kg
  has: rack, safeties, bench

athlete Ana Example
  gym: Shed
  body mass: 60 kg
  max Bench press: 100 kg
  max Pull-up: bodyweight +20 kg

athlete Bo Example
  gym: Shed
  body mass: 80 kg
  max Bench press: 60 kg
  max Front squat: 100 kg

exercise Sled push
  equipment: other
exercise Sandbag carry
  equipment: other

";

/// A programme of some weeks with these lines in its one day.
fn programme(weeks: u32, below: &str, athletes: &str, lines: &str) -> String {
    format!(
        "{GYM}programme Small\n  weeks: {weeks}\n  starts: 2026-01-05\n  warm-up: no\n  before: brisk walk\n  athletes: {athletes}\n{below}\nday One (Mon)\n{lines}\n"
    )
}

fn run(text: &str, arguments: &[&str]) -> Ran {
    let mut all = vec![arguments[0], "programme.sets"];
    all.extend(&arguments[1..]);
    Bench::with(text).run(&all)
}

const ANA: &str = "Ana Example";
const BO: &str = "Bo Example";

/// What the summary prints of the lines of a week, and its standard error.
fn line(text: &str, week: &str) -> String {
    let ran = run(text, &["summary", "--weeks", week]);
    assert_eq!(ran.code, 0, "{text}\n{}", ran.err);
    let lines = ran.out.lines().filter(|line| line.starts_with("A  "));
    lines.map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

/// How many errors of a code `check` reports, and the first one's message.
fn errors(text: &str, code: &str) -> (usize, String) {
    let ran = run(text, &["check"]);
    let head = format!("error[{code}]: ");
    let found: Vec<&str> = ran.out.lines().filter_map(|l| l.strip_prefix(&head)).collect();
    assert_eq!(ran.code, i32::from(ran.out.contains("error[")), "{}", ran.out);
    (found.len(), found.first().map_or_else(String::new, |first| (*first).to_owned()))
}

fn over(lines: &str, athletes: &str) -> (usize, String) {
    errors(&programme(4, "", athletes, lines), "over-max")
}

#[test]
fn a_load_over_the_max_is_an_error_and_prints_nothing() {
    let text = programme(4, "", ANA, "  A Bench press: 3 x 5 @ 175%");
    for command in ["summary", "plan", "cards"] {
        let ran = run(&text, &[command]);
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{command}: {}", ran.err);
        assert!(
            ran.err.contains(
                "error[over-max]: Bench press is above the athlete's own max: Ana Example in \
                 weeks 1-4 (5 reps at 175 kg, 175 % of the 1RM of 100 kg)"
            ),
            "{command}: {}",
            ran.err
        );
        assert!(ran.err.contains("`over max: REASON`"), "{}", ran.err);
        assert!(!ran.err.contains("reps-past-percent"), "{}", ran.err);
    }
}

#[test]
fn the_max_itself_is_no_error_and_a_single_has_ten_percent() {
    for (prescription, wrong) in [
        ("1 x 2 @ 100%", false),
        ("1 x 2 @ 100.5%", true),
        ("1 x 1 @ 105%", false),
        ("1 x 1 @ 110%", false),
        ("1 x 1 @ 111%", true),
        ("1 x 1+ @ 105%", false),
        ("1 x 2+ @ 105%", true),
        ("1 x AMRAP @ 105%", false),
        // However it is written.
        ("3 x 5 @ 105 kg", true),
        ("3 x 5 @ 90% +5%/week", true),
        ("3 x 5 @ 95 kg +2.5 kg/week", true),
        ("3 x 5 @ 95 kg -> 98 kg -> 100 kg -> 99 kg", false),
        ("3 x 5 @ 80%, 1 x 5 @ 130% of top set", true),
        ("3 x 5 @ 80%, 1 x 5 @ 110% of top set", false),
        ("3 x 5 @ 80%, drop -10%", false),
        ("3 x 1+1+1 @ 102%", true),
    ] {
        let found = over(&format!("  A Bench press: {prescription}"), ANA).0;
        assert_eq!(found, usize::from(wrong), "{prescription}");
    }
    // The gym has no 1.25 kg disc small enough: 100 % of 101 kg is 101 kg, and the bar 102.5 kg.
    let text = programme(1, "", ANA, "  A Bench press: 1 x 2 @ 100%")
        .replace("max Bench press: 100 kg", "max Bench press: 101.5 kg");
    assert_eq!(line(&text, "1"), "A Bench press 1 x 2 @ 102.5 kg (20 + 20 + 1.25 a side)");
}

#[test]
fn a_training_max_last_and_rules_are_judged_by_the_1rm() {
    let text = programme(1, "  training max: 120%\n", ANA, "  A Bench press: 3 x 5 @ 90%");
    assert_eq!(errors(&text, "over-max").0, 1);
    let weeks = "  A Bench press: 3 x 5 @ 95 kg\n    weeks 2-4: 3 x 5 @ last +2.5 kg";
    let (count, message) = over(weeks, ANA);
    assert_eq!(count, 1);
    assert!(message.contains("in week 4 (5 reps at 102.5 kg, 102.5 %"), "{message}");
    // What rules make of sessions to come is printed, and so it is judged.
    let rule = "  A Bench press: 3 x 5 @ 90 kg\n    when all reps made: load +5 kg";
    let (count, message) = over(rule, ANA);
    assert_eq!(count, 1);
    assert!(message.contains("in week 4 (5 reps at 105 kg"), "{message}");
    // A pull-up is judged with the body mass: 60 + 20 = 80 kg, and 60 + 25 = 85 kg.
    let (count, message) = over("  A Pull-up: 3 x 3 @ bodyweight +25 kg", ANA);
    assert_eq!(count, 1);
    assert!(
        message.contains("3 reps at body mass + 25 kg, 106.3 % of the 1RM of 80 kg with the body"),
        "{message}"
    );
}

#[test]
fn only_a_max_of_the_lift_itself_judges_and_each_line_is_reported_once() {
    let of_other = "  A Romanian deadlift: 3 x 5 @ 120% of Front squat";
    assert_eq!(over(of_other, BO).0, 0);
    let own = programme(4, "", BO, of_other).replace(
        "max Front squat: 100 kg",
        "max Front squat: 100 kg\n  max Romanian deadlift: 110 kg",
    );
    assert_eq!(errors(&own, "over-max").0, 1);
    let both = format!("{ANA}, {BO}");
    let (count, message) =
        over("  A Bench press: 3 x 5 @ 70 kg -> 80 kg -> 90 kg -> 105 kg", &both);
    assert_eq!(count, 1);
    assert!(message.contains("Ana Example in week 4 (5 reps at 105 kg"), "{message}");
    assert!(
        message.contains("Bo Example in weeks 1-4 (5 reps at 105 kg, 175 % of the 1RM of 60 kg)"),
        "{message}"
    );
}

#[test]
fn over_max_permits_it_where_it_is_written() {
    let one = "  A Bench press: 3 x 3 @ 110%\n    over max: from boards";
    let text = programme(1, "", ANA, one);
    assert_eq!(line(&text, "1"), "A Bench press 3 x 3 @ 110 kg (20 + 20 + 5 a side)",);
    let checked = run(&text, &["check"]);
    assert_eq!(
        (checked.code, checked.out.contains("reps-past-percent")),
        (0, false),
        "{}",
        checked.out
    );
    // Below a `for` line for one, below a `week` line for one week.
    let both = format!("{ANA}, {BO}");
    let (count, message) = over(
        "  A Bench press: 3 x 3 @ 110 kg\n    for Ana Example:\n      over max: from boards",
        &both,
    );
    assert_eq!(count, 1);
    assert!(!message.contains("Ana") && message.contains("Bo Example in weeks 1-4"), "{message}");
    let (_, message) = over(
        "  A Bench press: 3 x 3 @ 110 kg\n    week 2: 3 x 3 @ 120 kg\n      over max: from boards",
        ANA,
    );
    assert!(message.contains("Ana Example in weeks 1, 3-4 ("), "{message}");
    // Advice that is allowed does not permit it.
    let allowed = programme(1, "  advice: none\n", ANA, "  A Bench press: 3 x 3 @ 110%");
    assert_eq!(errors(&allowed, "over-max").0, 1);
}

#[test]
fn a_load_that_runs_out_is_reported_once_with_its_first_week() {
    for (lines, told) in [
        ("  A Bench press: 3 x 5 @ 20 kg -10 kg/week", "Ana Example comes to 0 kg in week 3"),
        ("  A Bench press: 3 x 5 @ 35 kg -20 kg/week", "Ana Example comes to -5 kg in week 3"),
        (
            "  A Bench press: 3 x 5 @ 20 kg\n    when all reps made: load -30 kg",
            "Ana Example comes to -10 kg in week 2",
        ),
        (
            "  A Bench press: 3 x 5 @ 20 kg\n    weeks 2-4: 3 x 5 @ last -10 kg",
            "Ana Example comes to 0 kg in week 3",
        ),
    ] {
        let text = programme(4, "", ANA, lines);
        let (count, message) = errors(&text, "load-runs-out");
        assert_eq!((count, message.contains(told)), (1, true), "{lines}: {message}");
        assert_eq!(run(&text, &["summary"]).out, "");
    }
    // On the body mass nothing added is a load.
    let text = programme(3, "", ANA, "  A Pull-up: 3 x 5 @ bodyweight +5 kg -2.5 kg/week");
    assert_eq!(line(&text, "3"), "A Pull-up 3 x 5 @ body mass");
}

#[test]
fn a_deload_stops_at_the_body_mass() {
    let deload = "\nphase Work: week 1\nphase Deload: week 2, load -20%\n";
    let with = |max: &str, lines: &str| {
        programme(2, deload, ANA, lines).replace(
            "max Pull-up: bodyweight +20 kg",
            &format!("max Pull-up: bodyweight +{max} kg"),
        )
    };
    // Body 60 + 25 kg: 80 % is 68 kg, 8 kg added; four fifths of 68 are 54.4, 5.6 kg short.
    let text = with("25", "  A Pull-up: 3 x 5 @ 80% of 1RM");
    assert_eq!(line(&text, "1"), "A Pull-up 3 x 5 @ body mass + 7.5 kg (add 5 + 2.5)");
    assert_eq!(line(&text, "2"), "A Pull-up 3 x 5 @ body mass");
    let why = run(&text, &["why", "--athlete", ANA, "--week", "2", "--order", "A"]).out;
    assert!(why.contains("phase Deload: load -20%"), "{why}");
    assert!(why.contains("60 kg  no less than the body mass: a cut does not assist"), "{why}");
    assert!(why.contains("0 kg  less the body mass"), "{why}");
    // By effort too, and by a rule.
    let text = with("25", "  A Pull-up: 3 x 5 @ RPE 8");
    assert_eq!(line(&text, "2"), "A Pull-up 3 x 5 @ about body mass RPE 8");
    let text = with("25", "  A Pull-up: 3 x 5 @ 75%\n    when all reps made: load -20%");
    assert_eq!(line(&text, "2"), "A Pull-up 3 x 5 @ body mass projected");
    let text =
        with("25", "  A Pull-up: 3 x 5 @ bodyweight +2.5 kg\n    when all reps made: load -5 kg");
    assert_eq!(line(&text, "2"), "A Pull-up 3 x 5 @ body mass projected");
    // 80 % of 60 + 12 is 57.6 kg: 2.4 kg of assistance are the body mass; 70 % are 50.4 kg.
    let text = with("12", "  A Pull-up: 3 x 5 @ 80%");
    assert_eq!(line(&text, "1"), "A Pull-up 3 x 5 @ body mass");
    let why = run(&text, &["why", "--athlete", ANA, "--week", "1", "--order", "A"]).out;
    assert!(why.contains("assistance under 2.5 kg: the body mass as it is"), "{why}");
    let text = with("12", "  A Pull-up: 3 x 5 @ 70%");
    assert_eq!(line(&text, "1"), "A Pull-up 3 x 5 @ body mass - 9.6 kg (assisted)");
    // Assistance that was written stays as written.
    let text = with("12", "  A Pull-up: 3 x 5 @ bodyweight -20 kg");
    assert_eq!(line(&text, "1"), "A Pull-up 3 x 5 @ body mass - 20 kg (assisted)");
}

#[test]
fn what_has_no_listed_size_is_not_scaled_to_grams() {
    let deload = "\nphase Work: week 1\nphase Deload: week 2, load -17%\n";
    let text = programme(2, deload, ANA, "  A Sled push: 3 x 20 m @ 61.3 kg");
    assert_eq!(line(&text, "1"), "A Sled push 3 x 20 m @ 61.3 kg");
    // 61.3 x 0.83 = 50.879.
    assert_eq!(line(&text, "2"), "A Sled push 3 x 20 m @ 51 kg");
    let why = run(&text, &["why", "--week", "2", "--order", "A"]).out;
    assert!(why.contains("51 kg  rounded to 0.5 kg: the gym lists no sizes"), "{why}");
    // A third of 100 kg.
    let text = programme(1, "", BO, "  A Sandbag carry: 3 x 20 m @ 33.33% of Front squat");
    assert_eq!(line(&text, "1"), "A Sandbag carry 3 x 20 m @ 33.5 kg");
}

#[test]
fn what_is_printed_comes_with_every_problem_about_its_loads() {
    let lines =
        "  A Bench press: 3 x 12 @ 90%, rest 3:00\n  B Bench press: 3 x 3 @ 41 kg, rest 3:00";
    let text =
        programme(1, "", ANA, lines).replace(", 1.25 kg x 4", "").replace(", 2.5 kg x 4", "");
    let checked = run(&text, &["check"]);
    let warning = "warning[reps-past-percent]: 12 reps at 90 %";
    assert!(checked.out.contains("warning[reps-past-percent]"), "{warning}: {}", checked.out);
    for command in ["summary", "plan", "cards"] {
        let ran = run(&text, &[command]);
        assert_eq!(ran.code, 0);
        for line in checked.out.lines().filter(|line| line.starts_with("warning[")) {
            let about_a_load = line.contains("[reps-past-percent]") || line.contains("[load-");
            assert_eq!(ran.err.contains(line), about_a_load, "{command}: {line}\n{}", ran.err);
        }
        assert!(!ran.err.contains("shows it"), "{}", ran.err);
    }
}

/// Week 1 done, week 2 skipped, week 4 done: of six weeks two are to come.
fn logged() -> String {
    let text = programme(6, "", &format!("{ANA}, {BO}"), "  A Bench press: 3 x 5 @ 50 kg");
    format!(
        "{text}\nlog Ana Example: Small\n  2026-01-07 week 1, One\n    A: done\n  2026-01-12 week \
         2, One: skipped (ill)\n  2026-01-26 week 4, One\n    A: done\n"
    )
}

#[test]
fn past_sessions_get_no_card() {
    let bench = Bench::with(logged());
    let cards = |more: &[&str]| {
        let mut all = vec!["cards", "programme.sets", "-o", "cards.pdf"];
        all.extend(more);
        bench.run(&all)
    };
    let said = "cards left out: 1 skipped, 3 already past according to the log; --all prints them";
    let ran = cards(&[]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.err.contains(said), "{}", ran.err);
    assert!(ran.err.contains("cards.pdf: 8 cards for 2 athletes, 8 pages"), "{}", ran.err);
    assert!(cards(&["--two-up"]).err.contains("8 cards for 2 athletes, 4 pages"));
    let all = cards(&["--all"]);
    assert!(all.err.contains("cards.pdf: 12 cards for 2 athletes"), "{}", all.err);
    assert!(!all.err.contains("left out"), "{}", all.err);
    // Weeks that are chosen make no difference.
    let ran = cards(&["--weeks", "1"]);
    assert!(
        ran.err.contains("1 already past according to the log, in the weeks you chose; --all"),
        "{}",
        ran.err
    );
    assert!(ran.err.contains("1 card for 1 athlete, 1 page"), "{}", ran.err);
    // The rack sheet has the others.
    let rack = cards(&["--sheet", "rack", "--weeks", "1"]);
    assert!(rack.err.contains("left out of rack sheets: 1 already past"), "{}", rack.err);
    // Other sheets keep everything.
    let block = cards(&["--sheet", "block"]);
    assert!(!block.err.contains("left out"), "{}", block.err);
    assert_eq!(cards(&["--sheet", "block", "--all"]).code, 2);
    let images = bench.run(&["cards", "programme.sets", "--format", "svg", "-o", "card"]);
    assert!(images.err.contains("8 cards for 2 athletes"), "{}", images.err);
}

#[test]
fn nothing_left_to_print_is_said_and_has_an_exit_code() {
    let bench = Bench::with(logged());
    let one = ["cards", "programme.sets", "--athlete", ANA, "--weeks", "2", "-o", "cards.pdf"];
    let ran = bench.run(&one);
    assert_eq!(ran.code, 4, "{}", ran.err);
    assert_eq!(
        ran.err,
        "cards left out: 1 skipped, in the weeks you chose; --all prints them\n\
         setwright: there is nothing left to print, so no file was written\n"
    );
    assert!(!bench.path("cards.pdf").exists());
    // An athlete without a card gets no file.
    let each = ["cards", "programme.sets", "--weeks", "1", "--per-athlete", "-o", "out"];
    assert_eq!(bench.run(&each).code, 0);
    assert!(bench.path("out/programme-02-bo-example.pdf").exists());
    assert!(!bench.path("out/programme-01-ana-example.pdf").exists());
}

#[test]
fn a_past_card_says_that_it_is_past_in_every_language() {
    for (language, skipped, done) in [
        ("en", "Skipped (ill)", "Done on"),
        ("de", "Ausgelassen (ill)", "Trainiert am"),
        ("fr", "Sautée (ill)", "Faite le"),
        ("es", "No realizada (ill)", "Hecha el"),
        ("pl", "Opuszczony (ill)", "Wykonano"),
    ] {
        let text = logged()
            .replace("  warm-up: no\n", &format!("  warm-up: no\n  language: {language}\n"));
        let bench = Bench::with(text);
        let weeks = |week| {
            let args = [
                "cards",
                "programme.sets",
                "--athlete",
                ANA,
                "--weeks",
                week,
                "--all",
                "-o",
                "c.pdf",
                "--sheet",
                "card",
            ];
            let ran = bench.run(&args);
            assert_eq!(ran.code, 0, "{}", ran.err);
            let path = bench.path("c.pdf").to_str().unwrap().to_owned();
            let (_, text) = tool("pdftotext", &[&path, "-"])?;
            let text = String::from_utf8(text).unwrap();
            Some(text.replace('\u{a0}', " ").split_whitespace().collect::<Vec<_>>().join(" "))
        };
        let (Some(second), Some(first)) = (weeks("2"), weeks("1")) else { return };
        assert!(second.contains(skipped), "{language}: {second}");
        assert!(first.contains(done), "{language}: {first}");
    }
}
