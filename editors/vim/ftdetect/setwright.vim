" Files of the notation.
autocmd BufRead,BufNewFile *.sets setfiletype setwright
