// Two sides work at the same time: islands of ruin and recreate look for cheaper layouts, a column
// generation looks for a higher bound. They meet after every epoch of fixed work, exchange the best
// layout and the bound, and go on; nothing is shared in between, so one thread or two give the same
// answer.

#include "solve/sheets.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <memory>
#include <string>
#include <thread>
#include <utility>

#include <fmt/format.h>

#include "solve/random.h"
#include "solve/sheet_bound.h"
#include "solve/sheet_dive.h"
#include "solve/sheet_problem.h"
#include "solve/sheet_search.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kShortest = 2'000'000;  // work of an epoch
constexpr std::int64_t kLongest = 50'000'000;
constexpr std::int64_t kWorthAThread = 4'000'000;
constexpr std::int64_t kAttempt = 60'000'000;   // work on one choice of sheets
constexpr std::int64_t kFirstLook = 6'000'000;  // work before anything is told
constexpr std::size_t kChoices = 300;
constexpr std::int64_t kMostCopies = 3000;  // an island can move
constexpr std::int64_t kMaxUnits = std::int64_t{1} << 29U;

base::Error error(base::ErrorCode code, std::string message) {
  return {code, std::move(message), std::nullopt, {}};
}

std::string describe(const SheetJob& job, const Misfit& misfit) {
  const std::string who = misfit.part >= 0 ? fmt::format("part {}", misfit.part)
                                           : fmt::format("a run of group {}", misfit.group);
  if (misfit.kind < 0) {
    return fmt::format("{} fits no sheet: there are none on hand", who);
  }
  const SheetKind& kind = job.kinds[static_cast<std::size_t>(misfit.kind)];
  return fmt::format(
      "{} fits no sheet: the nearest, {} x {}, is short by {} in width and {} in height",
      who,
      kind.width,
      kind.height,
      misfit.short_width,
      misfit.short_height);
}

/// One searching side and how far below the best layout it aims.
struct Island {
  SheetSearch search;
  std::int64_t reach = 1;  // money below the best known price
  std::int64_t spent = 0;  // work since the last success or change of goal
};

class SheetSolver {
 public:
  SheetSolver(const SheetJob& job, const SheetLimits& limits)
      : job_{job}, limits_{limits}, problem_{make_problem(job)} {
    for (const PackType& type : problem_.types) {
      demand_.push_back(type.demand);
    }
  }

  base::Result<SheetAnswer> run() {
    FirstLayout first = first_layout(problem_, demand_, limits_.stop);
    answer_.work = answer_.first_work = first.work;
    if (!first.complete) {
      return limits_.stop.stop_requested()
                 ? error(base::ErrorCode::kCancelled, "stopped before a first layout was found")
                 : error(base::ErrorCode::kDoesNotFit, "the sheets on hand do not hold every part");
    }
    offer(first.sheets);
    start_bound();
    start_islands();
    while (!is_done()) {
      epoch();
    }
    close();
    return std::move(answer_);
  }

 private:
  bool is_done() const {
    return answer_.cost <= answer_.bound || answer_.work >= limits_.work ||
           limits_.stop.stop_requested() ||
           (bound_->is_finished() && (price_is_least() || (islands_.empty() && !is_divable())));
  }

  bool price_is_least() const { return best_price_ <= bound_->bound(); }

  void offer(const std::vector<PackSheet>& sheets) {
    std::vector<SheetLayout> layouts = make_layouts(job_, problem_, sheets);
    std::int64_t cost = 0;
    std::int64_t count = 0;
    for (const SheetLayout& layout : layouts) {
      cost += layout.cost * layout.count;
      count += layout.count;
    }
    const std::int64_t price = price_of(problem_, sheets);
    if (best_.empty() || price < best_price_) {
      best_ = sheets;
      best_price_ = price;
    }
    if (answer_.layouts.empty() || cost < answer_.cost) {
      answer_.cost = cost;
      answer_.sheets = count;
      answer_.layouts = std::move(layouts);
      report();
    }
  }

  // What the very first pass gives is often a sheet too many, which a few milliseconds of search
  // take away: nobody needs to see it.
  void report() {
    if (!limits_.progress) {
      return;
    }
    untold_ = answer_.work < kFirstLook && !over_;
    if (!untold_) {
      limits_.progress({answer_.cost, answer_.bound, answer_.sheets, answer_.work});
    }
  }

