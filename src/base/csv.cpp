#include "base/csv.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "base/nearest.h"

namespace plankwright::base {
namespace {

using Record = std::vector<CsvCell>;

bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

std::string trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && is_blank(text.back())) {
    text.remove_suffix(1);
  }
  return std::string{text};
}

// Walks the text once, keeping line and column (in characters, not bytes) of the next one.
class Scanner {
 public:
  Scanner(std::string_view text, std::string file) : text_{text}, file_{std::move(file)} {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (text_.starts_with(kByteOrderMark)) {
      text_.remove_prefix(kByteOrderMark.size());
    }
  }

  /// The next record, or an empty one at the end of the text.
  Result<Record> next_record() {
    while (!text_.empty() && begins_with_nothing_to_read()) {
      skip_line();
    }
    Record record;
    if (text_.empty()) {
      return record;
    }
    do {
      Result<CsvCell> cell = next_cell();
      if (!cell.ok()) {
        return cell.error();
      }
      record.push_back(std::move(cell).value());
    } while (take(','));
    skip_line_end();
    return record;
  }

 private:
  bool at_line_end() const {
    return text_.empty() || text_[0] == '\n' || text_.starts_with("\r\n");
  }

  bool begins_with_nothing_to_read() const {
    const std::string_view line = text_.substr(0, text_.find('\n'));
    const std::size_t first = line.find_first_not_of(" \t\r");
    return first == std::string_view::npos || line[first] == '#';
  }

  char advance() {
    const char c = text_[0];
    text_.remove_prefix(1);
    if (c == '\n') {
      ++line_;
      column_ = 1;
    } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      ++column_;
    }
    return c;
  }

  bool take(char c) {
    if (text_.empty() || text_[0] != c) {
      return false;
    }
    advance();
    return true;
  }

  void skip_line() {
    while (!text_.empty() && advance() != '\n') {
    }
  }

  void skip_line_end() {
    take('\r');
    take('\n');
  }

  Result<CsvCell> next_cell() {
    while (!text_.empty() && is_blank(text_[0])) {
      advance();
    }
    CsvCell cell{.text = {}, .line = line_, .column = column_};
    if (take('"')) {
      return quoted_cell(std::move(cell));
    }
    while (!at_line_end() && text_[0] != ',') {
      cell.text += advance();
    }
    cell.text = trimmed(cell.text);
    return cell;
  }

  Result<CsvCell> quoted_cell(CsvCell cell) {
    while (true) {
      if (text_.empty()) {
        return error("this quote is never closed", cell.line, cell.column);
      }
      const char c = advance();
      if (c != '"') {
        cell.text += c;
      } else if (take('"')) {
        cell.text += '"';
      } else {
        break;
      }
    }
    while (!text_.empty() && is_blank(text_[0])) {
      advance();
    }
    if (!at_line_end() && text_[0] != ',') {
      return error("expected a comma or the end of the line after a closing quote", line_, column_);
    }
    return cell;
  }

  Error error(std::string message, int line, int column) const {
    return Error{.code = ErrorCode::kBadInput,
                 .message = std::move(message),
                 .at = Position{file_, line, column},
                 .nearest = {}};
  }

  std::string_view text_;
  std::string file_;
  int line_ = 1;
  int column_ = 1;
};

Error error_at(const CsvTable& table, int line, int column, std::string message) {
  return Error{.code = ErrorCode::kBadInput,
               .message = std::move(message),
               .at = Position{table.file, line, column},
               .nearest = {}};
}

std::optional<Error> check_columns(const CsvTable& table) {
  for (auto it = table.columns.begin(); it != table.columns.end(); ++it) {
    if (it->text.empty()) {
      return error_at(table, it->line, it->column, "a column has no name");
    }
    const auto same = [&](const CsvCell& other) { return other.text == it->text; };
    if (std::any_of(table.columns.begin(), it, same)) {
      return error_at(
          table, it->line, it->column, fmt::format("there are two columns `{}`", it->text));
    }
  }
  return std::nullopt;
}

}  // namespace

Result<CsvTable> read_csv(std::string_view text, const std::string& file) {
  Scanner scanner{text, file};
  CsvTable table{.file = file, .columns = {}, .rows = {}};
  Result<Record> record = scanner.next_record();
  if (record.ok() && record.value().empty()) {
    return error_at(table, 1, 1, "expected a first line with the names of the columns");
  }
  while (record.ok() && !record.value().empty()) {
    if (table.columns.empty()) {
      table.columns = std::move(record).value();
      if (const auto wrong = check_columns(table)) {
        return *wrong;
      }
    } else if (record.value().size() != table.columns.size()) {
      const CsvCell& first = record.value().front();
      return error_at(
          table,
          first.line,
          first.column,
          fmt::format(
              "this row has {} cells, the header {}", record.value().size(), table.columns.size()));
    } else {
      table.rows.push_back(std::move(record).value());
    }
    record = scanner.next_record();
  }
  if (!record.ok()) {
    return record.error();
  }
  return table;
}

const CsvCell& CsvRow::cell(std::string_view column) const {
  static const CsvCell kMissing{};
  for (std::size_t i = 0; i < table_.columns.size(); ++i) {
    if (table_.columns[i].text == column) {
      return cells_[i];
    }
  }
  const CsvCell& header = table_.columns.front();
  errors_.push_back(
      error_at(table_, header.line, header.column, fmt::format("there is no column `{}`", column)));
  return kMissing;
}

const std::string& CsvRow::text(std::string_view column) const {
  return cell(column).text;
}

const std::string& CsvRow::word(std::string_view column) const {
  const CsvCell& found = cell(column);
  if (found.text.empty()) {
    complain(column, fmt::format("`{}` must not be empty", column));
  }
  return found.text;
}

double CsvRow::number(std::string_view column, double least, double most) const {
  const std::string& written = text(column);
  double value = 0;
  const char* end = written.data() + written.size();
  const auto [rest, wrong] = std::from_chars(written.data(), end, value);
  if (written.empty() || wrong != std::errc{} || rest != end || !std::isfinite(value)) {
    complain(column, fmt::format("`{}` must be a number, not `{}`", column, written));
    return least;
  }
  if (value < least || value > most) {
    complain(column, fmt::format("`{}` is {}, expected {} to {}", column, written, least, most));
    return least;
  }
  return value;
}

std::optional<double> CsvRow::number_if_any(std::string_view column,
                                            double least,
                                            double most) const {
  if (text(column).empty()) {
    return std::nullopt;
  }
  return number(column, least, most);
}

void CsvRow::complain(std::string_view column, std::string message, std::string nearest) const {
  const CsvCell& wrong = cell(column);
  Error error = error_at(table_, wrong.line, wrong.column, std::move(message));
  error.nearest = std::move(nearest);
  errors_.push_back(std::move(error));
}

}  // namespace plankwright::base
