// What a regular expression cannot settle in a Setwright file: where lines end, what is indented
// below what, comments, and names, which hold spaces and end where the line's form says.
//
// The rules are those of the compiler: src/syntax/lines.rs (indentation and comments),
// src/syntax/reader.rs (levels) and grammar/setwright.pest (names).

#include "tree_sitter/alloc.h"
#include "tree_sitter/parser.h"

#include <string.h>

// In the order of `externals` in grammar.js.
enum TokenType {
  NEWLINE,
  INDENT,
  DEDENT,
  COMMENT,
  COLON,
  WRONG,          // what is left of a line that does not read
  TEXT,           // to the end of the content
  KEY_NAME,       // after a keyword, to the colon: `max Back squat:`
  LOG_DAY,        // to a colon or the end
  LIST_NAME,      // to a comma or the end
  ITEM,           // the same, after a keyword
  BAR_REF,        // the same, unless it is a mass
  COUNTED_NAME,   // to a comma, ` x 2` or the end
  NOTED_NAME,     // to a comma, a bracket or the end
  REMARKED_NAME,  // to a bracket that ends the line, or the end
  SCHEME_NAME,    // to a comma behind which only parameters with values stand, or the end
  MEASURED_NAME,  // to a comma, a number or the end
  BAR_NAME,       // to a number
  DAY_NAME,       // to a weekday in brackets, or the end
  LIFT_NAME,      // to a comma, an arrow, a signed number or the end
  REMARK_TEXT,    // to the closing bracket
  LIMIT_WHO,      // to the closing bracket or `, until`
  ERROR_SENTINEL, // never valid: all symbols are, while the parser recovers
};

#define DEPTH 64

typedef struct {
  uint16_t columns[DEPTH];
  uint8_t depth;
  // A line that ends with the file has been ended.
  uint8_t ended;
  // The column in which the last comment on a line of its own ended; 0 if there was none.
  uint16_t commented;
  // The column of the line that is being read.
  uint16_t column;
} Scanner;

// What is kept before the columns of the levels.
#define HEADER (2 + 2 * sizeof(uint16_t))

void *tree_sitter_setwright_external_scanner_create(void) {
  return ts_calloc(1, sizeof(Scanner));
}

void tree_sitter_setwright_external_scanner_destroy(void *payload) { ts_free(payload); }

unsigned tree_sitter_setwright_external_scanner_serialize(void *payload, char *buffer) {
  Scanner *scanner = payload;
  unsigned size = 0;
  buffer[size++] = (char)scanner->ended;
  buffer[size++] = (char)scanner->depth;
  memcpy(buffer + size, &scanner->commented, sizeof(uint16_t));
  size += sizeof(uint16_t);
  memcpy(buffer + size, &scanner->column, sizeof(uint16_t));
  size += sizeof(uint16_t);
  memcpy(buffer + size, scanner->columns, scanner->depth * sizeof(uint16_t));
  return size + scanner->depth * sizeof(uint16_t);
}

void tree_sitter_setwright_external_scanner_deserialize(void *payload, const char *buffer,
                                                        unsigned length) {
  Scanner *scanner = payload;
  memset(scanner, 0, sizeof *scanner);
  if (length < HEADER) return;
  scanner->ended = (uint8_t)buffer[0];
  scanner->depth = (uint8_t)buffer[1];
  memcpy(&scanner->commented, buffer + 2, sizeof(uint16_t));
  memcpy(&scanner->column, buffer + 2 + sizeof(uint16_t), sizeof(uint16_t));
  memcpy(scanner->columns, buffer + HEADER, length - HEADER);
}

// ---------------------------------------------------------------- signs

static const int32_t NBSP = 0xa0;

static bool is_space(int32_t sign) { return sign == ' ' || sign == NBSP; }
static bool is_blank(int32_t sign) { return is_space(sign) || sign == '\t'; }
static bool is_digit(int32_t sign) { return sign >= '0' && sign <= '9'; }
// Good enough after a unit: letters beyond ASCII count as letters.
static bool is_wordly(int32_t sign) {
  return is_digit(sign) || (sign >= 'a' && sign <= 'z') || (sign >= 'A' && sign <= 'Z') ||
         sign > NBSP;
}
static bool is_times(int32_t sign) { return sign == 'x' || sign == 'X' || sign == 0xd7; }
static bool is_sign(int32_t sign) {
  return sign == '+' || sign == '-' || sign == 0x2212 || sign == 0x2013;
}
static bool is_line_end(TSLexer *lexer) {
  return lexer->eof(lexer) || lexer->lookahead == '\n' || lexer->lookahead == '\r';
}

