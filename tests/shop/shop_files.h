#pragma once
// The shops and tables of this project, and written ones, to read in tests.

#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "shop/read_shop.h"

namespace plankwright::shop::test {

/// Opens what is given by name, then what stands in examples/ and data/.
inline OpenFile files(std::map<std::string, std::string> given = {}) {
  return [given = std::move(given)](const std::string& name) -> base::Result<std::string> {
    if (const auto it = given.find(name); it != given.end()) {
      return it->second;
    }
    for (const char* folder : {"/examples/", "/data/"}) {
      std::ifstream in{PLANKWRIGHT_SOURCE_DIR + std::string{folder} + name};
      if (in) {
        return std::string{std::istreambuf_iterator<char>{in}, {}};
      }
    }
    return base::Error{.code = base::ErrorCode::kIo, .message = "there is no file " + name};
  };
}

/// A shop with one of everything, on which the shops of the tests are based.
constexpr std::string_view kBench = R"(shop: Test bench
currency: EUR
units: mm
tables: {labour_standards: two_standards.csv}
people: [{name: Aud, role: maker, wage: 20, paid_hours: 1000}]
overheads: [{what: rent, per_year: 5000}]
utilisation: 50 %
machines:
  planer: {name: planer, widest: 400, shortest: 300}
  saw: {name: saw, kerf: 3}
solids:
  oak_5_4: {name: oak, species: oak_white, quarters: 5, surfaced: 27, price: 10, board_width: 150, board_length: 2500}
sheets:
  ply_18: {name: ply, panel: birch_plywood, thickness: 18, length: 2440, width: 1220, price: 80}
bands:
  band: {name: band, thickness: 0.6, width: 22, price_per_metre: 0.90}
hardware:
  knob: {name: knob, kind: pull, price: 5, sizes: {spacing: 0}}
finishes:
  oil: {name: oil, type: drying_oil, applied: wiped, coats: 2, square_metres_per_litre: 12, price_per_litre: 30}
glues:
  glue: {name: glue, type: pva_white, price_per_litre: 9}
allowances: {rough_length: 25, rough_width: 6, glued_width: 6, sheet_trim: 10, sheet_kerf: 4, saw_kerf: 3}
terms: {margin: 20 %, tax: 0 %, instalments: [{share: 100 %, event: on order}]}
)";

constexpr std::string_view kTwoStandards =
    "id,name,phase,setup_min,setup_per,per_unit_min,unit,sigma,machine,unattended_min,people,note,"
    "source\n"
    "rip,Rip,milling,4,setting,0.6,piece,0.2,saw,0,1,,a test\n"
    "glue_up,Glue up,assembly,12,stage,1.5,joint,0.3,,60,2,,a test\n";

/// The shop written in `text`, which may say `based_on: bench.yaml`.
inline ReadShop read(std::string_view text, std::map<std::string, std::string> more = {}) {
  more.emplace("bench.yaml", kBench);
  more.emplace("two_standards.csv", kTwoStandards);
  return read_shop(text, "my.yaml", files(std::move(more)));
}

/// Every error as the maker reads it.
inline std::string said(const base::Errors& errors) {
  std::string all;
  for (const base::Error& error : errors) {
    all += describe(error);
  }
  return all;
}

}  // namespace plankwright::shop::test
