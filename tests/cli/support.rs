//! Runs the program in a folder of its own.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A folder that goes away, and the program run in it.
pub struct Bench {
    folder: tempfile::TempDir,
}

/// What a run printed, and how it ended.
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
    pub bytes: Vec<u8>,
}

impl Bench {
    pub fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    /// A bench with one file, `programme.sets`.
    pub fn with(text: impl AsRef<[u8]>) -> Self {
        let bench = Self::new();
        bench.write("programme.sets", text);
        bench
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    pub fn run(&self, arguments: &[&str]) -> Ran {
        self.run_with(arguments, None, &[])
    }

    pub fn run_with(
        &self,
        arguments: &[&str],
        input: Option<&[u8]>,
        variables: &[(&str, &str)],
    ) -> Ran {
        let mut command = Command::new(env!("CARGO_BIN_EXE_setwright"));
        command.args(arguments).current_dir(self.folder.path()).env_remove("SOURCE_DATE_EPOCH");
        command.envs(variables.iter().copied());
        command.stdin(if input.is_some() { Stdio::piped() } else { Stdio::null() });
        command.stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        if let Some(input) = input {
            // A program that stops reading early is no failure of the test.
            let _ = child.stdin.take().unwrap().write_all(input);
        }
        ran(child.wait_with_output().unwrap())
    }
}

fn ran(output: Output) -> Ran {
    Ran {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8_lossy(&output.stdout).into_owned(),
        err: String::from_utf8_lossy(&output.stderr).into_owned(),
        bytes: output.stdout,
    }
}

/// The repository.
pub fn repository() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A path in the repository, as an argument.
pub fn example(path: &str) -> String {
    repository().join("examples").join(path).to_str().unwrap().to_owned()
}

/// A complete programme with a hole for one more line of a day.
pub fn programme(line: &str) -> String {
    format!(
        "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2\n\n\
         athlete Robin Vale\n  max Back squat: 100 kg\n\n\
         programme Small\n  weeks: 2\n\nday One\n  A Back squat: 3 x 5 @ 70%\n{line}"
    )
}

/// Runs an outside tool; `None`, with a word about it, when it is not installed.
pub fn tool(name: &str, arguments: &[&str]) -> Option<(bool, Vec<u8>)> {
    match Command::new(name).args(arguments).output() {
        Ok(output) => Some((output.status.success(), output.stdout)),
        Err(error) => {
            missing(name, &error);
            None
        }
    }
}

/// Says that a tool is not there; where tools are required, that is a failure.
pub fn missing(name: &str, why: &dyn std::fmt::Display) {
    let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
    assert!(!required, "{name} is required here: {why}");
    eprintln!("skipped: {name} is not installed");
}

/// Runs a Python script that needs a module; `None`, with a word about it, where that is not
/// installed. Debian's own interpreter, which has Debian's modules, is asked first.
pub fn python(module: &str, script: &str, arguments: &[&str]) -> Option<(bool, String)> {
    let has = |python: &&str| {
        let import = Command::new(python).args(["-c", &format!("import {module}")]).output();
        import.is_ok_and(|ran| ran.status.success())
    };
    let Some(python) = ["/usr/bin/python3", "python3"].into_iter().find(has) else {
        missing(module, &"no Python has it");
        return None;
    };
    let ran = Command::new(python).args(["-W", "ignore", "-c", script]).args(arguments).output();
    let ran = ran.unwrap();
    let told = [ran.stdout, ran.stderr].concat();
    Some((ran.status.success(), String::from_utf8_lossy(&told).into_owned()))
}
