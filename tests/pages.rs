//! The look of the cards: a few pages as grey images, compared with references in `pages/`.
//!
//! The pages are drawn by `pdftoppm` (Debian: `apt install poppler-utils`). If it is not installed,
//! the comparison is skipped with a message; with `SETWRIGHT_TOOLS=required` it fails.
//!
//! After an intended change of the card,
//!
//! ```text
//! SETWRIGHT_ACCEPT_PAGES=1 cargo test --test pages
//! ```
//!
//! writes the references again. Look at them (any image viewer reads PGM) before you commit them.
//! Images of the differences are written under `target/tmp`.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::disallowed_methods,
    reason = "tests may fail loudly and stand at the edge"
)]

#[path = "pages/backends.rs"]
mod backends;

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use setwright::compile::{Choice, compile};
use setwright::plan::{Plan, Selection};
use setwright::resolve::Project;
use setwright::sheets::{CardOptions, Poster, Sheet, Wanted, print};
use setwright::source::FolderLoader;

/// Dots per inch: a card of A5 is 350 x 497 dots, which is below 200 kB without packing.
const RESOLUTION: &str = "60";
/// The same for whole paper: A4 is 331 x 468 dots.
const SMALLER: &str = "40";
/// The largest mean difference of grey, of 255. Another release of the tool smooths edges a little
/// otherwise; a line of text that moves by one dot is above this. Found by trying, no source.
const MOST_MEAN: f64 = 1.0;
/// The largest mean difference in any square of the page: a word that changes is above it.
const MOST_IN_SQUARE: f64 = 16.0;
/// The side of a square, in dots: about a line of text.
const SQUARE: usize = 12;

/// A grey image.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Grey {
    width: usize,
    height: usize,
    dots: Vec<u8>,
}

impl Grey {
    /// Reads a binary PGM of one byte a dot.
    fn read(bytes: &[u8]) -> Option<Self> {
        let mut fields = Vec::new();
        let mut at = 0;
        while fields.len() < 4 {
            let rest = bytes.get(at..)?;
            if rest.first()? == &b'#' {
                at += rest.iter().position(|b| *b == b'\n')? + 1;
                continue;
            }
            let end = rest.iter().position(u8::is_ascii_whitespace)?;
            if end > 0 {
                fields.push(std::str::from_utf8(&rest[..end]).ok()?);
            }
            at += end + 1;
        }
        let [kind, width, height, most] = fields.as_slice() else { return None };
        let (width, height): (usize, usize) = (width.parse().ok()?, height.parse().ok()?);
        let dots = bytes.get(at..)?.to_vec();
        let fits = *kind == "P5" && *most == "255" && dots.len() == width * height;
        fits.then_some(Self { width, height, dots })
    }

    fn write(&self) -> Vec<u8> {
        let mut bytes = format!("P5\n{} {}\n255\n", self.width, self.height).into_bytes();
        bytes.extend(&self.dots);
        bytes
    }

    /// The mean difference of the page, and the largest of its squares with where it stands.
    #[allow(clippy::cast_precision_loss, reason = "a page has few dots")]
    fn difference(&self, other: &Self) -> (f64, f64, (usize, usize)) {
        let across = self.width.div_ceil(SQUARE);
        let mut sums = vec![(0_u32, 0_u32); across * self.height.div_ceil(SQUARE)];
        for (at, (a, b)) in self.dots.iter().zip(&other.dots).enumerate() {
            let (x, y) = (at % self.width / SQUARE, at / self.width / SQUARE);
            let (sum, count) = &mut sums[y * across + x];
            *sum += u32::from(a.abs_diff(*b));
            *count += 1;
        }
        let all: u32 = sums.iter().map(|(sum, _)| sum).sum();
        let means = sums.iter().map(|(sum, count)| f64::from(*sum) / f64::from((*count).max(1)));
        let (at, most) = means.enumerate().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or_default();
        let place = (at % across * SQUARE, at / across * SQUARE);
        (f64::from(all) / self.dots.len().max(1) as f64, most, place)
    }

