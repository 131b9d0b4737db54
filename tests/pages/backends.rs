//! SVG and PNG show the same page as the PDF: each is drawn by another program, and the images are
//! compared.

use std::process::Command;

use setwright::sheets::{CardOptions, Picture, card_pictures, cards};

use super::{Grey, is_set, left, plan};

/// Drawn finely, then compared coarsely: `pdftoppm` sets lines on whole dots, others do not.
const DOTS: u16 = 360;
const COARSER: usize = 6;
/// The largest mean difference of grey, of 255, and the largest in a square of a line's height.
/// Programs smooth edges differently, and `pdftoppm` stands half a dot off. Found by trying, no
/// source: a page measures up to 2.9 and 15, moved by a third of a point 7 and more.
const MOST: (f64, f64) = (4.0, 20.0);

/// Runs an outside tool; `None`, with a word about it, when it is not installed.
fn tool(name: &str, arguments: &[&str]) -> Option<Vec<u8>> {
    match Command::new(name).args(arguments).output() {
        Ok(output) => {
            assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
            Some(output.stdout)
        }
        Err(error) => {
            assert!(!is_set("SETWRIGHT_TOOLS", "required"), "{name} is required here: {error}");
            eprintln!("skipped: {name} is not installed");
            None
        }
    }
}

/// The dots of a PNG as grey, on white.
fn grey(bytes: &[u8]) -> Grey {
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
    let mut data = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut data).unwrap();
    let size = info.color_type.samples();
    let dots = data[..info.buffer_size()].chunks(size).map(|dot| match dot {
        [grey] | [grey, 255] => *grey,
        [_, 0] | [_, _, _, 0] => 255,
        [red, green, blue, ..] => {
            let sum = u32::from(*red) * 299 + u32::from(*green) * 587 + u32::from(*blue) * 114;
            u8::try_from((sum + 500) / 1000).unwrap()
        }
        _ => 255,
    });
    let (width, height) = (info.width as usize, info.height as usize);
    Grey { width, height, dots: dots.collect() }
}

/// The same page in fewer dots. A last row or column that is not whole is left out: programs round
/// the size of a page differently.
fn coarser(page: &Grey) -> Grey {
    let (width, height) = (page.width / COARSER, page.height / COARSER);
    let mean = |at: usize| {
        let (x, y) = (at % width * COARSER, at / width * COARSER);
        let rows = (y..y + COARSER).map(|y| &page.dots[y * page.width + x..][..COARSER]);
        let sum: usize = rows.flatten().map(|dot| usize::from(*dot)).sum();
        u8::try_from(sum / (COARSER * COARSER)).unwrap()
    };
    Grey { width, height, dots: (0..width * height).map(mean).collect() }
}

fn alike(name: &str, found: &Grey, reference: &Grey) {
    let (found, reference) = (coarser(found), coarser(reference));
    assert_eq!((found.width, found.height), (reference.width, reference.height), "{name}");
    let (mean, most, (x, y)) = found.difference(&reference);
    if mean > MOST.0 || most > MOST.1 {
        std::fs::write(left(&format!("{name}.pgm")), found.write()).unwrap();
        std::fs::write(left(&format!("{name}-pdf.pgm")), reference.write()).unwrap();
        panic!(
            "{name} is not the page of the PDF: the mean difference is {mean:.2} (at most {}), \
             {most:.1} about dot {x}, {y} (at most {})",
            MOST.0, MOST.1
        );
    }
}

#[test]
fn every_format_draws_the_same_page() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let dots = DOTS.to_string();
    for (athlete, plate_colours) in [("Wren Tallow", false), ("Žofie Ďurková-Łęska", true)] {
        let plan = plan("rowing-club/winter.sets", athlete, "Drive");
        let options = CardOptions { plate_colours, ..CardOptions::default() };
        std::fs::write(at("card.pdf"), cards(&plan, &options).unwrap().bytes).unwrap();
        let arguments = ["-r", &dots, "-gray", "-singlefile", &at("card.pdf")];
        let Some(pdf) = tool("pdftoppm", &arguments) else { return };
        let pdf = Grey::read(&pdf).unwrap();

        let drawn = |picture| card_pictures(&plan, &options, picture).unwrap().pages.remove(0);
        alike("png", &grey(&drawn(Picture::Png(DOTS))), &pdf);

        let svg = drawn(Picture::Svg);
        std::fs::write(at("card.svg"), &svg).unwrap();
        let arguments = ["-d", &dots, "-p", &dots, &at("card.svg")];
        let Some(png) = tool("rsvg-convert", &arguments) else { continue };
        alike("svg", &grey(&png), &pdf);
        // What is drawn is also said.
        let svg = String::from_utf8(svg).unwrap();
        assert!(svg.contains("xml:lang=\"en\"") && svg.contains(&format!("<desc>{athlete}\n")));
    }
}
