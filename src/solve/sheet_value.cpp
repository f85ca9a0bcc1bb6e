// Value from a few sheets. What is left unmet costs its value, so this is the sheet problem turned
// round: rows for the parts, a column that leaves a part out, patterns that cost nothing, and no
// more of them than there are sheets. For prices p no higher than the values, m sheets give at most
// m F(p) + sum of (value - p) * most, in whole numbers scaled up. Two islands of ruin and recreate
// on fixed sheets find layouts; on one sheet an enumeration then looks at all that could be better.
// Everything runs by work and own seeds.

#include "solve/sheet_value.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <thread>

#include <fmt/format.h>

#include "solve/linear_program.h"
#include "solve/sheet_search.h"
#include "solve/value_states.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kMaxValue = 1'000'000'000;
constexpr std::int64_t kMaxSize = std::int64_t{1} << 29U;
constexpr double kMostTable = 2e9;

base::Error bad(std::string message) {
  return {base::ErrorCode::kBadInput, std::move(message), std::nullopt, {}};
}

std::optional<base::Error> find_mistake(const ValueJob& job) {
  const auto is_size = [](std::int64_t size) { return size > 0 && size <= kMaxSize; };
  if (!is_size(job.width) || !is_size(job.height) || job.sheets < 1 || job.sheets > 10'000) {
    return bad(fmt::format("{} sheets of {} x {}", job.sheets, job.width, job.height));
  }
  if (job.kerf < 0 || job.kerf > kMaxSize || job.trim < 0 ||
      2 * job.trim >= std::min(job.width, job.height)) {
    return bad(fmt::format("a kerf of {} and a trim of {}", job.kerf, job.trim));
  }
  if (job.parts.empty() || job.parts.size() > 5000) {
    return bad(fmt::format("{} parts", job.parts.size()));
  }
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    const ValuedPart& part = job.parts[i];
    if (!is_size(part.width) || !is_size(part.height)) {
      return bad(fmt::format("part {} is {} x {}", i, part.width, part.height));
    }
    if (part.value < 0 || part.value > kMaxValue) {
      return bad(fmt::format("part {} is worth {}", i, part.value));
    }
    if (part.most && *part.most < 0) {
      return bad(fmt::format("part {} may be cut {} times", i, *part.most));
    }
  }
  return std::nullopt;
}

/// The sheet job whose only purpose is to draw the layouts.
SheetJob drawn_job(const ValueJob& job) {
  SheetJob drawn;
  drawn.kinds.push_back({job.width, job.height, 0, job.sheets, job.trim});
  drawn.kerf = job.kerf;
  for (const ValuedPart& part : job.parts) {
    drawn.parts.push_back({part.width, part.height, 1, part.may_turn});
  }
  return drawn;
}

std::int64_t fitting(const PackKind& kind, const PackType& type) {
  const auto count = [&](std::int32_t width, std::int32_t height) {
    return width <= kind.width && height <= kind.height;
  };
  if (!count(type.width, type.height) && !(type.may_turn && count(type.height, type.width))) {
    return 0;
  }
  return static_cast<std::int64_t>(kind.width) * kind.height /
         (static_cast<std::int64_t>(type.width) * type.height);
}

/// One type for each part, whatever its size: equal parts may differ in value.
PackProblem value_problem(const ValueJob& job) {
  const SheetJob drawn = drawn_job(job);
  PackProblem problem = make_problem(drawn);
  problem.types.clear();
  problem.sources.clear();
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    const ValuedPart& part = job.parts[i];
    PackType type;
    type.width = static_cast<std::int32_t>(part.width / problem.unit) + problem.kerf;
    type.height = static_cast<std::int32_t>(part.height / problem.unit) + problem.kerf;
    type.may_turn = part.may_turn && part.width != part.height;
    type.value = static_cast<double>(part.value);
    const std::int64_t fit = fitting(problem.kinds[0], type) * job.sheets;
    type.demand = part.value > 0 ? std::min(part.most.value_or(fit), fit) : 0;
    problem.types.push_back(type);
    problem.sources.push_back({{static_cast<int>(i), -1, type.demand}});
  }
  return problem;
}

