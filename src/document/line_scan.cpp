#include "document/line_scan.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/quote.h"
#include "document/utf8.h"
#include "measure/expression.h"

namespace plankwright::document {
namespace {

constexpr std::size_t kDeepest = 64;
constexpr std::size_t kMostWords = 500'000;

class LineScanner {
 public:
  LineScanner(const SourceLines& lines, const std::string& file) : lines_{lines}, file_{file} {
    for (std::size_t i = 0; i < lines.size(); ++i) {
      scan_.mended.emplace_back(lines[i]);
    }
  }
  LineScan run();

 private:
  struct Bracket {
    char sign = '[';
    std::size_t line = 0;
    std::size_t byte = 0;
    int indent = -1;  // of the name or dash it belongs to
  };

  // The characters of the line being looked at; 0 behind its end.
  char at(std::size_t byte) const { return byte < text().size() ? text()[byte] : '\0'; }
  const std::string& text() const { return scan_.mended[line_]; }
  bool ends_at(std::size_t byte) const { return byte >= text().size(); }
  bool white_or_end(std::size_t byte) const { return ends_at(byte) || is_white(at(byte)); }
  bool comment_at(std::size_t byte) const {
    return at(byte) == '#' && (byte == 0 || is_white(at(byte - 1)));
  }
  std::size_t skip_white(std::size_t byte) const {
    while (!ends_at(byte) && is_white(at(byte))) {
      ++byte;
    }
    return byte;
  }

  void blame(std::size_t line, std::size_t byte, std::string message);
  void give_up(std::size_t byte);
  void close_brackets(std::size_t line, std::size_t byte);

  void check_bytes();
  void scan_line();
  bool is_block_text();
  bool is_marker(std::string_view marker) const;
  bool marker();
  void unfinished_bracket();
  bool is_continued(std::size_t indent);
  void scan_values(std::size_t byte);
  std::optional<std::size_t> scan_node(std::size_t byte);
  std::optional<std::size_t> quoted(std::size_t byte);
  void check_escape(std::size_t byte);
  std::optional<std::size_t> plain(std::size_t byte);
  std::optional<std::size_t> bracket(std::size_t byte);
  std::optional<std::size_t> behind_node(std::size_t start, std::size_t end, bool is_plain);
  void check_lone(std::size_t start, std::string_view value);
  std::optional<std::size_t> behind_name(std::size_t start, std::size_t colon);
  bool block_header(std::size_t byte);
  void mend_reserved(std::size_t byte);
  bool is_colon(std::size_t byte, bool behind_quote) const;

