// Two sides work at the same time: islands of ruin and recreate look for cheaper layouts, a column
// generation looks for a higher bound. They meet after every epoch of fixed work, exchange the best
// layout and the bound, and go on; nothing is shared in between, so one thread or two give the same
// answer.

#include "solve/sheets.h"

#include <algorithm>
#include <limits>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "solve/sheet_problem.h"
#include "solve/sheet_search.h"

namespace plankwright::solve {
namespace {

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
    area_bound();
    offer(first.sheets);
    search();
    return std::move(answer_);
  }

 private:
  void area_bound() {
    double area = 0;
    double cheapest = 1e300;
    double largest = 0;
    for (const PackType& type : problem_.types) {
      area += static_cast<double>(type.width) * type.height * static_cast<double>(type.demand);
    }
    for (const PackKind& kind : problem_.kinds) {
      const double size = static_cast<double>(kind.width) * kind.height;
      cheapest = std::min(cheapest, static_cast<double>(kind.price) / size);
      largest = std::max(largest, size);
    }
    answer_.sheets_bound =
        std::max<std::int64_t>(1, static_cast<std::int64_t>(area / largest - 1e-6) + 1);
    answer_.bound = static_cast<std::int64_t>(area * cheapest - 1e-6);
    if (problem_.kinds.size() == 1) {
      answer_.bound = std::max(answer_.bound, answer_.sheets_bound * problem_.kinds[0].price);
    }
    if (job_.offcuts.permille > 0) {
      answer_.bound = answer_.bound * (1000 - job_.offcuts.permille) / 1000;
    }
  }

  void offer(const std::vector<PackSheet>& sheets) {
    std::vector<SheetLayout> layouts = make_layouts(job_, problem_, sheets);
    std::int64_t cost = 0;
    std::int64_t count = 0;
    for (const SheetLayout& layout : layouts) {
      cost += layout.cost * layout.count;
      count += layout.count;
    }
    if (answer_.layouts.empty() || cost < answer_.cost) {
      answer_.cost = cost;
      answer_.sheets = count;
      answer_.layouts = std::move(layouts);
      best_ = sheets;
      if (limits_.progress) {
        limits_.progress({answer_.cost, answer_.bound, answer_.sheets, answer_.work});
      }
    }
  }

  void search() {
    SheetSearch island{problem_, demand_, limits_.seed};
    std::int64_t total = 0;
    for (const std::int64_t copies : demand_) {
      total += copies;
    }
    if (total <= 3000) {
      island.adopt(best_, price_of(problem_, best_) - 1);
      while (answer_.cost > answer_.bound && answer_.work < limits_.work &&
             !limits_.stop.stop_requested() && !island.forest().open_slots().empty()) {
        const std::int64_t before = island.forest().work();
        if (island.run(20'000'000, limits_.stop)) {
          offer(island.sheets());
          island.aim(price_of(problem_, island.sheets()) - 1);
        }
        answer_.work += island.forest().work() - before + 1000;
      }
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
  std::vector<PackSheet> best_;
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
