; The words between `words` and `end` are written by a test from the compiler's own table:
; see "Highlighters" in DEVELOPERS.md.

(comment) @comment

; ---------------------------------------------------------------- names and texts

(name) @variable
(path) @string.special.path
(text) @string
(remark) @string
(parameter) @variable.parameter
(code) @constant

(gym_block name: (name) @type)
(athlete_block name: (name) @type)
(programme_block name: (name) @type)
(phase_block name: (name) @type)
(day_block name: (name) @type)
(log_block athlete: (name) @type)
(log_block programme: (name) @type)
(for_line athlete: (name) @type)
(session day: (name) @type)
(exercise_block name: (name) @function)
(scheme_block name: (name) @function)
(exercise_line name: (name) @function)
(result_line name: (name) @function)
(follow (name) @function)

(key) @property
(order) @label
(weekday) @constant

; ---------------------------------------------------------------- numbers

(number) @number
(clock) @number
(date) @number
(unit) @type.builtin
(advice_unit) @type.builtin

; ---------------------------------------------------------------- words

; words
; end

; ---------------------------------------------------------------- signs

["+" "-" "−" "–" "->" "→" "×" "@" "/" ">=" "≥" "<=" "≤" "<" "?"] @operator
["(" ")"] @punctuation.bracket
["," ":"] @punctuation.delimiter