  const SourceLines& lines_;
  const std::string& file_;
  LineScan scan_;
  std::size_t line_ = 0;
  std::vector<Bracket> brackets_;
  std::size_t content_line_ = 0;  // where the last value or sign ended
  std::size_t content_end_ = 0;
  int last_indent_ = -1;  // column of the last name or dash of block style
  std::string last_name_;
  bool name_on_line_ = false;
  bool in_block_text_ = false;
  bool plain_open_ = false;  // the last value was plain and may go on in the next line
  bool any_content_ = false;
  bool ended_ = false;
  bool tabs_ = false;
  std::size_t words_ = 0;
};

void LineScanner::blame(std::size_t line, std::size_t byte, std::string message) {
  if (scan_.errors.size() < kMostErrors) {
    scan_.errors.push_back(
        {.message = std::move(message),
         .at = base::Position{file_, static_cast<int>(line) + 1, lines_.column(line, byte)}});
  }
}

/// Takes the rest of the line out; what was open before it is closed.
void LineScanner::give_up(std::size_t byte) {
  scan_.mended[line_].resize(std::min(byte, text().size()));
  close_brackets(line_, text().size());
  plain_open_ = false;
}

void LineScanner::close_brackets(std::size_t line, std::size_t byte) {
  std::string closers;
  for (; !brackets_.empty(); brackets_.pop_back()) {
    closers += brackets_.back().sign == '[' ? ']' : '}';
  }
  scan_.mended[line].insert(byte, closers);
}

/// Bytes that no text holds become `?`.
void LineScanner::check_bytes() {
  std::string& line = scan_.mended[line_];
  bool blamed = false;
  for (std::size_t byte = 0; byte < line.size();) {
    const std::size_t length = utf8_length(std::string_view{line}.substr(byte));
    const auto c = static_cast<unsigned char>(line[byte]);
    const bool control = c == 0x7F || (c < 0x20 && c != '\t');
    if (length != 0 && !control) {
      byte += length;
      continue;
    }
    if (!blamed) {
      blame(line_, byte, fmt::format("found the byte {:02X}, expected text in UTF-8", c));
      blamed = true;
    }
    line[byte++] = '?';
  }
}

/// Text under `|` or `>` is not looked at; it ends with the first line that is indented no further
/// than the name it belongs to.
bool LineScanner::is_block_text() {
  if (in_block_text_ && !is_blank(text()) && static_cast<int>(indent_of(text())) <= last_indent_) {
    in_block_text_ = false;
  }
  return in_block_text_;
}

bool LineScanner::is_marker(std::string_view marker) const {
  return brackets_.empty() && text().starts_with(marker) && white_or_end(marker.size());
}

/// `---` before the document and `...` after it are allowed; a second document is not.
bool LineScanner::marker() {
  const bool second = is_marker("---") && (any_content_ || ended_);
  if (second || (ended_ && !is_marker("..."))) {
    blame(line_, 0, "found a second document, expected one in a file");
    for (std::size_t i = line_; i < scan_.mended.size(); ++i) {
      scan_.mended[i].clear();
    }
    return true;
  }
  ended_ = ended_ || is_marker("...");
  any_content_ = true;
  return ended_;
}

void LineScanner::unfinished_bracket() {
  const Bracket& outer = brackets_.front();
  blame(outer.line,
        outer.byte,
        fmt::format("found `{0}` without its `{1}`", outer.sign, outer.sign == '[' ? ']' : '}'));
  close_brackets(content_line_, std::min(content_end_, scan_.mended[content_line_].size()));
}

/// Whether the line goes on with the plain value above it. A name there is a mistake.
bool LineScanner::is_continued(std::size_t indent) {
  if (!plain_open_ || !brackets_.empty() || static_cast<int>(indent) <= last_indent_) {
    return false;
  }
  std::size_t byte = indent;
  for (; !ends_at(byte) && !comment_at(byte); ++byte) {
    if (at(byte) == ':' && white_or_end(byte + 1)) {
      blame(line_,
            indent,
            last_name_.empty()
                ? std::string{"this line is indented further than the value above it, which is "
                              "complete"}
                : fmt::format("this line is indented further than {}, which already has its "
                              "value; names of one map stand under one another",
                              base::quote(last_name_)));
      scan_.mended[line_].clear();
      return true;
    }
  }
  plain_open_ = ends_at(byte);
  return true;
}

void LineScanner::scan_line() {
  check_bytes();
  if (is_block_text()) {
    return;
  }
  if (is_blank(text())) {
    scan_.mended[line_].clear();  // the library would take a tab in it for indentation
    return;
  }
  const std::size_t indent = indent_of(text());
  const std::size_t start = skip_white(0);
  if (at(start) == '#') {
    plain_open_ = false;
    return;
  }
  if (start > indent && brackets_.empty()) {
    blame(line_, indent, "found a tab as indentation, expected spaces");
    tabs_ = true;
    plain_open_ = false;
  }
  if (marker()) {
    return;
  }
  if (!brackets_.empty() && at(start) != ']' && at(start) != '}' &&
      static_cast<int>(indent) <= brackets_.front().indent) {
    unfinished_bracket();
  }
  if (is_continued(indent)) {
    return;
  }
  plain_open_ = false;
  name_on_line_ = false;
  scan_values(is_marker("---") ? 3 : start);
}

void LineScanner::scan_values(std::size_t byte) {
  for (;;) {
    byte = skip_white(byte);
    if (ends_at(byte) || comment_at(byte)) {
      return;
    }
    const auto next = scan_node(byte);
    if (!next) {
      return;
    }
    byte = *next;
    content_line_ = line_;
    content_end_ = byte;
  }
}

/// Looks at the value or sign that starts here and gives where to go on, or nothing when the line
/// is done.
std::optional<std::size_t> LineScanner::scan_node(std::size_t byte) {
  if (++words_ > kMostWords) {
    blame(line_, byte, "found more than 500000 names, values and signs");
    scan_.hopeless = true;
    return std::nullopt;
  }
  const char c = at(byte);
  const bool flow = !brackets_.empty();
  if (!flow && c == '-' && white_or_end(byte + 1)) {
    if (name_on_line_) {
      blame(line_, byte, "found `-` behind a name; a list begins on the next line");
      give_up(byte);
      return std::nullopt;
    }
    last_indent_ = static_cast<int>(byte);
    last_name_.clear();
    return byte + 1;
  }
  if (!flow && (c == '|' || c == '>') && block_header(byte)) {
    return std::nullopt;
  }
  if (flow && c == ',') {
    return byte + 1;
  }
  if (c == '[' || c == '{' || c == ']' || c == '}') {
    return bracket(byte);
  }
  if (c == '"' || c == '\'') {
    return quoted(byte);
  }
  if (is_colon(byte, false)) {
    blame(line_, byte, "found `:` without a name before it");
    give_up(byte);
    return std::nullopt;
  }
  mend_reserved(byte);
  return plain(byte);
}

/// `|` and `>` begin block text only when nothing but `+`, `-` or a digit follows.
bool LineScanner::block_header(std::size_t byte) {
  std::size_t end = byte + 1;
  while (!ends_at(end) && std::string_view{"+-123456789"}.find(at(end)) != std::string_view::npos) {
    ++end;
  }
  const std::size_t next = skip_white(end);
  in_block_text_ = ends_at(next) || comment_at(next);
  return in_block_text_;
}

void LineScanner::mend_reserved(std::size_t byte) {
  const char c = at(byte);
  const std::string_view kept_for = c == '&'                             ? "anchors"
                                    : c == '*'                           ? "aliases"
                                    : c == '!'                           ? "tags"
                                    : c == '|' || c == '>'               ? "block text"
                                    : c == '%'                           ? "directives"
                                    : c == '@' || c == '`'               ? "itself"
                                    : c == ','                           ? "lists in brackets"
                                    : c == '?' && white_or_end(byte + 1) ? "keys that are maps"
                                                                         : "";
  if (kept_for.empty()) {
    return;
  }
  blame(line_,
        byte,
        fmt::format("found `{}` at the start of a value, where YAML keeps it for {}; text that "
                    "begins so goes into quotes",
                    c,
                    kept_for));
  scan_.mended[line_][byte] = 'x';
}

std::optional<std::size_t> LineScanner::bracket(std::size_t byte) {
  const char c = at(byte);
  if (c == '[' || c == '{') {
    if (brackets_.size() >= kDeepest) {
      blame(line_, byte, "found brackets more than 64 deep");
      scan_.hopeless = true;
      return std::nullopt;
    }
    brackets_.push_back({c, line_, byte, last_indent_});
    return byte + 1;
  }
  const char opener = c == ']' ? '[' : '{';
  if (brackets_.empty() || brackets_.back().sign != opener) {
    blame(line_, byte, fmt::format("found `{}` without its `{}` before it", c, opener));
    give_up(byte);
    return std::nullopt;
  }
  const std::size_t start = brackets_.back().line == line_ ? brackets_.back().byte : byte;
  brackets_.pop_back();
  return behind_node(start, byte + 1, false);
}

/// A quoted text ends on its own line: longer text stands under a `|`. So a forgotten quote is
/// found where it was forgotten, and not where the next one happens to stand.
std::optional<std::size_t> LineScanner::quoted(std::size_t byte) {
  const char quote = at(byte);
  for (std::size_t end = byte + 1; !ends_at(end); ++end) {
    if (quote == '"' && at(end) == '\\') {
      check_escape(end++);
    } else if (at(end) == quote && quote == '\'' && at(end + 1) == quote) {
      ++end;
    } else if (at(end) == quote) {
      return behind_node(byte, end + 1, false);
    }
  }
  blame(line_,
        byte,
        fmt::format("found `{}` without its closing quote in the same line; longer text stands "
                    "under a `|`",
                    quote));
  scan_.mended[line_] += quote == '"' ? " \"" : "'";
  close_brackets(line_, text().size());
  return std::nullopt;
}

/// The signs that YAML 1.2.2, section 5.7, knows behind a backslash.
void LineScanner::check_escape(std::size_t byte) {
  if (std::string_view{"0abt\tnvfre \"/\\N_LPxuU"}.find(at(byte + 1)) == std::string_view::npos) {
    blame(line_,
          byte,
          "found a `\\` in double quotes that begins no known sign; write `\\\\` for one `\\`, or "
          "use "
          "single quotes");
    scan_.mended[line_][byte] = 'x';
  }
}

bool LineScanner::is_colon(std::size_t byte, bool behind_quote) const {
  if (at(byte) != ':') {
    return false;
  }
  const bool flow = !brackets_.empty();
  const bool sign_next = std::string_view{",[]{}"}.find(at(byte + 1)) != std::string_view::npos;
  return white_or_end(byte + 1) || (flow && (sign_next || behind_quote));
}

std::optional<std::size_t> LineScanner::plain(std::size_t byte) {
  const bool flow = !brackets_.empty();
  std::size_t end = byte;
  for (; !ends_at(end) && !comment_at(end) && !is_colon(end, false); ++end) {
    if (flow && std::string_view{",[]{}"}.find(at(end)) != std::string_view::npos) {
      break;
    }
  }
  while (end > byte + 1 && is_white(at(end - 1))) {
    --end;
  }
  return behind_node(byte, end, true);
}

/// What may follow a value: a `:` that makes it a name, a sign of the list it is in, or nothing.
std::optional<std::size_t> LineScanner::behind_node(std::size_t start,
                                                    std::size_t end,
                                                    bool is_plain) {
  content_line_ = line_;
  content_end_ = end;
  const std::size_t next = skip_white(end);
  if (is_colon(next, !is_plain)) {
    return behind_name(start, next);
  }
  const bool done = ends_at(next) || comment_at(next);
  if (!brackets_.empty()) {
    if (done || is_plain || std::string_view{",]}"}.find(at(next)) != std::string_view::npos) {
      return next;
    }
    blame(line_,
          next,
          fmt::format("found {}, expected `,` or the closing bracket",
                      base::quote(std::string_view{text()}.substr(next))));
    give_up(end);
    return std::nullopt;
  }
  if (!done) {
    blame(
        line_,
        next,
        fmt::format("found text behind the closing `{}`; either all of it goes into quotes or none",
                    at(end - 1)));
    give_up(end);
    return std::nullopt;
  }
  plain_open_ = is_plain && ends_at(next);
  if (is_plain || at(start) == '"' || at(start) == '\'') {
    check_lone(start, std::string_view{text()}.substr(start, end - start));
  }
  return std::nullopt;
}

/// A value that is not behind a name or a dash of its own is a name that lost its colon.
void LineScanner::check_lone(std::size_t start, std::string_view value) {
  const auto colon = value.find(':');
  const bool no_space = !name_on_line_ && colon != std::string_view::npos &&
                        measure::is_name(value.substr(0, colon)) &&
                        !value.substr(colon).starts_with("://");
  const bool no_colon = static_cast<int>(start) <= last_indent_;
  if (no_space) {
    blame(line_,
          start + colon,
          fmt::format("found {}, expected a space behind the `:`", base::quote(value)));
  } else if (no_colon) {
    blame(line_, start, fmt::format("found {}, expected `name: value`", base::quote(value)));
  }
  if (no_space || no_colon) {
    give_up(start);
  }
}

std::optional<std::size_t> LineScanner::behind_name(std::size_t start, std::size_t colon) {
  if (!brackets_.empty()) {
    return colon + 1;
  }
  if (name_on_line_) {
    blame(line_, colon, "found a second `: ` in one line; text with a colon goes into quotes");
    give_up(colon);
    return std::nullopt;
  }
  name_on_line_ = true;
  last_indent_ = static_cast<int>(start);
  last_name_ = text().substr(start, colon - start);
  while (!last_name_.empty() && is_white(last_name_.back())) {
    last_name_.pop_back();
  }
  return colon + 1;
}

LineScan LineScanner::run() {
  for (line_ = 0; line_ < scan_.mended.size() && !scan_.hopeless; ++line_) {
    scan_line();
  }
  if (!brackets_.empty() && !scan_.hopeless) {
    unfinished_bracket();
  }
  scan_.hopeless = scan_.hopeless || tabs_;
  return std::move(scan_);
}

}  // namespace

LineScan scan_lines(const SourceLines& lines, const std::string& file) {
  return LineScanner{lines, file}.run();
}

}  // namespace plankwright::document
