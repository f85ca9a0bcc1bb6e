// Ruin and recreate on cut trees, driven by a goal (Gardeyn & Wauters, EJOR 2022; Schrimpf et al.,
// J. Comp. Physics 159, 2000): take one to ten random pieces or sub-trees out of one or two sheets,
// put what is left out back in one of four orders where it spoils least waste, and accept by the
// list of late acceptance (Burke & Bykov, EJOR 258, 2017). That list cools down for good, so a walk
// that stalls is warmed up again and weighs waste differently from then on. All draws come from the
// island's own seed and the budget is counted in work, so the same island always walks the same
// way.

#include "solve/sheet_search.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::size_t kHistory = 300;
constexpr int kStall = 10'000;   // steps without a better layout before warming up
constexpr double kWarmth = 0.1;  // of a sheet
constexpr double kWasteWeights[] = {0.16, 0.08, 0.32};
constexpr int kOrders =
    3;  // area, long side, short side; noisy area and random are made from these

std::vector<std::vector<double>> rank_types(const PackProblem& problem) {
  std::vector<std::vector<double>> ranks(kOrders);
  for (const PackType& type : problem.types) {
    ranks[0].push_back(static_cast<double>(type.width) * type.height);
    ranks[1].push_back(std::max(type.width, type.height));
    ranks[2].push_back(std::min(type.width, type.height));
  }
  return ranks;
}

}  // namespace

std::int64_t price_of(const PackProblem& problem, const std::vector<PackSheet>& sheets) {
  std::int64_t price = 0;
  for (const PackSheet& sheet : sheets) {
    price += problem.kinds[static_cast<std::size_t>(sheet.kind)].price * sheet.count;
  }
  return price;
}

SheetSearch::SheetSearch(const PackProblem& problem,
                         const std::vector<std::int64_t>& demand,
                         std::uint64_t seed)
    : problem_{&problem},
      forest_{problem, demand},
      random_{seed},
      ranks_{rank_types(problem)},
      hopeless_(problem.types.size(), 0) {
  double largest = 1;
  for (const PackKind& kind : problem.kinds) {
    largest = std::max(largest, static_cast<double>(kind.width) * kind.height);
  }
  scale_ = 1 / largest;
}

double SheetSearch::badness() const {
  return forest_.left_value() * scale_ - waste_weight_ * forest_.waste_squares();
}

void SheetSearch::restart_acceptance() {
  forest_.mark();
  current_ = badness();
  least_left_ = forest_.left_value();
  if (fixed_) {
    best_found_ = sheets();
  }
  history_.assign(kHistory, current_);
  lowest_ = current_;
  stalled_ = 0;
}

void SheetSearch::warm_up() {
  waste_weight_ = kWasteWeights[random_.below(3)];
  current_ = lowest_ = badness();
  stalled_ = 0;
  for (double& accepted : history_) {
    accepted = current_ + kWarmth * random_.fraction();
  }
}

std::int64_t SheetSearch::open_price() const {
  std::int64_t price = 0;
  for (const int slot : forest_.open_slots()) {
    price += problem_->kinds[at(forest_.kind_of(slot))].price;
  }
  return price;
}

void SheetSearch::adopt(const std::vector<PackSheet>& sheets, std::int64_t goal) {
  while (!forest_.open_slots().empty()) {
    forest_.close_sheet(forest_.open_slots().back());
  }
  for (const PackSheet& sheet : sheets) {
    for (std::int64_t i = 0; i < sheet.count; ++i) {
      forest_.open_pattern(sheet.kind, sheet.root);
    }
  }
  aim(goal);
}

void SheetSearch::fix_sheets(const std::vector<std::int64_t>& per_kind, std::int64_t price) {
  goal_ = price;
  while (!forest_.open_slots().empty()) {
    forest_.close_sheet(forest_.open_slots().back());
  }
  for (std::size_t k = 0; k < per_kind.size(); ++k) {
    for (std::int64_t i = 0; i < per_kind[k]; ++i) {
      forest_.open_sheet(static_cast<int>(k));
    }
  }
  fixed_ = true;
  recreate();
  restart_acceptance();
}

void SheetSearch::fix_layout(const std::vector<PackSheet>& sheets, std::int64_t sheets_of_first) {
  fix_sheets({0});
  std::int64_t open = 0;
  for (const PackSheet& sheet : sheets) {
    for (std::int64_t i = 0; i < sheet.count; ++i, ++open) {
      forest_.open_pattern(sheet.kind, sheet.root);
    }
  }
  for (; open < sheets_of_first; ++open) {
    forest_.open_sheet(0);
  }
  recreate();
  restart_acceptance();
}

void SheetSearch::weigh_by_value(double one_sheet) {
  scale_ = 1 / one_sheet;
  for (std::size_t t = 0; t < problem_->types.size(); ++t) {
    const PackType& type = problem_->types[t];
    ranks_[0][t] = type.value;
    ranks_[1][t] = type.value / (static_cast<double>(type.width) * type.height);
    ranks_[2][t] = static_cast<double>(type.width) * type.height;
  }
}

