//! Whole programmes generated from a stream of choices, which proptest or a fuzzer makes and
//! reduces. At the end of the stream, every choice is the first one, so a shorter stream makes a
//! simpler programme. Generated programmes are correct: every line can be read and none is an
//! error. Names are invented.

use std::fmt::Write;

use setwright::quantity::{Decimal, Mass, Unit};

/// Choices, one after the other.
pub struct Picks<'a>(std::slice::Iter<'a, u16>);

impl<'a> Picks<'a> {
    /// The choices of a stream.
    pub fn new(stream: &'a [u16]) -> Self {
        Self(stream.iter())
    }

    /// One of `n`, counted from zero.
    pub fn of(&mut self, n: usize) -> usize {
        self.0.next().map_or(0, |&pick| usize::from(pick) % n)
    }

    /// Yes in one of `n` cases.
    pub fn one_in(&mut self, n: usize) -> bool {
        self.of(n) == n - 1
    }

    pub fn from<'t>(&mut self, items: &[&'t str]) -> &'t str {
        items[self.of(items.len())]
    }

    fn order(&mut self, length: usize) -> Vec<usize> {
        let mut left: Vec<usize> = (0..length).collect();
        (0..length).map(|_| left.remove(self.of(left.len()))).collect()
    }
}

/// One line: its level, what it says, and whether its spelling may be loosened.
#[derive(Clone, Debug)]
struct Line {
    depth: usize,
    text: String,
    loose: bool,
}

fn plain(depth: usize, text: impl Into<String>) -> Line {
    Line { depth, text: text.into(), loose: false }
}

/// What a gym has, as numbers.
#[derive(Clone, Debug)]
pub struct Stock {
    pub name: String,
    pub bars: Vec<Mass>,
    pub plates: Vec<(Mass, u32)>,
    pub collars: Mass,
    /// Pairs of each.
    pub dumbbells: Vec<Mass>,
    pub pins: Vec<Mass>,
    pub down: bool,
}

/// A made project.
#[derive(Clone, Debug)]
pub struct Made {
    gyms: Vec<Vec<Line>>,
    athletes: Vec<Vec<Line>>,
    schemes: Vec<Vec<Line>>,
    programme: Vec<Line>,
    phases: Vec<Vec<Line>>,
    days: Vec<Vec<Line>>,
    pub stocks: Vec<Stock>,
    /// The gym of each athlete.
    pub homes: Vec<usize>,
    /// The programme's own rounding.
    pub rounding: Option<bool>,
}

pub const ATHLETES: [&str; 3] = ["Perrin Oake", "Tamsin Groat", "Corin Vane"];
const LIFTS: [&str; 4] = ["Back squat", "Bench press", "Deadlift", "Front squat"];

