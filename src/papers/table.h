#pragma once
// Tables that run over pages.

#include <optional>
#include <string>
#include <vector>

#include "papers/page_flow.h"

namespace plankwright::papers {

/// How wide a column is: a fixed width, or as narrow as its longest entry, or a share of what the
/// others leave.
struct ColumnWidth {
  enum class Kind { kFixed, kFit, kShare } kind = Kind::kShare;
  double amount = 1;
  static ColumnWidth fixed(double width) { return {Kind::kFixed, width}; }
  static ColumnWidth fit() { return {Kind::kFit, 0}; }
  static ColumnWidth share(double share = 1) { return {Kind::kShare, share}; }
};

struct Column {
  std::string header;
  ColumnWidth width = {};
  Align align = Align::kLeft;
  /// Figures that line up below each other. They are never broken, but set smaller when too wide.
  bool numbers = false;
  /// Larger or heavier text than the rest of the table, such as the setting of a fence.
  std::optional<TextStyle> style = std::nullopt;
};

/// `note` stands small below the text.
struct Cell {
  std::string text;
  std::string note = {};
  bool strong = false;
};

struct Row {
  /// A heading's only cell runs across the table and stays with the row below it; a total has a
  /// line above it and stays with the row before it.
  enum class Kind { kPlain, kHeading, kTotal };
  std::vector<Cell> cells;
  Kind kind = Kind::kPlain;
  /// Not parted from the next row by the end of a page, where that can be helped.
  bool keep_with_next = false;
};

struct Table {
  std::vector<Column> columns;
  std::vector<Row> rows;
  /// What is said instead when there are no rows.
  std::string empty_text;
  TextStyle style = kBodyText;
  /// Every other row on a light ground, for tables that are read across.
  bool shaded = true;
};

/// Sets `table` in the flow. The header is repeated on each page; a row is broken only when it is
/// higher than a whole page. A row without enough cells is filled up with empty ones.
void set_table(Flow& flow, const Table& table);

/// The widths the columns get in `width`, in order. Fitted columns give way when there is no room
/// for all: they shrink in proportion, and shared ones keep at least 8 mm each.
std::vector<double> column_widths(const Table& table, double width);

}  // namespace plankwright::papers
