//! Sheets in other languages. All names are invented.

use std::process::Command;

use super::support::{Bench, Ran};

const SQUAD: &str = include_str!("../programmes/languages/programme.sets");

fn run(arguments: &[&str]) -> Ran {
    let ran = Bench::with(SQUAD).run(arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    ran
}

fn holds(text: &str, lines: &[&str]) {
    for line in lines {
        assert!(text.contains(line), "{line}\n\n{text}");
    }
}

#[test]
fn a_summary_is_in_each_athletes_language() {
    let text = run(&["summary", "programme.sets", "--weeks", "1"]).out;
    holds(
        &text,
        &[
            "Frühjahr (5 Wochen)",
            "Woche 1 von 5 · Eins · Fr, 1. Mai 2026",
            "A   Kniebeuge              1 x 5 @ 67,5 kg",
            "ersetzt Bankdrücken (Schulter)",
            "Das Gewicht ist für Bankdrücken geplant",
            "Nächstes Mal: Wdh. nicht geschafft: Gewicht -2,5 %",
            "Przysiad ze sztangą",
            "3 rundy; na zmianę C1 i C2",
            "ven. 1er mai 2026",
            "Consigne : ",
        ],
    );
}

#[test]
fn the_review_and_the_weekly_table_are_in_the_programmes_language() {
    let text = run(&["review", "programme.sets"]).out;
    holds(
        &text,
        &[
            "Frühjahr: Auswertung",
            "Łukasz Żółw · Hala · Gewichte in kg",
            "Anstrengung über der Vorgabe (Punkte: 1; Zeilen: 1)",
            "Kniebeuge                            78,8",
            "Woche 1, Eins: A Kniebeuge: 5 @ 67,5 kg, 5, 5, 4 @ 60 kg statt 4 x 5",
            "Wdh. nicht geschafft: Gewicht -2,5 % (nach Woche 1, Eins, Fr, 1. Mai 2026)",
            "vordere Schulter",
        ],
    );
    let text = run(&["summary", "programme.sets", "--weekly", "--athlete", "Łukasz Żółw"]).out;
    holds(
        &text,
        &["Frühjahr: Woche für Woche", "Kniebeuge", "unterer Rücken", "horizontales Drücken"],
    );
}

#[test]
fn json_and_reasons_stay_as_they_are() {
    let json = run(&["plan", "programme.sets", "--format", "json"]).out;
    let plan: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(plan["language"], "de");
    let own = |at: usize| plan["athletes"][at]["language"].as_str().unwrap().to_owned();
    assert_eq!([own(0), own(1), own(2), own(3)], ["de", "pl", "fr-CH", "ES"]);
    assert_eq!(plan["exercise_names"]["Back squat"]["pl"], "Przysiad ze sztangą");
    let press = &plan["athletes"][0]["sessions"][0]["exercises"][1];
    assert_eq!(
        (&press["name"], &press["sets"][0]["load_kg"]),
        (&"Floor press".into(), &32.5.into())
    );
    assert_eq!(press["replaces"]["load_kept"], true);
    let why = ["why", "programme.sets", "--order", "A", "--week", "1", "--athlete", "Łukasz Żółw"];
    let why = run(&why).out;
    holds(&why, &["week 1, Eins, A Back squat", "tested maximum of Back squat", "132.5 kg"]);
}

/// A text with its line breaks and runs of spaces as single spaces.
fn solid(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn safety_lines_and_set_ups_of_built_in_exercises_are_in_each_athletes_language() {
    let text = solid(&run(&["summary", "programme.sets", "--weeks", "1"]).out);
    for line in [
        "Sicherheit: Stell die Sicherheitsablagen knapp unter deinen tiefsten Punkt; Verschlüsse drauf.",
        "Aufbau: Stange auf dem oberen Rücken, Füße etwa schulterbreit, Zehen leicht nach außen.",
        "Bezpieczeństwo: Ustaw zabezpieczenia tuż poniżej najniższego punktu; zaciski założone.",
        "Sécurité : Règle les barres de sécurité juste sous ton point le plus bas ; stop-disques en place.",
        "Seguridad: Pon los topes de seguridad justo debajo de tu punto más bajo; cierres puestos.",
    ] {
        assert!(text.contains(line), "{line}\n\n{text}");
    }
    for line in ["Set the safeties", "Clear floor", "Bar on the upper back", "Front shin"] {
        assert!(!text.contains(line), "{line}");
    }
    let json = run(&["plan", "programme.sets", "--format", "json"]).out;
    let plan: serde_json::Value = serde_json::from_str(&json).unwrap();
    let squat = |at: usize| &plan["athletes"][at]["sessions"][0]["exercises"][0];
    let german = squat(0)["safety"].as_str().unwrap();
    assert!(german.starts_with("Stell die Sicherheitsablagen"));
    assert!(squat(0).get("programme_safety").is_none());
    assert!(squat(1)["safety"].as_str().unwrap().starts_with("Ustaw zabezpieczenia"));
    // The rack sheet is for all: it is in the programme's language.
    assert_eq!(squat(1)["programme_safety"], german);
}

#[test]
fn an_exercises_own_translation_comes_first_and_a_new_sentence_has_none_of_the_old_ones() {
    let with = |lines: &str| {
        let squad = SQUAD.replace("  name de: Kniebeuge\n", lines);
        solid(&Bench::with(squad).run(&["summary", "programme.sets", "--weeks", "1"]).out)
    };
    let own = with("  name de: Kniebeuge\n  safety de: Ablagen auf Loch 4.\n");
    assert!(own.contains("Sicherheit: Ablagen auf Loch 4."), "{own}");
    assert!(own.contains("Bezpieczeństwo: Ustaw zabezpieczenia tuż poniżej"), "{own}");
    let new = with("  safety: Pins on hole 4.\n  safety pl: Bolce w otworze 4.\n");
    assert!(new.contains("Sicherheit: Pins on hole 4."), "{new}");
    assert!(new.contains("Bezpieczeństwo: Bolce w otworze 4."), "{new}");
    assert!(!new.contains("Sicherheitsablagen knapp unter"), "{new}");
    let wrong = Bench::with(SQUAD.replace("  name fr: Squat", "  safety french: Squat"));
    let wrong = wrong.run(&["check", "programme.sets"]);
    holds(&wrong.out, &["`french` is not a language code", "did you mean `fr`?"]);
    let twice = SQUAD.replace("  name fr: Squat", "  setup fr: a\n  setup fr: b");
    let twice = Bench::with(twice).run(&["check", "programme.sets"]);
    holds(&twice.out, &["error[repeated-key]"]);
}

#[test]
fn translated_keys_stand_beside_their_key_in_the_standard_format() {
    let text = "exercise Stone lift\n  name de: Steinheben\n  safety de: Boden frei.\n  setup pl: Stopy szeroko.\n  safety: Clear floor.\n  setup: Feet wide.\n";
    let bench = Bench::with(text);
    let ran = bench.run(&["fmt", "programme.sets"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(
        std::fs::read_to_string(bench.path("programme.sets")).unwrap(),
        "exercise Stone lift\n  setup: Feet wide.\n  setup pl: Stopy szeroko.\n  safety: Clear floor.\n  safety de: Boden frei.\n  name de: Steinheben\n"
    );
}

#[test]
fn spanish_of_mexico_has_the_point() {
    let mexico = Bench::with(SQUAD.replace("language: ES", "language: es-MX"));
    let ran =
        mexico.run(&["summary", "programme.sets", "--weeks", "1", "--athlete", "Iñigo Güell"]);
    holds(&ran.out, &["3 x 8-12 @ 32.5 kg", "La próxima vez"]);
    let spain = run(&["summary", "programme.sets", "--weeks", "1", "--athlete", "Iñigo Güell"]).out;
    holds(&spain, &["3 x 8-12 @ 32,5 kg"]);
}

#[test]
fn a_review_as_text_is_not_written_into_a_pdf() {
    let bench = Bench::with(SQUAD);
    let ran = bench.run(&["review", "programme.sets", "-o", "rev.pdf"]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    holds(&ran.err, &["-o names a .pdf file", "add --format pdf"]);
    assert!(!bench.path("rev.pdf").exists());
}

#[test]
fn every_card_says_what_its_words_mean() {
    let bench = Bench::with(SQUAD);
    let ran = bench.run(&["cards", "programme.sets", "--weeks", "1", "--all", "-o", "cards.pdf"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let path = bench.path("cards.pdf");
    let Ok(text) = Command::new("pdftotext").args([path.to_str().unwrap(), "-"]).output() else {
        return;
    };
    let text = solid(&String::from_utf8_lossy(&text.stdout));
    holds(
        &text,
        &[
            "RPE: Anstrengung, 10 = keine Wdh. mehr möglich",
            "RPE: wysiłek, 10 = ani jednego powt. więcej",
            "RPE : effort, 10 = plus une rép. possible",
            "RPE: esfuerzo, 10 = ni una rep. más",
        ],
    );
    // Only what the card uses.
    assert!(!text.contains("RIR"), "{text}");
}

#[test]
fn cards_of_a_squad_are_in_several_languages_and_say_so() {
    let bench = Bench::with(SQUAD);
    let ran = bench.run(&["cards", "programme.sets", "--weeks", "1", "--all", "-o", "cards.pdf"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(!ran.err.contains("missing-glyph"), "{}", ran.err);
    let path = bench.path("cards.pdf");
    let tool = |name: &str, arguments: &[&str]| match Command::new(name).args(arguments).output() {
        Ok(output) => Some(String::from_utf8_lossy(&output.stdout).into_owned()),
        Err(error) => {
            let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
            assert!(!required, "{name} is required here: {error}");
            eprintln!("skipped: {name} is not installed");
            None
        }
    };
    let path = path.to_str().unwrap();
    if let Some(text) = tool("pdftotext", &["-layout", path, "-"]) {
        holds(
            &text,
            &[
                "Ωμέγα Παππά",
                "Łukasz Żółw",
                "Юлия Đặng",
                "Iñigo Güell",
                "Kniebeuge",
                "Stopp bei stechendem Schmerz",
                "Przerwij przy ostrym bólu",
                "Arrête en cas de douleur vive",
                "Detente si notas un dolor punzante",
            ],
        );
    }
    if let Some(plain) = tool("qpdf", &["--qdf", path, "-"]) {
        holds(&plain, &["/Lang (de)", "/Lang(pl)", "/Lang(fr)", "/Lang(es)"]);
        // The document's own language is not told again.
        assert!(!plain.contains("/Lang(de)"));
    }
}

#[test]
fn accents_that_stand_apart_are_the_same_name() {
    let apart = SQUAD.replace("log Ωμέγα Παππά", "log Ωμε\u{301}γα Παππα\u{301}");
    assert_ne!(apart, SQUAD);
    let apart = apart.replace("athlete Юлия Đặng", "athlete Юлия Đa\u{323}\u{306}ng");
    let bench = Bench::with(apart);
    let ran = bench.run(&["summary", "programme.sets", "--weeks", "1"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(!ran.err.contains("missing-glyph"), "{}", ran.err);
    holds(&ran.out, &["Trainiert am Fr, 1. Mai 2026", "Юлия Đặng · Hala"]);
}

#[test]
fn a_letter_that_the_font_lacks_is_reported_and_drawn_as_a_box() {
    let bench = Bench::with(SQUAD.replace("Iñigo Güell", "Iñigo ガ"));
    let ran = bench.run(&["cards", "programme.sets", "--weeks", "1", "--all", "-o", "cards.pdf"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(ran.err.matches("missing-glyph]").count(), 1, "{}", ran.err);
    assert!(ran.err.contains("no `ガ` (U+30AC)"), "{}", ran.err);
}

#[test]
fn an_unknown_language_is_an_error_with_the_known_ones() {
    for (written, said) in [
        ("language: German", "did you mean `de`?"),
        ("language: français", "did you mean `fr`?"),
        ("language: tlh", "use one of `en` (English), `de` (German)"),
    ] {
        let ran =
            Bench::with(SQUAD.replace("language: de", written)).run(&["check", "programme.sets"]);
        assert_eq!(ran.code, 1);
        holds(&ran.out, &["error[unknown-word]: sheets cannot be printed in the language", said]);
    }
    let ran = Bench::with(SQUAD.replace("name fr: Squat", "name french: Squat"))
        .run(&["check", "programme.sets"]);
    holds(&ran.out, &["`french` is not a language code", "did you mean `fr`?"]);
    let kept = Bench::with(SQUAD.replace("name fr: Squat", "name it: Squat"));
    assert_eq!(kept.run(&["check", "programme.sets"]).code, 0);
}
