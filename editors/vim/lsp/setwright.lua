-- Neovim 0.11 and later finds this by itself: `vim.lsp.enable('setwright')`.
return {
  cmd = { 'setwright', 'lsp' },
  filetypes = { 'setwright' },
  -- A file alone is served too: its folder is the project then.
  root_markers = { '.git' },
}
