-- Opens a programme, makes a mistake, sees it, and asks what editors ask.
local function fail(why)
  io.stderr:write('failed: ' .. why .. '\n')
  vim.cmd('cquit 1')
end

local ok, why = pcall(function()
  local client = vim.lsp.start_client({
    name = 'setwright',
    cmd = { vim.env.SETWRIGHT, 'lsp' },
    root_dir = vim.fn.getcwd(),
  })
  assert(client, 'the server does not start')
  local buffer = vim.api.nvim_get_current_buf()
  assert(vim.lsp.buf_attach_client(buffer, client), 'the server is not attached')

  local function found(code)
    for _, one in ipairs(vim.diagnostic.get(buffer)) do
      if (one.code or one.user_data.lsp.code) == code then return true end
    end
    return false
  end
  local function wait(what, holds)
    assert(vim.wait(30000, holds, 20), 'waited in vain for ' .. what)
  end
  local function ask(method, line, column, more)
    local params = vim.tbl_extend('force', {
      textDocument = { uri = vim.uri_from_bufnr(buffer) },
      position = { line = line, character = column },
    }, more or {})
    local answers, err = vim.lsp.buf_request_sync(buffer, method, params, 30000)
    assert(answers and answers[client], method .. ': ' .. tostring(err))
    assert(not answers[client].err, method .. ': ' .. vim.inspect(answers[client].err))
    return answers[client].result
  end

  wait('the start', function() return vim.lsp.get_client_by_id(client).initialized end)

  -- A mistake.
  vim.api.nvim_buf_set_lines(buffer, 11, 12, false, { '  A Back squad: 3 x 5 @ 70%' })
  wait('the mistake', function() return found('unknown-exercise') end)
  vim.api.nvim_buf_set_lines(buffer, 11, 12, false, { '  A Back squat: 3 x 5 @ 70%' })
  wait('its end', function() return not found('unknown-exercise') end)

  local items = ask('textDocument/completion', 11, 8)
  assert(items and #items > 0, 'nothing to complete')
  local hover = ask('textDocument/hover', 11, 8)
  assert(hover and hover.contents.value:find('Back squat'), 'no hover')

  -- Another name, made by the editor.
  local edit = ask('textDocument/rename', 0, 5, { newName = 'Barn' })
  vim.lsp.util.apply_workspace_edit(edit, 'utf-16')
  assert(vim.api.nvim_buf_get_lines(buffer, 0, 1, false)[1] == 'gym Barn', 'not renamed')

  -- The canonical form, made by the editor.
  vim.api.nvim_buf_set_lines(buffer, 1, 3, false, {
    '      bar:  20 kg', '      plates: 20 kg x 4, 10 kg x 2, 5 kg x 2, 2.5 kg x 2',
  })
  vim.lsp.buf.formatting_sync({}, 30000)
  assert(vim.api.nvim_buf_get_lines(buffer, 1, 2, false)[1] == '  bar: 20 kg', 'not formatted')
  assert(vim.api.nvim_buf_get_lines(buffer, 4, 5, false)[1] == 'athlete Žofie Vale', 'spoilt')

  vim.lsp.stop_client(client)
  wait('the end', function() return vim.lsp.client_is_stopped(client) end)
end)
if not ok then fail(tostring(why)) end
io.stderr:write('all is well\n')
vim.cmd('qall!')