/// Prices of the parts for the bound, by column generation.
class ValueBound {
 public:
  ValueBound(const PackProblem& problem, const ValueJob& job, GuillotineTable& table)
      : problem_{problem}, sheets_{job.sheets}, table_{table} {
    double density = 1e-30;
    for (std::size_t t = 0; t < problem.types.size(); ++t) {
      const PackType& type = problem.types[t];
      values_.push_back(job.parts[t].value);
      demand_.push_back(type.demand);
      if (type.demand > 0) {
        density = std::max(density, type.value / (static_cast<double>(type.width) * type.height));
      }
    }
    const PackKind& kind = problem.kinds[0];
    const double most = density * static_cast<double>(kind.width) * kind.height;
    scale_ = std::clamp<std::int64_t>(static_cast<std::int64_t>(kMostTable / most), 1, 1000);
    too_large_ = most > kMostTable;
    start_master();
  }

  bool is_too_large() const { return too_large_; }
  std::int64_t scale() const { return scale_; }
  bool is_finished() const { return finished_; }
  std::int64_t bound() const { return bound_; }
  const std::vector<std::int32_t>& prices() const { return best_whole_; }
  std::int64_t work() const { return work_; }

  /// The plain bound, and a pattern of it. Exact when nothing limits the parts.
  PackNode unlimited() {
    price(std::vector<double>(values_.begin(), values_.end()));
    return settle(problem_, 0, table_.pattern(0));
  }

  /// A proper pattern made in passing.
  const PackNode& pattern() const { return pattern_; }

  void step(std::int64_t goal) {
    work_ += 3000 * static_cast<std::int64_t>(values_.size() + 3);
    if (bound_ <= goal || !master_.solve()) {
      finished_ = true;
      return;
    }
    std::vector<double> duals;
    std::vector<double> trial;
    for (std::size_t t = 0; t < values_.size(); ++t) {
      const double most = static_cast<double>(values_[t]);
      duals.push_back(std::clamp(master_.dual(static_cast<int>(t)), 0.0, most));
      trial.push_back(smoothing_ * best_[t] + (1 - smoothing_) * duals.back());
    }
    price(trial);
    const PackNode loose = table_.pattern(0);
    const bool grew = add_column(loose, duals);
    std::vector<std::int64_t> left = demand_;
    pattern_ = settle(problem_, 0, loose, &left);
    add_column(pattern_, duals);
    finished_ = !grew && smoothing_ == 0;
    smoothing_ = grew ? 0.5 : 0;
  }

 private:
  void start_master() {
    for (std::size_t t = 0; t < values_.size(); ++t) {
      master_.add_row_at_least(static_cast<double>(demand_[t]));
    }
    sheet_row_ = master_.add_row_at_most(static_cast<double>(sheets_));
    for (std::size_t t = 0; t < values_.size(); ++t) {
      master_.add_column(static_cast<double>(values_[t]), {{static_cast<int>(t), 1.0}});
    }
  }

  bool add_column(const PackNode& root, const std::vector<double>& duals) {
    const auto counts = count_types(root, values_.size());
    std::vector<std::pair<int, double>> entries{{sheet_row_, 1.0}};
    double reduced = -master_.dual(sheet_row_);
    for (std::size_t t = 0; t < counts.size(); ++t) {
      if (counts[t] > 0) {
        entries.emplace_back(static_cast<int>(t), static_cast<double>(counts[t]));
        reduced -= duals[t] * static_cast<double>(counts[t]);
      }
    }
    if (reduced > -1e-6) {
      return false;
    }
    master_.add_column(0, entries);
    return true;
  }

  void price(const std::vector<double>& prices) {
    std::vector<std::int32_t> whole;
    std::int64_t bound = 0;
    for (std::size_t t = 0; t < prices.size(); ++t) {
      const auto scaled = static_cast<std::int64_t>(prices[t] * static_cast<double>(scale_) + 0.5);
      whole.push_back(
          demand_[t] > 0 ? static_cast<std::int32_t>(std::min(scaled, values_[t] * scale_)) : 0);
      bound += (values_[t] * scale_ - whole.back()) * demand_[t];
    }
    const std::int64_t before = table_.work();
    table_.fill(whole);
    work_ += table_.work() - before;
    bound += table_.value(0) * sheets_;
    if (best_whole_.empty() || bound < best_scaled_) {
      best_scaled_ = bound;
      best_ = prices;
      best_whole_ = whole;
      bound_ = bound / scale_;
    }
  }

