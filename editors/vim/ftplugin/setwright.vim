" Setwright: comments, indentation, the formatter.

if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

" Two spaces a level, never a tab.
setlocal expandtab shiftwidth=2 softtabstop=2 tabstop=2
setlocal commentstring=#\ %s comments=b:#
setlocal formatoptions-=t formatoptions+=croql
" Names hold hyphens; so do some keys.
setlocal iskeyword+=-
setlocal suffixesadd=.sets include=^use\\s\\+
setlocal foldmethod=indent foldlevel=99
let b:undo_ftplugin = 'setlocal expandtab< shiftwidth< softtabstop< tabstop< commentstring<'
      \ . ' comments< formatoptions< iskeyword< suffixesadd< include< foldmethod< foldlevel<'

" `:SetwrightFormat` puts the whole file in the standard format. A file with an error is left as it is,
" and what is wrong is shown.
if !exists('*s:format')
  function s:format() abort
    let l:program = get(g:, 'setwright_path', 'setwright')
    let l:text = systemlist(shellescape(l:program) . ' fmt - --stdin-filename ' . shellescape(expand('%'))
          \ , getline(1, '$'))
    if v:shell_error
      echo join(l:text, "\n")
      return
    endif
    let l:view = winsaveview()
    call setline(1, l:text)
    if line('$') > len(l:text)
      execute (len(l:text) + 1) . ',$delete _'
    endif
    call winrestview(l:view)
  endfunction
endif
command! -buffer SetwrightFormat call s:format()
let b:undo_ftplugin .= ' | delcommand SetwrightFormat'

" `:make` checks the file; `:copen` lists what is wrong.
let &l:makeprg = get(g:, 'setwright_path', 'setwright') . ' check %:S'
let &l:errorformat = '%Eerror[%*[^]]]: %m,%Wwarning[%*[^]]]: %m,%Iinfo[%*[^]]]: %m,'
      \ . '%C %#--> %f:%l:%c,%C%.%#,%Z,%-G%.%#'
let b:undo_ftplugin .= ' | setlocal makeprg< errorformat<'