static void advance(TSLexer *lexer) { lexer->advance(lexer, false); }
static void skip(TSLexer *lexer) { lexer->advance(lexer, true); }

// ---------------------------------------------------------------- names

// Reads a word that is expected next, of ASCII small letters, in any case.
static bool reads(TSLexer *lexer, const char *word) {
  for (; *word; word++) {
    int32_t sign = lexer->lookahead;
    if (sign >= 'A' && sign <= 'Z') sign += 'a' - 'A';
    if (sign != *word) return false;
    advance(lexer);
  }
  return true;
}

typedef enum { IS_OVER, IS_SIGN, IS_HASH } Next;

// Passes over spaces inside the content and adds them to `passed`. Says what stands behind them: the
// line's end or a comment, a sign, or a `#` that opens no comment, since no space follows it: that
// has been passed over too, and no spaces stand before the next sign.
static Next next(TSLexer *lexer, unsigned *passed) {
  while (is_blank(lexer->lookahead)) {
    advance(lexer);
    (*passed)++;
  }
  if (is_line_end(lexer)) return IS_OVER;
  if (lexer->lookahead != '#' || *passed == 0) return IS_SIGN;
  advance(lexer);
  if (is_line_end(lexer) || is_blank(lexer->lookahead)) return IS_OVER;
  *passed = 0;
  return IS_HASH;
}

// The same, where only the end matters.
static bool goes_on(TSLexer *lexer, unsigned *passed) { return next(lexer, passed) != IS_OVER; }

// Whether a digit stands next, behind spaces.
static bool digit_follows(TSLexer *lexer, unsigned *passed) {
  return next(lexer, passed) == IS_SIGN && is_digit(lexer->lookahead);
}

// From an opening bracket to behind the closing one. Says whether there is one, with something
// in it.
static bool bracket(TSLexer *lexer) {
  advance(lexer);
  unsigned held = 0;
  for (unsigned passed = 0; goes_on(lexer, &passed); passed = 0) {
    held += passed;
    if (lexer->lookahead == ')') {
      advance(lexer);
      return held > 0;
    }
    advance(lexer);
    held++;
  }
  return false;
}

// From an opening bracket to behind `(Mon)`, `(monday)`.
static bool weekday(TSLexer *lexer) {
  static const char *const DAYS[] = {"monday", "tuesday",  "wednesday", "thursday",
                                     "friday", "saturday", "sunday"};
  advance(lexer);
  char word[12] = {0};
  unsigned length = 0;
  while (length < sizeof word - 1 && lexer->lookahead < 0x80 && is_wordly(lexer->lookahead)) {
    int32_t sign = lexer->lookahead;
    word[length++] = (char)(sign >= 'A' && sign <= 'Z' ? sign + ('a' - 'A') : sign);
    advance(lexer);
  }
  if (lexer->lookahead != ')') return false;
  advance(lexer);
  for (unsigned day = 0; day < 7; day++) {
    if (!strcmp(word, DAYS[day]) || (length == 3 && !strncmp(word, DAYS[day], 3))) return true;
  }
  return false;
}

// A mass: `20 kg`, `45lb`. Called at its first digit.
static bool mass(TSLexer *lexer) {
  while (is_digit(lexer->lookahead) || lexer->lookahead == '.') advance(lexer);
  while (is_space(lexer->lookahead)) advance(lexer);
  if (lexer->lookahead == 'k' || lexer->lookahead == 'K') return reads(lexer, "kg") &&
                                                                 !is_wordly(lexer->lookahead);
  if (!reads(lexer, "lb")) return false;
  if (lexer->lookahead == 's' || lexer->lookahead == 'S') advance(lexer);
  return !is_wordly(lexer->lookahead);
}

typedef enum { GO_ON, ENDS, FAILS } Verdict;

