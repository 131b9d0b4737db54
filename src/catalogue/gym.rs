//! Gyms: what there is to load with.

use crate::bounds;
use crate::diagnostics::{Code, Diagnostic};
use crate::plan::PlateSize;
use crate::quantity::{Decimal, Exact, Mass, Unit};
use crate::source::{Span, Spanned};
use crate::strength::{Bar, MassList, Plate, Rounding};
use crate::syntax::ast::PlateSize as PlateSizeText;
use crate::syntax::ast::{CollarsOf, Item, LineKey, MassText, Name, Node, StockItem, Value};
use crate::syntax::keys::Key;

/// A gym.
#[derive(Clone, Debug)]
pub struct Gym {
    /// Its name.
    pub name: String,
    /// Where it is defined.
    pub span: Span,
    /// Bars, the usual one first.
    pub bars: Vec<Bar>,
    /// Plates.
    pub plates: Vec<Plate>,
    /// How big plates are, where the gym says so.
    pub sizes: Vec<PlateSize>,
    /// Both collars together.
    pub collars: Mass,
    /// Dumbbells.
    pub dumbbells: Option<MassList>,
    /// Kettlebells.
    pub kettlebells: Option<MassList>,
    /// Stacks by name.
    pub stacks: Vec<(String, MassList)>,
    /// Bands, with about what each gives.
    pub bands: Vec<(String, Option<Mass>)>,
    /// How targets are rounded.
    pub rounding: Option<Rounding>,
    /// What else there is.
    pub has: Vec<(String, Option<u32>)>,
    /// What there is not: equipment or exercises.
    pub lacks: Vec<String>,
    /// The unit the plates (or, without plates, the bells) are marked in.
    pub unit: Unit,
    /// Notes.
    pub notes: Vec<String>,
    /// A line did not read: what seems to be missing may stand in it.
    pub incomplete: bool,
}

impl Gym {
    /// Reads a gym.
    pub fn read(name: &Name, lines: &[Node], problems: &mut Vec<Diagnostic>) -> Self {
        let mut gym = Self {
            name: name.value.clone(),
            span: name.span,
            bars: Vec::new(),
            plates: Vec::new(),
            sizes: Vec::new(),
            collars: Mass::ZERO,
            dumbbells: None,
            kettlebells: None,
            stacks: Vec::new(),
            bands: Vec::new(),
            rounding: None,
            has: Vec::new(),
            lacks: Vec::new(),
            unit: Unit::Kg,
            notes: Vec::new(),
            incomplete: lines.iter().any(|node| node.item.value == Item::Wrong),
        };
        let mut units: [Option<Unit>; 3] = [None; 3];
        let mut sizes = Vec::new();
        for node in lines {
            let Item::Entry { key, value } = &node.item.value else { continue };
            match (&key.value, &value.value) {
                (LineKey::Key(Key::Bar), Value::Bars(bars)) => {
                    gym.bars = bars
                        .iter()
                        .map(|bar| Bar {
                            name: bar.name.as_ref().map(|n| n.value.clone()),
                            mass: bar.mass.value.mass(),
                        })
                        .collect();
                    units[2] = bars.first().map(|bar| bar.mass.value.unit);
                }
                (LineKey::Key(Key::Plates), Value::Stock(items)) => {
                    units[0] = items.first().map(|item| item.value.unit);
                    gym.plates = masses(items, problems)
                        .into_iter()
                        .map(|(mass, count)| match count {
                            Some(count) => Plate::counted(mass, count),
                            None => Plate::unlimited(mass),
                        })
                        .collect();
                }
                (LineKey::Named(Key::Plate, name), Value::PlateSize(size)) => {
                    sizes.push((name, *size));
                }
                (LineKey::Key(Key::Collars), Value::Collars(mass, of)) => {
                    gym.collars = mass.mass() * if *of == CollarsOf::Each { 2 } else { 1 };
                }
                (LineKey::Key(Key::Dumbbells), Value::Stock(items)) => {
                    units[1] = units[1].or(items.first().map(|item| item.value.unit));
                    gym.dumbbells = Some(MassList::new(masses(items, problems)));
                }
                (LineKey::Key(Key::Kettlebells), Value::Stock(items)) => {
                    units[1] = units[1].or(items.first().map(|item| item.value.unit));
                    gym.kettlebells = Some(MassList::new(masses(items, problems)));
                }
                (LineKey::Named(Key::Stack, name), Value::Stock(items)) => {
                    units[1] = units[1].or(items.first().map(|item| item.value.unit));
                    let pins = MassList::new(masses(items, problems));
                    gym.stacks.push((name.value.clone(), pins));
                }
                (LineKey::Key(Key::Bands), Value::Bands(bands)) => {
                    let band = |band: &crate::syntax::ast::Band| {
                        (band.name.value.clone(), band.mass.map(MassText::mass))
                    };
                    gym.bands = bands.iter().map(band).collect();
                }
                (LineKey::Key(Key::Rounding), Value::RoundDown(down)) => {
                    gym.rounding = Some(rounding(*down));
                }
                (LineKey::Key(Key::Has), Value::Counted(names)) => {
                    gym.has = names.iter().map(|(name, n)| (name.value.clone(), *n)).collect();
                }
                (LineKey::Key(Key::Lacks), Value::Counted(names)) => {
                    gym.lacks = names.iter().map(|(name, _)| name.value.clone()).collect();
                }
                (LineKey::Key(Key::Note), Value::Text(text)) => gym.notes.push(text.clone()),
                _ => {}
            }
        }
        let [plates, bells, bars] = units;
        gym.unit = plates.or(bells).or(bars).unwrap_or_default();
        for (name, size) in sizes {
            gym.size(name, size, problems);
        }
        gym
    }

