" Setwright: a plain-text notation for strength programmes.
"
" The words between `words` and `end` are written by a test from the compiler's own table: see
" `Highlighters` in DEVELOPERS.md.

scriptencoding utf-8

if exists('b:current_syntax')
  finish
endif

" words
let s:action = 'max from last set\|reps to bottom\|load down one\|load up one\|hold\|load\|reps\|sets\|max'
let s:advice = 'warning\|allow\|info\|none'
let s:choice = 'isolation\|compound\|move on\|nearest\|seconds\|a pair\|metres\|repeat\|both\|down\|each\|reps\|no'
let s:condition = 'any rep missed\|all reps made\|top of range\|in a row\|last set\|missed\|every'
let s:count = 'sessions\|session\|rounds\|AMRAP\|round\|weeks\|reps\|sets\|week\|rep\|set'
let s:equipment = 'kettlebells\|kettlebell\|body mass\|dumbbells\|dumbbell\|barbell\|machine\|other\|stack\|band'
let s:group = 'rounds in\|circuit\|paired\|every'
let s:head = 'programme\|exercise\|notation\|athlete\|scheme\|phase\|day\|gym\|log\|use'
let s:joint = 'between\|tested\|until\|each\|side\|and\|for\|as\|at\|by\|of\|on'
let s:key = 'missed session\|training max\|also called\|kettlebells\|supervision\|counted in\|body mass\|dumbbells\|equipment\|athletes\|estimate\|language\|over max\|rounding\|collars\|muscles\|pattern\|replace\|setting\|warm-up\|advice\|before\|follow\|plates\|safety\|source\|starts\|after\|avoid\|bands\|lacks\|level\|limit\|plate\|range\|setup\|sides\|stack\|weeks\|demo\|goal\|kind\|like\|name\|note\|rack\|swap\|time\|unit\|bar\|cue\|gym\|has\|max'
let s:letter = 'X\|x'
let s:line = 'otherwise\|weeks\|week\|when\|for'
let s:load = 'training max\|bodyweight\|top set\|last\|1RM\|bar'
let s:name_key = 'also called\|athletes\|estimate\|muscles\|pattern\|replace\|avoid\|lacks\|limit\|like\|swap\|gym\|has'
let s:option = 'as written\|no warm-up\|rest-pause\|with phase\|alternate\|each set\|change\|every\|range\|tempo\|drop\|rest'
let s:result = 'skipped\|extra\|done'
let s:scale = 'pain\|RIR\|RPE'
let s:text_key = 'supervision\|language\|over max\|setting\|before\|safety\|source\|after\|level\|range\|setup\|demo\|goal\|name\|note\|rack\|cue'
let s:unit = 'lbs\|min\|sec\|kg\|lb\|mm\|m\|s'
let s:weekday = 'wednesday\|saturday\|thursday\|tuesday\|friday\|monday\|sunday\|fri\|mon\|sat\|sun\|thu\|tue\|wed'
" end

syntax case match
syntax sync minlines=1

" A comment: a `#` at the margin, or with a space (or the line's end) on both sides.
let s:comment = '\s#\%(\s\|$\)'
" A name or a text ends before a comment.
let s:stop = '\ze\s*\%(' . s:comment . '\|$\)'
let s:colon = '\s*\ze:\%(\s\|$\)'

syntax match setwrightComment /\%(^\s*\)\@<=#.*$/ contains=@Spell
syntax match setwrightComment /\s\@1<=#\%(\s.*\)\=$/ contains=@Spell

" ---------------------------------------------------------------- blocks

execute 'syntax match setwrightHead /^\%(' . s:head . '\)\%(\s\|$\)\@=/ skipwhite nextgroup=setwrightBlockName,setwrightBlockKeyName'
execute 'syntax match setwrightBlockName /\S.\{-}' . '\ze\%(\s\+(\c\%(' . s:weekday . '\))\)\=\s*\%(' . s:comment . '\|$\)/ contained skipwhite nextgroup=setwrightWeekday'
execute 'syntax match setwrightBlockKeyName /\S.\{-}' . s:colon . '/ contained nextgroup=setwrightColon'
execute 'syntax match setwrightWeekday /(\@1<=\c\%(' . s:weekday . '\))\@=/'

" ---------------------------------------------------------------- lines