  const PackProblem& problem_;
  std::int64_t sheets_ = 1;
  GuillotineTable& table_;
  LinearProgram master_;
  int sheet_row_ = 0;
  std::vector<std::int64_t> values_;
  std::vector<std::int64_t> demand_;
  std::int64_t scale_ = 1;
  bool too_large_ = false;
  PackNode pattern_;
  std::vector<double> best_;
  std::vector<std::int32_t> best_whole_;
  std::int64_t best_scaled_ = 0;
  std::int64_t bound_ = 0;
  double smoothing_ = 0.5;
  bool finished_ = false;
  std::int64_t work_ = 0;
};

class ValueSolver {
 public:
  ValueSolver(const ValueJob& job, const ValueLimits& limits)
      : job_{job}, limits_{limits}, problem_{value_problem(job)} {
    for (std::size_t t = 0; t < problem_.types.size(); ++t) {
      demand_.push_back(problem_.types[t].demand);
    }
  }

  base::Result<ValueAnswer> run() {
    GuillotineTable table{problem_, demand_, 1};
    ValueBound bound{problem_, job_, table};
    if (bound.is_too_large()) {
      return bad("the values are too large for exact sums; use a coarser unit of money");
    }
    const PackNode plain = bound.unlimited();
    take_bound(bound);
    offer_repeated(plain);
    offer_kept({{0, 1, {}}});
    while (!is_over() && !bound.is_finished()) {
      bound.step(answer_.value);
      take_bound(bound);
      offer_repeated(bound.pattern());
    }
    if (!is_over()) {
      search(bound, table);
    }
    finish();
    return std::move(answer_);
  }

 private:
  bool is_over() const {
    return answer_.value >= answer_.bound || answer_.work >= limits_.work ||
           limits_.stop.stop_requested();
  }

  void take_bound(const ValueBound& bound) {
    answer_.work += bound.work() - bound_work_;
    bound_work_ = bound.work();
    if (!bounded_ || bound.bound() < answer_.bound) {
      bounded_ = true;
      answer_.bound = bound.bound();
      report();
    }
  }

  void report() const {
    if (limits_.progress) {
      limits_.progress(answer_.value, answer_.bound);
    }
  }

  std::int64_t value_of(const std::vector<PackSheet>& sheets) const {
    std::int64_t value = 0;
    for (const PackSheet& sheet : sheets) {
      const auto counts = count_types(sheet.root, demand_.size());
      for (std::size_t t = 0; t < counts.size(); ++t) {
        value += counts[t] * sheet.count * job_.parts[t].value;
      }
    }
    return value;
  }

  void offer_kept(std::vector<PackSheet> sheets) {
    const std::int64_t value = value_of(sheets);
    if (best_.empty() || value > answer_.value) {
      best_ = std::move(sheets);
      answer_.value = value;
      report();
    }
  }

  // The same pattern on every sheet, as far as the parts last.
  void offer_repeated(const PackNode& root) {
    std::vector<std::int64_t> left = demand_;
    std::vector<PackSheet> sheets;
    const auto counts = count_types(root, demand_.size());
    std::int64_t whole = job_.sheets;
    for (std::size_t t = 0; t < counts.size(); ++t) {
      whole = counts[t] > 0 ? std::min(whole, demand_[t] / counts[t]) : whole;
    }
    if (whole > 0) {
      sheets.push_back({0, whole, root});
      for (std::size_t t = 0; t < counts.size(); ++t) {
        left[t] -= counts[t] * whole;
      }
    }
    for (std::int64_t i = whole; i < std::min(job_.sheets, whole + 50); ++i) {
      PackNode part = settle(problem_, 0, root, &left);
      if (!part.children.empty()) {
        sheets.push_back({0, 1, std::move(part)});
      }
    }
    if (!sheets.empty()) {
      offer_kept(std::move(sheets));
    }
  }

