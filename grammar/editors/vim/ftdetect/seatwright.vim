" Which files are Seatwright's.
autocmd BufNewFile,BufRead *.seat,*.shop,*.engine set filetype=seatwright
autocmd FileType seatwright setlocal commentstring=#\ %s comments=:# expandtab shiftwidth=2