// From a comma to the line's end: parameters, each with its value, and nothing else: `, jump 2 kg,
// goal 10`. Stops at the first sign that does not fit, which is a comma where a piece ends too soon.
// A comma with nothing behind it is a mistake.
static Verdict arguments(TSLexer *lexer, unsigned *passed) {
  for (;;) {
    advance(lexer);
    *passed = 0;
    if (!goes_on(lexer, passed) || lexer->lookahead == ',') return FAILS;
    *passed = 0;
    if (is_digit(lexer->lookahead) || !is_wordly(lexer->lookahead)) return GO_ON;
    while ((is_wordly(lexer->lookahead) && !is_digit(lexer->lookahead)) || lexer->lookahead == '_') {
      advance(lexer);
    }
    if (!goes_on(lexer, passed) || *passed == 0 || !is_digit(lexer->lookahead)) return GO_ON;
    *passed = 0;
    while (is_digit(lexer->lookahead)) advance(lexer);
    if (lexer->lookahead == '.') {
      advance(lexer);
      if (!is_digit(lexer->lookahead)) return GO_ON;
      while (is_digit(lexer->lookahead)) advance(lexer);
    }
    bool more = goes_on(lexer, passed);
    if (more && lexer->lookahead != ',') {
      *passed = 0;
      if (lexer->lookahead == '%') {
        advance(lexer);
      } else {
        int32_t first = lexer->lookahead;
        bool kilograms = first == 'k' || first == 'K';
        if (!reads(lexer, kilograms ? "kg" : "lb")) return GO_ON;
        if (!kilograms && (lexer->lookahead == 's' || lexer->lookahead == 'S')) advance(lexer);
        if (is_wordly(lexer->lookahead)) return GO_ON;
      }
      more = goes_on(lexer, passed);
    }
    if (!more) return ENDS;
    if (lexer->lookahead != ',') return GO_ON;
  }
}

// Whether a name of this kind ends here, behind so many spaces. The end has been marked before
// them. Signs that turn out to belong to the name have been passed over, `passed` of them spaces
// at the end.
static Verdict ends(TSLexer *lexer, enum TokenType kind, unsigned spaces, unsigned *passed) {
  int32_t sign = lexer->lookahead;
  switch (kind) {
    case TEXT:
    case WRONG:
      return GO_ON;
    case KEY_NAME:
    case LOG_DAY:
      if (sign != ':') return GO_ON;
      advance(lexer);
      return is_line_end(lexer) || is_blank(lexer->lookahead) ? ENDS : GO_ON;
    case LIST_NAME:
    case ITEM:
    case BAR_REF:
      return sign == ',' ? ENDS : GO_ON;
    case COUNTED_NAME:
      if (sign == ',') return ENDS;
      if (!is_times(sign) || spaces == 0) return GO_ON;
      advance(lexer);
      if (!is_space(lexer->lookahead)) return GO_ON;
      return digit_follows(lexer, passed) ? ENDS : GO_ON;
    case NOTED_NAME:
      if (sign == ',') return ENDS;
      return sign == '(' && bracket(lexer) ? ENDS : GO_ON;
    case REMARKED_NAME:
      return sign == '(' && bracket(lexer) && !goes_on(lexer, passed) ? ENDS : GO_ON;
    case SCHEME_NAME:
      return sign == ',' ? arguments(lexer, passed) : GO_ON;
    case DAY_NAME:
      if (sign != '(' || spaces == 0) return GO_ON;
      return weekday(lexer) && !goes_on(lexer, passed) ? ENDS : GO_ON;
    case MEASURED_NAME:
      return sign == ',' || (is_digit(sign) && spaces > 0) ? ENDS : GO_ON;
    case BAR_NAME:
      if (sign == ',') return FAILS;
      return is_digit(sign) && spaces > 0 ? ENDS : GO_ON;
    case LIFT_NAME:
      if (sign == ',' || sign == 0x2192) return ENDS;
      if (!is_sign(sign)) return GO_ON;
      advance(lexer);
      if (sign == '-' && lexer->lookahead == '>') return ENDS;
      return spaces > 0 && digit_follows(lexer, passed) ? ENDS : GO_ON;
    case REMARK_TEXT:
      return sign == ')' ? ENDS : GO_ON;
    case LIMIT_WHO:
      if (sign == ')') return ENDS;
      if (sign != ',') return GO_ON;
      advance(lexer);
      if (next(lexer, passed) != IS_SIGN) return GO_ON;
      *passed = 0;
      return reads(lexer, "until") && is_space(lexer->lookahead) ? ENDS : GO_ON;
    default:
      return FAILS;
  }
}

