#pragma once
// The woods a piece may be made of: weight, movement, stiffness, hardness.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// One wood. Every figure is an average of small clear specimens at 12 % moisture; none is a design
/// value for work on which lives depend.
struct Species {
  std::string id;              // "cherry_black"
  std::string common_name;     // "Cherry, black"
  std::string botanical_name;  // "Prunus serotina"
  std::string group;           // "hardwood", "softwood" or "imported"
  /// Mass with its moisture, for weights. Imported woods are printed by green volume only; theirs
  /// is worked out with their own volumetric shrinkage and says so.
  Cited<measure::KilogramsPerCubicMetre> density;
  /// Shrinkage from green to oven-dry.
  Cited<measure::Percent> radial_shrinkage, tangential_shrinkage;
  /// Change per 1 % moisture between 6 and 14 %; absent where none is published. Never derived from
  /// the shrinkage: some coefficient rows were built on older shrinkage figures.
  std::optional<Cited<double>> radial_coefficient, tangential_coefficient;
  /// Moisture above which the wood no longer swells.
  Cited<measure::Percent> fibre_saturation;
  Cited<measure::Megapascals> stiffness;            // modulus of elasticity
  Cited<measure::Megapascals> strength;             // modulus of rupture
  std::optional<Cited<measure::Newtons>> hardness;  // side, half-ball test
  std::string note;
};

using SpeciesTable = Table<Species>;

/// Reads data/species.csv. `file` names the text in errors, which carry their place.
base::Result<SpeciesTable> read_species(std::string_view csv_text, const std::string& file);

/// Specific gravity on oven-dry mass and volume at 12 % moisture.
double specific_gravity(const Species& species);

}  // namespace plankwright::wood
