#pragma once
// Sheet goods by kind: what they weigh and how stiff they are.

#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// A kind of sheet, whoever makes it. The figures of the sheet bought go before these.
struct Panel {
  std::string id;    // "veneered_fibreboard"
  std::string name;  // "veneered fibreboard"
  Cited<measure::KilogramsPerCubicMetre> density;
  Cited<measure::Megapascals> stiffness;  // modulus of elasticity along the sheet
  std::string creep;                      // id in the creep table
  std::string note;
};

using PanelTable = Table<Panel>;

/// Reads data/panels.csv. Errors with place.
base::Result<PanelTable> read_panels(std::string_view csv_text, const std::string& file);

}  // namespace plankwright::wood