    /// What is wrong with `self` as a picture of `reference`, if anything.
    fn compare(&self, reference: &Self) -> Result<(), String> {
        if (self.width, self.height) != (reference.width, reference.height) {
            return Err(format!(
                "the page is {} x {} dots, its reference {} x {}",
                self.width, self.height, reference.width, reference.height
            ));
        }
        let (mean, most, (x, y)) = self.difference(reference);
        if mean > MOST_MEAN || most > MOST_IN_SQUARE {
            return Err(format!(
                "the mean difference is {mean:.2} (at most {MOST_MEAN}), {most:.1} about dot {x}, {y} \
                 (at most {MOST_IN_SQUARE})"
            ));
        }
        Ok(())
    }
}

fn is_set(name: &str, value: &str) -> bool {
    std::env::var(name).is_ok_and(|found| found == value)
}

fn has_tool() -> bool {
    let run =
        Command::new("pdftoppm").arg("-v").stdout(Stdio::null()).stderr(Stdio::null()).status();
    run.is_ok_and(|status| status.success())
}

/// An athlete's plan for a day of week one.
fn plan(path: &str, athlete: &str, day: &str) -> Plan {
    let plan = open(path, &only(athlete));
    plan.select(&Selection { weeks: vec![(1, 1)], days: vec![day.to_owned()] })
}

fn only(athlete: &str) -> Choice {
    Choice { athletes: vec![athlete.to_owned()], ..Choice::default() }
}

/// The plan of an example.
fn open(path: &str, choice: &Choice) -> Plan {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(path);
    let loader = FolderLoader::new(file.parent().unwrap());
    let project = Project::open(&loader, file.file_name().unwrap().to_str().unwrap()).unwrap();
    compile(project, choice).unwrap().plan.unwrap()
}

/// The first page of a plan's cards.
fn page(plan: &Plan) -> Grey {
    sheet(plan, &Wanted::default(), RESOLUTION)
}

/// The first page of a sheet.
fn sheet(plan: &Plan, wanted: &Wanted, resolution: &str) -> Grey {
    let folder = tempfile::tempdir().unwrap();
    let pdf = folder.path().join("card.pdf");
    std::fs::write(&pdf, print(plan, wanted, &CardOptions::default()).unwrap().bytes).unwrap();
    let output = Command::new("pdftoppm")
        .args(["-r", resolution, "-gray", "-f", "1", "-l", "1"])
        .arg(&pdf)
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    Grey::read(&output.stdout).expect("a grey image")
}

/// Where a page that differs is left for the eye.
fn left(name: &str) -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join(name)
}

fn compare(name: &str, path: &str, athlete: &str, day: &str) {
    compare_with(name, || page(&plan(path, athlete, day)));
}

/// Compares the first page of a sheet of the rowing club: whole paper, in fewer dots.
fn compare_sheet(name: &str, sheet_of: Sheet, choice: &Choice, selection: &Selection) {
    let plan = open("rowing-club/winter.sets", choice).select(selection);
    let exercise = &plan.athletes[0].sessions[0].exercises[0];
    let poster = Poster {
        name: exercise.name.clone(),
        setup: exercise.setup.clone(),
        cues: exercise.cues.clone(),
        safety: exercise.safety.clone(),
        demo: exercise.demo.clone(),
    };
    let wanted = Wanted { sheets: vec![sheet_of], posters: vec![poster] };
    compare_with(name, || sheet(&plan, &wanted, SMALLER));
}

