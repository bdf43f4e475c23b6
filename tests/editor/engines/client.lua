-- A job with a slip in Neovim: its messages, what stands behind its rows, a quick fix, the layout, the file saved.
local out = {}
local function wait(what)
  return vim.wait(20000, what, 20)
end
vim.cmd.edit(vim.env.JOB)
wait(function() return #vim.diagnostic.get(0) > 0 end)
out.diagnostics = vim.tbl_map(function(each)
  return { each.lnum, each.col, each.end_lnum, each.end_col, each.code, each.message }
end, vim.diagnostic.get(0))
local slip = vim.tbl_filter(function(each) return each.severity == vim.diagnostic.severity.ERROR end, vim.diagnostic.get(0))[1]
vim.api.nvim_win_set_cursor(0, { slip.lnum + 1, slip.col })
vim.lsp.buf.code_action({ apply = true, filter = function(action) return action.isPreferred end })
wait(function() return #vim.lsp.inlay_hint.get({ bufnr = 0 }) > 0 end)
out.behind = vim.tbl_map(function(each)
  return { each.inlay_hint.position.line, each.inlay_hint.label }
end, vim.lsp.inlay_hint.get({ bufnr = 0 }))
vim.lsp.buf.format({ timeout_ms = 10000 })
vim.cmd.write()
out.encoding = vim.lsp.get_clients()[1].offset_encoding
vim.lsp.stop_client(vim.lsp.get_clients())
out.stopped = wait(function() return #vim.lsp.get_clients() == 0 end)
io.open(vim.env.OUT, "w"):write(vim.json.encode(out))
vim.cmd.quitall()
