#pragma once
// Tables written as comma-separated values (RFC 4180), with places for error messages.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace plankwright::base {

/// One cell as written, quotes taken off and spaces around it cut away.
struct CsvCell {
  std::string text;
  int line = 1;
  int column = 1;
};

/// A table whose first row names its columns; every row below has a cell for each of them.
struct CsvTable {
  std::string file;
  std::vector<CsvCell> columns;
  std::vector<std::vector<CsvCell>> rows;
};

/// Reads a table. Cells may be quoted (`"a ""b"" c"`) and then hold commas and line ends; lines
/// that begin with `#` and blank lines are left out; both kinds of line end and a byte order mark
/// are taken. Errors, with their places: no header, an empty or repeated column name, a row with
/// too few or too many cells, an unfinished quote, text after a closing quote.
Result<CsvTable> read_csv(std::string_view text, const std::string& file);

/// One row of a table read by column name. What is wrong with a cell goes into `errors` with its
/// place, and a harmless value comes back, so that a whole row is read without asking in between.
class CsvRow {
 public:
  /// `table` and `errors` must outlive the row.
  CsvRow(const CsvTable& table, std::size_t row, Errors& errors)
      : table_{table}, cells_{table.rows[row]}, errors_{errors} {}

  /// The text of a cell, which may be empty.
  const std::string& text(std::string_view column) const;
  /// The text of a cell that must not be empty.
  const std::string& word(std::string_view column) const;
  /// A finite decimal number from `least` to `most`.
  double number(std::string_view column, double least, double most) const;
  /// The same, or nothing when the cell is empty.
  std::optional<double> number_if_any(std::string_view column, double least, double most) const;
  /// Complains of a cell. `nearest` is the right word for a mistyped one, or empty.
  void complain(std::string_view column, std::string message, std::string nearest = {}) const;

 private:
  const CsvCell& cell(std::string_view column) const;

  const CsvTable& table_;
  const std::vector<CsvCell>& cells_;
  Errors& errors_;
};

/// The rows of a table as values: `read_row` makes one value of one row. The first mistake found,
/// in the order of the text, is the error.
template <class ReadRow>
auto read_csv_rows(std::string_view text, const std::string& file, const ReadRow& read_row)
    -> Result<std::vector<decltype(read_row(std::declval<const CsvRow&>()))>> {
  const Result<CsvTable> table = read_csv(text, file);
  if (!table.ok()) {
    return table.error();
  }
  Errors errors;
  std::vector<decltype(read_row(std::declval<const CsvRow&>()))> values;
  for (std::size_t row = 0; row < table.value().rows.size(); ++row) {
    values.push_back(read_row(CsvRow{table.value(), row, errors}));
  }
  if (!errors.empty()) {
    return errors.front();
  }
  return values;
}

}  // namespace plankwright::base
