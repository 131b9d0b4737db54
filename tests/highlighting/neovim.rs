//! Neovim knows the files, and starts the server for them.

use std::process::Command;

use super::support::{repository, tool};

/// What a script in Lua writes to the file named in `out`.
fn neovim(script: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    let (path, out) = (folder.path().join("script.lua"), folder.path().join("out"));
    std::fs::write(&path, script).unwrap();
    let ran = Command::new("nvim")
        .args(["--clean", "--headless", "--cmd"])
        .arg(format!("set runtimepath^={}", repository().join("editors/vim").display()))
        .args(["-c", &format!("luafile {}", path.display()), "-c", "qall!"])
        .env("OUT", &out)
        .env("SETWRIGHT", env!("CARGO_BIN_EXE_setwright"))
        .env("SAMPLE", repository().join("tests/highlighting/mistake.sets"))
        .env("XDG_STATE_HOME", folder.path())
        .env("XDG_CACHE_HOME", folder.path())
        .output()
        .unwrap();
    std::fs::read_to_string(&out).unwrap_or_else(|_| panic!("{ran:?}"))
}

#[test]
fn neovim_knows_the_files_and_starts_the_server() {
    if !tool("nvim", "--version") {
        return;
    }
    let said = neovim(
        "require('setwright').setup({ path = vim.env.SETWRIGHT, week = 2 })
         vim.cmd('edit ' .. vim.env.SAMPLE)
         vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end)
         local found = { vim.bo.filetype, vim.bo.commentstring }
         for _, finding in ipairs(vim.diagnostic.get(0)) do
           table.insert(found, (finding.message:gsub('\\n.*', '')))
         end
         vim.cmd('SetwrightShow 4 Robin Vale')
         vim.fn.writefile(found, vim.env.OUT)",
    );
    let lines: Vec<&str> = said.lines().collect();
    assert_eq!(lines, ["setwright", "# %s", "there is no exercise `Pushupp`"]);
}
