#pragma once
// Lists that a maker writes one line each, cells between commas: boards of a tally, pieces of the
// rack. `#` begins a comment.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/expression.h"
#include "measure/length.h"

namespace plankwright::document {

/// A cell of a line and the column (in characters, from 1) where its text begins.
struct Cell {
  std::string_view text;
  int column = 1;
};

/// A line that is not blank. `end` is the column behind its last character.
struct CellLine {
  int number = 1;
  int end = 1;
  std::vector<Cell> cells;
};

/// Reads the cells of one text and complains with the place of the mistake. The text must outlive
/// what is read from it.
class CellReader {
 public:
  CellReader(const std::string& file, measure::LengthUnit unit, base::Errors& errors)
      : file_{file}, unit_{unit}, errors_{errors} {}

  /// All lines with something on them, up to a bound beyond which it complains.
  std::vector<CellLine> lines(std::string_view text);

  /// True when nobody would read on.
  bool too_many_errors() const;

  /// From now on complaints are about this line.
  void begin(const CellLine& line) { line_ = line.number; }

  void complain(const Cell& cell, std::string message, std::string nearest = {});
  void complain(int column, std::string message) { complain({{}, column}, std::move(message)); }
  base::Position at(const Cell& cell) const { return {file_, line_, cell.column}; }

  /// A size of more than nothing and at most 9 m; `what` it is the size of: "length".
  measure::Length size(const Cell& cell, std::string_view what);

  /// `x3`: so many alike; 1 with a complaint when it is no such count.
  int count(const Cell& cell);

  measure::LengthUnit unit() const { return unit_; }

 private:
  const std::string& file_;
  measure::LengthUnit unit_;
  base::Errors& errors_;
  int line_ = 1;
};

}  // namespace plankwright::document