impl Made {
    /// Makes a project.
    pub fn new(stream: &[u16]) -> Self {
        let picks = &mut Picks::new(stream);
        let weeks = 1 + picks.of(6);
        let eased = (weeks >= 3 && picks.one_in(2)).then(|| 2 + picks.of(weeks - 1));
        let athletes = 1 + picks.of(3);
        let mut made = Self {
            gyms: Vec::new(),
            athletes: Vec::new(),
            schemes: vec![vec![
                plain(0, "scheme Jumps"),
                plain(1, "jump: 2.5 kg"),
                plain(1, "when top of range: load +jump, reps to bottom"),
                plain(1, "when missed 2 in a row: load -10%"),
            ]],
            programme: Vec::new(),
            phases: Vec::new(),
            days: Vec::new(),
            stocks: Vec::new(),
            homes: Vec::new(),
            rounding: None,
        };
        for index in 0..=picks.of(2) {
            let (lines, stock) = gym(picks, index);
            made.gyms.push(lines);
            made.stocks.push(stock);
        }
        for name in &ATHLETES[..athletes] {
            let home = picks.of(made.stocks.len());
            made.homes.push(home);
            made.athletes.push(athlete(picks, name, &made.stocks[home].name));
        }
        made.programme = vec![plain(0, "programme Made up"), plain(1, format!("weeks: {weeks}"))];
        for (odds, keys) in [
            (2, ["training max: 90%", "training max: 87.5%"]),
            (3, ["estimate: Brzycki", "estimate: Wathen"]),
            (2, ["warm-up: bar x 8, 40% x 5, 80% x 1", "warm-up: 50% x 5, 60 kg x 3"]),
            (3, ["starts: 2026-01-05", "starts: 2026-02-26"]),
            (3, ["before: skip for a minute", "note: Nobody misses a rep."]),
        ] {
            if picks.one_in(odds) {
                made.programme.push(plain(1, keys[picks.of(2)]));
            }
        }
        if picks.one_in(4) {
            let down = picks.one_in(2);
            made.rounding = Some(down);
            let word = if down { "down" } else { "nearest" };
            made.programme.push(plain(1, format!("rounding: {word}")));
        }
        if let Some(week) = eased {
            let change = picks.from(&["load -10%", "sets -40%, load -10%", "sets -50%"]);
            made.phases.push(vec![plain(0, format!("phase Ease: week {week}, {change}"))]);
        }
        if picks.one_in(3) {
            let change = picks.from(&["", ", load +2.5%", ", sets +50%"]);
            made.phases.push(vec![plain(0, format!("phase First: week 1{change}"))]);
        }
        let series = weeks - usize::from(eased.is_some());
        for number in 0..=picks.of(2) {
            let head = ["day One (Mon)", "day Two"][number];
            made.days.push(day(picks, head, series, weeks, athletes));
        }
        made
    }

    /// The days: of each its name, and order, exercise and prescription of its exercises' lines.
    pub fn sessions(&self) -> impl Iterator<Item = (&str, Vec<(&str, &str, &str)>)> {
        self.days.iter().filter_map(|day| {
            let name = day.first()?.text.strip_prefix("day ")?;
            let lines = day.iter().filter(|line| line.depth == 1 && line.loose);
            let lines = lines.filter_map(|line| {
                let (head, does) = line.text.split_once(": ")?;
                let (order, exercise) = head.split_once(' ')?;
                Some((order, exercise, does))
            });
            Some((name.trim_end_matches(" (Mon)"), lines.collect()))
        })
    }

    /// How many weeks there are.
    pub fn weeks(&self) -> usize {
        let weeks = self.programme.iter().find_map(|line| line.text.strip_prefix("weeks: "));
        weeks.map_or(1, |weeks| weeks.parse().unwrap())
    }

    fn lines(&self) -> impl Iterator<Item = &Line> {
        let blocks = self.gyms.iter().chain(&self.athletes).chain(&self.schemes);
        let programme = std::iter::once(&self.programme).chain(&self.phases).chain(&self.days);
        blocks.chain(programme).flatten()
    }

    /// The same lines with the keys of gyms, athletes and the programme in any order.
    fn in_any_order(&self, picks: &mut Picks<'_>) -> Vec<Line> {
        let mut made = self.clone();
        let programme = std::iter::once(&mut made.programme);
        for block in made.gyms.iter_mut().chain(&mut made.athletes).chain(programme) {
            if picks.one_in(2) {
                let (head, keys) = block.split_at(1);
                let order = picks.order(keys.len());
                *block = head.iter().chain(order.iter().map(|at| &keys[*at])).cloned().collect();
            }
        }
        made.lines().cloned().collect()
    }

    /// The text in standard format, but for blank lines and the order of keys.
    pub fn text(&self) -> String {
        written(self.lines())
    }

    /// The same with gyms, athletes, schemes and phases in another order, and all of them before
    /// or after the programme where that is possible.
    pub fn shuffled(&self, stream: &[u16]) -> String {
        let picks = &mut Picks::new(stream);
        let mut blocks: Vec<Vec<Line>> = Vec::new();
        for set in [&self.schemes, &self.gyms, &self.athletes] {
            blocks.extend(picks.order(set.len()).into_iter().map(|at| set[at].clone()));
        }
        let mut programme = self.programme.clone();
        for at in picks.order(self.phases.len()) {
            programme.extend(self.phases[at].clone());
        }
        programme.extend(self.days.iter().flatten().cloned());
        blocks.push(programme);
        let order = picks.order(blocks.len());
        written(order.into_iter().flat_map(|at| &blocks[at]))
    }

