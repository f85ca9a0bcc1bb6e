#pragma once
// Looking for a layout within a budget: one island of the search.

#include <cstdint>
#include <stop_token>
#include <vector>

#include "solve/cut_forest.h"

namespace plankwright::solve {

/// What a set of sheets costs before labour.
std::int64_t price_of(const PackProblem& problem, const std::vector<PackSheet>& sheets);

/// Goal-driven ruin and recreate. Sheets may be open only as far as their prices stay within the
/// goal; what finds no room is left out, and the search makes the left-out value vanish.
class SheetSearch {
 public:
  SheetSearch(const PackProblem& problem,
              const std::vector<std::int64_t>& demand,
              std::uint64_t seed);

  /// Takes over a layout of everything and aims below its price.
  void adopt(const std::vector<PackSheet>& sheets, std::int64_t goal);
  /// Opens exactly these sheets (a count for each kind), empty, and aims to fill them; they are
  /// kept.
  void fix_sheets(const std::vector<std::int64_t>& per_kind, std::int64_t price = 0);
  /// The same, starting from a layout, with empty sheets of the first kind up to so many in all.
  void fix_layout(const std::vector<PackSheet>& sheets, std::int64_t sheets_of_first);
  /// Keeps what lies where it lies but puts aside sheets until the open ones cost no more than
  /// `goal`.
  void aim(std::int64_t goal);

  /// Searches until nothing is left out (true), the work is spent or somebody asks to stop.
  bool run(std::int64_t work, const std::stop_token& stop);

  bool complete() const { return forest_.left_out().empty(); }
  /// The sheets as they stand, empty ones not counted.
  std::vector<PackSheet> sheets() const;
  CutForest& forest() { return forest_; }
  std::int64_t goal() const { return goal_; }
  /// Least value left out so far since the sheets were last chosen.
  double least_left() const { return least_left_; }
  /// The sheets of that moment, kept only when the sheets are fixed.
  const std::vector<PackSheet>& best_found() const { return best_found_; }
  /// From now on what is left out counts by the types' values, `one_sheet` of it as much as a
  /// sheet.
  void weigh_by_value(double one_sheet);

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  double badness() const;
  void restart_acceptance();
  void warm_up();
  void step();
  void ruin();
  void recreate();
  bool reshape();
  std::int64_t open_price() const;
  std::vector<int> affordable() const;
  void open_what_goal_allows();

  const PackProblem* problem_;
  CutForest forest_;
  Random random_;
  std::int64_t goal_ = 0;
  bool fixed_ = false;
  double scale_ = 1;
  double waste_weight_ = 0.16;
  double current_ = 0;
  double lowest_ = 0;  // badness since the last warming up
  int stalled_ = 0;    // steps since then without a lower one
  double least_left_ = 0;
  std::vector<PackSheet> best_found_;
  std::vector<double> history_;
  std::size_t turn_ = 0;
  std::vector<std::vector<double>> ranks_;  // by order, by type
  std::vector<std::pair<double, int>> queue_;
  std::vector<std::uint8_t> hopeless_;
};

/// A layout of everything made in one pass, sheet by sheet for types in great number and piece by
/// piece for the rest. `demand` that fits no limited stock stays out; then the result is not
/// complete and `complete` is false.
struct FirstLayout {
  std::vector<PackSheet> sheets;
  bool complete = true;
  std::int64_t work = 0;
};
FirstLayout first_layout(const PackProblem& problem,
                         const std::vector<std::int64_t>& demand,
                         const std::stop_token& stop);

}  // namespace plankwright::solve
