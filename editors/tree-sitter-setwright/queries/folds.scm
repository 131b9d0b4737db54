; Blocks, and lines that others stand below.
[
  (exercise_block)
  (gym_block)
  (athlete_block)
  (programme_block)
  (phase_block)
  (scheme_block)
  (day_block)
  (log_block)
  (exercise_line)
  (for_line)
  (week_line)
  (session)
] @fold
