#include "wood/proportions.h"

namespace plankwright::wood {

base::Result<ProportionTable> read_proportions(std::string_view csv_text, const std::string& file) {
  return read_table<Proportion>("proportion", csv_text, file, [](const base::CsvRow& row) {
    const Bounds bounds = read_bounds(row);
    return Proportion{.id = {},
                      .what = row.word("what"),
                      .least = bounds.least,
                      .most = bounds.most,
                      .note = row.text("note"),
                      .from = read_provenance(row)};
  });
}

}  // namespace plankwright::wood
