// A layout at once. Parts in great number are laid out sheet by sheet, each sheet repeated as long
// as its parts last (sequential heuristic of Haessler, 1971); the rest goes piece by piece, largest
// first, to the place that spoils least waste. Several orders are tried and the cheapest kept.

#include <algorithm>
#include <numeric>

#include "solve/sheet_search.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kPieceByPiece = 1500;
constexpr std::int64_t kSheetCopies = 3000;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

double area(const PackKind& kind) {
  return static_cast<double>(kind.width) * kind.height;
}
double area(const PackType& type) {
  return static_cast<double>(type.width) * type.height;
}

bool holds(const PackKind& kind, const PackType& type) {
  return (type.width <= kind.width && type.height <= kind.height) ||
         (type.may_turn && type.height <= kind.width && type.width <= kind.height);
}

class FirstLayoutMaker {
 public:
  FirstLayoutMaker(const PackProblem& problem,
                   const std::vector<std::int64_t>& demand,
                   const std::stop_token& stop)
      : problem_{problem}, stop_{stop}, demand_{demand}, used_(problem.kinds.size(), 0) {
    for (int k = 0; k < static_cast<int>(problem.kinds.size()); ++k) {
      by_price_.push_back(k);
    }
    std::ranges::stable_sort(by_price_, {}, [&](int k) {
      const PackKind& kind = problem.kinds[at(k)];
      return static_cast<double>(kind.price) / area(kind);
    });
  }

  FirstLayout run() {
    while (copies_left() > kPieceByPiece && !stop_.stop_requested() && repeat_best_sheet()) {
    }
    if (copies_left() > 0 && copies_left() <= kPieceByPiece) {
      finish_piece_by_piece();
    }
    result_.complete = copies_left() == 0;
    return std::move(result_);
  }

 private:
  std::int64_t copies_left() const {
    return std::accumulate(demand_.begin(), demand_.end(), std::int64_t{0});
  }

  // Enough copies to fill one sheet, largest types first.
  std::vector<std::int64_t> one_sheet_of(const PackKind& kind) const {
    std::vector<std::int64_t> taken(demand_.size(), 0);
    std::vector<int> order(demand_.size());
    std::iota(order.begin(), order.end(), 0);
    std::ranges::stable_sort(
        order, std::ranges::greater{}, [&](int t) { return area(problem_.types[at(t)]); });
    std::int64_t copies = 0;
    for (const int t : order) {
      const PackType& type = problem_.types[at(t)];
      if (copies >= kSheetCopies || demand_[at(t)] == 0 || !holds(kind, type)) {
        continue;
      }
      const auto enough = static_cast<std::int64_t>(area(kind) / area(type)) + 1;
      taken[at(t)] = std::min({demand_[at(t)], enough, kSheetCopies - copies});
      copies += taken[at(t)];
    }
    return taken;
  }

  bool repeat_best_sheet() {
    PackSheet best;
    std::vector<std::int64_t> best_counts;
    double best_rate = 1e300;
    for (const int k : by_price_) {
      const PackKind& kind = problem_.kinds[at(k)];
      if (used_[at(k)] >= kind.available) {
        continue;
      }
      CutForest forest{problem_, one_sheet_of(kind)};
      forest.set_blink(0);
      const int slot = forest.open_sheet(k);
      insert_all(forest, 0);
      const double rate =
          static_cast<double>(kind.price + 1) / std::max(1e-9, forest.used_area(slot));
      result_.work += forest.work();
      if (!forest.is_empty(slot) && rate < best_rate) {
        best_rate = rate;
        best = {k, 1, forest.pattern(slot)};
        best_counts = count_types(best.root, problem_.types.size());
      }
    }
    if (best_counts.empty()) {
      return false;
    }
    best.count = problem_.kinds[at(best.kind)].available - used_[at(best.kind)];
    for (std::size_t t = 0; t < best_counts.size(); ++t) {
      if (best_counts[t] > 0) {
        best.count = std::min(best.count, demand_[t] / best_counts[t]);
      }
    }
    take(best, best_counts);
    return true;
  }

  void take(const PackSheet& sheet, const std::vector<std::int64_t>& counts) {
    used_[at(sheet.kind)] += sheet.count;
    for (std::size_t t = 0; t < counts.size(); ++t) {
      demand_[t] -= counts[t] * sheet.count;
    }
    result_.sheets.push_back(sheet);
  }

  void insert_all(CutForest& forest, int order) const {
    std::vector<int> copies = forest.left_out();
    std::ranges::stable_sort(copies, std::ranges::greater{}, [&](int copy) {
      const PackType& type = problem_.types[at(forest.type_of(copy))];
      return order == 0   ? area(type)
             : order == 1 ? std::max(type.width, type.height)
                          : std::min(type.width, type.height);
    });
    Random random{1};
    std::vector<std::uint8_t> hopeless(problem_.types.size(), 0);
    for (const int copy : copies) {
      auto& failed = hopeless[at(forest.type_of(copy))];
      if (failed == 0 && !forest.insert_best(copy, random)) {
        failed = 1;
      }
    }
  }

  int kind_for(const PackType& type, const std::vector<std::int64_t>& used) const {
    for (const int k : by_price_) {
      if (used[at(k)] < problem_.kinds[at(k)].available && holds(problem_.kinds[at(k)], type)) {
        return k;
      }
    }
    return -1;
  }

  // False when the sheets on hand ran out.
  bool lay_out(CutForest& forest, int order) const {
    std::vector<std::int64_t> used = used_;
    forest.set_blink(0);
    std::vector<int> copies = forest.left_out();
    std::ranges::stable_sort(copies, std::ranges::greater{}, [&](int copy) {
      const PackType& type = problem_.types[at(forest.type_of(copy))];
      return order == 0   ? area(type)
             : order == 1 ? std::max(type.width, type.height)
                          : std::min(type.width, type.height);
    });
    Random random{1};
    for (const int copy : copies) {
      if (forest.insert_best(copy, random)) {
        continue;
      }
      const int kind = kind_for(problem_.types[at(forest.type_of(copy))], used);
      if (kind < 0) {
        return false;
      }
      used[at(kind)] += 1;
      forest.open_sheet(kind);
      if (!forest.insert_best(copy, random)) {
        return false;
      }
    }
    return true;
  }

  void finish_piece_by_piece() {
    std::vector<PackSheet> best;
    std::int64_t best_price = 0;
    for (int order = 0; order < 3; ++order) {
      CutForest forest{problem_, demand_};
      const bool done = lay_out(forest, order);
      result_.work += forest.work();
      std::vector<PackSheet> sheets;
      for (const int slot : forest.open_slots()) {
        sheets.push_back({forest.kind_of(slot), 1, forest.pattern(slot)});
      }
      const std::int64_t price = price_of(problem_, sheets);
      if (done && (best.empty() || price < best_price)) {
        best_price = price;
        best = std::move(sheets);
      }
    }
    for (const PackSheet& sheet : best) {
      take(sheet, count_types(sheet.root, problem_.types.size()));
    }
  }

  const PackProblem& problem_;
  const std::stop_token& stop_;
  std::vector<std::int64_t> demand_;
  std::vector<std::int64_t> used_;
  std::vector<int> by_price_;
  FirstLayout result_;
};

}  // namespace

FirstLayout first_layout(const PackProblem& problem,
                         const std::vector<std::int64_t>& demand,
                         const std::stop_token& stop) {
  return FirstLayoutMaker{problem, demand, stop}.run();
}

}  // namespace plankwright::solve
