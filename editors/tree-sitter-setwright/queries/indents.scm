; Two spaces a level. The file says what belongs together, so a level is never taken back.
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
] @indent.begin @indent