  void start_bound() {
    BoundPrices prices;
    for (const PackKind& kind : problem_.kinds) {
      prices.kinds.push_back(kind.price);
    }
    bound_ = std::make_unique<SheetBound>(problem_, demand_, std::move(prices));
    bound_->set_stop(limits_.stop);
    bound_->set_best(best_price_);
    bound_->add_sheets(best_);
  }

  void start_islands() {
    std::int64_t copies = 0;
    for (const std::int64_t wanted : demand_) {
      copies += wanted;
    }
    if (copies > kMostCopies) {
      return;
    }
    for (std::uint64_t i = 0; i < 2; ++i) {
      islands_.push_back({SheetSearch{problem_, demand_, limits_.seed * 2 + i}});
      islands_.back().reach = std::max<std::int64_t>(1, best_price_ / 64);
      aim(islands_.back());
    }
  }

  void aim(Island& island) {
    const std::int64_t goal =
        std::min(best_price_ - 1, std::max(bound_->bound(), best_price_ - island.reach));
    island.search.adopt(best_, goal);
    island.spent = 0;
  }

  // The second island of a job with several kinds takes a choice of sheets that no round of the
  // bound forbids and only fills it; dear ones are easier, cheap ones save more.
  void aim_at_kinds(Island& island) {
    if (island.spent < kAttempt && island.search.goal() < best_price_) {
      return;
    }
    bool complete = true;
    const auto choices = bound_->kind_cuts().cheapest(best_price_, kChoices, complete);
    if (choices.empty()) {
      aim(island);
      return;
    }
    const auto count = static_cast<int>(choices.size());
    const int from = attempt_.below(2) == 0 ? 0 : count - (count + 3) / 4;
    const auto chosen = static_cast<std::size_t>(from + attempt_.below(count - from));
    island.search.fix_sheets(choices[chosen], bound_->kind_cuts().price_of(choices[chosen]));
    island.spent = 0;
  }

  // The bound works beside one island until the plain programme is solved. Then all take turns, two
  // at a time: what is left of the bound, the dive, and the islands.
  void epoch() {
    const std::int64_t budget = epoch_work_;
    if (bound_->is_refined() && !dive_ && is_divable()) {
      dive_ = std::make_unique<SheetDive>(problem_, demand_, exact_columns(), limits_.seed);
    }
    const std::int64_t before = total_work();
    const std::int64_t bound_before = bound_->work();
    const std::vector<std::function<void()>> ring = workers(budget);
    std::vector<std::function<void()>> tasks;
    for (std::size_t i = 0; i < std::min<std::size_t>(2, ring.size()); ++i) {
      tasks.push_back(ring[turn_++ % ring.size()]);
    }
    run_all(tasks);
    answer_.work += total_work() - before + 1000;
    epoch_work_ = std::clamp<std::int64_t>(
        std::max(budget + budget / 2, bound_->work() - bound_before), kShortest, kLongest);
    exchange();
  }

  std::vector<std::function<void()>> workers(std::int64_t budget) {
    std::vector<std::function<void()>> ring;
    const auto search = [&](std::size_t island) {
      if (island < islands_.size()) {
        ring.emplace_back([this, island, budget] {
          islands_[island].search.run(budget, limits_.stop);
          islands_[island].spent += budget;
        });
      }
    };
    if (!bound_->is_finished()) {
      ring.emplace_back([this, budget] { raise_bound(budget); });
    }
    search(0);
    if (dive_) {
      ring.emplace_back([this, budget] { dive_->run(budget, goal_of_dive(), limits_.stop); });
    }
    if (bound_->is_refined()) {
      search(1);
    }
    return ring;
  }

  std::int64_t total_work() {
    std::int64_t work = bound_->work() + (dive_ ? dive_->work() : 0);
    for (Island& island : islands_) {
      work += island.search.forest().work();
    }
    return work;
  }

  void raise_bound(std::int64_t budget) {
    const std::int64_t end = bound_->work() + budget;
    while (!bound_->is_finished() && bound_->work() < end && !limits_.stop.stop_requested()) {
      bound_->step();
    }
  }

  // Patterns of the free table may break a limit on stages; then there is nothing to dive on.
  bool is_divable() const { return problem_.max_stages == 0; }

