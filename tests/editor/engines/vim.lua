-- What Vim's syntax engine makes of files: {name: [[line, byte], ...]} in, the groups' names in the same order out.
local input = vim.json.decode(io.open(vim.env.IN):read("a"))
local out = {}
for file, places in pairs(input) do
  vim.cmd.edit(vim.fn.fnameescape(file))
  local names = {}
  for at, place in ipairs(places) do
    names[at] = vim.fn.synIDattr(vim.fn.synID(place[1] + 1, place[2] + 1, 1), "name")
  end
  out[file] = names
  vim.cmd("bwipeout!")
end
io.open(vim.env.OUT, "w"):write(vim.json.encode(out))
vim.cmd.quitall()
