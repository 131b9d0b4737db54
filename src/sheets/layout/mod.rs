//! A small layout library: measured text, boxes, grids, blocks that stay together, page flow.
//!
//! Every function returns a [`Fragment`] that is already laid out. [`flow`](flow()) distributes
//! fragments over pages, and the result is a display list of [`Page`]s in points. This module is
//! independent of training and of PDF.

mod display;
mod face;
mod flow;
mod fragment;
mod outline;
mod text;

pub use display::{Ink, Page, Rect, Role, Shape, Style};
pub use face::Face;
pub use flow::{Block, Column, Row, Tied, flow};
pub use fragment::{Fragment, beside, count, stack};
pub use outline::Segment;
pub use text::{Align, StyledText, is_set, line, lines, lines_in, width};
