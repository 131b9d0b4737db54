(gym_block name: (name) @name) @definition.class
(athlete_block name: (name) @name) @definition.class
(exercise_block name: (name) @name) @definition.function
(programme_block name: (name) @name) @definition.module
(phase_block name: (name) @name) @definition.constant
(scheme_block name: (name) @name) @definition.function
(day_block name: (name) @name) @definition.class

(exercise_line name: (name) @name) @reference.call
(for_line athlete: (name) @name) @reference.class
(follow (name) @name) @reference.call
