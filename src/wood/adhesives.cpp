#include "wood/adhesives.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace plankwright::wood {
namespace {

using base::CsvRow;
using base::Error;
using base::ErrorCode;
using base::Result;
using measure::Celsius;
using measure::KilogramsPerCubicMetre;
using measure::Length;
using measure::Megapascals;
using measure::Minutes;
using measure::Newtons;

constexpr double kMegapascalsPerPsi = 6.894757e-3;

/// The figure of `column`, such as `open_min`, whose mark and source are in `open_mark`,
/// `open_src`.
template <class T>
std::optional<Cited<T>> read_cited(const CsvRow& row,
                                   const std::string& column,
                                   double least,
                                   double most) {
  const auto value = row.number_if_any(column, least, most);
  if (!value) {
    return std::nullopt;
  }
  const std::string stem = column.substr(0, column.find('_'));
  return Cited<T>{T{*value}, read_provenance(row, stem + "_mark", stem + "_src")};
}

Adhesive read_adhesive(const CsvRow& row) {
  constexpr double kOneWeek = 7 * 24 * 60;
  return {.id = {},
          .name = row.word("name"),
          .open = read_cited<Minutes>(row, "open_min", 0, kOneWeek),
          .closed = read_cited<Minutes>(row, "closed_min", 0, kOneWeek),
          .clamp = read_cited<Minutes>(row, "clamp_min", 0, kOneWeek),
          .cure = read_cited<Minutes>(row, "cure_min", 0, kOneWeek),
          .least_temperature = read_cited<Celsius>(row, "least_C", -20, 60),
          .grams_per_square_metre = read_cited<double>(row, "spread_g_m2", 10, 1000),
          .note = row.text("note")};
}

ClampPressure read_pressure(const CsvRow& row) {
  return {
      .id = {},
      .name = row.word("name"),
      .density_from = KilogramsPerCubicMetre{row.number("density_from", 0, 2000)},
      .density_below = KilogramsPerCubicMetre{row.number("density_below", 0, 2000)},
      .least = Megapascals{row.number("least_psi", 1, 1000) * kMegapascalsPerPsi},
      .most = Megapascals{row.number("most_psi", 1, 1000) * kMegapascalsPerPsi},
      .from = read_provenance(row),
  };
}

/// `count` as a number of clamps; rounding noise under a millionth is no reason for one more.
Result<int> whole_clamps(double count) {
  constexpr double kMost = 1000;
  constexpr double kRoundingSlack = 1e-6;
  if (!(count <= kMost)) {
    return Error{.code = ErrorCode::kDoesNotFit, .message = "this would take over 1000 clamps"};
  }
  return static_cast<int>(std::ceil(std::max(0.0, count - kRoundingSlack)));
}

}  // namespace

Result<AdhesiveTable> read_adhesives(std::string_view csv_text, const std::string& file) {
  return read_table<Adhesive>("glue", csv_text, file, read_adhesive);
}

Result<ClampPressureTable> read_clamp_pressures(std::string_view csv_text,
                                                const std::string& file) {
  return read_table<ClampPressure>("clamp pressure", csv_text, file, read_pressure);
}

Result<ClampPressure> pressure_for(const ClampPressureTable& table,
                                   KilogramsPerCubicMetre density) {
  for (const ClampPressure& row : table.rows()) {
    if (density >= row.density_from && density < row.density_below) {
      return row;
    }
  }
  return Error{.code = ErrorCode::kOutOfTable,
               .message = fmt::format("no clamp pressure is known for a wood of {:.0f} kg/m3",
                                      density.count())};
}

Newtons clamp_force(measure::SquareMillimetres glue_line, Megapascals pressure) {
  return Newtons{glue_line.count() * pressure.count()};
}

Result<int> clamps_for_force(Newtons force, Newtons each) {
  if (!(each.count() > 0)) {
    return Error{.message = "the force of a clamp must be more than zero"};
  }
  return whole_clamps(force / each);
}

Result<int> clamps_for_spread(Length glue_line, Length pad_to_line) {
  if (pad_to_line <= Length{} || glue_line <= Length{}) {
    return Error{.message = "a glue line and its distance to the clamps must be more than zero"};
  }
  return whole_clamps(std::ceil(glue_line.mm() / (2.0 * pad_to_line.mm()) - 1e-6) + 1.0);
}

}  // namespace plankwright::wood
