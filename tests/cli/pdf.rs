//! The PDF as other programs read it: `qpdf`, `pdftotext`, `pdffonts`, `pdftoppm`.
//!
//! Tests report a tool that is not installed; with `SETWRIGHT_TOOLS=required` (continuous
//! integration) they fail.

use super::support::{Bench, example, programme, tool};

fn cards(bench: &Bench, arguments: &[&str]) -> String {
    let file = example("rowing-club/winter.sets");
    let path = bench.path("cards.pdf").to_str().unwrap().to_owned();
    let ran = bench.run(&[&["cards", &file, "-o", &path], arguments].concat());
    assert_eq!(ran.code, 0, "{}", ran.err);
    path
}

#[test]
fn the_pdf_is_sound_and_its_fonts_are_embedded_and_subset() {
    let bench = Bench::new();
    let path = cards(&bench, &["--weeks", "1"]);
    if let Some((sound, _)) = tool("qpdf", &["--check", &path]) {
        assert!(sound, "qpdf --check");
    }
    if let Some((_, fonts)) = tool("pdffonts", &[&path]) {
        let fonts = String::from_utf8(fonts).unwrap();
        let rows: Vec<&str> = fonts.lines().skip(2).collect();
        assert!(!rows.is_empty());
        for row in rows {
            assert_eq!(row.matches(" yes").count(), 3, "{row}");
        }
    }
    if let Some((_, info)) = tool("pdfinfo", &[&path]) {
        let info = String::from_utf8(info).unwrap();
        assert!(info.contains("Title:") && info.contains("Winter water-strength"), "{info}");
        assert!(info.contains("Page size:       419"), "{info}");
        assert!(!info.contains("CreationDate"), "{info}");
    }
}

#[test]
fn the_text_extracts_in_reading_order() {
    let bench = Bench::new();
    let path = cards(&bench, &["--weeks", "1", "--athlete", "Wren Tallow", "--day", "Catch"]);
    let Some((_, text)) = tool("pdftotext", &[&path, "-"]) else { return };
    let text = String::from_utf8(text).unwrap();
    let mut last = 0;
    let text = format!("\n{text}");
    for word in [
        "Wren Tallow",
        "Front squat",
        "Floor press",
        "Rear-foot-raised split squat",
        "Hip thrust",
        "Face pull",
        "Side plank",
        "sharp pain",
    ] {
        let at = text.find(word).unwrap_or_else(|| panic!("{word} is not in\n{text}"));
        assert!(at > last, "{word} comes too early in\n{text}");
        last = at;
    }
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let bench = Bench::new();
    let first = std::fs::read(cards(&bench, &["--weeks", "1-2"])).unwrap();
    let second = std::fs::read(cards(&bench, &["--weeks", "1-2"])).unwrap();
    assert!(first == second);
    let file = example("first-steps/programme.sets");
    let stated = |seconds: &str| {
        let arguments = ["cards", &file, "-o", "-"];
        bench.run_with(&arguments, None, &[("SOURCE_DATE_EPOCH", seconds)])
    };
    let dated = stated("1767571200");
    assert_eq!(dated.code, 0);
    assert!(dated.bytes == stated("1767571200").bytes);
    assert!(dated.bytes != bench.run(&["cards", &file, "-o", "-"]).bytes);
    assert_eq!(stated("soon").code, 2);
    // Images bear no date.
    for format in ["svg", "png"] {
        let arguments = ["cards", &file, "--weeks", "1", "--format", format, "-o", "-"];
        let dated = bench.run_with(&arguments, None, &[("SOURCE_DATE_EPOCH", "1767571200")]);
        assert_eq!(dated.code, 0);
        assert!(dated.bytes == bench.run(&arguments).bytes, "{format}");
    }
}

#[test]
fn every_paper_gives_pages_of_its_size() {
    let bench = Bench::new();
    for (paper, size) in
        [("a4", "595"), ("a5", "419"), ("letter", "612 x 792"), ("half-letter", "396 x 612")]
    {
        let path = cards(&bench, &["--weeks", "8", "--athlete", "Wren Tallow", "--paper", paper]);
        let Some((_, info)) = tool("pdfinfo", &[&path]) else { return };
        let info = String::from_utf8(info).unwrap();
        assert!(info.contains(&format!("Page size:       {size}")), "{paper}: {info}");
    }
}

/// The images that a run wrote, by name.
fn images(bench: &Bench, folder: &str) -> Vec<(String, Vec<u8>)> {
    let files = std::fs::read_dir(bench.path(folder)).unwrap().map(|file| file.unwrap().path());
    let mut files: Vec<(String, Vec<u8>)> = files
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read(path).unwrap())
        })
        .collect();
    files.sort();
    files
}

