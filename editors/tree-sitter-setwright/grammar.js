/**
 * Setwright for tree-sitter: the notation of grammar/setwright.pest, line by line, with blocks and
 * what is indented below a line as nodes. Names, line ends and levels come from src/scanner.c.
 *
 * A line that does not read costs only itself: see `wrong_line`.
 */

/// <reference types="tree-sitter-cli/dsl" />
// @ts-check

const comma1 = rule => seq(rule, repeat(seq(',', rule)));
/** What may be indented below a line. */
const below = ($, ...lines) =>
  optional(seq($._indent, repeat1(choice(...lines)), $._dedent));
/** The same below an exercise, a week or an athlete's line, and below what was meant to be one. */
const below_exercise = $ => optional(seq($._indent, repeat1(line_of_exercise($)), $._dedent));
const line_of_exercise = $ => choice($.week_line, $.for_line, $.rule, $.cue,
  alias($.line_property, $.property), alias($.wrong_exercise, $.wrong_line));
const below_session = $ =>
  below($, $.result_line, alias($.session_property, $.property), $.wrong_line);
/** What stands below a line that is not understood is not looked at. */
const any_below = $ => optional(seq($._indent, repeat1($.any_line), $._dedent));
/** A line at the margin and what belongs to it. */
const block = ($, head, ...lines) => seq(head, $._newline, below($, ...lines));
/** A word in capitals or small letters. */
const any_case = word => new RustRegex(`(?i)${word}`);
/** The colon and what stands behind it. Nothing is a mistake, but one that is expected. */
const valued = ($, value) =>
  seq(colon($), choice(seq(field('value', value), $._newline), $.missing_value));
/** `key: value` */
const property = ($, key, value) => seq(field('key', alias(key, $.key)), valued($, value));
/** `key NAME: value` */
const named = ($, key, value) =>
  seq(field('key', alias(key, $.key)), field('name', alias($.key_name, $.name)), valued($, value));
const one_of = (...words) => (words.length === 1 ? words[0] : choice(...words));

const colon = $ => alias($._colon, ':');
const times = choice('x', '×', 'X');
const dash = choice('-', '–');
const sign = choice('+', '-', '−', '–');
const arrow = choice('->', '→');

