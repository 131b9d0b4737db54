//! A scale drawing of the plates on one sleeve.

use crate::plan::Built;
use crate::plan::Implement;
use crate::quantity::Mass;

use super::layout::{Fragment, Ink, Item, Rect, Role};

/// How big plates are drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// The height of the biggest plate, in points.
    pub height: f32,
    /// The most that the drawing may be wide.
    pub width: f32,
}

/// A plate's diameter in millimetres.
///
/// Discs of 10 kg and more are 450 mm across by the competition rules of weightlifting. Below
/// that, discs differ from maker to maker: these are common practice, without a source.
fn diameter(mass: Mass) -> f32 {
    match mass.kg_f64() {
        // A 25 lb and a 45 lb disc count as full-sized, a 10 lb disc (4.54 kg) as a 5 kg disc.
        kg if kg >= 9.9 => 450.0,
        kg if kg >= 7.0 => 320.0,
        kg if kg >= 4.5 => 260.0,
        kg if kg >= 2.2 => 210.0,
        kg if kg >= 1.1 => 165.0,
        _ => 135.0,
    }
}

/// A plate's thickness in millimetres: grows with its mass (common practice, without a source).
#[allow(clippy::cast_possible_truncation, reason = "drawing only")]
fn thickness(mass: Mass) -> f32 {
    (13.0 + 1.7 * mass.kg_f64().clamp(0.0, 30.0)) as f32
}

/// Draws one sleeve from the side: the collar of the bar at the left, the heaviest plate inside.
/// `None` for what is not a loaded bar.
#[must_use]
pub fn sleeve(built: &Built, scale: Scale) -> Option<Fragment> {
    let Implement::Bar { per_side, collars, .. } = &built.how else {
        return None;
    };
    if per_side.is_empty() {
        return None;
    }
    // The bar before its shoulder, the shoulder, the plates, the end of the sleeve.
    let (shaft, shoulder, end) = (3.5, 1.6, 5.0);
    let gap = 0.7;
    let mm = scale.height / 450.0;
    // Lengths along the bar are drawn at twice the scale of diameters, so that a 1.25 kg plate is
    // still a plate on paper; where many do not fit, all become thinner alike.
    let thick: Vec<f32> = per_side.iter().map(|mass| thickness(*mass) * mm * 2.0).collect();
    let clamp = if *collars == Mass::ZERO { 0.0 } else { 3.0 };
    let gaps = gap * super::layout::count(per_side.len());
    let room = scale.width - shaft - shoulder - end - clamp - gaps;
    let squeeze = (room / thick.iter().sum::<f32>()).min(1.0);

    let middle = scale.height / 2.0;
    let mut out = Fragment::space(0.0, scale.height);
    let mut bar = |x: f32, w: f32, h: f32| {
        let rect = Rect::new(x, middle - h / 2.0, w, h);
        out.draw(Item::Shape { rect, stroke: None, fill: Some(Ink::Black), role: Role::Plate });
    };
    bar(0.0, shaft, 1.6);
    bar(shaft, shoulder, 5.0);
    let mut x = shaft + shoulder;
    let plates: Vec<Rect> = per_side
        .iter()
        .zip(&thick)
        .map(|(mass, thick)| {
            let (w, h) = (thick * squeeze, diameter(*mass) * mm);
            x += gap;
            let rect = Rect::new(x, middle - h / 2.0, w, h);
            x += w;
            rect
        })
        .collect();
    bar(shaft + shoulder, x - shaft - shoulder + end + clamp, 2.2);
    if clamp > 0.0 {
        bar(x + gap, clamp - gap, 7.0);
    }
    for rect in plates {
        let stroke = Some((0.8, Ink::Black));
        out.draw(Item::Shape { rect, stroke, fill: Some(Ink::White), role: Role::Plate });
    }
    out.w = x + end + clamp;
    Some(out)
}