    /// The text as a hasty writer might put it, and the comments in it, in order.
    pub fn loose(&self, stream: &[u16]) -> (String, Vec<String>) {
        let picks = &mut Picks::new(stream);
        let mut comments = Vec::new();
        let mut out = String::new();
        let step = [2, 4, 3][picks.of(3)];
        let remark = |picks: &mut Picks<'_>, comments: &mut Vec<String>| {
            let sign = picks.from(&["# c", "# #c", "# : 3 x 5 @ ", "# A: \"", "# ## ×→ "]);
            let comment = format!("{sign}{}", comments.len());
            comments.push(comment.clone());
            comment
        };
        let lines = self.in_any_order(picks);
        for line in &lines {
            if picks.one_in(5) {
                out.push('\n');
            }
            if picks.one_in(4) {
                out.push_str(&" ".repeat(picks.of(8)));
                out.push_str(&remark(picks, &mut comments));
                out.push('\n');
            }
            out.push_str(&" ".repeat(step * line.depth));
            let text = if line.loose { loosened(&line.text, picks) } else { line.text.clone() };
            out.push_str(&text);
            if picks.one_in(4) {
                out.push_str(picks.from(&[" ", "   "]));
                out.push_str(&remark(picks, &mut comments));
            }
            out.push_str(picks.from(&["\n", " \n", "\r\n"]));
        }
        if picks.one_in(2) {
            out.push_str(&remark(picks, &mut comments));
        }
        (out, comments)
    }
}

fn written<'l>(lines: impl Iterator<Item = &'l Line>) -> String {
    let mut out = String::new();
    for line in lines {
        writeln!(out, "{}{}", "  ".repeat(line.depth), line.text).unwrap();
    }
    out
}

fn loosened(text: &str, picks: &mut Picks<'_>) -> String {
    let Some((key, value)) = text.split_once(": ") else { return text.to_owned() };
    let mut value = value.to_owned();
    for (from, to) in [(" x ", "x"), (" x ", " × "), (" -> ", "→"), (" @ ", "@"), (", ", " , ")]
    {
        // After a word (`/week x 5`) the sign needs its space.
        if picks.one_in(3) && !(to == "x" && value.contains("/week x")) {
            value = value.replace(from, to);
        }
    }
    for (from, to) in [(" kg", "kg"), (" kg", " KG"), (" lb", " lbs"), (" s,", " sec,")] {
        if picks.one_in(3) {
            value = value.replace(from, to);
        }
    }
    // A range of motion and a lift's name end at their comma.
    if !value.contains("range") && !value.contains("% of") && picks.one_in(2) {
        value = value.replace(", rest", " rest").replace(", tempo", "  tempo");
    }
    format!("{key}: {value}")
}

fn mass(text: &str, unit: Unit) -> Mass {
    Mass::from_decimal(Decimal::parse(text).unwrap(), unit).unwrap()
}

