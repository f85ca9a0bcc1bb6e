#include "bench/setting_list.h"

#include <algorithm>

namespace plankwright::bench {
namespace {

MachineSetting entry_of(const Operation& operation) {
  return {.machine = operation.machine,
          .kind = operation.setting_kind,
          .figure = operation.setting,
          .length = operation.setting_length,
          .depth = operation.setting_depth,
          .operations = {},
          .parts = {},
          .pieces = 0,
          .spares = 0,
          .joined = {},
          .test = operation.test,
          .setup = {},
          .work = {}};
}

bool goes_on(const MachineSetting& entry, const Operation& operation) {
  return operation.setup.count() <= 0 && entry.machine == operation.machine &&
         entry.kind == operation.setting_kind && entry.figure == operation.setting;
}

void add(MachineSetting& entry, const Operation& operation, std::size_t index) {
  entry.operations.push_back(index);
  for (const PartIndex part : operation.parts) {
    const auto place = std::ranges::lower_bound(entry.parts, part);
    if (place == entry.parts.end() || *place != part) {
      entry.parts.insert(place, part);
    }
  }
  entry.joined.insert(entry.joined.end(), operation.joined.begin(), operation.joined.end());
  entry.pieces += operation.pieces;
  entry.spares += operation.spares;
  entry.setup += operation.setup;
  entry.work += operation.work;
}

}  // namespace

std::vector<MachineSetting> setting_list(const Bench& bench) {
  std::vector<MachineSetting> list;
  for (std::size_t i = 0; i < bench.operations.size(); ++i) {
    const Operation& operation = bench.operations[i];
    if (operation.setting.empty()) {
      continue;
    }
    if (list.empty() || !goes_on(list.back(), operation)) {
      list.push_back(entry_of(operation));
    }
    add(list.back(), operation, i);
  }
  return list;
}

}  // namespace plankwright::bench
