#include "wood/ergonomics.h"

#include <fmt/format.h>

namespace plankwright::wood {
namespace {

using base::CsvRow;
using measure::Length;

UsualSize read_usual_size(const CsvRow& row) {
  const std::string& unit = row.word("unit");
  if (unit != "in" && unit != "mm") {
    row.complain("unit", fmt::format("`{}` is no unit of length here, expected in or mm", unit));
  }
  const double millimetres = unit == "in" ? 25.4 : 1.0;
  const Bounds bounds = read_bounds(row);
  const auto length = [&](std::optional<double> written) {
    return written ? std::optional{Length::from_mm(*written * millimetres)} : std::nullopt;
  };
  return {.id = {},
          .what = row.word("what"),
          .least = length(bounds.least),
          .most = length(bounds.most),
          .note = row.text("note"),
          .from = read_provenance(row)};
}

}  // namespace

base::Result<UsualSizeTable> read_usual_sizes(std::string_view csv_text, const std::string& file) {
  return read_table<UsualSize>("usual size", csv_text, file, read_usual_size);
}

Length outside_by(const UsualSize& usual, Length size) {
  if (usual.least && size < *usual.least) {
    return size - *usual.least;
  }
  if (usual.most && size > *usual.most) {
    return size - *usual.most;
  }
  return {};
}

}  // namespace plankwright::wood
