//! A real editor. Debian's Neovim is old; what works there works in newer versions.

use std::process::Command;

use super::client::uri;

/// Neovim, if it is installed; with `SETWRIGHT_TOOLS=required` it must be.
fn neovim() -> bool {
    let found = Command::new("nvim").arg("--version").output().is_ok();
    let required = std::env::var("SETWRIGHT_TOOLS").is_ok_and(|v| v == "required");
    assert!(found || !required, "nvim is required here");
    if !found {
        eprintln!("skipped: nvim is not installed");
    }
    found
}

#[test]
fn neovim_finds_completes_hovers_renames_and_formats() {
    if !neovim() {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let text = "gym Shed\n  bar: 20 kg\n  plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2\n\n\
        athlete Žofie Vale\n  max Back squat: 100 kg\n\n\
        programme Small\n  weeks: 2\n\nday One\n  A Back squat: 3 x 5 @ 70%\n";
    let file = folder.path().join("programme.sets");
    std::fs::write(&file, text).unwrap();
    let script = include_str!("neovim.lua");
    std::fs::write(folder.path().join("smoke.lua"), script).unwrap();
    let run = Command::new("nvim")
        .args(["--headless", "-u", "NONE", "-i", "NONE", "-n", "programme.sets"])
        .args(["-c", "luafile smoke.lua"])
        .env("SETWRIGHT", env!("CARGO_BIN_EXE_setwright"))
        .env("HOME", folder.path())
        .env("FOLDER", uri(folder.path()))
        .current_dir(folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&run.stderr);
    assert!(run.status.success() && said.contains("all is well"), "{said}");
}
