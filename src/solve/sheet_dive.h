#pragma once
// From the prices of the bound to whole sheets: fix patterns one after another, search the rest.

#include <cstdint>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

#include "solve/linear_program.h"
#include "solve/sheet_bound.h"
#include "solve/sheet_search.h"

namespace plankwright::solve {

/// Dives on the restricted master programme. Each dive fixes whole patterns, prices new ones for
/// what is still wanted, and hands the last part of the order to a search with the money that is
/// left.
class SheetDive {
 public:
  SheetDive(const PackProblem& problem,
            const std::vector<std::int64_t>& demand,
            const std::vector<BoundColumn>& columns,
            std::uint64_t seed);

  /// Goes on for so much work, aiming at a layout of at most `goal`. True when one was found.
  bool run(std::int64_t work, std::int64_t goal, const std::stop_token& stop);
  const std::vector<PackSheet>& found() const { return found_; }
  std::int64_t work() const { return work_; }

 private:
  enum class Phase : std::uint8_t { kStart, kDescend, kSearch };

  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  void start();
  void descend();
  void begin_search();
  void search(std::int64_t work, const std::stop_token& stop);
  bool add_column(int kind, PackNode root);
  bool is_proper(const BoundColumn& column) const;
  double solve_master();
  bool price_rest();
  bool fix_whole();
  void fix_one();
  void fix(int kind, const PackNode& root, std::int64_t times);
  std::int64_t copies_wanted() const;

  const PackProblem& problem_;
  std::vector<std::int64_t> demand_;
  std::vector<BoundColumn> columns_;
  std::vector<int> lp_column_;
  LinearProgram master_;
  std::vector<int> kind_rows_;
  Random random_;
  Phase phase_ = Phase::kStart;
  std::int64_t goal_ = 0;
  std::vector<std::int64_t> wanted_;
  std::vector<std::int64_t> stock_;
  std::vector<PackSheet> fixed_;
  std::int64_t fixed_price_ = 0;
  std::int64_t search_below_ = 0;      // copies at which the search takes over
  std::unique_ptr<PackProblem> rest_;  // the problem with the stock that is left
  std::unique_ptr<SheetSearch> search_;
  std::int64_t search_left_ = 0;
  std::vector<PackSheet> found_;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