fn gym(picks: &mut Picks<'_>, index: usize) -> (Vec<Line>, Stock) {
    let name = ["Shed", "Loft"][index];
    let unit = [Unit::Kg, Unit::Lb][picks.of(2)];
    let bars: &[&str] = match (unit, picks.of(3)) {
        (Unit::Kg, 0) => &["20"],
        (Unit::Kg, 1) => &["20", "15"],
        (Unit::Kg, _) => &["10"],
        (Unit::Lb, 0) => &["45"],
        (Unit::Lb, 1) => &["45", "33"],
        (Unit::Lb, _) => &["15"],
    };
    let kinds: &[&str] = match unit {
        Unit::Kg => &["20", "10", "5", "2.5", "1.25", "25", "15", "0.5"],
        Unit::Lb => &["45", "25", "10", "5", "2.5", "35", "1.25", "2"],
    };
    let mut plates = Vec::new();
    for kind in kinds {
        if plates.len() < 5 && !picks.one_in(3) {
            plates.push((*kind, 2 + picks.of(4)));
        }
    }
    let list = |items: Vec<String>| items.join(", ");
    let mut lines = vec![
        plain(0, format!("gym {name}")),
        plain(1, format!("bar: {}", list(bars.iter().map(|b| format!("{b} {unit}")).collect()))),
    ];
    if !plates.is_empty() {
        let texts = plates.iter().map(|(kind, count)| format!("{kind} {unit} x {count}"));
        lines.push(plain(1, format!("plates: {}", list(texts.collect()))));
    }
    let mut collars = Mass::ZERO;
    if picks.one_in(3) {
        lines.push(plain(1, format!("collars: 0.5 {unit} each")));
        collars = mass("1", unit);
    }
    let runs = i64::try_from(4 + picks.of(8)).unwrap();
    lines.push(plain(1, format!("dumbbells: 5-{} {unit} by 2.5 {unit} x 2", 5 + 5 * runs)));
    lines.push(plain(1, format!("stack Cable: 5-{} {unit} by 5 {unit}", 5 * runs)));
    let down = picks.one_in(3);
    if down {
        lines.push(plain(1, "rounding: down"));
    }
    let stock = Stock {
        name: name.to_owned(),
        bars: bars.iter().map(|bar| mass(bar, unit)).collect(),
        plates: plates
            .iter()
            .map(|(kind, n)| (mass(kind, unit), u32::try_from(*n).unwrap()))
            .collect(),
        collars,
        dumbbells: (0..=2 * runs).map(|n| mass("5", unit) + mass("2.5", unit) * n).collect(),
        pins: (1..=runs).map(|n| mass("5", unit) * n).collect(),
        down,
    };
    (lines, stock)
}

/// A mass of so many kilograms or pounds.
fn some_mass(picks: &mut Picks<'_>, least: usize) -> String {
    let whole = least + picks.of(80);
    let part = picks.from(&["", ".5", ".25", ".125"]);
    format!("{whole}{part} {}", picks.from(&["kg", "lb"]))
}

fn athlete(picks: &mut Picks<'_>, name: &str, gym: &str) -> Vec<Line> {
    let mut lines = vec![plain(0, format!("athlete {name}")), plain(1, format!("gym: {gym}"))];
    lines.push(plain(1, format!("body mass: {}", some_mass(picks, 50))));
    if picks.one_in(3) {
        lines.push(plain(1, "training max: 85%"));
    }
    if picks.one_in(3) {
        lines.push(plain(1, format!("unit: {}", picks.from(&["kg", "lb"]))));
    }
    for lift in &LIFTS[..3] {
        let reps = picks.from(&["", "5 @ ", "3 @ ", "10 @ "]);
        lines.push(plain(1, format!("max {lift}: {reps}{}", some_mass(picks, 60))));
    }
    lines.push(plain(1, "max Front squat: 82.5% of Back squat"));
    let added = picks.from(&["", " +10 kg", " -5 lb"]);
    lines.push(plain(1, format!("max Pull-up: bodyweight{added}")));
    if picks.one_in(4) {
        lines.push(plain(1, "replace Bench press: Back squat (shoulder)"));
    }
    lines
}

