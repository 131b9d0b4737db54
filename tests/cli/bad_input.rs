//! Bad input gets a clear problem and an exit code. Nothing is lost, and the program never panics
//! or hangs.

use super::support::{Bench, Ran, programme};

fn check(text: impl AsRef<[u8]>) -> Ran {
    let ran = Bench::with(text).run(&["check", "programme.sets"]);
    assert!(ran.code == 0 || ran.code == 1, "{}{}", ran.out, ran.err);
    assert!(!ran.err.contains("panicked"), "{}", ran.err);
    ran
}

fn codes(ran: &Ran) -> Vec<&str> {
    let start =
        |line: &&str| ["error[", "warning[", "info["].iter().any(|level| line.starts_with(level));
    let name = |line: &str| line.split(['[', ']']).nth(1).unwrap().len();
    ran.out
        .lines()
        .filter(start)
        .map(|line| {
            let from = line.find('[').unwrap() + 1;
            &line[from..from + name(line)]
        })
        .collect()
}

#[test]
fn an_empty_file_and_one_of_comments_say_so() {
    for text in ["", "\n\n", "# a plan for the winter\n# to be written\n", "\u{feff}"] {
        let ran = check(text);
        assert_eq!(codes(&ran), ["empty-file"], "{text:?}");
        assert_eq!(ran.code, 0);
    }
}

#[test]
fn nothing_is_printed_from_a_file_that_says_nothing() {
    let bench = Bench::with("");
    let ran = bench.run(&["cards", "programme.sets"]);
    assert_eq!(ran.code, 1);
    assert!(!bench.path("programme.pdf").exists());
}

#[test]
fn binary_and_wrong_utf8_are_named() {
    let binary: Vec<u8> = (0..=255).cycle().take(5000).collect();
    for bytes in [binary, b"gym Sh\xe9d\n".to_vec(), vec![0xff; 100], vec![0xed, 0xa0, 0x80]] {
        let ran = check(bytes);
        assert_eq!(codes(&ran), ["not-utf8"]);
        assert_eq!(ran.code, 1);
    }
    // Control characters are UTF-8, and no line.
    assert_eq!(check([0_u8; 64]).code, 1);
}

