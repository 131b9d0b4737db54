//! Who or what catches a bar: by lift, by gym, by the text of `supervision:` (handbook ch. 15 [S];
//! the threshold of the load is common practice, no source).

use super::support::{advice, messages};

fn text(has: &str, head: &str, line: &str) -> String {
    format!(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 8, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 4\n  \
         dumbbells: 4-60 kg by 2 kg\n  has: bench{has}\n\nathlete Robin Vale\n  gym: Shed\n  \
         max Bench press: 100 kg\n  max Back squat: 140 kg\n  max Power clean: 80 kg\n  \
         max Dumbbell bench press: 40 kg\n\nprogramme Small\n  weeks: 1\n  before: brisk walk\n{head}\n\
         day One\n  A  {line}, rest 3:00\n"
    )
}

fn said(has: &str, head: &str, line: &str) -> bool {
    advice(&text(has, head, line)).contains(&"needs-spotter")
}

#[test]
fn what_is_heavy() {
    for line in [
        "Bench press: 3 x 2 @ 95%",
        "Bench press: 3 x 3 @ 85%",
        "Bench press: 1 x 5+ @ 80%",
        "Bench press: 3 x 8 @ 60%, RPE 10",
        "Bench press: 3 x 8 @ RIR 0",
        "Back squat: 3 x 2 @ 90%",
    ] {
        assert!(said("", "", line), "{line}");
    }
    for line in [
        "Bench press: 3 x 5 @ 80%",
        "Bench press: 3 x 8+ @ 60%",
        "Power clean: 3 x 2 @ 90%",
        "Dumbbell bench press: 3 x 2 @ 95%",
    ] {
        assert!(!said("", "", line), "{line}");
    }
}

#[test]
fn what_catches_the_bar() {
    let line = "Bench press: 3 x 2 @ 95%";
    for has in [", rack", ", squat stand"] {
        assert!(said(has, "", line), "{has}");
    }
    for has in [", safeties x 2", ", power rack", ", rack with safeties", ", cage"] {
        assert!(!said(has, "", line), "{has}");
    }
}

#[test]
fn nobody_is_no_supervision() {
    let line = "Bench press: 3 x 2 @ 95%";
    for text in ["none", "trains alone", "unsupervised", "no", "no spotter"] {
        assert!(said("", &format!("  supervision: {text}\n"), line), "{text}");
    }
    for text in ["coach on the floor", "Maren Tidewell", "a coach; nobody lifts alone"] {
        assert!(!said("", &format!("  supervision: {text}\n"), line), "{text}");
    }
}

#[test]
fn a_squat_needs_two() {
    let of = |line: &str| messages(&text("", "", line)).concat();
    let squat = of("Back squat: 3 x 2 @ 90%");
    assert!(squat.contains("Back squat (2 at 90 %) needs safeties or two spotters"), "{squat}");
    let bench = of("Bench press: 3 x 2 @ 95%");
    assert!(bench.contains("Bench press (2 at 95 %) needs a spotter or safeties"), "{bench}");
}