" What begins a line: its margin, then one of these.
syntax match setwrightMargin /^\s\+/ nextgroup=setwrightParameter,setwrightKey,setwrightKeyOfScheme,setwrightKeyOfNames,setwrightKeyOfText,setwrightLine,setwrightFor,setwrightOrder,setwrightSession
syntax match setwrightColon /:/ contained
execute 'syntax match setwrightParameter /\a[[:alpha:]_]*' . s:colon . '/ contained nextgroup=setwrightColon'
execute 'syntax match setwrightKey /\%(' . s:key . '\)\ze\%(\s.\{-}\)\=\s*:\%(\s\|$\)/ contained skipwhite nextgroup=setwrightColon,setwrightKeyName'
execute 'syntax match setwrightKeyName /[^: \t].\{-}' . s:colon . '/ contained nextgroup=setwrightColon'
execute 'syntax match setwrightKeyOfNames /\%(' . s:name_key . '\)\ze\%(\s.\{-}\)\=\s*:\%(\s\|$\)/ contained skipwhite nextgroup=setwrightColonOfNames,setwrightNameOfNames'
execute 'syntax match setwrightNameOfNames /[^: \t].\{-}' . s:colon . '/ contained nextgroup=setwrightColonOfNames'
syntax match setwrightColonOfNames /:/ contained skipwhite nextgroup=setwrightNames
execute 'syntax match setwrightNames /\S.\{-}' . s:stop . '/ contained contains=setwrightRemark,setwrightComma,setwrightShare'
syntax match setwrightKeyOfScheme /follow\ze\s*:\%(\s\|$\)/ contained skipwhite nextgroup=setwrightColonOfScheme
syntax match setwrightColonOfScheme /:/ contained skipwhite nextgroup=setwrightScheme
execute 'syntax match setwrightScheme /\S.\{-}\ze\s*\%(,\s*\a[[:alpha:]_]*\s\+\d[0-9.]*\s*\%(\c\%(kg\|lbs\=\)\|%\)\=\s*\)*\%(' . s:comment . '\|$\)/ contained'
execute 'syntax match setwrightKeyOfText /\%(' . s:text_key . '\)\ze\%(\s.\{-}\)\=\s*:\%(\s\|$\)/ contained skipwhite nextgroup=setwrightColonOfText,setwrightNameOfText'
execute 'syntax match setwrightNameOfText /[^: \t].\{-}' . s:colon . '/ contained nextgroup=setwrightColonOfText'
syntax match setwrightColonOfText /:/ contained skipwhite nextgroup=setwrightText
execute 'syntax match setwrightText /\S.\{-}' . s:stop . '/ contained contains=@Spell'
execute 'syntax match setwrightLine /\%(weeks\s*:\)\@!\%(' . s:line . '\)\%(\s\|:\)\@=/ contained'
execute 'syntax match setwrightFor /for\ze\s\+.\{-}:\%(\s\|$\)/ contained skipwhite nextgroup=setwrightAthlete'
execute 'syntax match setwrightAthlete /\S.\{-}' . s:colon . '/ contained nextgroup=setwrightColon'
syntax match setwrightOrder /\u\d\{0,3}\ze\%(\s.\{-}\)\=\s*:\%(\s\|$\)/ contained skipwhite nextgroup=setwrightColon,setwrightExercise
execute 'syntax match setwrightExercise /[^: \t].\{-}' . s:colon . '/ contained nextgroup=setwrightColon'
syntax match setwrightSession /\d\{4}-\d\d-\d\d\ze\s/ contained skipwhite nextgroup=setwrightSessionWeek,setwrightExtra
syntax match setwrightSessionWeek /week\s\+\d\+\s*,/ contained contains=setwrightNumber,setwrightComma skipwhite nextgroup=setwrightDay
syntax match setwrightExtra /extra\>/ contained
execute 'syntax match setwrightDay /\S.\{-}\ze\s*\%(:\s\|:$\|' . s:comment . '\|$\)/ contained'

" ---------------------------------------------------------------- values

" Not in the middle of a word.
let s:before = '\%([[:alpha:]-]\)\@1<!'
let s:after = '\%([[:alnum:]-]\)\@!'
for [s:group, s:list] in [
      \ ['Joint', s:joint], ['Advice', s:advice], ['Choice', s:choice], ['Result', s:result],
      \ ['Equipment', s:equipment], ['Count', s:count], ['Scale', s:scale], ['Group', s:group],
      \ ['Option', s:option]]
  execute 'syntax match setwright' . s:group . ' /' . s:before . '\%(' . s:list . '\)' . s:after . '/'
endfor
execute 'syntax match setwrightLoad /' . s:before . '\c\%(' . s:load . '\)' . s:after . '/'
execute 'syntax match setwrightCondition /' . s:before . '\%(' . s:condition . '\)' . s:after . '/'
execute 'syntax match setwrightAction /' . s:before . '\%(' . s:action . '\)\ze\s*\%([-+−–,#]\|$\)/'
execute 'syntax match setwrightLift /\%(\sof\s\+\)\@<=\%(\c1rm\>\|training max\>\|top set\>\)\@!\a.\{-}\ze\s*\%(,\|->\|→\|\s[-+−–]\s*\d\|' . s:comment . '\|$\)/'