// Whether the line's end may end a name of this kind.
static bool may_end_the_line(enum TokenType kind) {
  return kind != KEY_NAME && kind != BAR_NAME && kind != REMARK_TEXT && kind != LIMIT_WHO;
}

// Words that stand where the name of a lift could.
static bool is_no_lift(TSLexer *lexer) {
  switch (lexer->lookahead) {
    case '1':
      return reads(lexer, "1rm") && !is_wordly(lexer->lookahead);
    case 't':
      advance(lexer);
      return (lexer->lookahead == 'r' ? reads(lexer, "raining max") : reads(lexer, "op set")) &&
             !is_wordly(lexer->lookahead);
    default:
      return false;
  }
}

// A name of one kind. Called at its first sign, or behind a `#` that is one (then it has `started`).
static bool name(TSLexer *lexer, enum TokenType kind, bool started) {
  // What is no name goes to the grammar's own tokens. Signs passed over on the way belong to the
  // name if it is one after all.
  if (started) {
    // `#2` is a name whatever follows the `#`.
  } else if (kind == BAR_NAME && is_digit(lexer->lookahead)) {
    return false;
  } else if (kind == BAR_REF && is_digit(lexer->lookahead)) {
    if (mass(lexer)) return false;
    started = true;
  } else if (kind == LIFT_NAME) {
    int32_t first = lexer->lookahead;
    if (is_no_lift(lexer)) return false;
    started = first == '1' || first == 't';
  } else if (kind == LIMIT_WHO && lexer->lookahead == 'u') {
    if (reads(lexer, "until") && is_space(lexer->lookahead)) {
      while (is_space(lexer->lookahead)) advance(lexer);
      if (is_digit(lexer->lookahead)) return false;
    }
    started = true;
  }
  if (started) lexer->mark_end(lexer);
  lexer->result_symbol = kind;
  unsigned spaces = 0;
  for (Next sign; (sign = next(lexer, &spaces)) != IS_OVER;) {
    if (sign == IS_HASH) {
      started = true;
      lexer->mark_end(lexer);
    }
    uint32_t before = lexer->get_column(lexer);
    unsigned passed = 0;
    Verdict verdict = ends(lexer, kind, spaces, &passed);
    if (verdict == FAILS) return false;
    if (verdict == ENDS) return started;
    if (lexer->get_column(lexer) == before) advance(lexer);
    spaces = passed;
    started = true;
    lexer->mark_end(lexer);
  }
  return started && may_end_the_line(kind);
}

// ---------------------------------------------------------------- lines

static bool comment(TSLexer *lexer) {
  lexer->result_symbol = COMMENT;
  while (!is_line_end(lexer)) {
    bool blank = is_blank(lexer->lookahead);
    advance(lexer);
    if (!blank) lexer->mark_end(lexer);
  }
  return true;
}

static uint16_t top(const Scanner *scanner) {
  return scanner->depth ? scanner->columns[scanner->depth - 1] : 0;
}

static uint16_t below_top(const Scanner *scanner) {
  return scanner->depth > 1 ? scanner->columns[scanner->depth - 2] : 0;
}

typedef enum { IS_TOKEN, IS_CONTENT, IS_NOTHING } Start;

// Between two lines: blank lines are passed over, comments found, levels opened and closed.
static Start line_start(Scanner *scanner, TSLexer *lexer, const bool *valid, bool recovering) {
  lexer->mark_end(lexer);
  unsigned column = 0;
  bool commented = false;
  for (;;) {
    if (lexer->lookahead == '\n' || lexer->lookahead == '\r') {
      column = 0;
      skip(lexer);
    } else if (is_blank(lexer->lookahead)) {
      // A tab counts as two spaces, as in the compiler.
      column += lexer->lookahead == '\t' ? 2 : 1;
      skip(lexer);
    } else if (lexer->lookahead == '#') {
      // A comment in the column of this level, or deeper, belongs to it, even at its end.
      if (!commented && column >= top(scanner)) {
        comment(lexer);
        uint32_t end = lexer->get_column(lexer);
        scanner->commented = end > UINT16_MAX ? 0 : (uint16_t)end;
        return IS_TOKEN;
      }
      commented = true;
      while (!is_line_end(lexer)) advance(lexer);
    } else {
      break;
    }
  }
  bool at_end = lexer->eof(lexer);
  if (column > UINT16_MAX) column = UINT16_MAX;
  // A line between two levels is read at the deeper one, and reported by the compiler.
  bool closes = scanner->depth > 0 && (at_end || column <= below_top(scanner));
  if (closes && valid[DEDENT]) {
    scanner->depth--;
    lexer->result_symbol = DEDENT;
    return IS_TOKEN;
  }
  bool opens = !at_end && column > top(scanner) && scanner->depth < DEPTH;
  if (opens && valid[INDENT] && !recovering) {
    scanner->columns[scanner->depth++] = (uint16_t)column;
    lexer->result_symbol = INDENT;
    return IS_TOKEN;
  }
  // Comments further left than this level go to the grammar's own token.
  return at_end || commented ? IS_NOTHING : IS_CONTENT;
}

