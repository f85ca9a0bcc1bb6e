#include "wood/panel.h"

namespace plankwright::wood {

using measure::KilogramsPerCubicMetre;
using measure::Megapascals;

base::Result<PanelTable> read_panels(std::string_view csv_text, const std::string& file) {
  return read_table<Panel>("panel", csv_text, file, [](const base::CsvRow& row) {
    return Panel{.id = {},
                 .name = row.word("name"),
                 .density = {KilogramsPerCubicMetre{row.number("density_kg_m3", 50, 2000)},
                             read_provenance(row, "density_mark", "density_src")},
                 .stiffness = {Megapascals{row.number("stiffness_MPa", 100, 40'000)},
                               read_provenance(row, "stiffness_mark", "stiffness_src")},
                 .creep = row.word("creep"),
                 .note = row.text("note")};
  });
}

}  // namespace plankwright::wood
