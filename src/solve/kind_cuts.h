#pragma once
// Which numbers of sheets of each kind could hold the order at all.

#include <cstdint>
#include <optional>
#include <vector>

#include "solve/sheet_problem.h"

namespace plankwright::solve {

/// For any prices of the parts, the sheets used must be able to hold the worth of the order: the
/// sum over kinds of number times greatest value of a sheet is at least the worth. Every round of
/// the bound leaves such a condition; together with whole numbers they say more than the linear
/// programme.
class KindCuts {
 public:
  KindCuts(const PackProblem& problem, std::vector<std::int64_t> prices);

  /// `values` of one sheet of each kind, `worth` of the whole order, at the same prices.
  void add(std::vector<std::int64_t> values, Int128 worth);

  /// Numbers of sheets by kind.
  using Sheets = std::vector<std::int64_t>;
  std::int64_t price_of(const Sheets& sheets) const;
  bool allows(const Sheets& sheets) const;

  /// The allowed numbers that cost less than `below`, cheapest first, no more than `most` of them;
  /// for each choice of the other kinds only the fewest sheets of the cheapest kind. `complete`
  /// tells whether all were looked at; if not, the list proves nothing.
  std::vector<Sheets> cheapest(std::int64_t below, std::size_t most, bool& complete) const;

 private:
  struct Cut {
    std::vector<std::int64_t> values;
    Int128 worth = 0;
  };
  struct Walk;

  void descend(Walk& walk, std::size_t depth, std::int64_t price) const;
  std::optional<std::int64_t> fewest_of_last(const Sheets& sheets) const;

  const PackProblem& problem_;
  std::vector<std::int64_t> prices_;
  std::vector<int> order_;  // dearest first, the kind to fill up with last
  std::vector<Cut> cuts_;
};

}  // namespace plankwright::solve
