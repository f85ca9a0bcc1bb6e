#include "wood/board_measure.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace plankwright::wood {

using measure::Length;

namespace {

constexpr Length kOneInch = Length::from_nm(25'400'000);
constexpr Length kOneFoot = 12 * kOneInch;

}  // namespace

base::Result<ThicknessTable> read_thickness_classes(std::string_view csv_text,
                                                    const std::string& file) {
  Length thinner;
  return read_table<ThicknessClass>(
      "thickness class", csv_text, file, [&thinner](const base::CsvRow& row) {
        const Length rough = Length::from_inches(row.number("rough_in", 0.05, 12));
        const Length surfaced = Length::from_inches(row.number("surfaced_in", 0.05, 12));
        if (rough <= thinner || surfaced >= rough) {
          row.complain("rough_in", "classes go from thin to thick, each thicker than it planes to");
        }
        thinner = rough;
        return ThicknessClass{
            .id = {}, .rough = rough, .surfaced = surfaced, .from = read_provenance(row)};
      });
}

base::Result<ThicknessClass> class_for(const ThicknessTable& table, Length finished) {
  for (const ThicknessClass& thickness : table.rows()) {
    if (thickness.surfaced >= finished) {
      return thickness;
    }
  }
  return base::Error{
      .code = base::ErrorCode::kDoesNotFit,
      .message = fmt::format(
          "no thickness class planes to {:.1f} mm ({:.3f} in)", finished.mm(), finished.inches())};
}

int surface_measure(Length width, Length length) {
  if (width <= Length{} || length <= Length{}) {
    return 0;
  }
  // In whole nanometres, so that an exact half is one: (w / 1 in) x whole feet / 12, rounded half
  // up.
  const std::int64_t whole_feet = length.nm() / kOneFoot.nm();
  return static_cast<int>((width.nm() * whole_feet + kOneFoot.nm() / 2) / kOneFoot.nm());
}

double tally_board_feet(Length width, Length length, Length nominal) {
  return surface_measure(width, length) * std::max(nominal, kOneInch).inches();
}

double board_feet(Length width, Length length, Length nominal) {
  return std::max(nominal, kOneInch).inches() * width.inches() * length.inches() / 144.0;
}

}  // namespace plankwright::wood
