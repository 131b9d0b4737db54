//! Which sheets a command prints.

use clap::ValueEnum;

use crate::catalogue::{Exercise, Exercises};
use crate::diagnostics::nearest;
use crate::plan::Plan;
use crate::quantity::fold_name;
use crate::sheets::{Poster, Sheet, Wanted};

use super::Failure;

/// Which sheets.
#[derive(clap::Args, Debug)]
pub struct Which {
    /// The sheets in order, with commas between them
    #[arg(
        long = "sheet",
        value_enum,
        value_name = "SHEET",
        value_delimiter = ',',
        default_value = "card"
    )]
    sheets: Vec<SheetName>,

    /// The exercise of a wall card (can be repeated)
    /// [default: all exercises of the programme]
    #[arg(long, value_name = "NAME", verbatim_doc_comment)]
    exercise: Vec<String>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum SheetName {
    /// A card for each session of each athlete
    Card,
    /// All weeks of an athlete side by side
    Block,
    /// A session of the whole squad, exercise by exercise, for the rack
    Rack,
    /// The whole programme of an athlete on one page, as plots with numbers
    Overview,
    /// An exercise in type that is readable from three metres
    Wall,
}

impl From<SheetName> for Sheet {
    fn from(name: SheetName) -> Self {
        match name {
            SheetName::Card => Sheet::Card,
            SheetName::Block => Sheet::Block,
            SheetName::Rack => Sheet::Rack,
            SheetName::Overview => Sheet::Overview,
            SheetName::Wall => Sheet::Wall,
        }
    }
}

impl Which {
    /// Whether any of the sheets is a card.
    pub fn has_cards(&self) -> bool {
        self.sheets.contains(&SheetName::Card)
    }

    /// Whether any of the sheets is of one session.
    pub fn has_sessions(&self) -> bool {
        self.sheets().into_iter().any(Sheet::is_by_session)
    }

    /// Whether any of the sheets draws plates.
    pub fn draws_plates(&self) -> bool {
        self.has_cards() || self.sheets.contains(&SheetName::Wall)
    }

    /// The sheets, each once, in the order they were asked for.
    pub fn sheets(&self) -> Vec<Sheet> {
        let mut sheets: Vec<Sheet> = Vec::new();
        for name in &self.sheets {
            let sheet = Sheet::from(*name);
            if !sheets.contains(&sheet) {
                sheets.push(sheet);
            }
        }
        sheets
    }

    /// The sheets with the exercises of wall cards.
    pub fn wanted(&self, plan: &Plan, exercises: &Exercises) -> Result<Wanted, Failure> {
        let sheets = self.sheets();
        let wall = sheets.contains(&Sheet::Wall);
        if !wall && !self.exercise.is_empty() {
            let why = "--exercise only works with wall cards: add --sheet wall".to_owned();
            return Err(Failure::Usage(why));
        }
        let posters = match (wall, self.exercise.as_slice()) {
            (false, _) => Vec::new(),
            (true, []) => used(plan)
                .into_iter()
                .filter_map(|name| find(name, exercises, &plan.language))
                .collect(),
            (true, names) => {
                let one = |name: &String| {
                    find(name, exercises, &plan.language).ok_or_else(|| unknown(name, exercises))
                };
                names.iter().map(one).collect::<Result<_, _>>()?
            }
        };
        Ok(Wanted { sheets, posters })
    }

    /// What is printed, for a person: `2 cards`, or the sheets by name.
    pub fn told(wanted: &Wanted, sessions: usize) -> String {
        let plural = if sessions == 1 { "" } else { "s" };
        match wanted.sheets.as_slice() {
            [Sheet::Card] => format!("{sessions} card{plural}"),
            sheets => sheets.iter().map(|sheet| sheet.told()).collect::<Vec<_>>().join(", "),
        }
    }
}

/// The exercises of a plan, in the order they first come.
fn used(plan: &Plan) -> Vec<&str> {
    let mut names: Vec<&str> = Vec::new();
    let sessions = plan.athletes.iter().flat_map(|athlete| &athlete.sessions);
    for exercise in sessions.flat_map(|session| &session.exercises) {
        if !names.contains(&exercise.name.as_str()) {
            names.push(&exercise.name);
        }
    }
    names
}

/// An exercise by its name, else by a synonym, its texts in a language; the last definition counts.
fn find(name: &str, exercises: &Exercises, language: &str) -> Option<Poster> {
    let wanted = fold_name(name);
    let named = exercises.iter().rev().find(|exercise| fold_name(&exercise.name) == wanted);
    let also =
        |exercise: &&Exercise| exercise.also.iter().any(|other| fold_name(&other.value) == wanted);
    let exercise = named.or_else(|| exercises.iter().rev().find(also))?;
    Some(Poster {
        name: exercise.name.clone(),
        setup: exercise.setup_in(language).map(str::to_owned),
        cues: exercise.cues.iter().map(|cue| cue.text.clone()).collect(),
        safety: exercise.safety_in(language).map(str::to_owned),
        demo: exercise.demo.clone(),
    })
}

fn unknown(name: &str, exercises: &Exercises) -> Failure {
    let known = exercises.iter().map(|exercise| exercise.name.as_str());
    Failure::Usage(match nearest(name, known) {
        Some(near) => format!("there is no exercise `{name}`: did you mean `{near}`?"),
        None => format!("there is no exercise `{name}`: `setwright exercises` lists all exercises"),
    })
}