void SheetSearch::aim(std::int64_t goal) {
  goal_ = goal;
  fixed_ = false;
  while (open_price() > goal_ && !forest_.open_slots().empty()) {
    int worst = forest_.open_slots().front();
    double least = 1e300;
    for (const int slot : forest_.open_slots()) {
      const auto price = static_cast<double>(problem_->kinds[at(forest_.kind_of(slot))].price);
      const double used = forest_.used_area(slot) / std::max(1.0, price);
      if (used < least) {
        least = used;
        worst = slot;
      }
    }
    forest_.close_sheet(worst);
  }
  open_what_goal_allows();
  recreate();
  restart_acceptance();
}

std::vector<int> SheetSearch::affordable() const {
  std::vector<std::int64_t> used(problem_->kinds.size(), 0);
  std::int64_t price = 0;
  for (const int slot : forest_.open_slots()) {
    used[at(forest_.kind_of(slot))] += 1;
    price += problem_->kinds[at(forest_.kind_of(slot))].price;
  }
  std::vector<int> kinds;
  for (std::size_t k = 0; k < used.size(); ++k) {
    const PackKind& kind = problem_->kinds[k];
    if (used[k] < kind.available && price + kind.price <= goal_) {
      kinds.push_back(static_cast<int>(k));
    }
  }
  return kinds;
}

void SheetSearch::open_what_goal_allows() {
  // A free sheet could be opened for ever; more sheets than copies are never of use.
  while (static_cast<int>(forest_.open_slots().size()) < forest_.copies()) {
    const std::vector<int> kinds = affordable();
    if (kinds.empty()) {
      return;
    }
    forest_.open_sheet(kinds[at(random_.below(static_cast<int>(kinds.size())))]);
  }
}

void SheetSearch::ruin() {
  const auto& slots = forest_.open_slots();
  const auto count = static_cast<int>(slots.size());
  if (random_.below(40) == 0) {
    forest_.empty_sheet(slots[at(random_.below(count))]);
    return;
  }
  if (random_.below(4) == 0) {
    forest_.shift_waste(slots[at(random_.below(count))], random_);
  }
  int pieces = 1 + random_.below(10);
  for (int sheet = random_.below(2) + 1; sheet > 0; --sheet) {
    const int slot = slots[at(random_.below(count))];
    const int share = sheet == 1 ? pieces : random_.below(pieces + 1);
    for (int i = 0; i < share && forest_.remove_random(slot, random_); ++i) {
    }
    pieces -= share;
  }
}

void SheetSearch::recreate() {
  const int order = random_.below(5);
  queue_.clear();
  for (const int copy : forest_.left_out()) {
    const std::size_t type = at(forest_.type_of(copy));
    double rank = 0;
    if (order < kOrders) {
      rank = ranks_[at(order)][type];
    } else if (order == kOrders) {
      rank = ranks_[0][type] * (0.6 + 0.8 * random_.fraction());
    } else {
      rank = random_.fraction();
    }
    queue_.emplace_back(-rank, copy);
  }
  std::ranges::sort(queue_);
  std::ranges::fill(hopeless_, std::uint8_t{0});
  for (const auto& [rank, copy] : queue_) {
    std::uint8_t& hopeless = hopeless_[at(forest_.type_of(copy))];
    if (hopeless == 0 && !forest_.insert_best(copy, random_)) {
      hopeless = 1;  // waste only shrinks from here on
    }
  }
}

// Exchanges one or two sheets for others within the goal. Worth a copy of the whole forest because
// it is rare.
bool SheetSearch::reshape() {
  if (fixed_ || problem_->kinds.size() < 2 || random_.below(50) != 0) {
    return false;
  }
  const CutForest kept = forest_;
  for (int i = random_.below(2); i >= 0 && !forest_.open_slots().empty(); --i) {
    const auto count = static_cast<int>(forest_.open_slots().size());
    forest_.close_sheet(forest_.open_slots()[at(random_.below(count))]);
  }
  open_what_goal_allows();
  recreate();
  const double after = badness();
  if (after <= current_ || after <= history_[turn_]) {
    current_ = after;
    forest_.mark();
  } else {
    forest_ = kept;
  }
  return true;
}

void SheetSearch::step() {
  turn_ = (turn_ + 1) % kHistory;
  if (!reshape()) {
    forest_.mark();
    ruin();
    recreate();
    const double after = badness();
    if (after <= current_ || after <= history_[turn_]) {
      current_ = after;
    } else {
      forest_.undo();
    }
  }
  history_[turn_] = std::min(history_[turn_], current_);
  stalled_ = current_ < lowest_ - 1e-9 ? 0 : stalled_ + 1;
  lowest_ = std::min(lowest_, current_);
  if (forest_.left_value() < least_left_ - 1e-9) {
    least_left_ = forest_.left_value();
    if (fixed_) {
      best_found_ = sheets();
    }
  }
  if (stalled_ > kStall) {
    warm_up();
  }
}

bool SheetSearch::run(std::int64_t work, const std::stop_token& stop) {
  const std::int64_t end = forest_.work() + work;
  int until_asked = 0;
  while (!complete() && forest_.work() < end && !forest_.open_slots().empty()) {
    if (until_asked-- == 0) {
      if (stop.stop_requested()) {
        break;
      }
      until_asked = 50;
    }
    step();
  }
  return complete();
}

std::vector<PackSheet> SheetSearch::sheets() const {
  std::vector<PackSheet> sheets;
  for (const int slot : forest_.open_slots()) {
    if (!forest_.is_empty(slot)) {
      sheets.push_back({forest_.kind_of(slot), 1, forest_.pattern(slot)});
    }
  }
  return sheets;
}

}  // namespace plankwright::solve
