#pragma once
// What the calendar must know of each kind of work beside its minutes.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/quantity.h"

namespace plankwright::calendar {

/// What stays taken while something is done, and while it sets or dries.
enum class Holds { kNothing, kBench, kFinishing };

struct DayRule {
  std::string standard;    // id of the labour standard
  bool in_one_go = false;  // begun and ended on the same day
  bool helper = false;     // a helper can do it
  Holds holds = Holds::kNothing;
  bool dust = false;           // not while a coat is wet in the same room
  measure::Minutes rest = {};  // before the next work on the same parts
  std::string source = {};
};

struct DayRules {
  std::vector<DayRule> rules;
  /// The row of a standard; a maker's work that may stop overnight when it has none.
  DayRule of(std::string_view standard) const;
};

/// Reads data/day_rules.csv. The first error with its place.
base::Result<DayRules> read_day_rules(std::string_view csv_text, const std::string& file);

}  // namespace plankwright::calendar
