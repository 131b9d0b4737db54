" Setwright: a line after one that may have lines below it goes one level deeper. The level of any
" other line is the writer's to say, so it is kept.

if exists('b:did_indent')
  finish
endif
let b:did_indent = 1

setlocal indentexpr=SetwrightIndent() indentkeys=o,O,!^F nolisp autoindent
let b:undo_indent = 'setlocal indentexpr< indentkeys< lisp< autoindent<'

if exists('*SetwrightIndent')
  finish
endif

function SetwrightIndent() abort
  let l:above = prevnonblank(v:lnum - 1)
  if l:above == 0
    return 0
  endif
  let l:line = getline(l:above)
  " A blank line before it ends the block, unless something stands there already.
  if l:above < v:lnum - 1 && getline(v:lnum) =~# '^\s*$'
    return 0
  endif
  let l:opens = '^\%(exercise\|gym\|athlete\|programme\|scheme\|day\|log\)\>'
        \ . '\|^\s\+\d\{4}-\d\d-\d\d\s'
  return indent(l:above) + (l:line =~# l:opens ? shiftwidth() : 0)
endfunction
