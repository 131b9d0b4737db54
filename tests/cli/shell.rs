//! Completions in real shells, and the manual page in a real viewer.
//!
//! Shells that are not installed are skipped with a message; with `SETWRIGHT_TOOLS=required` the
//! tests fail.

use std::path::Path;
use std::process::Command;

use super::support::{Bench, example, missing, tool};

/// Runs a script in a shell that finds the program on its path; `None` where there is no such shell.
fn in_shell(bench: &Bench, shell: &[&str], script: &str) -> Option<String> {
    let program = Path::new(env!("CARGO_BIN_EXE_setwright")).parent().unwrap();
    let path = format!("{}:{}", program.display(), std::env::var("PATH").unwrap_or_default());
    let (name, arguments) = shell.split_first().unwrap();
    let ran = Command::new(name)
        .args(arguments)
        .arg(script)
        .current_dir(bench.path(""))
        .env("PATH", path)
        .env("HOME", bench.path(""))
        .env("LC_ALL", "C.UTF-8")
        .output();
    match ran {
        Ok(ran) => {
            let told = String::from_utf8_lossy(&ran.stderr);
            assert!(ran.status.success(), "{name}: {told}");
            assert_eq!(told, "", "{name}");
            Some(String::from_utf8_lossy(&ran.stdout).into_owned())
        }
        Err(error) => {
            missing(name, &error);
            None
        }
    }
}

/// A project under a name with a space, and the script of a shell.
fn bench(shell: &str) -> Bench {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("my block")).unwrap();
    for file in ["winter.sets", "squad.sets", "gym.sets"] {
        let text = std::fs::read(example(&format!("rowing-club/{file}"))).unwrap();
        std::fs::write(bench.path("my block").join(file), text).unwrap();
    }
    let ran = bench.run(&["completions", shell]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    bench.write("script", ran.out);
    bench
}

const SQUAD: [&str; 6] = [
    "Wren Tallow",
    "Odhran Pellick",
    "Žofie Ďurková-Łęska",
    "Bartholomew Augustine Featherstonhaugh-Winterbourne",
    "Delphine Marrowgate",
    "Caspian Thorneholt",
];

/// What bash would put in: names quoted, as one word each.
#[test]
fn bash_completes_names_out_of_the_project() {
    let bench = bench("bash");
    let ask = |words: &str, current: &str| {
        in_shell(
            &bench,
            &["bash", "--norc", "-c"],
            &format!(
                "source ./script; complete -p setwright | grep -q _setwright_quoted || exit 1; \
                 COMP_WORDS=({words}); COMP_CWORD=$((${{#COMP_WORDS[@]}}-1)); COMP_TYPE=9; \
                 _setwright_quoted setwright {current} x; printf '%s\\n' \"${{COMPREPLY[@]}}\""
            ),
        )
        .map(|out| out.lines().map(str::to_owned).collect::<Vec<_>>())
    };
    let file = "'my\\ block/winter.sets'";
    let Some(found) = ask(&format!("setwright cards {file} --athlete ''"), "''") else { return };
    assert_eq!(found, SQUAD.map(|name| name.replace(' ', "\\ ")));
    let start = |typed: &str, current: &str| {
        ask(&format!("setwright cards {file} --athlete {typed}"), current).unwrap()
    };
    assert_eq!(start("wr", "wr"), ["Wren\\ Tallow"]);
    assert_eq!(start("'Wren\\ T'", "'Wren\\ T'"), ["Wren\\ Tallow"]);
    // Inside quotes the name is put in as it is.
    assert_eq!(start("'\"Wr'", "Wr"), ["Wren Tallow"]);
    let ask = |words: &str, current: &str| ask(words, current).unwrap();
    assert_eq!(ask(&format!("setwright why {file} --day ''"), "''"), ["Catch", "Drive", "Finish"]);
    assert_eq!(ask("setwright cards my", "my"), ["my\\ block/"]);
    let lifts = ask("setwright exercises front", "front");
    assert!(lifts.contains(&"Front\\ squat".to_owned()), "{lifts:?}");
    assert_eq!(ask("setwright explain unknown-ex", "unknown-ex"), ["unknown-exercise"]);
    assert_eq!(ask("setwright check x --allow reps", "reps"), ["reps-past-percent"]);
    let sheets = ["card", "block", "rack", "overview", "wall"];
    assert_eq!(ask("setwright cards x --sheet ''", "''"), sheets);
    assert_eq!(ask("setwright plan x --format c", "c"), ["csv"]);
}

