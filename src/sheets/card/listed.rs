//! Sets that differ: a line for each run of equal sets, and the plates of the heaviest.

use crate::plan::Built;
use crate::quantity::Mass;
use crate::sheets::layout::{Fragment, stack};
use crate::sheets::plates::{PlateStyle, draw};
use crate::sheets::runs::Run;

use super::parts::inked;
use super::target::{CardTarget, own_details};
use super::work::{Boxes, CLEAR, LEAST_DRAWING, ReadPiece, TargetColumn, Work};

/// The lines of one run.
struct SetList<'a> {
    lines: Vec<Fragment>,
    /// How far their text extends.
    reach: f32,
    /// The bar that may be drawn next to them.
    bar: Option<&'a Built>,
}

impl<'a> SetList<'a> {
    fn new(lines: Vec<Fragment>, bar: Option<&'a Built>) -> Self {
        let reach = lines.iter().map(|line| inked(line).0).fold(0.0, f32::max);
        Self { lines, reach, bar }
    }

    /// Height available for a drawing, with a little space between it and the next.
    fn height(&self) -> f32 {
        self.lines.iter().map(|line| line.h).sum::<f32>() - 2.0
    }
}

impl Work<'_> {
    /// A line for each run, with its small print next to it if it fits.
    pub(super) fn listed(&self) -> TargetColumn {
        let m = self.metrics;
        let most = self.runs.iter().filter_map(|run| Some(bar(run)?.mass)).max();
        let listings = self.listings(most);
        let room = |listing: &SetList<'_>| m.right - CLEAR - listing.reach;
        // All drawings have the scale of the heaviest, so that they can be compared.
        let heaviest = listings
            .iter()
            .filter(|listing| room(listing) >= LEAST_DRAWING)
            .find(|listing| most.is_some() && listing.bar.map(|bar| bar.mass) == most);
        let look = heaviest.map(|listing| self.look(listing.height(), room(listing)));
        let drawn = |listing: &SetList<'_>, look: Option<PlateStyle<'_>>| {
            let look = look.filter(|look| listing.height() + 0.1 >= look.height)?;
            draw(listing.bar?, &look).filter(|drawing| drawing.w <= room(listing))
        };
        let drawn = |look| -> Vec<Option<Fragment>> {
            listings.iter().map(|listing| drawn(listing, look)).collect()
        };
        // Either all bars or none have masses next to the discs, so that bars can be compared.
        let bare = drawn(look.map(|look| PlateStyle { masses: None, ..look }));
        let told = drawn(look);
        let says = |drawing: &Option<Fragment>| {
            drawing.as_ref().is_some_and(|drawing| !inked(drawing).1.is_empty())
        };
        let all = bare.iter().zip(&told).all(|(bare, told)| bare.is_none() || says(told));
        let drawings = if all { told } else { bare };
        // All bars start at the same x position.
        let widest = drawings.iter().flatten().map(|drawing| drawing.w).fold(0.0, f32::max);
        let mut lines: Vec<ReadPiece> = Vec::new();
        for (listing, drawing) in listings.into_iter().zip(drawings) {
            match drawing {
                // A drawing next to several lines keeps them together.
                Some(drawing) => {
                    let mut all = ReadPiece::new(stack(listing.lines, 0.0));
                    all.piece.put(drawing, (m.right - widest).max(listing.reach + CLEAR), 0.5);
                    lines.push(all);
                }
                None => lines.extend(listing.lines.into_iter().map(ReadPiece::new)),
            }
        }
        let aside = self.beside().then(|| self.rpe_box());
        let mut lines = lines.into_iter();
        let first = lines.next();
        TargetColumn { first, below: lines.collect(), aside, bare: true, ..TargetColumn::default() }
    }

    /// The lines of each run. Small print moves below to make room for the plates of the heaviest,
    /// and of the others too if the card has room.
    fn listings(&self, most: Option<Mass>) -> Vec<SetList<'_>> {
        let m = self.metrics;
        let one_each = self.runs.iter().all(|run| run.count == 1);
        let max = self.target_w();
        let mut out: Vec<SetList<'_>> = Vec::new();
        let mut before: Option<&Built> = None;
        for run in self.runs {
            let sets = match self.boxes {
                Boxes::PerSet if one_each => Some(0),
                Boxes::PerSet => Some(run.count),
                Boxes::Rounds(_) | Boxes::None => None,
            };
            let mut target = CardTarget::new(self.wording, run, sets);
            target.lead_with(own_details(self.wording, self.runs, run, self.rest_told));
            // Equal bars are drawn once.
            let bar = bar(run).filter(|bar| !self.beside() && before != Some(*bar));
            before = run.set.load.as_ref();
            let worth = bar.is_some_and(|bar| m.every_bar || Some(bar.mass) == most);
            let drawn = worth.then(|| SetList::new(self.lines(&target, max, false), bar));
            let drawn = drawn.filter(|it| it.reach + CLEAR + LEAST_DRAWING <= m.right);
            out.push(drawn.unwrap_or_else(|| SetList::new(self.lines(&target, max, true), bar)));
        }
        out
    }
}

/// The bar of a run, if it has plates on it.
fn bar<'a>(run: &Run<'a>) -> Option<&'a Built> {
    run.set.load.as_ref().filter(|_| !run.set.plates_per_side().is_empty())
}
