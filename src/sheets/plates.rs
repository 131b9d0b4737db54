//! A scale drawing of the plates on one sleeve, for cards, rack sheets and wall cards.

use crate::plan::{Built, Implement, PlateSize};
use crate::quantity::{Mass, Unit};
use crate::strength::Plate;

use super::labels::Numbers;
use super::layout::{Fragment, Ink, Rect, Role, Shape, Style, count, line};

/// The style of a drawing of plates.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateStyle<'a> {
    /// Height of the drawing in points, which is the height of a full-sized disc (450 mm).
    pub height: f32,
    /// Maximum width of the drawing, in points.
    pub width: f32,
    /// If set, each disc has its mass below it, in this unit, style and number format, provided
    /// that all fit.
    pub masses: Option<(Unit, Style, Numbers)>,
    /// The look of the discs.
    pub discs: Discs<'a>,
}

/// The look of a gym's discs.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Discs<'a> {
    /// Their sizes, if the gym gives them: [`crate::plan::AthletePlan::plate_sizes`].
    pub sizes: &'a [PlateSize],
    /// Whether they are filled with the colours of the competition rules.
    pub colours: bool,
}

/// Diameter of a full-sized disc, in millimetres: discs of 10 kg and more in the competition rules
/// of weightlifting.
const FULL_MM: f32 = 450.0;

/// Usual diameter of a disc in millimetres, from this many kilograms up.
///
/// 10 kg and more: competition rules. 5 kg and below: the same rules, from memory. Between them:
/// common practice, no source.
const USUAL_DIAMETER: [(f64, f32); 7] = [
    // Discs of 25 lb and 45 lb count as full-sized, and a 10 lb disc (4.54 kg) counts as a 5 kg
    // disc.
    (9.9, FULL_MM),
    (7.0, 320.0),
    (4.5, 230.0),
    (2.2, 210.0),
    (1.9, 190.0),
    (1.4, 175.0),
    (0.9, 160.0),
];
/// Diameter of the smallest discs in millimetres, from memory.
const LEAST_DIAMETER: f32 = 135.0;

/// Diameter and thickness of a disc, in millimetres.
fn size(mass: Mass, sizes: &[PlateSize]) -> (f32, f32) {
    let mm = |n: u32| f32::from(u16::try_from(n).unwrap_or(u16::MAX));
    if let Some(size) = sizes.iter().find(|size| size.mass == mass) {
        return (mm(size.diameter_mm), mm(size.thickness_mm));
    }
    let usual = USUAL_DIAMETER.iter().find(|(from, _)| mass.kg_f64() >= *from);
    let diameter = usual.map_or(LEAST_DIAMETER, |(_, diameter)| *diameter);
    (diameter, mm(Plate::unlimited(mass).thickness()))
}

/// The colours of competition discs: 25 and 2.5 kg red; 20 and 2 kg blue; 15 and 1.5 kg yellow; 10
/// and 1 kg green; 5 and 0.5 kg white (rules of the weightlifting federation, quoted elsewhere).
/// Other discs are white here.
fn colour(mass: Mass) -> Ink {
    let colours = [(25, Ink::Red), (20, Ink::Blue), (15, Ink::Yellow), (10, Ink::Green)];
    let is = |kg: i64| Mass::from_kg(kg) == mass || Mass::from_kg(kg) == mass * 10;
    colours.into_iter().find(|(kg, _)| is(*kg)).map_or(Ink::White, |(_, ink)| ink)
}

/// Widths in points of the bar inside its shoulder, the shoulder, the end of the sleeve and a
/// collar. They are not to scale.
const SHAFT: f32 = 3.5;
const SHOULDER: f32 = 1.6;
const END: f32 = 5.0;
const COLLAR: f32 = 3.0;
/// Gap between discs, in points.
const GAP: f32 = 0.7;
/// Thickness of the sleeve, in points.
const SLEEVE: f32 = 2.2;
/// Space before and after a mass, in points.
const WORDS: f32 = 1.0;
/// Space above a mass, in points.
const DROP: f32 = 0.4;
/// Least height in points of a full-sized disc with its mass below it.
const LEAST_LABELLED: f32 = 16.0;
/// Least height in points of a full-sized disc; a smaller drawing would be unreadable.
const LEAST_HEIGHT: f32 = 12.0;
/// Height in points below which thicknesses are drawn at twice the scale, so that a 1.25 kg disc is
/// still visible on paper.
const SMALL: f32 = 60.0;