  std::int64_t goal_of_dive() const {
    return problem_.kinds.size() == 1
               ? best_price_ - 1
               : std::max(bound_->bound(),
                          std::min(best_price_ - 1, best_price_ - best_price_ / 200));
  }

  std::vector<BoundColumn> exact_columns() const {
    std::vector<BoundColumn> columns = bound_->columns();
    for (BoundColumn& column : columns) {
      column.root = settle(problem_, column.kind, column.root);
    }
    return columns;
  }

  void run_all(const std::vector<std::function<void()>>& tasks) const {
    if (limits_.threads < 2 || tasks.size() < 2 || epoch_work_ < kWorthAThread) {
      for (const auto& task : tasks) {
        task();
      }
      return;
    }
    const std::jthread other{tasks.front()};
    for (std::size_t i = 1; i < tasks.size(); ++i) {
      tasks[i]();
    }
  }

  void exchange() {
    const std::int64_t bound = answer_.bound;
    take_bounds();
    if (dive_ && !dive_->found().empty()) {
      offer(dive_->found());
    }
    for (Island& island : islands_) {
      if (island.search.complete()) {
        offer(island.search.sheets());
        bound_->add_sheets(island.search.sheets());
      }
    }
    if (answer_.bound > bound || untold_) {
      report();
    }
    bound_->set_best(best_price_);
    for (Island& island : islands_) {
      if (is_done()) {
        return;
      }
      if (problem_.kinds.size() > 1 && &island == &islands_.back()) {
        aim_at_kinds(island);
      } else if (island.search.goal() >= best_price_) {
        aim(island);
      } else if (island.spent > 100'000'000 && island.reach > 1 && problem_.kinds.size() > 1) {
        island.reach = std::max<std::int64_t>(1, island.reach / 2);
        aim(island);
      }
    }
  }

  void take_bounds() {
    std::int64_t bound = bound_->bound();
    if (job_.offcuts.permille > 0) {
      bound = static_cast<std::int64_t>(static_cast<Int128>(bound) *
                                        (1000 - job_.offcuts.permille) / 1000);
    }
    answer_.bound = std::min(answer_.cost, std::max(answer_.bound, bound));
    answer_.sheets_bound =
        std::min(answer_.sheets, std::max(answer_.sheets_bound, bound_->sheets_bound()));
  }

  void close() {
    over_ = true;
    if (untold_) {
      report();
    }
    answer_.proven = answer_.cost == answer_.bound;
    answer_.stopped = answer_.proven                  ? Stopped::kProven
                      : limits_.stop.stop_requested() ? Stopped::kCancelled
                                                      : Stopped::kWorkLimit;
  }

  const SheetJob& job_;
  const SheetLimits& limits_;
  PackProblem problem_;
  std::vector<std::int64_t> demand_;
  std::vector<PackSheet> best_;  // least price
  std::int64_t best_price_ = 0;
  std::unique_ptr<SheetBound> bound_;
  std::vector<Island> islands_;
  std::unique_ptr<SheetDive> dive_;
  std::int64_t epoch_work_ = kShortest;
  std::size_t turn_ = 0;
  Random attempt_{1};
  bool untold_ = false;
  bool over_ = false;
  SheetAnswer answer_;
};

base::Result<SheetAnswer> refuse_or_solve(const SheetJob& job, const SheetLimits& limits) {
  const std::int64_t unit = make_problem(job).unit;
  for (const SheetKind& kind : job.kinds) {
    if (std::max({kind.width, kind.height, job.kerf}) / unit > kMaxUnits) {
      return error(
          base::ErrorCode::kBadInput,
          fmt::format("a sheet of {} x {} is measured too finely", kind.width, kind.height));
    }
  }
  return SheetSolver{job, limits}.run();
}

}  // namespace

base::Result<SheetAnswer> solve_sheets(const SheetJob& job, const SheetLimits& limits) {
  const base::Errors errors = check_job(job);
  if (!errors.empty()) {
    return errors.front();
  }
  if (const auto misfit = find_misfit(job)) {
    return error(base::ErrorCode::kDoesNotFit, describe(job, *misfit));
  }
  return refuse_or_solve(job, limits);
}

}  // namespace plankwright::solve
