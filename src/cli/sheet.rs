//! Which sheets a command prints.

use clap::ValueEnum;

use crate::sheets::{Sheet, sheet_name};

/// Which sheets.
#[derive(clap::Args, Debug)]
pub struct Which {
    /// The sheets, in order: one, or several with commas between
    #[arg(
        long = "sheet",
        value_enum,
        value_name = "SHEET",
        value_delimiter = ',',
        default_value = "card"
    )]
    sheets: Vec<SheetName>,
}

#[derive(ValueEnum, Clone, Copy, Debug, PartialEq, Eq)]
enum SheetName {
    /// A card for each session of each athlete
    Card,
    /// All weeks of an athlete side by side, on whole paper
    Block,
    /// A session of the whole squad, lift by lift, for the rack
    Rack,
}

impl Which {
    /// The sheets, each once, in the order they were asked for.
    pub fn sheets(&self) -> Vec<Sheet> {
        let mut out = Vec::new();
        for name in &self.sheets {
            let sheet = match name {
                SheetName::Card => Sheet::Card,
                SheetName::Block => Sheet::Block,
                SheetName::Rack => Sheet::Rack,
            };
            if !out.contains(&sheet) {
                out.push(sheet);
            }
        }
        out
    }

    /// What is printed, for a person: `2 cards`, or the sheets by name.
    pub fn told(sheets: &[Sheet], sessions: usize) -> String {
        let plural = if sessions == 1 { "" } else { "s" };
        match sheets {
            [Sheet::Card] => format!("{sessions} card{plural}"),
            _ => sheets.iter().map(|sheet| sheet_name(*sheet)).collect::<Vec<_>>().join(", "),
        }
    }
}
