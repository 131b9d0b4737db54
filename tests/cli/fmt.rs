//! `fmt` on files, folders, links and standard input.

use super::support::Bench;

const HASTY: &str = "gym Shed\n    plates: 20kg x4\n    bar: 20kg\n";
const TIDY: &str = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4\n";

/// All files of the notation in a folder, by name; not what is ignored, hidden, or linked to.
#[test]
fn a_folder_stands_for_the_files_in_and_below_it() {
    let bench = Bench::new();
    let formatted = ["all/b.sets", "all/deep/er/a.sets"];
    let left =
        ["all/old/c.sets", "all/draft.sets", "all/.hidden/d.sets", "all/note.txt", "out.sets"];
    for path in formatted.iter().chain(&left) {
        bench.write(path, HASTY);
    }
    bench.write("all/.gitignore", "/old/\ndraft.sets\n");
    #[cfg(unix)]
    std::os::unix::fs::symlink(bench.path("out.sets"), bench.path("all/linked.sets")).unwrap();
    let ran = bench.run(&["fmt", "--check", "all"]);
    let told = formatted.map(|path| format!("{path} is not in the standard format\n")).concat();
    assert_eq!((ran.code, ran.err.as_str()), (1, told.as_str()));
    assert_eq!(bench.run(&["fmt", "all"]).code, 0);
    let read = |path: &str| std::fs::read_to_string(bench.path(path)).unwrap();
    for path in formatted {
        assert_eq!(read(path), TIDY, "{path}");
    }
    for path in left {
        assert_eq!(read(path), HASTY, "{path}");
    }
    assert_eq!(bench.run(&["fmt", "--check", "all"]).code, 0);
    // What git would ignore is formatted when it is named.
    assert_eq!(bench.run(&["fmt", "all/draft.sets"]).code, 0);
    assert_eq!(read("all/draft.sets"), TIDY);
    bench.write("none/readme.txt", "");
    let ran = bench.run(&["fmt", "none"]);
    assert_eq!(ran.code, 3);
    assert!(ran.err.contains("none: this folder has no .sets files"), "{}", ran.err);
}

/// An error leaves its own file untouched, and no other.
#[test]
fn a_file_with_an_error_is_left_and_the_others_are_formatted() {
    let bench = Bench::new();
    let wrong = "gym Shed\n    barr: 20kg\n";
    bench.write("all/a.sets", wrong);
    bench.write("all/b.sets", HASTY);
    let ran = bench.run(&["fmt", "all"]);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("a.sets:2:5"), "{}", ran.err);
    assert_eq!(std::fs::read_to_string(bench.path("all/a.sets")).unwrap(), wrong);
    assert_eq!(std::fs::read_to_string(bench.path("all/b.sets")).unwrap(), TIDY);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_permissions_are_kept() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new();
    bench.write("real/a.sets", HASTY);
    let (real, link) = (bench.path("real/a.sets"), bench.path("link.sets"));
    std::os::unix::fs::symlink(&real, &link).unwrap();
    // Wider than a new file would be, and narrower.
    for mode in [0o666, 0o640, 0o600] {
        std::fs::write(&real, HASTY).unwrap();
        std::fs::set_permissions(&real, std::fs::Permissions::from_mode(mode)).unwrap();
        assert_eq!(bench.run(&["fmt", "link.sets"]).code, 0);
        assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(std::fs::read_to_string(&real).unwrap(), TIDY);
        assert_eq!(std::fs::metadata(&real).unwrap().permissions().mode() & 0o777, mode);
    }
    assert_eq!(std::fs::read_dir(bench.path("real")).unwrap().count(), 1);
}

#[test]
fn standard_input_has_the_name_that_an_editor_gives_it() {
    let bench = Bench::new();
    let run = |arguments: &[&str], text: &str| {
        bench.run_with(&[&["fmt"], arguments].concat(), Some(text.as_bytes()), &[])
    };
    let named = ["-", "--stdin-filename", "squads/winter.sets"];
    assert_eq!(run(&named, HASTY).out, TIDY);
    let ran = run(&named, "gym Shed\n  barr: 20 kg\n");
    assert_eq!((ran.code, ran.out.as_str()), (1, ""));
    assert!(ran.err.contains("--> squads/winter.sets:2:3"), "{}", ran.err);
    let ran = run(&["--check", "-", "--stdin-filename", "w.sets"], HASTY);
    assert_eq!(ran.err, "w.sets is not in the standard format\n");
    assert_eq!(run(&["a.sets", "--stdin-filename", "w.sets"], "").code, 2);
    assert_eq!(run(&["-", "-"], TIDY).code, 2);
}