// The column of the next line that says something.
static uint16_t next_column(TSLexer *lexer) {
  unsigned column = 0;
  for (;; advance(lexer)) {
    if (lexer->lookahead == '#') {
      while (!is_line_end(lexer)) advance(lexer);
    }
    if (lexer->lookahead == '\n' || lexer->lookahead == '\r') {
      column = 0;
    } else if (is_blank(lexer->lookahead)) {
      column += lexer->lookahead == '\t' ? 2 : 1;
    } else {
      return column < UINT16_MAX ? (uint16_t)column : UINT16_MAX;
    }
  }
}

static bool line_end(Scanner *scanner, TSLexer *lexer) {
  lexer->result_symbol = NEWLINE;
  // Where lines were passed over that did not read, levels have been left open.
  while (scanner->depth > 0 && scanner->column <= below_top(scanner)) scanner->depth--;
  if (lexer->eof(lexer)) {
    if (scanner->ended) return false;
    scanner->ended = 1;
  }
  scanner->commented = 0;
  while (lexer->lookahead == '\r') advance(lexer);
  if (lexer->lookahead == '\n') advance(lexer);
  lexer->mark_end(lexer);
  scanner->column = next_column(lexer);
  return true;
}

bool tree_sitter_setwright_external_scanner_scan(void *payload, TSLexer *lexer,
                                                 const bool *valid) {
  Scanner *scanner = payload;
  bool recovering = valid[ERROR_SENTINEL];
  uint32_t column = lexer->get_column(lexer);
  bool behind_comment = scanner->commented && column == scanner->commented;
  bool at_start = column == 0 || (behind_comment && (recovering || !valid[NEWLINE]));
  unsigned passed = 0;
  // A `#` that opens no comment has been passed over.
  bool hash = false;
  if (!at_start) {
    lexer->mark_end(lexer);
    while (is_blank(lexer->lookahead)) {
      skip(lexer);
      passed++;
    }
    if (lexer->lookahead == '#' && passed > 0) {
      advance(lexer);
      lexer->mark_end(lexer);
      if (is_line_end(lexer) || is_blank(lexer->lookahead)) return comment(lexer);
      hash = true;
    }
    if (is_line_end(lexer)) {
      // Where a level may be closed, a comment left of it has been passed, by the grammar's own
      // token. Anywhere else the line ends too soon, and the next one is to be read as usual.
      at_start = valid[DEDENT] && !recovering;
      if (!at_start) return line_end(scanner, lexer);
    }
  }
  if (at_start) {
    Start start = line_start(scanner, lexer, valid, recovering);
    if (start != IS_CONTENT) return start == IS_TOKEN;
  }
  if (recovering) return name(lexer, WRONG, hash);
  if (valid[COLON] && !hash && lexer->lookahead == ':') {
    advance(lexer);
    lexer->mark_end(lexer);
    lexer->result_symbol = COLON;
    return is_line_end(lexer) || is_blank(lexer->lookahead);
  }
  for (int kind = TEXT; kind < ERROR_SENTINEL; kind++) {
    if (!valid[kind]) continue;
    // A space stands between a keyword and a name.
    bool needs_space = kind == TEXT || kind == KEY_NAME || kind == ITEM || kind == DAY_NAME ||
                       kind == LIFT_NAME;
    if (needs_space && passed == 0 && !at_start) return false;
    return name(lexer, kind, hash);
  }
  // Without a space on both sides, `#` opens no comment.
  return (hash || lexer->lookahead == '#') && name(lexer, WRONG, hash);
}
