#pragma once
// What a machine is set to for a thing, and how many units of a standard it counts.

#include <string>

#include "bench/items.h"
#include "bench/rules.h"
#include "measure/expression.h"

namespace plankwright::bench {

/// A machine setting as it is read at the machine.
struct Setting {
  std::string text;  // "2 1/4"; without the unit
  Length length;     // the same as a number; zero when it has none
  Length depth;      // of a cut
  std::string kind;  // "fence", "stop", "height", "cutter", "bit", "jig", ""
  friend bool operator==(const Setting&, const Setting&) = default;
};

/// Settings are compared exactly: two that differ by a hair are two, because merging them would
/// change a part.
Setting setting_of(SettingWay way,
                   const Item& item,
                   const piece::Piece& piece,
                   measure::LengthUnit unit);

double units_of(Units units, const Item& item);

}  // namespace plankwright::bench