#[test]
fn images_are_numbered_so_that_they_sort_and_come_out_the_same_twice() {
    let bench = Bench::new();
    let file = example("rowing-club/winter.sets");
    for format in ["svg", "png"] {
        let run = |folder: &str| {
            let arguments = ["cards", &file, "--format", format, "--dpi", "40", "-o", folder];
            let athlete = ["--athlete", "Wren Tallow", "--weeks", "1-4"];
            let ran = bench.run(&[&arguments[..], &athlete].concat());
            assert_eq!(ran.code, 0, "{}", ran.err);
            ran.err
        };
        let said = run(&format!("{format}-a/"));
        assert!(said.contains(&format!("winter-01.{format} … ")), "{said}");
        run(&format!("{format}-b/card"));
        run(&format!("{format}-c/card.{format}"));
        let first = images(&bench, &format!("{format}-a"));
        let names: Vec<&str> = first.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names.len(), 12);
        assert_eq!([names[0], names[11]], ["01", "12"].map(|n| format!("winter-{n}.{format}")));
        for other in ["b", "c"] {
            let second = images(&bench, &format!("{format}-{other}"));
            assert!(first.iter().map(|(_, b)| b).eq(second.iter().map(|(_, b)| b)), "{format}");
            assert_eq!(second[0].0, format!("card-01.{format}"));
        }
    }
}

