//! Programmes of any size. The same size gives the same text; all names are invented.

/// A gym with bars, bells and a stack, so that every way of making a load is measured.
const GYM: &str = "\
gym Hall
  bar: 20 kg, 15 kg
  plates: 20 kg x 8, 15 kg x 4, 10 kg x 4, 5 kg x 4, 2.5 kg x 4, 1.25 kg x 4
  dumbbells: 4-40 kg by 2 kg
  kettlebells: 8, 12, 16, 20, 24 kg
  stack Cable: 5-70 kg by 5 kg
  has: rack x 2, bench x 3, high bench, box x 4
";

const SCHEME: &str = "
scheme Small jumps
  jump: 2.5 kg
  when top of range: load +jump, reps to bottom
  when missed 2 in a row: load -10%
";

const DAYS: [(&str, &str, &str); 4] = [
    ("Mon", "Front squat", "Bench press"),
    ("Tue", "Deadlift", "Bench pull"),
    ("Thu", "Front squat", "Bench press"),
    ("Fri", "Deadlift", "Bench pull"),
];

const LIFTS: [&str; 4] = ["Front squat", "Deadlift", "Bench press", "Bench pull"];

fn athlete(number: usize) -> String {
    format!("Athlete {}", number + 1)
}

/// So many athletes. Their maxes differ, so that hardly two share their loads.
fn athletes(count: usize) -> String {
    let mut text = String::new();
    for number in 0..count {
        let press = 60 + number * 7 % 60;
        text += &format!(
            "
athlete {}
  gym: Hall
  body mass: {} kg
  max Front squat: {} kg
  max Deadlift: {} kg
  max Bench press: {press} kg
  max Bench pull: 5 @ {} kg
  max Romanian deadlift: 80% of Deadlift
",
            athlete(number),
            60 + number % 40,
            press + 20,
            press + 60,
            press - 5,
        );
    }
    text
}

/// The head of a programme, with phases where there are weeks enough for them.
fn head(weeks: usize) -> String {
    let mut text = format!(
        "
programme Long winter
  weeks: {weeks}
  starts: 2026-01-05
  training max: 90%
  estimate: Epley
  warm-up: bar x 8, 40% x 5, 60% x 3, 80% x 1
"
    );
    if weeks >= 12 {
        text += &format!(
            "
phase Base: weeks 1-4

phase Deload: week 5, sets -40%, load -10%

phase Build: weeks 6-{weeks}
"
        );
    }
    text
}

/// One programme of four days a week for a whole squad: six exercises a day, with percentages,
/// effort, a circuit, rules and warm-up sets.
pub fn squad(count: usize, weeks: usize) -> String {
    let mut text = GYM.to_owned() + &athletes(count) + &head(weeks) + SCHEME;
    // Loads rise by as much over the whole, however long it is.
    let step = if weeks > 12 { "+0.1%" } else { "+1.5%" };
    for (index, (weekday, first, second)) in DAYS.iter().enumerate() {
        text += &format!(
            "
day Day {} ({weekday})
  A  {first}: 4 x 5 @ 70% {step}/week, tempo 3-0-X-0, rest 3:00
     cue: Push the floor away; stand tall.
  B  {second}: 2 x 6 @ 70% {step}/week, 1 x 6+ @ 70% {step}/week, rest 3:00
     when last set >= 9 reps: max +2%
     when any rep missed: load -7.5%
  C  Rear-foot-raised split squat: 3 x 8-10 each side @ 20% of Front squat, RIR 2, rest 90 s
     follow: Small jumps, jump 2 kg
     setup: Long step; chest leans over the front thigh.
     cue: Push through the heel; feel the glute, not the knee.
  D  Romanian deadlift: 3 x 8 @ RPE 7, tempo 3-1-X-0, rest 2:00
     cue: Weight in the heels; feel it behind the thigh.
  E1 Face pull: 3 x 12-15 @ 15 kg
     cue: Thumbs end behind the ears; feel the rear shoulder.
  E2 Side plank: 3 x 30 s each side, rest 60 s
",
            index + 1
        );
    }
    text
}

/// How many athletes a long programme is for.
const FEW: usize = 4;

/// A programme of about so many lines for four athletes over twelve weeks: every exercise has a
/// cue, a line for each week and one for each athlete. A week holds fourteen days, which bounds it
/// at about 6,000 lines.
pub fn long(lines: usize) -> String {
    let mut text = GYM.to_owned() + &athletes(FEW) + &head(12);
    let count = text.lines().count();
    let each = 2 + 12 + FEW;
    // A letter each, below what a day and a week may hold.
    let exercises = lines.saturating_sub(count) / each;
    let days = exercises.div_ceil(usize::from(b'Z' - b'A')).max(1);
    let a_day = exercises.div_ceil(days);
    let mut left = exercises;
    for day in 0..days {
        text += &format!("\nday Day {}\n", day + 1);
        for (place, letter) in ('A'..='Z').enumerate().take(a_day.min(left)) {
            let lift = LIFTS.iter().cycle().nth(place + day).unwrap_or(&"Deadlift");
            text += &format!("  {letter}  {lift}: 3 x 5 @ 60%\n     cue: Brace, then move.\n");
            for week in 1..=12 {
                let (reps, percent) = (3 + week % 4, 58 + 2 * week);
                text += &format!("     week {week}: 3 x {reps} @ {percent}%\n");
            }
            for number in 0..FEW {
                let (sets, percent) = (3 + (number + place) % 2, 60 + number % 9);
                text += &format!("     for {}: {sets} x 5 @ {percent}%\n", athlete(number));
            }
        }
        left -= a_day.min(left);
    }
    text
}
