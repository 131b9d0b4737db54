//! Neovim recognises the files and starts the server for them. The server's answers are tested
//! elsewhere; here a stand-in for it only records its input.
#![cfg(unix)]

use std::os::unix::fs::PermissionsExt;
use std::process::Command;

use super::support::{repository, tool};

const SCRIPT: &str = r"
local program = vim.env.FOLDER .. '/setwright'
require('setwright').setup({ path = program, athlete = 'Robin Vale', week = 2 })
vim.cmd('edit ' .. vim.env.FOLDER .. '/programme.sets')
local heard = vim.env.FOLDER .. '/heard'
vim.wait(20000, function() return vim.fn.getfsize(heard) > 500 end)
local found = { vim.bo.filetype, vim.bo.commentstring, vim.fn.exists(':SetwrightShow') }
vim.fn.writefile(found, vim.env.FOLDER .. '/out')
";

#[test]
fn neovim_knows_the_files_and_starts_the_server_with_the_settings() {
    if !tool("nvim", "--version") {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    std::fs::write(path("programme.sets"), "programme First\n  weeks: 2\n").unwrap();
    std::fs::write(path("script.lua"), SCRIPT).unwrap();
    let stand_in = "#!/bin/sh\necho \"$*\" > \"$FOLDER/arguments\"\nexec cat > \"$FOLDER/heard\"\n";
    std::fs::write(path("setwright"), stand_in).unwrap();
    std::fs::set_permissions(path("setwright"), std::fs::Permissions::from_mode(0o755)).unwrap();
    let ran = Command::new("nvim")
        .args(["--clean", "--headless", "--cmd"])
        .arg(format!("set runtimepath^={}", repository().join("editors/vim").display()))
        .args(["-c", &format!("luafile {}", path("script.lua").display()), "-c", "qall!"])
        .env("FOLDER", folder.path())
        .env("XDG_STATE_HOME", folder.path())
        .env("XDG_CACHE_HOME", folder.path())
        .output()
        .unwrap();
    let read = |name: &str| {
        std::fs::read_to_string(path(name)).unwrap_or_else(|_| panic!("no {name}: {ran:?}"))
    };
    assert_eq!(read("out"), "setwright\n# %s\n2\n");
    assert_eq!(read("arguments"), "lsp\n");
    let heard = read("heard");
    let (_, body) = heard.split_once("\r\n\r\n").unwrap();
    let first = body.split("Content-Length").next().unwrap();
    let asked: serde_json::Value = serde_json::from_str(first).unwrap();
    assert_eq!(asked["method"], "initialize");
    let shown = &asked["params"]["initializationOptions"]["shown"];
    assert_eq!(shown, &serde_json::json!({ "athlete": "Robin Vale", "week": 2 }));
}