" A kind of bar by its name, not the bar of a ramp.
syntax match setwrightBarName /\%(\a\s\+\)\@<=bar\>/
" What is said in brackets.
syntax match setwrightResult /\<skipped\>\ze\s*(/ skipwhite nextgroup=setwrightRemark
execute 'syntax match setwrightRemark /\%(^\s\+advice:\s.\{-}\)\@<=(.\{-})' . s:stop . '/'

syntax match setwrightNumber /\%(\a\|\l-\)\@2<!\d\+\%(\.\d\+\)\=\%(\a\|-\l\)\@!/
syntax match setwrightNumber /\d\+\%([xX×]\)\@=/
syntax match setwrightNumber /\%(\%(\d\|\s\)[xX×]\)\@3<=\d\+\%(\.\d\+\)\=/
execute 'syntax match setwrightNumber /\%(\a\|\a-\|[.]\)\@2<!\d\+\%(\.\d\+\)\=\ze\s*\c\%(\%(' . s:unit . '\)[[:alnum:]]\@!\|%\)/ skipwhite nextgroup=setwrightUnit'
execute 'syntax match setwrightUnit /\c\%(\%(' . s:unit . '\)[[:alnum:]]\@!\|%\)/ contained'
execute 'syntax match setwrightUnit /\%(:\s\+\)\@<=\c\%(' . s:unit . '\)\ze\s*\%(' . s:comment . '\|$\)/'
syntax match setwrightNumber /\d\{1,3}:\d\d\d\@!/
syntax match setwrightDate /\d\@1<!\d\{4}-\d\d-\d\d\d\@!/
execute 'syntax match setwrightLetter /\a\@1<!\%(' . s:letter . '\|×\)\l\@!/'
syntax match setwrightSign /->\|→\|>=\|≥\|<=\|≤\|[-+−–@\/<?]/
syntax match setwrightComma /,/
syntax match setwrightShare /\s\@1<=\d\+\s*\/\s*\d\+/ contained
syntax match setwrightShare /\sx\s\+\d\+/ contained
syntax region setwrightRemark start=/(/ end=/)/ oneline contained contains=setwrightDate,setwrightUntil
syntax match setwrightUntil /\<until\>/ contained

" ---------------------------------------------------------------- colours

highlight default link setwrightComment Comment
highlight default link setwrightHead Keyword
highlight default link setwrightBlockName Type
highlight default link setwrightBlockKeyName Type
highlight default link setwrightWeekday Constant
highlight default link setwrightKey Identifier
highlight default link setwrightKeyOfNames Identifier
highlight default link setwrightKeyOfText Identifier
highlight default link setwrightKeyOfScheme Identifier
highlight default link setwrightScheme Function
highlight default link setwrightSession Number
highlight default link setwrightKeyName Function
highlight default link setwrightNameOfNames Function
highlight default link setwrightNameOfText Function
highlight default link setwrightText String
highlight default link setwrightRemark String
highlight default link setwrightUntil Operator
highlight default link setwrightLine Statement
highlight default link setwrightFor Statement
highlight default link setwrightSessionWeek Statement
highlight default link setwrightExtra Constant
highlight default link setwrightAthlete Type
highlight default link setwrightDay Type
highlight default link setwrightOrder Label
highlight default link setwrightExercise Function
highlight default link setwrightLift Function
highlight default link setwrightParameter Identifier
highlight default link setwrightJoint Operator
highlight default link setwrightAdvice Keyword
highlight default link setwrightChoice Constant
highlight default link setwrightResult Constant
highlight default link setwrightEquipment Type
highlight default link setwrightCount Type
highlight default link setwrightScale Constant
highlight default link setwrightGroup PreProc
highlight default link setwrightOption PreProc
highlight default link setwrightCondition Conditional
highlight default link setwrightLoad Constant
highlight default link setwrightAction Statement
highlight default link setwrightNumber Number
highlight default link setwrightShare Number
highlight default link setwrightDate Number
highlight default link setwrightUnit Type
highlight default link setwrightLetter Operator
highlight default link setwrightSign Operator
highlight default link setwrightComma Delimiter
highlight default link setwrightColon Delimiter
highlight default link setwrightColonOfNames Delimiter
highlight default link setwrightColonOfText Delimiter
highlight default link setwrightColonOfScheme Delimiter

let b:current_syntax = 'setwright'