module.exports = grammar({
  name: 'setwright',

  externals: $ => [
    $._newline,
    $._indent,
    $._dedent,
    $.comment,
    $._colon,
    $._wrong,
    $._text,
    $._key_name,
    $._log_day,
    $._list_name,
    $._item,
    $._bar_ref,
    $._counted_name,
    $._noted_name,
    $._remarked_name,
    $._scheme_name,
    $._measured_name,
    $._bar_name,
    $._day_name,
    $._lift_name,
    $._remark_text,
    $._limit_who,
    $._error_sentinel,
  ],

  extras: $ => [/[ \t\r\n\u00a0]/, $.comment],

  // What a number turns out to be is seen only behind it.
  conflicts: $ => [
    [$.sets, $._count],
    [$.sets, $.cluster, $._count],
    [$.cluster, $._count],
    [$._count],
    [$._whole, $._number],
  ],

  rules: {
    source_file: $ => seq(optional($.notation), repeat(choice(
      $.use,
      $.exercise_block,
      $.gym_block,
      $.athlete_block,
      $.programme_block,
      $.phase_block,
      $.scheme_block,
      $.day_block,
      $.log_block,
      $.wrong_block,
    ))),

    comment: _ => token(/#[^\r\n]*/),

    // A line that does not read, or what is left of it. The scanner makes one only while the parser
    // recovers, so that the next line starts afresh.
    wrong_line: $ => seq($._wrong, $._newline, any_below($)),
    wrong_exercise: $ => seq($._wrong, $._newline, below_exercise($)),
    missing_value: $ => $._newline,
    wrong_session: $ => seq($._wrong, $._newline, below_session($)),
    wrong_block: $ => seq($._wrong, $._newline, any_below($)),
    any_line: $ => seq($._text, $._newline, any_below($)),

    // -------------------------------------------------------------- blocks

    notation: $ => seq('notation', colon($), field('version', $._whole), $._newline),

    use: $ => seq('use', field('path', $.path), $._newline),

    exercise_block: $ => block($, seq('exercise', field('name', alias($.full_name, $.name))),
      alias($.exercise_property, $.property), $.cue, $.wrong_line),
    gym_block: $ => block($, seq('gym', field('name', alias($.full_name, $.name))),
      alias($.gym_property, $.property), $.wrong_line),
    athlete_block: $ => block($, seq('athlete', field('name', alias($.full_name, $.name))),
      alias($.athlete_property, $.property), $.wrong_line),
    programme_block: $ => block($, seq('programme', field('name', alias($.full_name, $.name))),
      alias($.programme_property, $.property), $.wrong_line),
    phase_block: $ => block($,
      seq('phase', field('name', alias($.key_name, $.name)), colon($), $.week_span,
        repeat(seq(',', $.phase_change))),
      alias($.phase_property, $.property), $.wrong_line),
    scheme_block: $ => block($, seq('scheme', field('name', alias($.full_name, $.name))),
      $.week_line, $.rule, $.parameter_line, alias($.wrong_exercise, $.wrong_line)),
    day_block: $ => block($,
      seq('day', field('name', alias($.day_name, $.name)), optional(seq('(', $.weekday, ')'))),
      alias($.day_property, $.property), $.exercise_line, $.group_line,
      alias($.wrong_exercise, $.wrong_line)),
    log_block: $ => block($,
      seq('log', field('athlete', alias($.key_name, $.name)), colon($),
        field('programme', alias($.full_name, $.name))),
      $.session, alias($.wrong_session, $.wrong_line)),

    phase_change: $ => seq(choice('sets', 'load'), $.signed_percent),
    weekday: _ => choice(...['monday', 'mon', 'tuesday', 'tue', 'wednesday', 'wed', 'thursday', 'thu',
      'friday', 'fri', 'saturday', 'sat', 'sunday', 'sun'].map(any_case)),

    // -------------------------------------------------------------- properties of blocks

    exercise_property: $ => choice(
      property($, one_of('also called', 'pattern', 'swap'), $.names),
      property($, one_of('like'), alias($.full_name, $.name)),
      property($, one_of('equipment'), $.equipment),
      property($, one_of('bar'), choice($.mass, alias($._bar_ref, $.name))),
      property($, one_of('sides'), choice($.each, 'both')),
      property($, one_of('counted in'), choice('reps', 'seconds', 'metres')),
      property($, one_of('kind'), choice('compound', 'isolation')),
      property($, one_of('muscles'), $.muscles),
      property($, one_of('setup', 'safety', 'range', 'demo', 'source'), $.text),
      named($, one_of('name', 'setup', 'safety'), $.text),
    ),
    gym_property: $ => choice(
      property($, one_of('bar'), $.bars),
      property($, one_of('plates', 'dumbbells', 'kettlebells'), $.stock),
      property($, one_of('collars'), seq($.mass, optional(choice($.each, 'a pair')))),
      property($, one_of('bands'), $.bands),
      property($, one_of('rounding'), $.rounding),
      property($, one_of('has', 'lacks'), $.things),
      property($, one_of('note'), $.text),
      named($, one_of('stack'), $.stock),
      named($, one_of('plate'), $.plate_size),
    ),
    athlete_property: $ => choice(
      property($, one_of('gym'), alias($.full_name, $.name)),
      property($, one_of('body mass'), $.mass),
      property($, one_of('unit'), $._mass_unit),
      property($, one_of('training max'), $.percent),
      property($, one_of('avoid'), $.avoided),
      property($, one_of('time'), $.duration),
      property($, one_of('rack', 'language', 'level', 'note'), $.text),
      named($, one_of('max'), $.max),
      named($, one_of('replace'), $.remarked),
      named($, one_of('setting'), $.text),
      named($, one_of('limit'), $.limit),
    ),
    programme_property: $ => choice(
      property($, one_of('weeks'), $._whole),
      property($, one_of('starts'), $.date),
      property($, one_of('training max'), $.percent),
      property($, one_of('estimate'), alias($.full_name, $.name)),
      property($, one_of('warm-up'), $.ramp),
      property($, one_of('rounding'), $.rounding),
      property($, one_of('time'), $.duration),
      property($, one_of('athletes'), $.names),
      property($, one_of('missed session'), choice('move on', 'repeat')),
      property($, one_of('advice'), $.advice),
      property($, one_of('before', 'after', 'language', 'supervision', 'goal', 'source', 'note'),
        $.text),
    ),
    phase_property: $ => property($, one_of('note'), $.text),
    day_property: $ => choice(
      property($, one_of('time'), $.duration),
      property($, one_of('warm-up'), $.ramp),
      property($, one_of('note', 'before', 'after'), $.text),
    ),
    line_property: $ => choice(
      property($, one_of('follow'), $.follow),
      property($, one_of('warm-up'), $.ramp),
      property($, one_of('setup', 'setting', 'range', 'note', 'source', 'over max'), $.text),
    ),
    session_property: $ => choice(
      property($, one_of('body mass'), $.mass),
      named($, one_of('max'), $.max),
      property($, one_of('note'), $.text),
    ),
    cue: $ => seq(property($, one_of('cue'), $.text),
      below($, alias($.cue_property, $.property), $.wrong_line)),
    cue_property: $ => property($, one_of('source'), $.text),

    // -------------------------------------------------------------- lines of days and schemes

    exercise_line: $ => seq(
      field('order', choice(alias($._letter, $.order), alias($._member, $.order))),
      field('name', alias($.key_name, $.name)), colon($), optional($.prescription), $._newline,
      below_exercise($),
    ),
    group_line: $ => seq(field('order', alias($._letter, $.order)), valued($, $.group)),
    week_line: $ => seq($.week_span, colon($), optional($.prescription), $._newline,
      below_exercise($)),
    for_line: $ => seq('for', field('athlete', alias($.key_name, $.name)), colon($),
      optional($.prescription), $._newline, below_exercise($)),
    rule: $ => seq(choice(seq('when', $.conditions), 'otherwise'), valued($, $.actions)),
    parameter_line: $ => seq(field('key', $.parameter), valued($, $._amount)),

    week_span: $ => seq(choice('weeks', 'week'), $._whole, optional(seq(dash, $._whole))),
    _letter: _ => /[A-Z]/,
    _member: _ => /[A-Z][0-9]{1,3}/,
    parameter: _ => /\p{L}[\p{L}_]*/,

    // -------------------------------------------------------------- logs

    session: $ => seq($.date, choice($._planned, $._extra), $._newline, below_session($)),
    _planned: $ => seq('week', $._whole, ',', field('day', alias($._log_day, $.name)),
      optional(seq(colon($), $.skipped))),
    _extra: $ => seq('extra', optional(seq(',', field('what', $.text)))),
    result_line: $ => seq(
      field('order', choice(alias($._letter, $.order), alias($._member, $.order))),
      optional(field('name', alias($.key_name, $.name))), valued($, $.result),
    ),
    result: $ => choice('?', $.skipped,
      seq(choice('done', comma1($.result_set)), repeat(seq(optional(','), $.result_note)))),
    skipped: $ => seq('skipped', optional($._remark)),
    result_set: $ => seq($._result_reps, optional(seq('@', $._result_load))),
    _result_reps: $ => choice($.clock, seq($._whole, optional(seq('/', $._whole)),
      optional(choice($._seconds_unit, $._minutes_unit, $._metres_unit)))),
    _result_load: $ => choice(seq(optional(seq($._whole, times)), $.mass), $.bodyweight),
    result_note: $ => choice(seq($._scale, $._number), seq('pain', $._whole)),

    // -------------------------------------------------------------- numbers

    _whole: $ => alias($.whole, $.number),
    _number: $ => choice(alias($.whole, $.number), alias($.decimal, $.number)),
    whole: _ => /[0-9]+/,
    decimal: _ => /[0-9]+\.[0-9]+/,
    clock: _ => /[0-9]{1,3}:[0-9]{2}/,
    date: _ => /[0-9]{4}-[0-9]{2}-[0-9]{2}/,

    _mass_unit: $ => alias(choice(any_case('kg'), any_case('lbs?')), $.unit),
    _seconds_unit: $ => alias(choice('sec', 's'), $.unit),
    _minutes_unit: $ => alias('min', $.unit),
    _metres_unit: $ => alias('m', $.unit),
    mass: $ => seq($._number, $._mass_unit),
    percent: $ => seq($._number, alias('%', $.unit)),
    duration: $ => choice($.clock, seq($._number, choice($._seconds_unit, $._minutes_unit))),
    signed_percent: $ => seq(sign, $.percent),
    signed_mass: $ => seq(sign, $.mass),
    _amount: $ => choice($.mass, $.percent, $._number),

    // -------------------------------------------------------------- values: names and words

    // Rules, not tokens: so one that is missing is put in, and the line keeps its place.
    text: $ => $._text,
    path: $ => $._text,
    full_name: $ => $._text,
    key_name: $ => $._key_name,
    day_name: $ => $._day_name,
    list_name: $ => $._list_name,
    counted_name: $ => $._counted_name,
    measured_name: $ => $._measured_name,
    remarked_name: $ => $._remarked_name,
    scheme_name: $ => $._scheme_name,

    _remark: $ => seq('(', alias($._remark_text, $.remark), ')'),
    names: $ => comma1(alias($.list_name, $.name)),
    equipment: $ => comma1(seq(
      choice('barbell', 'dumbbells', 'dumbbell', 'kettlebells', 'kettlebell', 'stack', 'machine',
        'band', 'body mass', 'other'),
      optional(alias($._item, $.name)))),
    each: _ => seq('each', optional('side')),
    muscles: $ => comma1(seq(alias($.measured_name, $.name), optional($.share))),
    share: $ => choice(seq($._whole, '/', $._whole), $.percent, $._number),
    rounding: _ => choice('nearest', 'down'),
    things: $ => comma1(seq(alias($.counted_name, $.name), optional(seq(times, $._whole)))),
    avoided: $ => comma1(seq(alias($._noted_name, $.name), optional($._limit_note))),
    remarked: $ => seq(alias($.remarked_name, $.name), optional($._remark)),
    limit: $ => seq(alias($._remarked_name, $.text), optional($._limit_note)),
    _limit_note: $ => seq('(', choice($._until,
      seq(alias($._limit_who, $.remark), optional(seq(',', $._until)))), ')'),
    _until: $ => seq('until', $.date),

    advice: $ => choice(
      seq('none', optional($._remark)),
      seq('allow', $.code, optional($._advice_on), optional($._remark)),
      seq($.code, 'at', $._number, $.advice_unit, optional($._advice_on), optional($._remark)),
      seq($.code, 'as', choice('info', 'warning'), optional($._remark)),
    ),
    _advice_on: $ => seq('on', comma1(alias($._noted_name, $.name))),
    code: _ => /\p{L}[\p{L}0-9-]*/,
    advice_unit: _ => /%|\p{L}+/,

    // -------------------------------------------------------------- values: what a gym has

    bars: $ => comma1(seq(optional(alias($._bar_name, $.name)), $._number, optional($._mass_unit))),
    stock: $ => comma1(seq(
      $._stock_mass,
      optional(seq(dash, $._stock_mass, 'by', $._stock_mass)),
      optional(seq(times, $._whole)))),
    _stock_mass: $ => seq($._number, optional($._mass_unit)),
    plate_size: $ => seq($._whole, times, $._whole, alias('mm', $.unit)),
    bands: $ => comma1(seq(alias($.measured_name, $.name), optional($.mass))),

    // -------------------------------------------------------------- values: maxima

    max: $ => choice(
      seq($.percent, 'of', alias($.full_name, $.name)),
      seq(optional(seq($._whole, '@')), choice($.mass, $.bodyweight),
        optional(seq('(', optional('tested'), $.date, ')'))),
    ),
    bodyweight: $ => seq($._bodyweight, optional($.signed_mass)),
    _bodyweight: $ => alias(any_case('bodyweight'), 'bodyweight'),

    // -------------------------------------------------------------- prescriptions

    prescription: $ => seq(choice($._option, $.set_group),
      repeat(choice(seq(optional(','), $._option), seq(',', $.set_group)))),
    set_group: $ => choice(
      seq($.sets, choice('sets', 'set'), optional($._at)),
      seq(optional(seq($.sets, times)), $.reps, optional($._at)),
      $._at,
    ),
    _at: $ => seq('@', $.load),
    sets: $ => seq($._whole, repeat(seq(arrow, $._whole)), optional($.step)),

    reps: $ => seq(choice('AMRAP', $.cluster, $._timed, $._distance, $._counted), optional($.each_side)),
    cluster: $ => seq($._whole, repeat1(seq('+', $._whole)), optional(seq('(', $.duration, ')'))),
    _count: $ => seq($._whole, optional(choice('+', seq(dash, $._whole)))),
    _timed: $ => seq($._time_count, repeat(seq(arrow, $._time_count)), optional($.step)),
    _time_count: $ => choice($.clock, seq($._count, choice($._seconds_unit, $._minutes_unit))),
    _distance: $ => seq($._metre_count, repeat(seq(arrow, $._metre_count)), optional($.step)),
    _metre_count: $ => seq($._count, $._metres_unit),
    _counted: $ => seq($._count, repeat(seq(arrow, $._count)), optional($.step),
      optional(choice('reps', 'rep'))),
    each_side: $ => seq('each', 'side', optional(seq('(', $.duration, 'between', ')'))),

    step: $ => seq(sign, $._number,
      optional(choice(alias('%', $.unit), $._mass_unit, 'reps', 'rep', 'sets', 'set',
        $._seconds_unit, $._metres_unit)),
      '/', choice('week', 'session')),

    load: $ => choice($._effort, $._percent_load, $._bodyweight_load, $._last_load, $._mass_load),
    _effort: $ => seq($._scale, $._number, repeat(seq(arrow, optional($._scale), $._number)),
      optional($.step)),
    _scale: _ => choice('RPE', 'RIR'),
    _percent_load: $ => seq($.percent, optional($._of), repeat(seq(arrow, $.percent)),
      optional($.step), optional($._of)),
    _of: $ => seq('of', choice(alias(any_case('1RM'), '1RM'), 'training max', 'top set',
      field('lift', alias($._lift_name, $.name)))),
    _bodyweight_load: $ => seq($._bodyweight,
      optional(seq($.signed_mass, repeat(seq(arrow, $.signed_mass)), optional($.step)))),
    _last_load: $ => seq('last', optional(choice($.signed_mass, $.signed_percent))),
    _mass_load: $ => seq($.mass, repeat(seq(arrow, $.mass)), optional($.step)),

    _option: $ => choice($.rest_pause, $.rest, $.tempo, $.effort, $.range, $.drop, $.every,
      'no warm-up', 'as written', 'with phase'),
    rest: $ => seq('rest', $.duration, repeat(seq(arrow, $.duration))),
    tempo: $ => seq('tempo', $._tempo_part, '-', $._tempo_part, '-', $._tempo_part, '-', $._tempo_part),
    _tempo_part: $ => choice('X', alias(/[0-9]{1,2}/, $.number)),
    effort: $ => $._effort,
    range: $ => seq('range', alias($._item, $.text)),
    drop: $ => seq('drop', choice('-', '−', '–'), $.percent, optional(seq(times, $._whole)),
      optional('each set')),
    rest_pause: $ => seq('rest-pause', $.duration),
    every: $ => seq('every', $.duration),

    // -------------------------------------------------------------- groups, warm-ups, schemes

    group: $ => seq(choice($._group_how, $._group_option), repeat(seq(',', $._group_option))),
    _group_how: $ => choice($.circuit, $.every_for, $.rounds_in, 'paired'),
    circuit: $ => seq('circuit', optional(seq($._whole, choice('rounds', 'round')))),
    every_for: $ => seq('every', $.duration, 'for', $.duration),
    rounds_in: $ => seq('rounds in', $.duration),
    _group_option: $ => choice($.change, $.rest, 'alternate', 'as written', 'with phase'),
    change: $ => seq('change', $.duration),

    ramp: $ => choice('no', comma1($.ramp_set)),
    ramp_set: $ => seq(choice('bar', $.percent, $.mass), times, $._whole),

    follow: $ => seq(alias($.scheme_name, $.name), repeat(seq(',', $.argument))),
    argument: $ => seq($.parameter, $._amount),

    // -------------------------------------------------------------- rules

    conditions: $ => seq($.condition, repeat(seq('and', $.condition))),
    condition: $ => choice(
      'all reps made',
      'top of range',
      'any rep missed',
      seq('missed', $._quantity, 'in a row'),
      seq('last set', $._comparison, $._quantity, optional(choice('reps', 'rep')),
        optional(seq($._quantity, 'in a row'))),
      seq(choice('RPE', 'pain'), $._comparison, $._quantity),
      seq('every', $._quantity, choice('sessions', 'session', 'weeks', 'week')),
    ),
    _comparison: _ => choice('>=', '≥', '<=', '≤', '<'),
    _quantity: $ => choice($._number, $.parameter),

    actions: $ => comma1($.action),
    action: $ => choice(
      'load up one',
      'load down one',
      seq('load', $._change_by),
      'reps to bottom',
      seq('reps', $._change_by),
      seq('sets', $._change_by),
      'max from last set',
      seq('max', $._change_by),
      'hold',
    ),
    _change_by: $ => seq(sign, choice($._amount, $.parameter)),
  },
});
