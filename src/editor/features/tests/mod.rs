//! Tables of positions and answers, and laws that apply to every text.

mod actions;
mod completion;
mod hints;
mod hovers;
mod laws;
mod names;
mod renames;
mod speed;

/// A small project of one file, with a programme, a scheme and a log.
const CLUB: &str = "\
gym Club
  bar: 20 kg, Trap bar 25 kg
  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2, 1.25 kg x 2
  dumbbells: 4-30 kg by 2 kg
  has: rack x 2, bench

athlete Ana Brook
  gym: Club
  body mass: 68 kg
  max Back squat: 100 kg
  max Bench press: 5 @ 60 kg

athlete Žofie Łęska
  gym: Club
  max Back squat: 80 kg
  max Bench press: 50 kg

exercise Slow squat
  also called: Tempo squat, Pause squat
  like: Back squat

programme Winter
  weeks: 3
  athletes: Ana Brook, Žofie Łęska

phase Base: weeks 1-3

scheme Small jumps
  jump: 2.5 kg
  when top of range: load +jump, reps to bottom

day Lower 1 (Mon)
  A  Back squat: 3 x 5 @ 70% -> 75%, rest 3:00
    week 3: 2 x 5 @ 80%, 1 x 5 @ 60%
  B1 Slow squat: 3 x 8-10 @ 40 kg
    follow: Small jumps, jump 2.5 kg
    for Ana Brook: 3 x 8-10 @ 45 kg
  B2 Split squat: 3 x 8 each side @ 16 kg

log Ana Brook: Winter
  2026-01-05 week 1, Lower 1
    A Back squat: done
    B1 Slow squat: 10, 10, 10
";

/// That text with a part replaced, for a cursor or a typo.
fn club(of: &str, by: &str) -> String {
    assert!(CLUB.contains(of), "{of}");
    CLUB.replacen(of, by, 1)
}