#[test]
fn the_first_byte_that_is_not_utf8_has_a_place_and_a_cause() {
    let mut text = programme("  # caf").into_bytes();
    text.extend(b"\xe9 first\n  B Push-up: 3 x 5\n");
    let ran = check(&text);
    assert!(ran.out.contains("programme.sets:13:8"), "{}", ran.out);
    assert!(ran.out.contains("`é` in Windows-1252"), "{}", ran.out);
    assert!(ran.out.contains("save it as UTF-8"), "{}", ran.out);
    let json = Bench::with(&text).run(&["check", "programme.sets", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    let found = &json["diagnostics"][0];
    assert_eq!(found["code"], "not-utf8", "{json}");
    assert_eq!((&found["location"]["line"], &found["location"]["column"]), (&13.into(), &8.into()));
    let start = text.iter().position(|byte| *byte == 0xe9).unwrap();
    assert_eq!(found["location"]["start_byte"], start, "{json}");
    // In a file that is brought in: there, with the line that brings it in.
    let bench = Bench::with(format!("use gym.sets\n{}", programme("")));
    bench.write("gym.sets", b"# one\ngym Sh\xe9d\n");
    let ran = bench.run(&["check", "programme.sets"]);
    assert!(ran.out.contains("gym.sets:2:7"), "{}", ran.out);
    assert!(ran.out.contains("included here"), "{}", ran.out);
    // UTF-16, as some editors save "Unicode".
    let wide = |text: &str| text.encode_utf16().flat_map(u16::to_le_bytes).collect::<Vec<u8>>();
    let ran = check(wide(&format!("\u{feff}{}", programme(""))));
    assert!(ran.out.contains("UTF-16") && ran.out.contains("sets:1:1"), "{}", ran.out);
    assert_eq!(codes(&ran), ["not-utf8"]);
}

/// What ends a line in other programs: nothing that follows is lost in silence.
#[test]
fn a_line_break_of_other_programs_is_an_error_at_its_place() {
    for (sign, name) in [
        ("\r", "U+000D"),
        ("\u{b}", "U+000B"),
        ("\u{c}", "U+000C"),
        ("\u{85}", "U+0085"),
        ("\u{2028}", "U+2028"),
        ("\u{2029}", "U+2029"),
    ] {
        let text = programme(&format!("  # easy day{sign}  B Push-up: 3 x 5\n"));
        let text = text.replace(
            "athlete Robin Vale\n",
            &format!("athlete Robin Vale\n  note: knee{sign}  avoid: lunge\n"),
        );
        let ran = check(&text);
        assert_eq!(ran.code, 1);
        assert_eq!(codes(&ran), ["control-character"; 2], "{}", ran.out);
        assert!(ran.out.contains("sets:6:13") && ran.out.contains("sets:14:13"), "{}", ran.out);
        assert!(ran.out.contains(name), "{}", ran.out);
        let bench = Bench::with(&text);
        assert_eq!(bench.run(&["cards", "programme.sets"]).code, 1);
        assert_eq!(bench.run(&["fmt", "programme.sets"]).code, 1);
        assert_eq!(std::fs::read_to_string(bench.path("programme.sets")).unwrap(), text);
        // With the first fix both lines are there.
        let fixed = text.replace(sign, "\n");
        let bench = Bench::with(&fixed);
        assert!(bench.run(&["summary", "programme.sets"]).out.contains("Push-up"));
        let lunge = Bench::with(format!("{fixed}  C Walking lunge: 3 x 5\n"));
        assert_eq!(codes(&lunge.run(&["check", "programme.sets"])), ["avoided-exercise"]);
    }
}

/// A file of old programs for the Mac: no LF at all.
#[test]
fn lines_that_end_with_a_carriage_return_alone_are_read() {
    let plain = programme("  # easy day\n  B  Push-up: 3 x 5\n");
    let mac = plain.replace('\n', "\r");
    let bench = Bench::with(&mac);
    let summary = |bench: &Bench| bench.run(&["summary", "programme.sets"]).out;
    assert!(summary(&bench).contains("Push-up"));
    assert_eq!(summary(&bench), summary(&Bench::with(&plain)));
    // Places are lines and columns of what the coach sees.
    let wrong = Bench::with(mac.replace("Push-up", "Pushh-upp"));
    assert!(wrong.run(&["check", "programme.sets"]).out.contains("sets:14:6"));
    // `log` and `fmt` leave no lone CR behind.
    bench.write("logs.sets", "log Robin Vale: Small\r  2026-01-01 extra, easy row\r");
    let log = [
        "log",
        "programme.sets",
        "--athlete",
        "Robin Vale",
        "--date",
        "2026-01-05",
        "-o",
        "logs.sets",
    ];
    assert_eq!(bench.run(&log).code, 0);
    let read = |name: &str| std::fs::read_to_string(bench.path(name)).unwrap();
    assert!(!read("logs.sets").contains('\r') && read("logs.sets").contains("easy row\n"));
    assert_eq!(bench.run(&["fmt", "--check", "programme.sets"]).code, 1);
    assert_eq!(bench.run(&["fmt", "programme.sets"]).code, 0);
    assert!(!read("programme.sets").contains('\r'));
    assert_eq!(bench.run(&["fmt", "--check", "programme.sets"]).code, 0);
    assert!(summary(&bench).contains("Push-up"));
}

#[test]
fn carriage_returns_and_a_byte_order_mark_change_nothing() {
    let plain = programme("");
    let bench = Bench::with(&plain);
    let windows = Bench::with(format!("\u{feff}{}", plain.replace('\n', "\r\n")));
    let summary = |bench: &Bench| bench.run(&["summary", "programme.sets"]).out;
    assert!(summary(&bench).contains("Back squat"));
    assert_eq!(summary(&bench), summary(&windows));
}

#[test]
fn tabs_and_mixed_indentation_are_findings_with_the_rest_read() {
    let ran = check(programme("\tB Push-up: 3 x 10\n   C Plank: 3 x 30 s\n  D Plnk: 3 x 30 s\n"));
    assert_eq!(codes(&ran), ["tab-indent", "stray-indent", "unknown-exercise"]);
}

#[test]
fn a_line_of_a_megabyte_and_a_hundred_thousand_lines() {
    let ran =
        check(programme(&format!("  B Push-up: 3 x 10 {}\n  C Plnk: 30 s\n", "x".repeat(1 << 20))));
    assert_eq!(codes(&ran), ["line-too-long", "unknown-exercise"]);
    let many = "  note: the same line again\n".repeat(100_000);
    assert_eq!(check(programme(&many)).code, 0);
    let wrong = "  note the same line again\n".repeat(100_000);
    let ran = check(programme(&wrong));
    assert_eq!(ran.code, 1);
    assert!(
        ran.out.contains("100000 errors (99900 not shown)"),
        "{}",
        &ran.out[ran.out.len() - 200..]
    );
}

#[test]
fn a_file_over_the_bound_is_not_read() {
    let ran = check("#".repeat(5 * 1024 * 1024));
    assert_eq!(codes(&ran), ["too-large"]);
    let bench = Bench::new();
    let ran = bench.run_with(&["check", "-"], Some(&vec![b'#'; 5 * 1024 * 1024]), &[]);
    assert_eq!(codes(&ran), ["too-large"]);
}

#[test]
fn deep_indentation_ends() {
    let deep: String = (0..9_000).map(|n| format!("{}x: y\n", " ".repeat(n % 9_000))).collect();
    assert_eq!(check(deep).code, 1);
}

#[test]
fn use_stays_inside_the_project_folder() {
    for path in ["../../etc/passwd", "/etc/passwd", "a/../../x.sets", "C:\\x", "~/x"] {
        let ran = check(format!("use {path}\n{}", programme("")));
        assert_eq!(codes(&ran), ["outside-project"], "{path}");
        assert!(!ran.out.contains("root:"));
    }
    let ran = check(format!("use nowhere.sets\n{}", programme("")));
    assert_eq!(codes(&ran), ["file-not-found"]);
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_project_folder_is_refused() {
    let outside = Bench::with("gym Elsewhere\n");
    let bench = Bench::with(format!("use inside.sets\n{}", programme("")));
    std::os::unix::fs::symlink(outside.path("programme.sets"), bench.path("inside.sets")).unwrap();
    let ran = bench.run(&["check", "programme.sets"]);
    assert_eq!(codes(&ran), ["outside-project"]);
    // A link that stays inside is followed.
    let bench = Bench::with(format!("use link.sets\n{}", programme("")));
    bench.write("folder/real.sets", "exercise Sea shanty squat\n  like: Back squat\n");
    std::os::unix::fs::symlink("folder/real.sets", bench.path("link.sets")).unwrap();
    assert_eq!(bench.run(&["check", "programme.sets"]).code, 0);
}

#[test]
fn a_ring_of_files_and_a_deep_chain() {
    let bench = Bench::with(format!("use a.sets\n{}", programme("")));
    bench.write("a.sets", "use b.sets\n");
    bench.write("b.sets", "use a.sets\n");
    let ran = bench.run(&["check", "programme.sets"]);
    assert_eq!(codes(&ran), ["use-cycle"]);
    assert!(ran.out.contains("the circle starts here"), "{}", ran.out);

    let bench = Bench::with(format!("use f1.sets\n{}", programme("")));
    for n in 1..=150 {
        bench.write(&format!("f{n}.sets"), format!("use f{}.sets\ngym G{n}\n", n + 1));
    }
    let ran = bench.run(&["check", "programme.sets"]);
    assert!(codes(&ran).contains(&"too-large"), "{}", ran.out);
}

#[test]
fn absurd_numbers_are_out_of_range() {
    for line in [
        "99999 x 99999",
        "3 x 5 @ -5 kg",
        "3 x 5 @ 99999999999999999999 kg",
        "0 x 5",
        "3 x 0",
        "3 x 5 @ 5000%",
        "3 x 5 @ 0.0000000001 kg",
        "3 x 5, rest 99999999 min",
        "3 x 5 @ RPE 11",
        "3 x 12-8",
        "3 x 5 -1 rep/week, rest 999999 s",
    ] {
        let ran = check(programme(&format!("  B Back squat: {line}\n")));
        assert!(codes(&ran).contains(&"number-out-of-range"), "{line}: {}", ran.out);
        assert_eq!(ran.code, 1);
    }
    let ran = check(programme("  B Back squat: 3 x 5 @ 1e400%\n"));
    assert_eq!(codes(&ran), ["bad-prescription"]);
    let ran = check(programme("  B Push-up: 3 x 5\n    week 0: 3 x 4\n"));
    assert_eq!(codes(&ran), ["number-out-of-range"]);
    let ran = check(programme("").replace("weeks: 2", "weeks: 99999999999999999999"));
    assert_eq!(codes(&ran), ["number-out-of-range"]);
}

#[test]
fn five_mistakes_are_five_findings() {
    let text = programme(
        "  B Benchpress: 3 x 8 @ 60 kg\n  Push-up: 3 x 10\n  D Plank: 3 x 30 s, rst 60 s\n",
    )
    .replace("weeks: 2", "weeks: 2\n  strats: 2026-01-05")
    .replace("max Back squat: 100 kg", "max Back squat: 100");
    let ran = check(text);
    assert_eq!(
        codes(&ran),
        [
            "missing-unit",
            "unknown-key",
            "unknown-exercise",
            "missing-order-letter",
            "bad-prescription"
        ]
    );
    for near in ["did you mean `starts`?", "did you mean `Bench press`?", "did you mean `rest`?"] {
        assert!(ran.out.contains(near), "{near}\n{}", ran.out);
    }
}

#[test]
fn a_sign_the_font_lacks_is_named_and_shown_as_a_box() {
    let bench = Bench::with(programme("    cue: 漢 steady\n    cue: 漢 again\n"));
    let ran = bench.run(&["cards", "programme.sets"]);
    assert_eq!(ran.code, 0);
    assert!(ran.err.contains("no `漢` (U+6F22)"), "{}", ran.err);
    assert_eq!(ran.err.matches("missing-glyph]").count(), 1);
    assert!(bench.path("programme.pdf").exists());
}

#[test]
fn output_that_cannot_be_written_leaves_what_was_there() {
    let bench = Bench::with(programme(""));
    let ran = bench.run(&["cards", "programme.sets", "-o", "no/such/folder/x.pdf"]);
    assert_eq!(ran.code, 3);
    assert!(ran.err.contains("no/such/folder/x.pdf"), "{}", ran.err);
    std::fs::create_dir(bench.path("folder.pdf")).unwrap();
    assert_eq!(bench.run(&["cards", "programme.sets", "-o", "folder.pdf"]).code, 3);
    // Nothing temporary is left behind.
    let left = std::fs::read_dir(bench.path("")).unwrap();
    let left: Vec<_> = left.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    assert!(left.iter().all(|name| !name.contains(".part")), "{left:?}");
    // A programme with errors leaves yesterday's cards alone.
    bench.write("good.pdf", "yesterday");
    bench.write("programme.sets", programme("  B Bnch press: 3 x 5\n"));
    assert_eq!(bench.run(&["cards", "programme.sets", "-o", "good.pdf"]).code, 1);
    assert_eq!(std::fs::read(bench.path("good.pdf")).unwrap(), b"yesterday");
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_said_and_breaks_nothing() {
    let bench = Bench::with(programme(""));
    let ran = bench.run(&["cards", "programme.sets", "-o", "/dev/full"]);
    assert_eq!(ran.code, 3, "{}", ran.err);
    assert!(std::path::Path::new("/dev/full").exists());
    // A limit on the size of files acts as a disk that fills up while the PDF is written.
    bench.write("good.pdf", "yesterday");
    let program = env!("CARGO_BIN_EXE_setwright");
    let script =
        format!("trap '' XFSZ; ulimit -f 4; exec {program} cards programme.sets -o good.pdf");
    let status = std::process::Command::new("sh")
        .args(["-c", &script])
        .current_dir(bench.path(""))
        .output()
        .unwrap();
    assert_eq!(status.status.code(), Some(3), "{}", String::from_utf8_lossy(&status.stderr));
    assert_eq!(std::fs::read(bench.path("good.pdf")).unwrap(), b"yesterday");
}

#[test]
fn any_text_at_all_ends_with_an_exit_code() {
    // A cheap generator of hostile lines; `tests/properties` holds the thorough one.
    let words = [
        "day",
        "x",
        "3 x 5",
        "@",
        "70%",
        "->",
        ":",
        "  ",
        "#",
        "week 1",
        "for",
        "when",
        "A",
        "A1",
        "+2.5 kg/week",
        "of top set",
        "(",
        ")",
        "\"",
        "é",
        "漢",
        "rest",
        "use",
        "gym",
        "plates",
        ",",
        "programme P\n  weeks: 3\n",
        "\n",
        "\n    ",
        "log a: b\n  ",
        "2026-13-45 week 1, x",
    ];
    let mut state = 12_345_u64;
    for _ in 0..40 {
        let mut text = String::new();
        for _ in 0..200 {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            text.push_str(words[(state >> 33) as usize % words.len()]);
            text.push(if state & 1 << 20 == 0 { ' ' } else { '\n' });
        }
        check(text);
    }
}

#[test]
fn the_last_line_explains_an_error_rather_than_a_warning_above_it() {
    let ran = check(programme("  C1 Push-up: 3 x 5\n  D Plnk: 3 x 30 s\n"));
    assert_eq!(codes(&ran), ["lone-member", "unknown-exercise"]);
    assert!(ran.out.contains("`setwright explain unknown-exercise`"), "{}", ran.out);
}

#[test]
fn a_file_that_is_not_there_is_one_finding() {
    let text = "use squd.sets\n\nprogramme Small\n  weeks: 2\n  athletes: Perrin Oake\n\nday One\n  \
                A Back squat: 3 x 5 @ 60 kg\n    for Perrin Oake: 2 x 5\n  B Xylo quux: 3 x 5\n";
    assert_eq!(codes(&check(text)), ["file-not-found"]);
}

#[test]
fn a_folder_that_is_not_there_is_named() {
    let bench = Bench::with(programme(""));
    for name in ["nowhere/x.pdf", "nowhere/x.txt"] {
        let command = if name.ends_with("pdf") { "cards" } else { "summary" };
        let ran = bench.run(&[command, "programme.sets", "-o", name]);
        assert_eq!(ran.code, 3);
        let why = format!("setwright: {name}: there is no folder nowhere\n");
        assert!(ran.err.ends_with(&why), "{}", ran.err);
    }
}

#[test]
fn a_folder_and_a_file_without_a_programme_point_to_the_programme() {
    let bench = Bench::with(format!("use squad.sets\n{}", programme("")));
    bench.write("squad.sets", "athlete Wilf Ames\n  body mass: 80 kg\n");
    let ran = bench.run(&["summary", "."]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains(". is a folder: name its programme, `programme.sets`"), "{}", ran.err);
    let ran = bench.run(&["cards", "squad.sets"]);
    assert_eq!(ran.code, 1);
    let why = "nothing was made, because squad.sets has no programme; name the file that contains one: \
               `programme.sets`";
    assert!(ran.err.contains(why), "{}", ran.err);
}

#[test]
fn weeks_may_be_listed() {
    let text = programme("").replace("weeks: 2", "weeks: 8");
    let bench = Bench::with(text);
    let ran = bench.run(&["summary", "programme.sets", "--weeks", "1,3-4"]);
    for week in 1..=4 {
        assert_eq!(ran.out.contains(&format!("Week {week}")), week != 2, "{}", ran.out);
    }
    for wrong in ["1,", "3-1", "0", "1,x", ""] {
        assert_eq!(bench.run(&["summary", "programme.sets", "--weeks", wrong]).code, 2);
    }
}

#[test]
fn a_pair_of_dumbbells_is_not_replaced_by_a_stack() {
    let text = "gym Shed\n  dumbbells: 4, 8, 16 kg\n  stack Cable: 5-50 kg by 1 kg\n\n\
                athlete Perrin Oake\n  gym: Shed\n  body mass: 80 kg\n\nprogramme Small\n  weeks: 2\n\n\
                day One\n  A Biceps curl: 3 x 8 @ 25 kg\n";
    let ran = check(text);
    assert!(ran.out.contains("load-off-target"), "{}", ran.out);
    // 25 kg in each hand is not 25 kg on a stack.
    assert!(!ran.out.contains("stack Cable"), "{}", ran.out);
    let own = "exercise Cable biceps curl\n  like: Biceps curl\n  equipment: stack Cable\n";
    let ran = check(format!("{}\n{own}", text.replace("A Biceps", "A Cable biceps")));
    assert!(!ran.out.contains("load-off-target"), "{}", ran.out);
}

#[test]
fn folders_too_deep_and_too_many_files_are_said_with_their_bounds() {
    let bench = Bench::new();
    let deep = "d/".repeat(setwright::bounds::FOLDER_DEPTH);
    bench.write(&format!("deep/{deep}a.sets"), "");
    for arguments in [["check", "deep"], ["fmt", "deep"]] {
        let ran = bench.run(&arguments);
        assert_ne!(ran.code, 0, "{arguments:?}");
        assert!(ran.err.contains("32 folders deep"), "{arguments:?}: {}", ran.err);
    }
    // One folder less deep is looked through.
    let ran = bench.run(&["check", "deep/d"]);
    assert_eq!((ran.code, codes(&ran)), (0, vec!["empty-file"]), "{}", ran.err);

    for n in 0..=setwright::bounds::FOLDER_FILES {
        bench.write(&format!("wide/{n}.sets"), "");
    }
    let ran = bench.run(&["check", "wide"]);
    assert_ne!(ran.code, 0);
    assert!(ran.err.contains("10000 files"), "{}", ran.err);
}

#[test]
fn nothing_printed_takes_the_place_of_a_programme_or_a_folder() {
    let bench = Bench::with(programme(""));
    let before = std::fs::read(bench.path("programme.sets")).unwrap();
    bench.write("cards.pdf/keep", "");
    for command in ["cards", "summary", "plan", "check", "review"] {
        let ran = bench.run(&[command, "programme.sets", "-o", "programme.sets"]);
        assert_eq!(ran.code, 3, "{command}: {}", ran.err);
        assert!(ran.err.contains("choose another name"), "{command}: {}", ran.err);
        assert_eq!(std::fs::read(bench.path("programme.sets")).unwrap(), before, "{command}");
        let ran = bench.run(&[command, "programme.sets", "-o", "cards.pdf"]);
        assert_eq!(ran.code, 3, "{command}: {}", ran.err);
        assert!(ran.err.contains("this is a folder: name a file in it"), "{command}: {}", ran.err);
    }
}

#[test]
fn signs_that_nobody_sees_are_named() {
    for sign in ["\u{200b}", "\u{ad}", "\u{202e}", "\u{200c}", "\u{200d}", "\u{200f}"] {
        let ran = check(programme(&format!("  B Face{sign} pull: 3 x 12\n")));
        assert!(codes(&ran).contains(&"control-character"), "{}", ran.out);
        assert!(ran.out.contains("cannot be seen (U+"), "{}", ran.out);
    }
    // What joins letters and pictures is part of them.
    let ran = check(programme("  B Push-up: 3 x 12\n    cue: \u{928}\u{94d}\u{200d}\u{928}.\n"));
    assert!(!codes(&ran).contains(&"control-character"), "{}", ran.out);
}