#[test]
fn images_are_all_there_or_none() {
    let bench = Bench::new();
    let file = example("first-steps/programme.sets");
    let run = |more: &[&str]| bench.run(&[&["cards", &file, "--format", "svg"], more].concat());
    // Several files do not go down one pipe; one does.
    assert_eq!(run(&["-o", "-"]).code, 2);
    let one = run(&["-o", "-", "--weeks", "1"]);
    assert!(one.code == 0 && one.out.starts_with("<svg ") && one.out.ends_with("</svg>\n"));
    // A folder where a file should go: what was there before stays, and no scrap is left.
    bench.write("out/card-1.svg", "before");
    std::fs::create_dir_all(bench.path("out/card-3.svg/x")).unwrap();
    bench.write("plain", "");
    assert_eq!(run(&["-o", "plain/card"]).code, 3);
    assert_eq!(run(&["-o", "out/card"]).code, 3);
    assert_eq!(std::fs::read(bench.path("out/card-1.svg")).unwrap(), b"before");
    let left: Vec<String> = images_names(&bench, "out");
    assert_eq!(left, ["card-1.svg", "card-3.svg"]);
    // One PDF each, but here an image each.
    let ran = run(&["--per-athlete", "-o", "each", "--weeks", "1"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(images_names(&bench, "each"), ["programme-01-robin-vale-1.svg"]);
    assert_eq!(run(&["--dpi", "5"]).code, 2);
}

fn images_names(bench: &Bench, folder: &str) -> Vec<String> {
    let files = std::fs::read_dir(bench.path(folder)).unwrap();
    let mut names: Vec<String> =
        files.map(|file| file.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn sheets_of_several_sizes_share_a_sound_file() {
    let bench = Bench::new();
    let path = cards(
        &bench,
        &[
            "--weeks",
            "1",
            "--athlete",
            "Wren Tallow",
            "--sheet",
            "card,block,rack",
            "--sheet",
            "overview,wall",
        ],
    );
    if let Some((sound, _)) = tool("qpdf", &["--check", &path]) {
        assert!(sound, "qpdf --check");
    }
    let Some((_, info)) = tool("pdfinfo", &["-l", "999", &path]) else { return };
    let info = String::from_utf8(info).unwrap();
    let sizes: Vec<&str> = info
        .lines()
        .filter(|line| line.starts_with("Page ") && line.contains("size:"))
        .map(|line| line.split_once("size:").unwrap().1.trim())
        .collect();
    let count = |size: &str| sizes.iter().filter(|found| found.starts_with(size)).count();
    // Three cards; the days of the block, on its side; racks, an overview, seventeen wall cards.
    assert_eq!(count("419.5"), 3, "{info}");
    assert!(count("841.89 x 595") >= 1, "{info}");
    assert!(count("595.276 x 841.89") >= 20, "{info}");
    assert!(info.contains("Winter water-strength: sheets"), "{info}");
}

/// What a sheet says, in the order of its text.
fn text_of(sheet: &str, arguments: &[&str]) -> Option<String> {
    let bench = Bench::new();
    let path = cards(&bench, &[&["--sheet", sheet], arguments].concat());
    let (_, text) = tool("pdftotext", &[&path, "-"])?;
    Some(String::from_utf8(text).unwrap())
}

fn in_order(text: &str, words: &[&str]) {
    let mut last = 0;
    for word in words {
        let at = text.get(last..).and_then(|rest| rest.find(word));
        last += at.unwrap_or_else(|| panic!("{word} does not come in its place in\n{text}"));
    }
}

#[test]
fn the_other_sheets_extract_in_reading_order() {
    let wren = ["--athlete", "Wren Tallow", "--weeks", "1-4"];
    let Some(block) = text_of("block", &wren) else { return };
    in_order(
        &block,
        &["Wren Tallow", "Block sheet", "Base", "Week 1", "Catch", "Front squat", "sharp pain"],
    );
    let rack = text_of("rack", &["--weeks", "1", "--day", "Catch"]).unwrap();
    in_order(
        &rack,
        &["Catch", "Rack sheet", "Limit", "Front squat", "Rack 1", "Bench press", "Floor press"],
    );
    let overview = text_of("overview", &wren).unwrap();
    in_order(&overview, &["Wren Tallow", "Volume load", "Average intensity", "Deadlift", "Glutes"]);
    let wall = text_of("wall", &["--exercise", "Front squat"]).unwrap();
    in_order(&wall, &["Front squat", "Set-up", "Elbows up", "Safety", "kg bar", "sharp pain"]);
}

/// A coach mails these: a card costs less than 4 kB beyond the fonts, which every file has once.
#[test]
fn a_card_costs_less_than_four_kilobytes() {
    let bench = Bench::new();
    let bytes = std::fs::read(cards(&bench, &[])).unwrap();
    let document = lopdf::Document::load_mem(&bytes).unwrap();
    let pages = document.get_pages().len();
    assert_eq!(pages, 144);
    // Only the streams of fonts say how long they are unpacked.
    let fonts: usize = document
        .objects
        .values()
        .filter_map(|object| object.as_stream().ok())
        .filter(|stream| stream.dict.has(b"Length1"))
        .map(|stream| stream.content.len())
        .sum();
    assert!(fonts > 10_000, "{fonts}");
    let each = (bytes.len() - fonts) / pages;
    assert!(each < 4_096, "{each} bytes a page");
}

#[test]
fn two_cards_share_a_sheet_and_stay_in_order() {
    let bench = Bench::new();
    let only = ["--weeks", "1", "--athlete", "Wren Tallow"];
    for (more, size, turned) in [
        (["--two-up", "--left-handed", "--paper", "a5"], "841.89 x 595.276", "0"),
        (["--two-up=portrait", "--large-print", "--paper", "letter"], "792 x 612", "90"),
    ] {
        let path = cards(&bench, &[&only[..], &more].concat());
        if let Some((sound, _)) = tool("qpdf", &["--check", &path]) {
            assert!(sound, "qpdf --check");
        }
        let Some((_, info)) = tool("pdfinfo", &[&path]) else { return };
        let info = String::from_utf8(info).unwrap();
        assert!(info.contains(&format!("Page size:       {size}")), "{info}");
        assert!(info.contains(&format!("Page rot:        {turned}")), "{info}");
    }
    // Three cards: the first two down the left halves, the third at the right of the first.
    let path = cards(&bench, &[&only[..], &["--two-up"]].concat());
    let Some((_, text)) = tool("pdftotext", &["-l", "1", &path, "-"]) else { return };
    let text = String::from_utf8(text).unwrap();
    let days: Vec<&str> =
        text.lines().filter(|line| ["Catch", "Drive", "Finish"].contains(line)).collect();
    assert_eq!(days, ["Catch", "Finish"], "{text}");
}

const DEMOS: &str = "gym Shed
  dumbbells: 4-30 kg by 2 kg

exercise Goblet squat
  demo: https://example.org/lifts/goblet-squat?view=side&slow=yes

exercise Push-up
  demo: https://example.org/übung/push-up

exercise Plank
  demo: Ask the coach.

athlete Robin Vale
  gym: Shed

programme Demonstrations
  weeks: 1

day One
  A Goblet squat: 3 x 8 @ 16 kg
  B Push-up: 3 x 10
  C Plank: 3 x 30 s
";
const LINKS: [&str; 2] = [
    "https://example.org/lifts/goblet-squat?view=side&slow=yes",
    "https://example.org/%C3%BCbung/push-up",
];

#[test]
fn demonstrations_are_codes_that_a_phone_reads_and_links() {
    let bench = Bench::with(DEMOS);
    let at = |name: &str| bench.path(name).to_str().unwrap().to_owned();
    for paper in ["a5", "letter"] {
        let ran = bench.run(&["cards", "programme.sets", "--paper", paper]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let arguments = ["-r", "150", "-png", "-singlefile", &at("programme.pdf"), &at("pdf")];
        if tool("pdftoppm", &arguments).is_none() {
            return;
        }
        let png = ["--paper", paper, "--format", "png", "-o", "card"];
        assert_eq!(bench.run(&[&["cards", "programme.sets"], &png[..]].concat()).code, 0);
        for image in [at("pdf.png"), at("card-1.png")] {
            let Some((_, read)) = tool("zbarimg", &["--raw", "-q", &image]) else { continue };
            let read = String::from_utf8(read).unwrap();
            let mut read: Vec<&str> = read.lines().collect();
            read.sort_unstable_by_key(|link| std::cmp::Reverse(*link));
            assert_eq!(read, LINKS, "{image}");
        }
    }
    let bytes = std::fs::read(bench.path("programme.pdf")).unwrap();
    let document = lopdf::Document::load_mem(&bytes).unwrap();
    let links = document.objects.values().filter_map(|object| {
        let link = object.as_dict().ok().filter(|dict| dict.has(b"Border"))?;
        let action = link.get(b"A").unwrap().as_dict().unwrap();
        let to = action.get(b"URI").unwrap().as_str().unwrap();
        // A reader says it too.
        assert_eq!(link.get(b"Contents").unwrap().as_str().unwrap(), to);
        Some(String::from_utf8(to.to_vec()).unwrap())
    });
    assert_eq!(links.collect::<Vec<_>>(), LINKS);
}

/// What a screen reader asks of a document: its language, its title, a way to move about.
#[test]
fn the_pdf_says_what_it_is() {
    let bench = Bench::new();
    let path = cards(&bench, &["--weeks", "1-2", "--two-up"]);
    let document = lopdf::Document::load(&path).unwrap();
    let catalog = document.catalog().unwrap();
    assert_eq!(catalog.get(b"Lang").unwrap().as_str().unwrap(), b"en");
    let viewer = catalog.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
    assert!(viewer.get(b"DisplayDocTitle").unwrap().as_bool().unwrap());
    // Six athletes, six sessions each; every one leads to a page.
    let pages: Vec<lopdf::ObjectId> = document.get_pages().into_values().collect();
    assert_eq!(pages.len(), 18);
    let places = document.objects.values().filter_map(|object| {
        let place = object.as_dict().ok()?.get(b"Dest").ok()?.as_array().ok()?;
        place.first()?.as_reference().ok()
    });
    let places: Vec<lopdf::ObjectId> = places.collect();
    assert_eq!(places.len(), 6 + 36);
    assert!(places.iter().all(|place| pages.contains(place)));
}

#[test]
fn the_coachs_copy_is_a_file_of_its_own() {
    let text = "exercise Barrow walk\n  source: own observation, winter 2025\n\n";
    let text = format!("{text}{}", programme("  B Barrow walk: 3 x 20 m\n    source: page 3\n"));
    let bench = Bench::with(&text);
    let without: String = text
        .lines()
        .filter(|line| !line.contains("source:"))
        .map(|line| format!("{line}\n"))
        .collect();
    bench.write("without.sets", without);
    for arguments in [
        &["cards", "programme.sets"][..],
        &["cards", "programme.sets", "--coach"],
        &["cards", "without.sets"],
        &["cards", "programme.sets", "--coach", "--per-athlete", "-o", "out"],
    ] {
        let ran = bench.run(arguments);
        assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.err);
    }
    let read = |name: &str| std::fs::read(bench.path(name)).unwrap();
    assert_eq!(read("programme.pdf"), read("without.pdf"));
    assert_ne!(read("programme.pdf"), read("programme-coach.pdf"));
    assert_eq!(read("programme-coach.pdf"), read("out/programme-coach-01-robin-vale.pdf"));
}

/// How each sheet's words lie on its page, as `pdftotext -layout` sees it.
#[test]
fn the_sheets_lie_on_their_pages_as_they_did() {
    for sheet in ["card", "block", "rack", "overview", "wall"] {
        let bench = Bench::new();
        let path = bench.path("sheet.pdf").to_str().unwrap().to_owned();
        let file = example("first-steps/programme.sets");
        let ran = bench.run(&["cards", &file, "--sheet", sheet, "-o", &path]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let Some((_, text)) = tool("pdftotext", &["-layout", "-l", "1", &path, "-"]) else {
            return;
        };
        let text = String::from_utf8(text).unwrap();
        let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
        insta::with_settings!({
            snapshot_path => "snapshots", prepend_module_to_snapshot => false, omit_expression => true
        }, {
            insta::assert_snapshot!(format!("layout-{sheet}"), lines.join("\n").trim_end());
        });
    }
}