/// The forms of a line's load, by what it is loaded with.
fn load(picks: &mut Picks<'_>, exercise: &str, series: usize) -> String {
    let over = |picks: &mut Picks<'_>,
                (least, most): (usize, usize),
                by: usize,
                unit: &str,
                plus: &str| {
        let first = least + picks.of(most - least);
        let one = |n: usize| format!("{plus}{}{unit}", first + by * n);
        match picks.of(4) {
            1 if series > 1 => (0..series).map(one).collect::<Vec<_>>().join(" -> "),
            2 => format!("{} +{}{unit}/week", one(0), picks.from(&["1", "2.5", "0.5"])),
            3 => format!("{} +{}{unit}/session", one(0), picks.from(&["1", "1.25"])),
            _ => one(0),
        }
    };
    let unit = picks.from(&[" kg", " lb"]);
    match exercise {
        "Push-up" | "Plank" => picks.from(&["", " @ bodyweight"]).to_owned(),
        "Pull-up" => match picks.of(5) {
            0 => " @ bodyweight".to_owned(),
            1 => format!(" @ bodyweight {}", over(picks, (5, 6), 2, unit, "+")),
            2 => format!(" @ bodyweight -{}{unit}", 5 + picks.of(20)),
            3 => format!(" @ {}", over(picks, (75, 76), 3, "%", "")),
            _ => " @ RPE 8".to_owned(),
        },
        "Face pull" | "Hammer curl" => match picks.of(3) {
            0 => String::new(),
            1 => format!(" @ {}", over(picks, (5, 45), 2, unit, "")),
            _ => format!(" @ {}% of Bench press", 10 + picks.of(15)),
        },
        _ => match picks.of(9) {
            0 => String::new(),
            1 => format!(" @ {}", over(picks, (20, 80), 3, unit, "")),
            2 => format!(" @ {} of 1RM", over(picks, (50, 80), 2, "%", "")),
            3 => format!(" @ {}% of Back squat", 20 + picks.of(50)),
            4 => format!(" @ RPE {}", picks.from(&["8", "7.5", "10", "6"])),
            5 => format!(" @ RIR {}", picks.from(&["2", "0", "1.5"])),
            6 => format!(" @ last{}", picks.from(&["", " +2.5 kg", " -5%"])),
            _ => format!(" @ {}", over(picks, (50, 95), 2, "%", "")),
        },
    }
}

fn reps(picks: &mut Picks<'_>, exercise: &str, series: usize) -> String {
    let count = 1 + picks.of(12);
    let unit = if exercise == "Plank" { " s" } else { "" };
    let mut text = match picks.of(7) {
        1 => format!("{count}-{}{unit}", count + 1 + picks.of(5)),
        2 => format!("{count}+{unit}"),
        3 if series > 1 => {
            let each = |n| format!("{}{unit}", count + n);
            (0..series).map(each).collect::<Vec<_>>().join(" -> ")
        }
        4 if unit.is_empty() => format!("{count} +1 rep/week"),
        5 if unit.is_empty() => picks.from(&["AMRAP", "3+3+3", "2+2 (20 s)"]).to_owned(),
        6 if unit.is_empty() => format!("{}{}", 5 + 5 * picks.of(9), picks.from(&[" s", " m"])),
        _ => format!("{count}{unit}"),
    };
    if picks.one_in(6) {
        text.push_str(picks.from(&[" each side", " each side (30 s between)"]));
    }
    text
}

fn options(picks: &mut Picks<'_>, by_effort: bool) -> String {
    let mut text = String::new();
    for (odds, forms) in [
        (2, [", rest 90 s", ", rest 3:00", ", rest 2:30"]),
        (4, [", tempo 3-1-X-0", ", tempo 2-0-2-0", ", tempo 10-0-0-0"]),
        (5, [", range to the knee", ", range 0-70 degrees", ", range half way"]),
        (5, [", drop -20%", ", drop -25% x 2", ", drop -12.5% each set"]),
        (7, [", rest-pause 15 s", ", every 2:00", ", no warm-up"]),
        (7, [", as written", ", with phase", ""]),
    ] {
        if picks.one_in(odds) {
            text.push_str(forms[picks.of(3)]);
        }
    }
    if !by_effort && picks.one_in(4) {
        text.push_str(picks.from(&[", RPE 8", ", RIR 2"]));
    }
    text
}