/// Without a file on the line, those of the folder are asked; what is broken still gives names.
#[test]
fn names_come_from_the_folder_and_from_broken_files() {
    let bench = bench("bash");
    bench.write("a.sets", "athlete Robin Vale\n  max nonsense\n");
    bench.write("b.sets", "athlete Corin Vane\n");
    let asked = bench.run_with(
        &["--", "setwright", "cards", "--athlete", ""],
        None,
        &[("SETWRIGHT_COMPLETE", "bash"), ("_CLAP_COMPLETE_INDEX", "3"), ("_CLAP_IFS", "\n")],
    );
    assert_eq!((asked.code, asked.out.as_str()), (0, "Robin Vale\nCorin Vane"), "{}", asked.err);
    let nothing = bench.run_with(&["--"], None, &[("SETWRIGHT_COMPLETE", "bash")]);
    assert_eq!((nothing.code, nothing.out.as_str()), (2, ""));
    let unknown = bench.run_with(&["--", "setwright", ""], None, &[("SETWRIGHT_COMPLETE", "ksh")]);
    assert_eq!(unknown.code, 2);
}

/// The script is asked as zsh would ask it; what it hands to `_describe` is printed.
#[test]
fn zsh_completes_names_out_of_the_project() {
    let bench = bench("zsh");
    let script = "
compdef() { registered=\"$*\" }
_describe() { print -rl -- ${(P)3} }
source ./script
[[ $registered == '_clap_dynamic_completer_setwright setwright' ]] || exit 3
words=(setwright cards 'my\\ block/winter.sets' --athlete '')
CURRENT=5
_clap_dynamic_completer_setwright
words=(setwright cards x --athlete)
words=(setwright explain unknown-ex)
CURRENT=3
_clap_dynamic_completer_setwright
";
    let Some(found) = in_shell(&bench, &["zsh", "-f", "-c"], script) else { return };
    let mut expected: Vec<&str> = SQUAD.to_vec();
    expected.push("unknown-exercise");
    assert_eq!(found.lines().collect::<Vec<_>>(), expected);
    in_shell(&bench, &["zsh", "-f", "-n"], "script");
}

#[test]
fn fish_completes_names_out_of_the_project() {
    let bench = bench("fish");
    let ask = |line: &str| {
        let script = format!("source ./script; complete -C \"{line}\"");
        in_shell(&bench, &["fish", "--no-config", "-c"], &script)
    };
    let Some(found) = ask("setwright cards my\\ block/winter.sets --athlete ") else { return };
    assert_eq!(found.lines().collect::<Vec<_>>(), SQUAD);
    let found = ask("setwright explain unknown-ex").unwrap();
    assert_eq!(found.trim(), "unknown-exercise");
}

/// Every command has a page; readers of the manual find nothing wrong with any.
#[test]
fn the_manual_has_a_page_for_each_command_and_reads_well() {
    let bench = Bench::new();
    let ran = bench.run(&["man", "--output", "man1"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, ""), "{}", ran.err);
    let help = bench.run(&["--help"]).out;
    let mut pages: Vec<String> = std::fs::read_dir(bench.path("man1"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    pages.sort();
    let commands = help.lines().skip_while(|line| *line != "Commands:").skip(1);
    let commands = commands.take_while(|line| !line.is_empty());
    for command in commands.filter_map(|line| line.split_whitespace().next()) {
        let page = format!("setwright-{command}.1");
        assert!(command == "help" || pages.contains(&page), "{command} has no page");
    }
    for page in &pages {
        let path = bench.path("man1").join(page);
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.contains(".SH EXAMPLES\n"), "{page} shows no example");
        let name = page.trim_end_matches(".1");
        let shown = bench.run(&["man", name.strip_prefix("setwright-").unwrap_or_default()]);
        assert!(name == "setwright" || shown.out == text, "{page}");
        let path = path.to_str().unwrap();
        if let Some((_, told)) = tool("mandoc", &["-T", "lint", "-W", "warning", path]) {
            let told = String::from_utf8_lossy(&told);
            // No clock is asked, so no page bears a date.
            let wrong: Vec<&str> =
                told.lines().filter(|line| !line.contains("missing date")).collect();
            assert!(wrong.is_empty(), "{page}: {wrong:?}");
        }
        if let Some((_, read)) = tool("mandoc", &["-T", "ascii", path]) {
            let read = String::from_utf8_lossy(&read);
            assert!(read.contains(&name.to_uppercase()), "{read}");
        }
    }
    assert_eq!(
        bench.run(&["man"]).out,
        std::fs::read_to_string(bench.path("man1/setwright.1")).unwrap()
    );
    let ran = bench.run(&["man", "crads"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("did you mean `cards`?"), "{}", ran.err);
}
