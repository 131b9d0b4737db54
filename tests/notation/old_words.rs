//! Words of the notation that have changed: the fix writes the new words.

use std::collections::BTreeMap;

use setwright::compile::{Choice, check, compile};
use setwright::resolve::Project;
use setwright::sheets::summary;
use setwright::source::MemoryLoader;

const NOW: &str = "gym Millshed
  bar: 20 kg
  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2

athlete Perrin Oake
  gym: Millshed
  max Back squat: 140 kg

programme Words
  weeks: 2
  advice: short-rest as warning (rests are short here)
  advice: late-compound as info

phase Ease: week 2, sets -50%, load -10%

scheme Small jumps
  jump: 2.5 kg
  goal: 8
  when last set >= goal reps: load +jump

day One
  A Back squat: 4 x 5 @ 60%, no warm-up, rest 2:00
    week 2: 4 x 5 @ 60%, with phase
  B Back squat: 3 x 5 @ 60 kg
    warm-up: no
    follow: Small jumps, jump 5 kg, goal 10
  C: circuit 4 rounds, with phase
  C1 Push-up: 8
  C2 Plank: 30 s
";

fn project(text: &str) -> Project {
    Project::from_text(&MemoryLoader::new(), "words.sets", text.to_owned())
}

/// The summary of a text that has no problem.
fn printed(text: &str) -> String {
    let compiled = compile(project(text), &Choice::default()).unwrap();
    assert_eq!(compiled.diagnostics, []);
    summary(&compiled.plan.unwrap())
}

/// The text with every safe fix, from the end on.
fn fixed(text: &str) -> String {
    let mut edits = BTreeMap::new();
    for found in check(project(text)).diagnostics {
        let fix = found.fixes.into_iter().find(|fix| fix.safe);
        for edit in fix.unwrap_or_else(|| panic!("no safe fix: {}", found.message)).edits {
            edits.insert((edit.span.start as usize, edit.span.end as usize), edit.text);
        }
    }
    let mut text = text.to_owned();
    for ((start, end), with) in edits.into_iter().rev() {
        text.replace_range(start..end, &with);
    }
    text
}

#[test]
fn each_old_word_has_a_safe_fix_that_keeps_its_meaning() {
    let plan = printed(NOW);
    // Week 2: 4 sets halved, 60 % of 140 kg less a tenth is 75.6 kg; the rule with its own numbers.
    assert!(plan.contains("2 x 5 @ 75 kg"), "{plan}");
    assert!(plan.contains("last set >= 10 reps: load +5 kg"), "{plan}");
    assert!(!plan.contains("Warm-up:"), "{plan}");
    for (now, old) in [
        ("no warm-up", "warm-up none"),
        ("warm-up: no", "warm-up: none"),
        ("with phase", "scaled"),
        ("Small jumps, jump 5 kg, goal 10", "Small jumps (jump 5 kg, goal 10)"),
        ("short-rest as warning", "short-rest as caution"),
        ("late-compound as info", "late-compound as note"),
    ] {
        let before = NOW.replace(now, old);
        assert_ne!(before, NOW);
        assert_eq!(fixed(&before), NOW, "{old}");
    }
    let all = NOW
        .replace("no warm-up", "warm-up none")
        .replace("warm-up: no", "warm-up: none")
        .replace("with phase", "scaled")
        .replace("jumps, jump 5 kg, goal 10", "jumps (jump 5 kg, goal 10)")
        .replace("as warning", "as caution")
        .replace("as info", "as note");
    assert_eq!(printed(&fixed(&all)), plan);
}

/// Where the word is part of a name, nothing is offered for it.
#[test]
fn a_name_keeps_its_words() {
    let text = NOW
        .replace("rest 2:00", "rst 2:00")
        .replace("4 x 5 @ 60%, no", "4 x 5 @ 60% of scaled squat, no");
    let found = check(project(&text)).diagnostics;
    assert!(found.iter().all(|one| !one.message.contains("with phase")), "{found:?}");
}