  // Enough copies of every type for the islands, the most valuable for their size first.
  std::vector<std::int64_t> searched_copies() const {
    std::vector<std::size_t> order(demand_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto density = [&](std::size_t t) {
      const PackType& type = problem_.types[t];
      return type.value / (static_cast<double>(type.width) * type.height);
    };
    std::ranges::stable_sort(order,
                             [&](std::size_t a, std::size_t b) { return density(a) > density(b); });
    const PackKind& kind = problem_.kinds[0];
    double room =
        4.0 * static_cast<double>(kind.width) * kind.height * static_cast<double>(job_.sheets);
    std::vector<std::int64_t> copies(demand_.size(), 0);
    for (const std::size_t t : order) {
      const PackType& type = problem_.types[t];
      copies[t] = std::min<std::int64_t>(demand_[t], room > 0 ? 2000 : 2);
      room -= static_cast<double>(copies[t]) * type.width * type.height;
    }
    return copies;
  }

  void search(ValueBound& bound, GuillotineTable& table) {
    const std::vector<std::int64_t> copies = searched_copies();
    for (std::uint64_t i = 0; i < 2; ++i) {
      islands_.push_back(std::make_unique<SheetSearch>(problem_, copies, limits_.seed * 2 + i));
      islands_.back()->weigh_by_value(
          static_cast<double>(std::max<std::int64_t>(1, answer_.bound)) /
          static_cast<double>(job_.sheets));
      if (i == 0) {
        islands_.back()->fix_layout(best_, job_.sheets);
      } else {
        islands_.back()->fix_sheets({job_.sheets});
      }
    }
    table.fill(bound.prices());
    std::int64_t share = 4'000'000;
    bool enumerate = false;
    while (!is_over()) {
      const std::int64_t before = islands_work();
      StateResult states;
      const bool one_sheet = job_.sheets == 1 && !exhausted_;
      if (enumerate && one_sheet) {
        states = beside([&] { return enumerated(bound, table, share); }, share);
        take(states, share);
        share *= 4;
      } else {
        beside(
            [&] {
              islands_[1]->run(share, limits_.stop);
              return StateResult{};
            },
            share);
      }
      enumerate = true;
      answer_.work += islands_work() - before + states.work + 10'000;
      for (const auto& island : islands_) {
        offer_kept(island->best_found());
      }
    }
  }

  std::int64_t islands_work() const {
    return islands_[0]->forest().work() + islands_[1]->forest().work();
  }

  template <class Task>
  StateResult beside(const Task& task, std::int64_t share) {
    StateResult states;
    const auto other = [&] { states = task(); };
    if (limits_.threads > 1) {
      const std::jthread thread{other};
      islands_[0]->run(share, limits_.stop);
    } else {
      other();
      islands_[0]->run(share, limits_.stop);
    }
    return states;
  }

  StateResult enumerated(const ValueBound& bound,
                         const GuillotineTable& table,
                         std::int64_t work) const {
    std::vector<std::int64_t> values;
    for (const ValuedPart& part : job_.parts) {
      values.push_back(part.value * bound.scale());
    }
    const StateSearch search{problem_, 0, values, bound.prices(), table};
    StateResult states =
        enumerate_states(search, (answer_.value + 1) * bound.scale() - 1, work, limits_.stop);
    return states;
  }

  void take(const StateResult& states, std::int64_t work) {
    if (states.root) {
      offer_kept({{0, 1, settle(problem_, 0, *states.root)}});
    }
    if (states.complete) {
      answer_.bound = std::min(answer_.bound, answer_.value);
    } else if (states.work < work) {
      exhausted_ = true;  // memory, not work, ended it; more work would not help
    }
  }

  void finish() {
    SheetJob drawn = drawn_job(job_);
    std::vector<PackSheet> sheets;
    for (PackSheet& sheet : best_) {
      if (!sheet.root.children.empty()) {
        sheets.push_back(std::move(sheet));
      }
    }
    answer_.layouts = make_layouts(drawn, problem_, sheets);
    answer_.bound = std::max(answer_.bound, answer_.value);
    answer_.proven = answer_.bound == answer_.value;
    answer_.stopped = answer_.proven                  ? Stopped::kProven
                      : limits_.stop.stop_requested() ? Stopped::kCancelled
                                                      : Stopped::kWorkLimit;
  }

  const ValueJob& job_;
  const ValueLimits& limits_;
  PackProblem problem_;
  std::vector<std::int64_t> demand_;
  std::vector<std::unique_ptr<SheetSearch>> islands_;
  std::vector<PackSheet> best_;
  std::int64_t bound_work_ = 0;
  bool bounded_ = false;
  bool exhausted_ = false;
  ValueAnswer answer_;
};

}  // namespace

base::Result<ValueAnswer> solve_sheet_value(const ValueJob& job, const ValueLimits& limits) {
  if (auto mistake = find_mistake(job)) {
    return *mistake;
  }
  return ValueSolver{job, limits}.run();
}

}  // namespace plankwright::solve
