; Written by a test from the query of the grammar.
; The words between `words` and `end` are written by a test from the compiler's own table:
; see "Highlighters" in DEVELOPERS.md. No two patterns capture one node, so their order does not matter.

(comment) @comment

; ---------------------------------------------------------------- names and texts

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
(property name: (name) @function)
(follow (name) @function)
(max (name) @function)
(load lift: (name) @function)

(property value: (name) @variable)
[
  (names (name) @variable)
  (equipment (name) @variable)
  (muscles (name) @variable)
  (things (name) @variable)
  (avoided (name) @variable)
  (remarked (name) @variable)
  (bars (name) @variable)
  (bands (name) @variable)
  (advice (name) @variable)
]

(key) @variable.other.member
(order) @label
(weekday) @constant

; ---------------------------------------------------------------- numbers

(number) @constant.numeric
(clock) @constant.numeric
(date) @constant.numeric
(unit) @type.builtin
(advice_unit) @type.builtin

; ---------------------------------------------------------------- words

; words
; Head
["notation" "use" "exercise" "gym" "athlete" "programme" "phase" "scheme" "day" "log"] @keyword
; Line
["week" "weeks" "for" "when" "otherwise"] @keyword
; Option
["rest" "tempo" "range" "drop" "rest-pause" "every" "no warm-up" "as written" "with phase" "change" "alternate" "each set"] @keyword.storage.modifier
; Group
["circuit" "rounds in" "paired"] @keyword.storage.modifier
; Load
["bodyweight" "last" "1RM" "training max" "top set" "bar"] @constant.builtin
; Scale
["RPE" "RIR" "pain"] @constant.builtin
; Count
["sets" "set" "reps" "rep" "AMRAP" "rounds" "round" "sessions" "session"] @type
; Condition
["all reps made" "top of range" "any rep missed" "missed" "in a row" "last set"] @keyword.control.conditional
; Action
["load up one" "load down one" "load" "reps to bottom" "max from last set" "max" "hold"] @function.builtin
; Equipment
["barbell" "dumbbells" "dumbbell" "kettlebell" "kettlebells" "stack" "machine" "band" "body mass" "other"] @type
; Choice
["each" "both" "a pair" "seconds" "metres" "compound" "isolation" "nearest" "down" "move on" "repeat" "no"] @constant.builtin
; Result
["done" "skipped" "extra"] @constant.builtin
; Advice
["none" "allow" "info" "warning"] @keyword
; Joint
["and" "as" "at" "between" "by" "side" "of" "on" "tested" "until"] @keyword.operator
; Letter
["x" "X"] @operator
; end

; ---------------------------------------------------------------- signs

["+" "-" "−" "–" "->" "→" "×" "@" "/" ">=" "≥" "<=" "≤" "<" "?"] @operator
["(" ")"] @punctuation.bracket
["," ":"] @punctuation.delimiter
