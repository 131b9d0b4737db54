//! Prints an exercise as text, line by line.

use super::{BarChoice, Exercise};
use crate::quantity::Unit;
use crate::syntax::ast::Name;

impl Exercise {
    /// What it says, by the notation's keys, in the order of reading; what it does not say is left
    /// out. A cue's source stands below it, its key indented.
    #[must_use]
    pub fn to_lines(&self) -> Vec<(String, String)> {
        let names = |names: &[Name]| {
            names.iter().map(|name| name.value.clone()).collect::<Vec<_>>().join(", ")
        };
        let kind = self.compound.map(|compound| if compound { "compound" } else { "isolation" });
        let muscles = self.muscles.iter().map(|(name, (part, whole))| {
            if part == whole { name.clone() } else { format!("{name} {part}/{whole}") }
        });
        let bar = self.bar.as_ref().map(|bar| match bar {
            BarChoice::Mass(mass) => mass.show(Unit::Kg),
            BarChoice::Named(name) => name.clone(),
        });
        let sides = if self.each_side { "each" } else { "both" };
        let mut lines: Vec<(&str, Option<String>)> = vec![
            ("also called", Some(names(&self.also))),
            ("pattern", Some(self.patterns().collect::<Vec<_>>().join(", "))),
            ("kind", kind.map(str::to_owned)),
            ("sides", Some(sides.to_owned())),
            ("counted in", self.counted_in.map(|unit| unit.word().to_owned())),
            ("muscles", Some(muscles.collect::<Vec<_>>().join(", "))),
            ("equipment", Some(self.equipment_words())),
            ("bar", bar),
            ("setup", self.setup.clone()),
        ];
        for cue in &self.cues {
            lines.push(("cue", Some(cue.text.clone())));
            lines.push(("  source", cue.source.clone()));
        }
        lines.extend([
            ("range", self.range.clone()),
            ("safety", self.safety.clone()),
            ("demo", self.demo.clone()),
            ("source", self.source.clone()),
        ]);
        let own = lines.into_iter().filter_map(|(key, text)| Some((key.to_owned(), text?)));
        let translated =
            [("setup", &self.setups), ("safety", &self.safeties), ("name", &self.names)];
        let translated = translated.into_iter().flat_map(|(key, texts)| {
            texts.iter().map(move |(language, text)| (format!("{key} {language}"), text.clone()))
        });
        own.chain(translated).filter(|(_, text)| !text.is_empty()).collect()
    }
}
