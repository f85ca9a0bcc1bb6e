#include "wood/finishes.h"

#include <fmt/format.h>

namespace plankwright::wood {
namespace {

using base::CsvRow;
using base::Error;
using base::Result;
using measure::Length;
using measure::Minutes;
using measure::Percent;

constexpr double kMinutesPerHour = 60;
constexpr double kMinutesPerDay = 24 * kMinutesPerHour;

/// The columns `stem`_least`tail` and `stem`_most`tail`, each from `bottom` to `top`.
Range<double> read_range(const CsvRow& row,
                         const std::string& stem,
                         const std::string& tail,
                         double bottom,
                         double top) {
  const Range<double> range{row.number(stem + "_least" + tail, bottom, top),
                            row.number(stem + "_most" + tail, bottom, top)};
  if (range.least > range.most) {
    row.complain(stem + "_least" + tail, fmt::format("{} runs backwards", stem));
  }
  return range;
}

template <class T>
Range<T> scaled(const Range<double>& range, double factor) {
  return {T{range.least * factor}, T{range.most * factor}};
}

std::optional<Minutes> read_hours(const CsvRow& row, std::string_view column) {
  const auto hours = row.number_if_any(column, 0.01, 1000);
  return hours ? std::optional{Minutes{*hours * kMinutesPerHour}} : std::nullopt;
}

FinishType read_finish(const CsvRow& row) {
  FinishType finish;
  finish.name = row.word("name");
  const Range<double> spread = read_range(row, "spread", "", 10, 10'000);
  finish.spread = {from_square_feet_per_gallon(spread.least),
                   from_square_feet_per_gallon(spread.most)};
  const Range<double> coats = read_range(row, "coats", "", 1, 20);
  finish.coats = {static_cast<int>(coats.least), static_cast<int>(coats.most)};
  finish.recoat = scaled<Minutes>(read_range(row, "recoat", "_h", 0, 1000), kMinutesPerHour);
  finish.recoat_within = read_hours(row, "recoat_within_h");
  if (!row.text("cure_least_days").empty()) {
    finish.cure = scaled<Minutes>(read_range(row, "cure", "_days", 0, 365), kMinutesPerDay);
  }
  finish.pot_life = read_hours(row, "pot_life_h");
  finish.rags_source = row.text("rags_src");
  finish.note = row.text("note");
  finish.from = read_provenance(row);
  return finish;
}

}  // namespace

Result<FinishTable> read_finishes(std::string_view csv_text, const std::string& file) {
  return read_table<FinishType>("finish", csv_text, file, read_finish);
}

Result<FinishTransferTable> read_finish_transfers(std::string_view csv_text,
                                                  const std::string& file) {
  return read_table<FinishTransfer>(
      "way to put on a finish", csv_text, file, [](const CsvRow& row) {
        return FinishTransfer{
            .id = {},
            .name = row.word("name"),
            .arrives = scaled<Percent>(
                {row.number("least_pct", 1, 100), row.number("most_pct", 1, 100)}, 1.0),
            .from = read_provenance(row)};
      });
}

Result<Litres> litres_needed(measure::SquareMillimetres area,
                             int coats,
                             SquareMetresPerLitre spread,
                             Percent transfer) {
  if (!(spread.count() > 0) || !(transfer.count() > 0 && transfer.count() <= 100)) {
    return Error{.message =
                     "spread and transfer of a finish must be more than zero, and no more "
                     "than 100 % arrives"};
  }
  return Litres{measure::square_metres(area) * coats / (spread.count() * transfer.count() / 100.0)};
}

Result<SquareMetresPerLitre> spread_of_solids(Percent solids_by_volume, Length dry_film) {
  const double solids = solids_by_volume.count() / 100.0;
  if (dry_film <= Length{} || !(solids > 0 && solids <= 1)) {
    return Error{.message = "a film needs a thickness, and solids between 0 and 100 %"};
  }
  return SquareMetresPerLitre{solids / dry_film.mm()};
}

}  // namespace plankwright::wood
