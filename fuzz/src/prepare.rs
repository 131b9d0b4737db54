//! Writes what a run starts from: `prepare ROOT FOLDER` makes `FOLDER/words` from the notation's words,
//! and `FOLDER/inputs/` from every file of the notation in the repository and every block of its docs.
//! Nothing of it is kept, so nothing of it can grow old.

// What the library's counters are told to.
use libfuzzer_sys as _;

use std::fs;
use std::io::Result;
use std::path::{Path, PathBuf};

use setwright::syntax::words;

fn main() -> Result<()> {
    let mut args = std::env::args().skip(1).map(PathBuf::from);
    let (root, folder) =
        (args.next().unwrap_or("..".into()), args.next().unwrap_or("target".into()));
    let inputs = folder.join("inputs");
    let _ = fs::remove_dir_all(&inputs);
    fs::create_dir_all(&inputs)?;
    fs::write(folder.join("words"), dictionary())?;
    for (number, input) in (0..).zip(collected(&root)?) {
        fs::write(inputs.join(format!("{number:04}")), input)?;
    }
    Ok(())
}

/// Every word, and the signs between them, as libFuzzer reads them.
fn dictionary() -> String {
    let signs = [
        "\\x0a  ",
        "\\x0a    ",
        ": ",
        " x ",
        " @ ",
        " -> ",
        "/week",
        "/session",
        ", ",
        " # ",
        "%",
        "1/2",
    ];
    let words = words::all().into_iter().chain(signs);
    words.map(|word| format!("\"{word}\"\n")).collect()
}

fn collected(root: &Path) -> Result<Vec<Vec<u8>>> {
    let mut files = Vec::new();
    for folder in
        ["examples", "tests/corpus", "tests/advice", "tests/notation", "docs", "src/codes"]
    {
        list(&root.join(folder), &mut files)?;
    }
    let mut inputs = Vec::new();
    for file in files {
        let bytes = fs::read(&file)?;
        match file.extension().and_then(|kind| kind.to_str()) {
            Some("md") => inputs.extend(blocks(&String::from_utf8_lossy(&bytes))),
            Some("sets") => inputs.push(bytes),
            _ if file.to_string_lossy().contains("corpus/fuzz/") => inputs.push(bytes),
            _ => {}
        }
    }
    // The club's files in one.
    let club = ["gym", "squad", "winter"]
        .map(|name| root.join(format!("examples/rowing-club/{name}.sets")));
    let club: Result<Vec<String>> = club.iter().map(fs::read_to_string).collect();
    inputs.push(club?.concat().replace("\nuse ", "\n# use ").into_bytes());
    inputs.extend(logs(root)?);
    inputs.extend((1..=96).map(made));
    Ok(inputs)
}

/// The logs of the repository's files, each below a made programme.
fn logs(root: &Path) -> Result<Vec<Vec<u8>>> {
    let files = [
        "examples/rowing-club/logs.sets",
        "examples/two-for-two/results.sets",
        "tests/corpus/1/logs.sets",
    ];
    let texts: Result<Vec<String>> =
        files.iter().map(|file| fs::read_to_string(root.join(file))).collect();
    let logs =
        texts?.into_iter().filter_map(|text| text.find("\nlog ").map(|at| text[at..].to_owned()));
    // The made programme's names in place of their own.
    let renamed = |log: String| {
        let rest = log[1..].split_once('\n').map_or("", |(_, rest)| rest);
        format!("log Perrin Oake: Made up\n{}", rest.replace("Lower 1", "One"))
    };
    Ok((1..)
        .zip(logs.map(renamed))
        .map(|(number, log)| {
            let choices = made(number);
            [&[4, 60], &choices[1..121.min(choices.len())], log.as_bytes()].concat()
        })
        .collect())
}

/// The files below a folder, in order.
fn list(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    let mut entries: Vec<PathBuf> =
        fs::read_dir(folder)?.map(|one| one.map(|one| one.path())).collect::<Result<_>>()?;
    entries.sort();
    for path in entries {
        if path.is_dir() {
            list(&path, files)?;
        } else {
            files.push(path);
        }
    }
    Ok(())
}

/// The fenced blocks of the notation in a page.
fn blocks(page: &str) -> Vec<Vec<u8>> {
    let fenced = page.split("\n```sets").skip(1);
    let bodies = fenced.filter_map(|rest| rest.split_once('\n')?.1.split_once("\n```"));
    bodies.map(|(body, _)| format!("{body}\n").into_bytes()).collect()
}

/// A made programme of some kind: the bytes of a generator whose factor and addend are Knuth's MMIX [M].
fn made(number: u64) -> Vec<u8> {
    let mut state = number;
    let mut next = || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        state.to_be_bytes()[0]
    };
    let kind = u8::try_from(number % 3).unwrap_or(0) + 1;
    let length = 100 + usize::from(next()) * 4;
    std::iter::once(kind).chain(std::iter::from_fn(|| Some(next())).take(length)).collect()
}
