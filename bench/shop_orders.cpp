// Makes up sheet orders like a joiner's shop has them, one JSON object a line, for solve_instances:
// cases with sides, tops, shelves, backs and fronts, kerf 3 mm, trim 10 mm, about half of the parts
// with grain that must not turn. Numbers only, drawn from a seed; no order of anybody's.

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "solve/random.h"

namespace {

using nlohmann::json;
using plankwright::solve::Random;

int step(Random& random, int from, int to, int by) {
  return from + by * random.below((to - from) / by + 1);
}

/// A part of one of the five sorts, in millimetres, long side along the grain.
json part(Random& random, int copies) {
  const bool grain = random.below(2) == 0;
  switch (random.below(5)) {
    case 0:  // side
      return {step(random, 400, 2200, 5), step(random, 250, 620, 5), copies, !grain};
    case 1:  // top or bottom
      return {step(random, 350, 1200, 1), step(random, 250, 620, 5), copies, !grain};
    case 2:  // shelf
      return {step(random, 300, 1000, 1), step(random, 200, 580, 5), copies, !grain};
    case 3:  // front
      return {step(random, 120, 760, 1), step(random, 150, 600, 1), copies, !grain};
    default:  // rail, plinth or divider
      return {step(random, 250, 1100, 1), step(random, 70, 160, 5), copies, !grain};
  }
}

json order(int parts, int types, int kinds, std::uint64_t seed) {
  Random random{seed * 1000003 + static_cast<std::uint64_t>(parts * 131 + types * 17 + kinds)};
  json row;
  row["name"] = fmt::format("shop_{}_{}_{}_{}", parts, types, kinds, seed);
  row["set"] = fmt::format("shop_{}_{}_{}", parts, types, kinds);
  row["kerf"] = 3;
  row["trim"] = 10;
  row["kinds"] = {{2440, 1220, 5600, nullptr}};
  if (kinds > 1) {
    row["kinds"].push_back({2800, 2070, 10400, nullptr});
    row["kinds"].push_back({3050, 1525, 8800, nullptr});
    for (int i = 0; i < 3; ++i) {
      const int width = step(random, 600, 1800, 10);
      const int height = step(random, 400, 1100, 10);
      row["kinds"].push_back({width, height, width * height / 900, 1});
    }
  }
  std::vector<int> copies(static_cast<std::size_t>(types), 1);
  for (int left = parts - types; left > 0; --left) {
    copies[static_cast<std::size_t>(random.below(types))] += 1;
  }
  for (const int count : copies) {
    row["items"].push_back(part(random, count));
  }
  return row;
}

}  // namespace

// shop_orders PARTS TYPES KINDS HOW_MANY: KINDS is 1, or 3 for three sizes and three offcuts.
int main(int count, char** words) {
  if (count != 5) {
    fmt::print(stderr, "shop_orders PARTS TYPES KINDS HOW_MANY\n");
    return 2;
  }
  const int parts = std::stoi(words[1]);
  const int types = std::stoi(words[2]);
  if (types < 1 || parts < types) {
    fmt::print(stderr, "at least one type, and a part of each\n");
    return 2;
  }
  for (int i = 1; i <= std::stoi(words[4]); ++i) {
    fmt::print("{}\n",
               order(parts, types, std::stoi(words[3]), static_cast<std::uint64_t>(i)).dump());
  }
  return 0;
}
