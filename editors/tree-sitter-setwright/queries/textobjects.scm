; A block is what a class is elsewhere, a line of a day with what stands below it a function.
[
  (exercise_block)
  (gym_block)
  (athlete_block)
  (programme_block)
  (phase_block)
  (scheme_block)
  (day_block)
  (log_block)
] @class.around @class.outer

[
  (exercise_line)
  (session)
] @function.around @function.outer

[
  (set_group)
  (result_set)
  (argument)
] @parameter.inside @parameter.inner @parameter.around @parameter.outer

(comment) @comment.inside @comment.around @comment.outer
