; Names hold in the whole project; the compiler knows them across files (`setwright lsp`). Within a
; file, what a block defines and what uses it.
(source_file) @local.scope

(gym_block name: (name) @local.definition.type)
(athlete_block name: (name) @local.definition.type)
(exercise_block name: (name) @local.definition.function)
(programme_block name: (name) @local.definition.type)
(phase_block name: (name) @local.definition.type)
(scheme_block name: (name) @local.definition.function)
(day_block name: (name) @local.definition.type)
(parameter_line key: (parameter) @local.definition.parameter)

(exercise_line name: (name) @local.reference)
(for_line athlete: (name) @local.reference)
(log_block athlete: (name) @local.reference)
(log_block programme: (name) @local.reference)
(follow (name) @local.reference)
(argument (parameter) @local.reference)
(action (parameter) @local.reference)
(condition (parameter) @local.reference)
(property name: (name) @local.reference)
