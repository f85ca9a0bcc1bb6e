#include "wood/species.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/nearest.h"

namespace plankwright::wood {
namespace {

using base::CsvRow;
using measure::KilogramsPerCubicMetre;
using measure::Megapascals;
using measure::Newtons;
using measure::Percent;

constexpr double kMegapascalsPerPsi = 6.894757e-3;
constexpr double kNewtonsPerPoundForce = 4.4482216;
constexpr double kWaterDensity = 1000.0;   // kg/m3
constexpr double kMassAt12Percent = 1.12;  // of the oven-dry mass

// Printed gravity is oven-dry mass over volume at 12 %: the board weighs 1.12 times as much. For
// woods printed by green volume the volume at 12 % follows from the volumetric shrinkage, of which
// (30 - 12) / 30 has happened by then (straight line of handbook equation 4-7).
Cited<KilogramsPerCubicMetre> read_density(const CsvRow& row) {
  Provenance from = read_provenance(row, "mechanical_mark", "mechanical_src");
  if (const auto gravity = row.number_if_any("gravity_at_12pct", 0.05, 1.6)) {
    from.how = fmt::format("specific gravity {} at 12 % moisture x 1.12", *gravity);
    return {KilogramsPerCubicMetre{*gravity * kMassAt12Percent * kWaterDensity}, from};
  }
  const double green = row.number("gravity_green", 0.05, 1.4);
  const double shrinkage = row.number("shrink_volume_pct", 1, 30);
  const double gravity = green / (1.0 - shrinkage / 100.0 * (30.0 - 12.0) / 30.0);
  from.how = fmt::format(
      "specific gravity {} on green volume, shrunk by its {} % in proportion to 12 %, x 1.12",
      green,
      shrinkage);
  from.source += ";GTR47";
  from.mark = weaker(from.mark, Mark::kMemory);
  return {KilogramsPerCubicMetre{gravity * kMassAt12Percent * kWaterDensity}, from};
}

Cited<Percent> read_shrinkage(const CsvRow& row, std::string_view column) {
  return {Percent{row.number(column, 0.1, 20)}, read_provenance(row, "shrink_mark", "shrink_src")};
}

std::optional<Cited<double>> read_coefficient(const CsvRow& row, const std::string& column) {
  const auto coefficient = row.number_if_any(column, 0.0001, 0.01);
  if (!coefficient) {
    return std::nullopt;
  }
  return Cited<double>{*coefficient, read_provenance(row, column + "_mark", column + "_src")};
}

Cited<Percent> read_fibre_saturation(const CsvRow& row) {
  return {Percent{row.number("fibre_saturation_pct", 15, 35)},
          {.mark = Mark::kMemory, .source = "GTR47", .how = {}}};
}

std::string read_group(const CsvRow& row) {
  constexpr std::array<std::string_view, 3> kGroups = {"hardwood", "softwood", "imported"};
  const std::string& written = row.word("group");
  if (std::ranges::find(kGroups, written) == kGroups.end()) {
    row.complain("group",
                 fmt::format("`{}` is no group, expected {}", written, base::list_words(kGroups)),
                 base::nearest_word(written, kGroups));
  }
  return written;
}

Species read_wood(const CsvRow& row) {
  const Provenance mechanical = read_provenance(row, "mechanical_mark", "mechanical_src");
  Species wood;
  wood.common_name = row.word("common_name");
  wood.botanical_name = row.text("botanical_name");
  wood.group = read_group(row);
  wood.density = read_density(row);
  wood.radial_shrinkage = read_shrinkage(row, "shrink_radial_pct");
  wood.tangential_shrinkage = read_shrinkage(row, "shrink_tangential_pct");
  wood.radial_coefficient = read_coefficient(row, "coef_radial");
  wood.tangential_coefficient = read_coefficient(row, "coef_tangential");
  wood.fibre_saturation = read_fibre_saturation(row);
  wood.stiffness = {Megapascals{row.number("stiffness_1e6psi", 0.1, 6) * 1e6 * kMegapascalsPerPsi},
                    mechanical};
  wood.strength = {Megapascals{row.number("strength_psi", 500, 60'000) * kMegapascalsPerPsi},
                   mechanical};
  if (const auto hardness = row.number_if_any("hardness_lbf", 20, 10'000)) {
    wood.hardness = Cited<Newtons>{Newtons{*hardness * kNewtonsPerPoundForce}, mechanical};
  }
  wood.note = row.text("note");
  return wood;
}

}  // namespace

base::Result<SpeciesTable> read_species(std::string_view csv_text, const std::string& file) {
  return read_table<Species>("wood", csv_text, file, read_wood);
}

double specific_gravity(const Species& species) {
  return species.density.value.count() / (kMassAt12Percent * kWaterDensity);
}

}  // namespace plankwright::wood