fn compare_with(name: &str, draw: impl FnOnce() -> Grey) {
    if !has_tool() {
        assert!(!is_set("SETWRIGHT_TOOLS", "required"), "pdftoppm is required and not installed");
        eprintln!("{name}: skipped, for pdftoppm is not installed (poppler-utils)");
        return;
    }
    let found = draw();
    let at = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pages").join(format!("{name}.pgm"));
    if is_set("SETWRIGHT_ACCEPT_PAGES", "1") {
        let bytes = found.write();
        assert!(bytes.len() < 200_000, "{name} has {} bytes: draw it smaller", bytes.len());
        std::fs::write(at, bytes).unwrap();
        return;
    }
    let again = "if the change is meant: SETWRIGHT_ACCEPT_PAGES=1 cargo test --test pages";
    let bytes = std::fs::read(&at).unwrap_or_else(|e| panic!("{}: {e}; {again}", at.display()));
    let reference = Grey::read(&bytes).expect("a grey image");
    if let Err(why) = found.compare(&reference) {
        std::fs::write(left(&format!("{name}.pgm")), found.write()).unwrap();
        let mut differs = reference.clone();
        for (dot, new) in differs.dots.iter_mut().zip(&found.dots) {
            *dot = 255 - dot.abs_diff(*new);
        }
        std::fs::write(left(&format!("{name}-differs.pgm")), differs.write()).unwrap();
        panic!(
            "{name} looks otherwise: {why}\n  reference {}\n  page      {}\n  differs   {}\n{again}",
            at.display(),
            left(&format!("{name}.pgm")).display(),
            left(&format!("{name}-differs.pgm")).display()
        );
    }
}

#[test]
fn first_steps() {
    compare("first-steps", "first-steps/programme.sets", "Robin Vale", "Whole body");
}

#[test]
fn rowing_club() {
    compare("rowing-club", "rowing-club/winter.sets", "Wren Tallow", "Catch");
}

#[test]
fn home_kettlebells() {
    let path = "home-kettlebells/programme.sets";
    compare("home-kettlebells", path, "Isolde Fennimark", "Hinge and press");
}

#[test]
fn block_sheet() {
    compare_sheet("block", Sheet::Block, &only("Wren Tallow"), &Selection::default());
}

#[test]
fn rack_sheet() {
    let selection = Selection { weeks: vec![(1, 1)], days: vec!["Catch".to_owned()] };
    compare_sheet("rack", Sheet::Rack, &Choice::default(), &selection);
}

#[test]
fn overview() {
    compare_sheet("overview", Sheet::Overview, &only("Wren Tallow"), &Selection::default());
}

#[test]
fn wall_card() {
    compare_sheet("wall", Sheet::Wall, &only("Wren Tallow"), &Selection::default());
}

/// A word that changes is seen, at the size it is printed in; a single digit is not. Digits are
/// the business of `tests/programmes.rs`.
#[test]
fn a_word_that_changes_is_seen() {
    if !has_tool() {
        return;
    }
    let mut plan = plan("first-steps/programme.sets", "Robin Vale", "Whole body");
    let before = page(&plan);
    assert_eq!(page(&plan).compare(&before), Ok(()));
    plan.athletes[0].sessions[0].exercises[1].name = "Bent-over pull".to_owned();
    assert!(page(&plan).compare(&before).is_err());
}

/// A page with lines of "text": bars of dots, every other one dark.
fn sample() -> Grey {
    let (width, height) = (372, 527);
    let dark = |at: usize| {
        let (x, y) = (at % width, at / width);
        (y % 12 < 5) && (x * 7 + y * 3) % 5 < 2 && (30..340).contains(&x) && (30..500).contains(&y)
    };
    let dots = (0..width * height).map(|at| if dark(at) { 40 } else { 255 }).collect();
    Grey { width, height, dots }
}

#[test]
fn the_comparison_forgives_smoothing_and_sees_what_moves() {
    let page = sample();
    assert_eq!(Grey::read(&page.write()), Some(page.clone()));
    assert!(page.compare(&page).is_ok());
    let mut smoothed = page.clone();
    for dot in smoothed.dots.iter_mut().step_by(9) {
        *dot = dot.saturating_sub(6);
    }
    assert!(smoothed.compare(&page).is_ok());
    // All of it one dot lower.
    let mut moved = page.clone();
    moved.dots.rotate_right(page.width);
    assert!(moved.compare(&page).is_err());
    // One line of text less.
    let mut bare = page.clone();
    for dot in &mut bare.dots[page.width * 204..page.width * 216] {
        *dot = 255;
    }
    assert!(bare.compare(&page).is_err());
    let cut = Grey { height: page.height - 1, ..page.clone() };
    assert!(cut.compare(&page).is_err());
}