fn day(
    picks: &mut Picks<'_>,
    head: &str,
    series: usize,
    weeks: usize,
    athletes: usize,
) -> Vec<Line> {
    let mut lines = vec![plain(0, head)];
    for letter in ["A", "B", "C", "D"].into_iter().take(1 + picks.of(4)) {
        let group = picks.from(&[
            "",
            "",
            "pair",
            ": paired, rest 90 s",
            ": circuit 3 rounds, change 20 s",
            ": every 60 s for 6 min",
            ": every 90 s for 9 min, alternate",
            ": rounds in 10 min",
        ]);
        if group.starts_with(':') {
            lines.push(plain(1, format!("{letter}{group}")));
        }
        let counted = group.contains("circuit") || group.contains("every") || group.contains("in ");
        let members = if group.is_empty() { 1 } else { 2 + picks.of(2) };
        for member in 1..=members {
            let order =
                if group.is_empty() { format!("{letter} ") } else { format!("{letter}{member}") };
            lines.extend(exercise(picks, &order, counted, series, weeks, athletes));
        }
    }
    lines
}

/// Whether an exercise's own line states a load.
fn value_has_load(lines: &[Line]) -> bool {
    lines.first().is_some_and(|line| line.text.contains('@'))
}

fn exercise(
    picks: &mut Picks<'_>,
    order: &str,
    counted: bool,
    series: usize,
    weeks: usize,
    athletes: usize,
) -> Vec<Line> {
    let others = ["Push-up", "Plank", "Pull-up", "Face pull", "Hammer curl"];
    let name = if picks.one_in(2) { picks.from(&others) } else { LIFTS[picks.of(LIFTS.len())] };
    let bar = LIFTS.contains(&name);
    let set = |picks: &mut Picks<'_>| match picks.of(4) {
        _ if counted => String::new(),
        1 => format!("{} +1 set/week x ", 1 + picks.of(3)),
        2 => String::new(),
        _ => format!("{} x ", 1 + picks.of(5)),
    };
    let mut value = if bar && !counted && picks.one_in(4) {
        let first = format!("1 x 3 @ {}%", 70 + picks.of(25));
        format!("{first}, {} x 5 @ 90% of top set", 1 + picks.of(3))
    } else {
        let sets = set(picks);
        let reps = reps(picks, name, series);
        format!("{sets}{reps}{}", load(picks, name, series))
    };
    let by_effort = value.contains("RPE") || value.contains("RIR");
    // A series counts the weeks of its line: lines below it would take some away.
    let alone = value.contains("->") || counted;
    value.push_str(&options(picks, by_effort));
    let mut lines = vec![Line { depth: 1, text: format!("{order} {name}: {value}"), loose: true }];
    if !alone && picks.one_in(4) {
        let load = load(picks, name, 1);
        let week = 1 + picks.of(weeks);
        lines.push(Line { depth: 2, text: format!("week {week}: 2 x 3{load}"), loose: true });
        if picks.one_in(2) {
            lines.push(plain(3, "note: One week only."));
        }
    }
    if !alone && picks.one_in(4) {
        let who = ATHLETES[picks.of(athletes)];
        let load = load(picks, name, 1);
        lines.push(Line { depth: 2, text: format!("for {who}: 2 x 8{load}"), loose: true });
    }
    if picks.one_in(4) {
        lines.push(plain(2, "cue: Stand tall: ribs down, 3 x slower."));
        lines.push(plain(2, "note: @ home, do fewer"));
    }
    let any_effort = lines
        .iter()
        .any(|line| line.loose && (line.text.contains("@ RPE") || line.text.contains("@ RIR")));
    // Rules that change a load need one.
    let loaded = value_has_load(&lines);
    // Loads are picked without a look at the max.
    if loaded {
        lines.push(plain(2, "over max: made for a test"));
    }
    if loaded && !any_effort && picks.one_in(4) {
        lines.push(plain(2, picks.from(&["follow: Jumps", "follow: Jumps, jump 5 lb"])));
        lines.push(plain(2, "when any rep missed: load -7.5%"));
    }
    lines
}
