#pragma once
// Closing the gap on one sheet: every partial layout that could still beat the best.

#include <cstdint>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

#include "solve/guillotine_table.h"

namespace plankwright::solve {

/// Values and bounds of one enumeration. `prices` are Lagrangian prices of the types, no higher
/// than their `values`; `table` is filled with them.
struct StateSearch {
  const PackProblem& problem;
  int kind;
  const std::vector<std::int64_t>& values;
  const std::vector<std::int32_t>& prices;
  const GuillotineTable& table;
};

struct StateResult {
  bool complete = false;   // everything that could beat `above` was looked at
  std::int64_t value = 0;  // the best found above it, if `root` is set
  std::optional<PackNode> root;
  std::int64_t work = 0;
};

/// Builds rectangles from parts upwards, two by two, each type at most as often as demanded, and
/// drops what cannot end above `above`. Can be interrupted and taken up again; until it is over the
/// search it was made with must stay as it is, and the table filled as it was.
class StateEnumeration {
 public:
  StateEnumeration(const StateSearch& search, std::int64_t above);
  ~StateEnumeration();
  StateEnumeration(const StateEnumeration&) = delete;
  StateEnumeration& operator=(const StateEnumeration&) = delete;

  /// Goes on for so much work or until asked to stop. True when it is over: all was looked at, or
  /// the states no longer fit into memory.
  bool run(std::int64_t work, const std::stop_token& stop);
  /// So far.
  std::int64_t work() const;
  StateResult result() const;

 private:
  class Enumerator;
  std::unique_ptr<Enumerator> enumerator_;
};

/// All of it at once. Not complete when the `work` is spent before it is over.
StateResult enumerate_states(const StateSearch& search,
                             std::int64_t above,
                             std::int64_t work,
                             const std::stop_token& stop);

}  // namespace plankwright::solve
