#pragma once
// What no layout can beat: prices on the parts, and what each board holds at most at those prices.

#include <cstdint>
#include <stop_token>
#include <vector>

#include "solve/board_lines.h"

namespace plankwright::solve {

/// Valid at any time: whatever the prices, no layout costs less (kLeastMoney) or is worth more
/// (kGreatestValue) than bound(). Prices are raised for parts used too seldom at the best of every
/// board and lowered for others (a subgradient; Held & Karp 1971).
class BoardBound {
 public:
  explicit BoardBound(const BoardProblem& problem);

  std::int64_t bound() const { return bound_; }
  std::int64_t work() const { return work_; }
  /// Goes on for `work` units; `target` is what a known layout comes to.
  void run(std::int64_t work, std::int64_t target, const std::stop_token& stop);

 private:
  /// The boards of one kind of the job at one set of prices.
  struct Seen {
    std::int64_t most = 0;
    std::vector<double> uses;
  };

  bool least_money() const { return problem_->job->goal == BoardGoal::kLeastMoney; }
  std::int64_t number_of(std::size_t board) const;
  void set_up(const std::stop_token& stop);
  void cut_down_demand(const std::stop_token& stop);
  void scale_to_unlimited(std::vector<std::int64_t>& prices);
  double evaluate(const std::vector<std::int64_t>& prices, std::vector<double>& slope);
  Seen look_at(std::size_t board, const std::vector<std::int64_t>& prices);
  void keep(double value);

  const BoardProblem* problem_;
  std::vector<BoardLines> across_;  // lines across each board, and along it
  std::vector<BoardLines> along_;
  std::vector<signed char> nearer_;  // which of both gave less last time
  std::vector<double> price_;        // of each block, in fine money
  std::vector<double> first_price_;
  std::vector<std::int64_t> demand_;
  double scale_ = 1;  // fine money of one unit of money
  double step_ = 1;
  double best_ = 0;
  int stalled_ = 0;
  std::int64_t turns_ = 0;
  std::int64_t bound_ = 0;
  std::int64_t work_ = 0;
};

/// The least sum of board prices, each board as often as there are, that is not under `least`: a
/// bound on money rises to it. `least` itself when that would take too long to find.
std::int64_t reachable_money(const BoardJob& job, std::int64_t least, std::int64_t most);

}  // namespace plankwright::solve
