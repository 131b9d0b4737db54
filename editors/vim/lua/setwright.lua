-- Setwright in Neovim, from 0.7 on: `require('setwright').setup()` in init.lua.
--
--   require('setwright').setup({
--     path = 'setwright',       -- the program
--     athlete = 'Robin Vale',   -- whose loads stand beside the lines; nil: the first athlete
--     week = 4,                 -- of which week; nil: the first
--     treesitter = true,        -- colours from the grammar, where it is installed
--   })

local M = {}

local options = { path = 'setwright', treesitter = true }

local function shown()
  return { athlete = options.athlete, week = options.week }
end

local function clients(buffer)
  if vim.lsp.get_clients then
    return vim.lsp.get_clients({ name = 'setwright', bufnr = buffer })
  end
  local found = {}
  for _, client in pairs(vim.lsp.buf_get_clients(buffer or 0)) do
    if client.name == 'setwright' then
      table.insert(found, client)
    end
  end
  return found
end

-- Other hints: for the rest of this session.
function M.show(athlete, week)
  options.athlete, options.week = athlete, week
  local params = { command = 'setwright.show', arguments = { shown() } }
  if not next(params.arguments[1]) then
    params.arguments[1] = vim.empty_dict()
  end
  for _, client in ipairs(clients(vim.api.nvim_get_current_buf())) do
    local send = client.request
    if vim.fn.has('nvim-0.11') == 1 then
      client:request('workspace/executeCommand', params)
    else
      send('workspace/executeCommand', params)
    end
  end
end

local function attached(client, buffer)
  -- 0.7 sets none of these itself.
  vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
  if vim.fn.has('nvim-0.10') == 0 then
    vim.keymap.set('n', 'K', vim.lsp.buf.hover, { buffer = buffer })
  end
  if vim.lsp.inlay_hint and client.server_capabilities.inlayHintProvider then
    pcall(vim.lsp.inlay_hint.enable, true, { bufnr = buffer })
  end
end

local function config()
  local init = { shown = shown() }
  if not next(init.shown) then
    init.shown = vim.empty_dict()
  end
  return {
    name = 'setwright',
    cmd = { options.path, 'lsp' },
    filetypes = { 'setwright' },
    init_options = init,
    on_attach = attached,
  }
end

-- The folder with `.git` above the file, else the file's own.
local function root(buffer)
  local file = vim.api.nvim_buf_get_name(buffer)
  local folder = vim.fn.fnamemodify(file, ':p:h')
  local git = vim.fn.finddir('.git', folder .. ';')
  return git ~= '' and vim.fn.fnamemodify(git, ':p:h:h') or folder
end

local started = {}

-- 0.7 has no `vim.lsp.start`: one server for each root.
local function attach(buffer)
  local wanted = config()
  wanted.root_dir = root(buffer)
  if vim.lsp.start then
    return vim.lsp.start(wanted, { bufnr = buffer })
  end
  local id = started[wanted.root_dir]
  if not id or vim.lsp.client_is_stopped(id) then
    id = vim.lsp.start_client(wanted)
    started[wanted.root_dir] = id
  end
  if id then
    vim.lsp.buf_attach_client(buffer, id)
  end
end

function M.setup(given)
  options = vim.tbl_extend('force', options, given or {})
  local group = vim.api.nvim_create_augroup('setwright', {})
  local new = vim.fn.has('nvim-0.11') == 1
  if new then
    vim.lsp.config('setwright', config())
    vim.lsp.enable('setwright')
  end
  vim.api.nvim_create_autocmd('FileType', {
    group = group,
    pattern = 'setwright',
    callback = function(event)
      if options.treesitter and vim.treesitter.start then
        -- Without the parser, the colours of `syntax/setwright.vim` stay.
        pcall(vim.treesitter.start, event.buf, 'setwright')
      end
      if not new then
        attach(event.buf)
      end
    end,
  })
  -- `:SetwrightShow 4 Robin Vale`: the week, then the athlete; either may be left out.
  vim.api.nvim_create_user_command('SetwrightShow', function(command)
    local week, athlete = command.args:match('^(%d*)%s*(.-)%s*$')
    M.show(athlete ~= '' and athlete or nil, tonumber(week))
  end, { nargs = '*' })
end

return M