    /// Takes in how big a plate is: it must be one that the gym lists.
    fn size(&mut self, name: &Name, size: PlateSizeText, problems: &mut Vec<Diagnostic>) {
        let PlateSizeText { diameter_mm, thickness_mm } = size;
        let plate = mass(&name.value)
            .and_then(|mass| self.plates.iter_mut().find(|plate| plate.mass == mass));
        if let Some(plate) = plate {
            plate.thickness_mm = Some(thickness_mm);
            self.sizes.push(PlateSize { mass: plate.mass, diameter_mm, thickness_mm });
        } else if !self.incomplete {
            let listed: Vec<String> = self.plates.iter().map(|p| p.mass.show(self.unit)).collect();
            let why = format!("this gym has no plate `{}` in its `plates`", name.value);
            let found = Diagnostic::new(Code::UnknownWord, name.span, why);
            problems.push(
                found.did_you_mean(&name.value, listed.iter().map(std::string::String::as_str)),
            );
        }
    }
}

/// `20 kg`, `45lb`.
fn mass(text: &str) -> Option<Mass> {
    let unit = [Unit::Kg, Unit::Lb].into_iter().find(|unit| text.ends_with(unit.symbol()))?;
    let number = text.strip_suffix(unit.symbol())?.trim_end();
    Mass::from_decimal(Decimal::parse(number)?, unit)
}

/// `down`, or to the nearest.
pub fn rounding(down: bool) -> Rounding {
    if down { Rounding::Down } else { Rounding::Nearest }
}

/// The masses a line lists, its runs counted out.
fn masses(
    items: &[Spanned<StockItem>],
    problems: &mut Vec<Diagnostic>,
) -> Vec<(Mass, Option<u32>)> {
    let mut found = Vec::new();
    for item in items {
        let StockItem { first, run, unit, count } = &item.value;
        let mass = |value| MassText { value, unit: *unit }.mass();
        let Some((last, step)) = run else {
            found.push((mass(*first), *count));
            continue;
        };
        let (low, high, step) = (mass(*first), mass(*last), mass(*step));
        let steps = &Exact::from(high - low) / &Exact::from(step);
        let whole = steps.round_half_up();
        if high < low || Exact::whole(whole) != steps {
            problems.push(
                Diagnostic::new(
                    Code::NumberOutOfRange,
                    item.span,
                    "these steps do not end at the last mass",
                )
                .help("write the lightest mass, the heaviest mass and the step between: `4-30 kg by 2 kg`"),
            );
        }
        // A run takes in both its ends. One more than a line may list is enough to see that.
        let most = i64::try_from(bounds::STOCK).unwrap_or(i64::MAX);
        found.extend((0..=whole.min(most)).map(|n| (low + step * n, *count)));
        if found.len() > bounds::STOCK {
            problems.push(too_many(item.span));
            found.truncate(bounds::STOCK);
            return found;
        }
    }
    if let Some(item) = items.last().filter(|_| found.len() > bounds::STOCK) {
        problems.push(too_many(item.span));
        found.truncate(bounds::STOCK);
    }
    found
}

fn too_many(at: Span) -> Diagnostic {
    let most = bounds::STOCK;
    Diagnostic::new(
        Code::TooManyLoads,
        at,
        format!("a line can list at most {most} masses, but this has more"),
    )
    .help("list only the masses that you have, or write a larger step")
}
