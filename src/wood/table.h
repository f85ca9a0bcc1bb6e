#pragma once
// A reference table: rows with an id, looked up by it.

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/csv.h"
#include "base/result.h"

namespace plankwright::wood {

/// "there is no <what> `<id>`", with the id that was probably meant: the nearest spelling, else the
/// first that holds what was typed (`cherry` offers `cherry_black`).
base::Error no_such_row(std::string_view what,
                        std::string_view id,
                        const std::vector<std::string>& ids);

/// A figure that may be open on one side.
struct Bounds {
  std::optional<double> least, most;
};

/// The columns `least` and `most` of a row. Complains when both are empty or they run backwards.
Bounds read_bounds(const base::CsvRow& row);

/// Rows of one kind in the order of the file. `Row` has a member `std::string id`.
template <class Row>
class Table {
 public:
  Table() = default;
  /// `what` is the word for one row in messages, such as "wood".
  Table(std::string what, std::vector<Row> rows) : what_{std::move(what)}, rows_{std::move(rows)} {}

  const std::vector<Row>& rows() const { return rows_; }

  /// The row with this id, or nullptr.
  const Row* get(std::string_view id) const {
    for (const Row& row : rows_) {
      if (row.id == id) {
        return &row;
      }
    }
    return nullptr;
  }

  /// The row with this id. Error kOutOfTable with the nearest id when there is none.
  base::Result<Row> find(std::string_view id) const {
    if (const Row* row = get(id)) {
      return *row;
    }
    return no_such_row(what_, id, ids());
  }

  std::vector<std::string> ids() const {
    std::vector<std::string> all;
    for (const Row& row : rows_) {
      all.push_back(row.id);
    }
    return all;
  }

 private:
  std::string what_ = "row";
  std::vector<Row> rows_;
};

/// Reads a table: `read_row` turns a CSV row into a Row (its `id` is filled in here). Error with
/// place: what `read_row` complains of, an empty id, an id that stands twice.
template <class Row, class ReadRow>
base::Result<Table<Row>> read_table(std::string what,
                                    std::string_view csv_text,
                                    const std::string& file,
                                    const ReadRow& read_row) {
  std::set<std::string> seen;
  auto rows = base::read_csv_rows(csv_text, file, [&](const base::CsvRow& cells) {
    Row row = read_row(cells);
    row.id = cells.word("id");
    if (!seen.insert(row.id).second) {
      cells.complain("id", "`" + row.id + "` stands here a second time");
    }
    return row;
  });
  if (!rows.ok()) {
    return rows.error();
  }
  return Table<Row>{std::move(what), std::move(rows).value()};
}

}  // namespace plankwright::wood