/// Draws one sleeve from the side: the bar on the left, then the discs, heaviest first, as they are
/// loaded. `None` if there is no loaded bar.
///
/// All diameters have the same scale (`look.height` is [`FULL_MM`]), so drawings with the same
/// `look` can be compared. Thicknesses have the same scale too, or twice that scale in small
/// drawings. With masses, discs are slightly smaller and further apart, each above the middle of
/// its mass. If `look` has too little room for masses, they are left out; if it is still too
/// narrow, all discs become thinner by the same factor.
///
/// The fragment is as wide as it needs to be and `look.height` high. There is none if that is too
/// low to distinguish discs. List the plates as text too, because screen readers do not read the
/// drawing.
#[must_use]
pub fn draw(built: &Built, look: &PlateStyle<'_>) -> Option<Fragment> {
    let Implement::Bar { per_side, collars, .. } = &built.how else {
        return None;
    };
    if per_side.is_empty() || look.height < LEAST_HEIGHT {
        return None;
    }
    let texts: Vec<Fragment> = match look.masses {
        Some((unit, style, numbers)) => {
            let text = |mass: &Mass| line(&numbers.spell(&mass.in_unit(unit).to_string()), style);
            per_side.iter().map(text).collect()
        }
        None => vec![Fragment::default(); per_side.len()],
    };
    // Below the largest disc, so that no mass is on a disc.
    let below = texts.iter().map(|text| text.h + DROP).fold(0.0, f32::max);
    let high = if look.masses.is_some() { look.height - below } else { look.height };
    let discs: Vec<(f32, f32)> =
        per_side.iter().map(|mass| size(*mass, look.discs.sizes)).collect();
    let biggest = discs.iter().map(|(across, _)| *across).fold(FULL_MM, f32::max);
    let scale = high / biggest;
    let stretch = if high < SMALL { 2.0 } else { 1.0 };
    let clamp = if *collars == Mass::ZERO { 0.0 } else { COLLAR };
    let thick: f32 = discs.iter().map(|(_, thick)| thick * scale * stretch).sum();
    let room = look.width - SHAFT - SHOULDER - END - clamp - GAP * count(discs.len());
    // If a disc is thinner than its mass is wide, the sleeve is visible on both sides of it.
    let slack = |thick: f32, text: &Fragment| (text.w + 2.0 * WORDS - thick).max(0.0);
    let bare: f32 =
        discs.iter().zip(&texts).map(|((_, mm), text)| slack(mm * scale * stretch, text)).sum();
    if look.masses.is_some() && (high < LEAST_LABELLED || room < thick + bare) {
        return draw(built, &PlateStyle { masses: None, ..*look });
    }
    let squeeze = (room / thick).clamp(0.0, 1.0) * stretch;

    let middle = high / 2.0;
    let mut x = SHAFT + SHOULDER;
    let mut masses = Fragment::default();
    let mut rects = Vec::new();
    for ((across, thick), text) in discs.into_iter().zip(texts) {
        let (w, h) = (thick * scale * squeeze, across * scale);
        let aside = if look.masses.is_some() { slack(w, &text) / 2.0 } else { 0.0 };
        x += GAP + aside;
        rects.push(Rect::new(x, middle - h / 2.0, w, h));
        if look.masses.is_some() {
            let left = x + (w - text.w) / 2.0;
            masses.put(text, left, high + DROP);
        }
        x += w + aside;
    }
    let mut out = Fragment::space(x + END + clamp, look.height);
    let mut bar = |x: f32, w: f32, h: f32| {
        let rect = Rect::new(x, middle - h / 2.0, w, h);
        out.draw(Shape::Rectangle {
            rect,
            stroke: None,
            fill: Some(Ink::Black),
            role: Role::Plate,
        });
    };
    bar(0.0, SHAFT, 1.6);
    bar(SHAFT, SHOULDER, 5.0);
    bar(SHAFT + SHOULDER, x - SHAFT - SHOULDER + END + clamp, SLEEVE);
    if clamp > 0.0 {
        bar(x + GAP, clamp - GAP, 7.0);
    }
    for (rect, mass) in rects.into_iter().zip(per_side) {
        let fill = Some(if look.discs.colours { colour(*mass) } else { Ink::White });
        let stroke = Some((0.8, Ink::Black));
        out.draw(Shape::Rectangle { rect, stroke, fill, role: Role::Plate });
    }
    out.items.extend(masses.items);
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::sample::{kg, lb, set};

    fn bar(plates: &[&str]) -> Built {
        set("5").barbell(plates).load.unwrap()
    }

    const LOOK: PlateStyle<'static> = PlateStyle {
        height: 100.0,
        width: 300.0,
        masses: Some((Unit::Kg, Style::regular(8.0), Numbers::ENGLISH)),
        discs: Discs { sizes: &[], colours: false },
    };

    fn discs(drawing: &Fragment) -> Vec<(Rect, Ink)> {
        let disc = |item: &Shape| match item {
            Shape::Rectangle { rect, fill: Some(ink), stroke: Some(_), .. } => Some((*rect, *ink)),
            _ => None,
        };
        drawing.items.iter().filter_map(disc).collect()
    }

    fn texts(drawing: &Fragment) -> Vec<(Rect, String)> {
        let text = |item: &Shape| match item {
            Shape::Text { text, .. } => Some((item.bounds()?, text.clone())),
            _ => None,
        };
        drawing.items.iter().filter_map(text).collect()
    }

    /// 450 mm: competition rules of weightlifting [S2]; 230 and 160 mm from memory [M];
    /// thicknesses: common practice, no source.
    #[test]
    fn discs_are_to_scale_heaviest_inside() {
        let drawing = draw(&bar(&["20", "5", "1.25"]), &LOOK).unwrap();
        let discs: Vec<Rect> = discs(&drawing).into_iter().map(|(rect, _)| rect).collect();
        let scale = discs[0].h / 450.0;
        for (disc, (across, thick)) in
            discs.iter().zip([(450.0, 38.0), (230.0, 22.0), (160.0, 14.0)])
        {
            assert!(
                (disc.h - across * scale).abs() < 0.01 && (disc.w - thick * scale).abs() < 0.01
            );
        }
        assert!(discs.windows(2).all(|pair| pair[0].right() < pair[1].x));
        // A gym's own sizes override the usual ones.
        let size = PlateSize { mass: kg("5"), diameter_mm: 450, thickness_mm: 26 };
        let drawing = draw(
            &bar(&["5"]),
            &PlateStyle { discs: Discs { sizes: &[size], colours: false }, ..LOOK },
        )
        .unwrap();
        assert!((discs_of(&drawing)[0].w - 26.0 * scale).abs() < 0.01);
    }

    fn discs_of(drawing: &Fragment) -> Vec<Rect> {
        discs(drawing).into_iter().map(|(rect, _)| rect).collect()
    }

    #[test]
    fn each_disc_has_its_mass_and_none_overlap() {
        for plates in [
            &["25"; 28][..],
            &["20", "5", "2.5", "1.25"],
            &["0.5"],
            &["20", "20", "10", "1.25", "1.25"],
        ] {
            let drawing = draw(&bar(plates), &LOOK).unwrap();
            let found = texts(&drawing);
            let words: Vec<&str> = found.iter().map(|(_, text)| text.as_str()).collect();
            if plates.len() > 10 {
                // More than there is room for: all discs, no masses.
                assert!(words.is_empty() && discs(&drawing).len() == plates.len());
                assert!(drawing.w <= LOOK.width + 0.01);
                continue;
            }
            assert_eq!(words, plates);
            for pair in found.windows(2) {
                assert!(pair[0].0.right() + 2.0 < pair[1].0.x, "{plates:?}: {found:?}");
            }
            for (rect, text) in &found {
                assert!(rect.x >= 0.0 && rect.right() <= drawing.w + 0.01, "{text} of {plates:?}");
                assert!(rect.bottom() <= LOOK.height, "{text}: {rect:?}");
            }
            for ((rect, text), disc) in found.iter().zip(discs_of(&drawing)) {
                let off = (rect.x + rect.w / 2.0) - (disc.x + disc.w / 2.0);
                assert!(off.abs() < 0.1 && disc.bottom() < rect.y, "{text} stands below its disc");
            }
        }
    }

    /// The federation's table of colours [S2].
    #[test]
    fn colours_are_those_of_the_competition_rules() {
        let look = PlateStyle { discs: Discs { colours: true, ..LOOK.discs }, ..LOOK };
        let inks = |built: &Built| -> Vec<Ink> {
            discs(&draw(built, &look).unwrap()).into_iter().map(|(_, ink)| ink).collect()
        };
        let all = ["25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5", "1.25"];
        let [red, blue, yellow] = [Ink::Red, Ink::Blue, Ink::Yellow];
        let [green, white] = [Ink::Green, Ink::White];
        let ten = [red, blue, yellow, green, white].repeat(2);
        assert_eq!(inks(&bar(&all)), [ten, vec![white]].concat());
        let pounds = set("5").bar(lb("45"), vec![lb("45"), lb("25")]).load.unwrap();
        assert_eq!(inks(&pounds), [white, white]);
    }

    #[test]
    fn masses_are_in_the_numbers_of_the_language() {
        let masses =
            Some((Unit::Kg, Style::regular(8.0), Numbers { decimal: ',', ..Numbers::ENGLISH }));
        let drawing = draw(&bar(&["5", "2.5"]), &PlateStyle { masses, ..LOOK }).unwrap();
        assert_eq!(texts(&drawing).last().unwrap().1, "2,5");
    }

    #[test]
    fn what_would_be_a_blot_is_not_drawn() {
        assert!(draw(&bar(&["20"]), &PlateStyle { height: 11.0, masses: None, ..LOOK }).is_none());
        let low = draw(&bar(&["20"]), &PlateStyle { height: 20.0, ..LOOK }).unwrap();
        assert!(texts(&low).is_empty() && !discs(&low).is_empty());
    }

    #[test]
    fn only_a_loaded_bar_is_drawn() {
        assert!(draw(&bar(&[]), &LOOK).is_none());
        assert!(draw(&set("5").body("10").load.unwrap(), &LOOK).is_none());
    }
}
