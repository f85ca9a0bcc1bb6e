// A first cutting plan by first fit decreasing, the bound by column generation, then dives that aim
// below the best plan until it meets the bound. Two masters dive side by side from different seeds
// and meet after every dive, so one thread or two give the same plan. Rests are drawn together at
// the end: one long rest is worth keeping where two short ones are not.

#include "solve/bars.h"

#include <algorithm>
#include <map>
#include <memory>
#include <numeric>
#include <thread>

#include <fmt/format.h>

#include "solve/bar_branch.h"
#include "solve/bar_knapsack.h"
#include "solve/bar_master.h"

namespace plankwright::solve {
namespace {

__extension__ using Int128 = __int128;

constexpr std::int64_t kMaxLength = 100'000'000'000;
constexpr std::int64_t kMaxMoney = 1'000'000'000'000;
constexpr std::int64_t kMaxCopies = 100'000'000;
constexpr std::int64_t kMostBranched = 200;  // parts
constexpr std::int64_t kBranchWork = 20'000'000;
constexpr std::size_t kMaxRows = 20'000;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

base::Error error(base::ErrorCode code, std::string message) {
  return {code, std::move(message), std::nullopt, {}};
}

base::Error bad(std::string message) {
  return error(base::ErrorCode::kBadInput, std::move(message));
}

std::int64_t usable(const BarJob& job, const BarKind& kind) {
  return kind.length - 2 * kind.trim.value_or(job.trim);
}

void check_kinds(const BarJob& job, base::Errors& errors) {
  for (std::size_t i = 0; i < job.kinds.size(); ++i) {
    const BarKind& kind = job.kinds[i];
    const std::int64_t trim = kind.trim.value_or(job.trim);
    if (kind.length <= 0 || kind.length > kMaxLength) {
      errors.push_back(bad(fmt::format("bar {} is {} long", i, kind.length)));
    } else if (trim < 0 || trim > kMaxLength || usable(job, kind) <= 0) {
      errors.push_back(bad(fmt::format("a trim of {} leaves nothing of bar {}", trim, i)));
    }
    if (kind.price < 0 || kind.price > kMaxMoney) {
      errors.push_back(bad(fmt::format("bar {} has a price of {}", i, kind.price)));
    }
    if (kind.available && *kind.available < 0) {
      errors.push_back(bad(fmt::format("{} bars of kind {} on hand", *kind.available, i)));
    }
  }
}

std::optional<base::Error> find_misfit(const BarJob& job) {
  std::int64_t longest = -1;
  for (const BarKind& kind : job.kinds) {
    if (!kind.available || *kind.available > 0) {
      longest = std::max(longest, usable(job, kind));
    }
  }
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    if (job.parts[i].length > longest) {
      return error(base::ErrorCode::kDoesNotFit,
                   longest < 0 ? fmt::format("part {} fits no bar: there are none on hand", i)
                               : fmt::format("part {} fits no bar: the longest is short by {}",
                                             i,
                                             job.parts[i].length - longest));
    }
  }
  return std::nullopt;
}

BarProblem make_problem(const BarJob& job, std::vector<std::vector<int>>& sources) {
  std::map<std::int64_t, std::vector<int>, std::greater<>> by_length;
  for (int i = 0; i < static_cast<int>(job.parts.size()); ++i) {
    by_length[job.parts[at(i)].length].push_back(i);
  }
  BarProblem problem;
  for (const auto& [length, parts] : by_length) {
    std::int64_t demand = 0;
    for (const int part : parts) {
      demand += job.parts[at(part)].demand;
    }
    problem.lengths.push_back(length + job.kerf);
    problem.demand.push_back(demand);
    sources.push_back(parts);
  }
  for (const BarKind& kind : job.kinds) {
    BarProblem::Kind pack;
    pack.capacity = usable(job, kind) + job.kerf;
    pack.price = kind.price;
    pack.available = kind.available.value_or(pack.available);
    problem.kinds.push_back(pack);
  }
  return problem;
}

class BarSolver {
 public:
  BarSolver(const BarJob& job, const BarLimits& limits)
      : job_{job}, limits_{limits}, problem_{make_problem(job, sources_)} {}

  base::Result<BarAnswer> run() {
    std::vector<BarPattern> first = first_bars(problem_);
    answer_.work = answer_.first_work =
        20 * static_cast<std::int64_t>((first.size() + 1) * problem_.lengths.size());
    if (first.empty()) {
      return error(base::ErrorCode::kDoesNotFit, "the bars on hand do not hold every part");
    }
    offer(std::move(first));
    bound();
    dive();
    finish();
    return std::move(answer_);
  }

 private:
  std::int64_t price_of(const std::vector<BarPattern>& patterns) const {
    std::int64_t price = 0;
    for (const BarPattern& pattern : patterns) {
      price += problem_.kinds[at(pattern.kind)].price * pattern.count;
    }
    return price;
  }

  void offer(std::vector<BarPattern> patterns) {
    const std::int64_t price = price_of(patterns);
    if (best_.empty() || price < best_price_) {
      best_ = std::move(patterns);
      best_price_ = price;
      report();
    }
  }

  void report() const {
    if (limits_.progress) {
      std::int64_t bars = 0;
      for (const BarPattern& pattern : best_) {
        bars += pattern.count;
      }
      limits_.progress({best_price_, std::min(best_price_, bound_), bars, answer_.work});
    }
  }

  bool is_over() const {
    return best_price_ <= bound_ || answer_.work >= limits_.work || limits_.stop.stop_requested();
  }

  void step(BarMaster& master) {
    const std::int64_t before = master.work();
    master.step();
    answer_.work += master.work() - before;
    bound_ = std::max(bound_, master.bound());
  }

  void bound() {
    masters_.push_back(std::make_unique<BarMaster>(problem_));
    BarMaster& master = *masters_.front();
    master.add_patterns(best_);
    step(master);
    if (!is_over() && problem_.kinds.size() == 1 && !problem_.kinds[0].is_limited()) {
      offer(fullest_bars(problem_, answer_.work));
      master.add_patterns(best_);
    }
    while (!is_over() && !master.is_finished()) {
      step(master);
    }
    bars_bound_ = master.bars_bound();
    report();
  }

  void dive() {
    if (is_over()) {
      return;
    }
    masters_.push_back(std::make_unique<BarMaster>(problem_));
    masters_.back()->add_patterns(best_);
    Random randoms[2] = {Random{limits_.seed * 2}, Random{limits_.seed * 2 + 1}};
    for (std::size_t round = 0; !is_over(); ++round) {
      if (round == 3) {
        branch();
        continue;
      }
      std::vector<BarPattern> found[2];
      const std::int64_t before = masters_[0]->work() + masters_[1]->work();
      // The bound itself, half-way to it, or anything better at all.
      const std::int64_t least = best_price_ - 1;
      const std::int64_t goals[3] = {bound_, bound_ + (least - bound_) / 2, least};
      const auto task = [&](std::size_t i) {
        found[i] = masters_[i]->dive(goals[(round + i) % 3], randoms[i], limits_.stop);
      };
      if (limits_.threads > 1) {
        const std::jthread other{task, std::size_t{1}};
        task(0);
      } else {
        task(0);
        task(1);
      }
      answer_.work += masters_[0]->work() + masters_[1]->work() - before + 10'000;
      for (auto& patterns : found) {
        if (!patterns.empty()) {
          offer(std::move(patterns));
        }
      }
    }
  }

  // What the dives miss in a small order is settled by trying everything.
  void branch() {
    std::int64_t copies = 0;
    for (const std::int64_t demand : problem_.demand) {
      copies += demand;
    }
    if (copies > kMostBranched) {
      return;
    }
    BarBranching tried =
        branch_bars(problem_, best_price_, std::min(kBranchWork, limits_.work - answer_.work));
    answer_.work += tried.work;
    if (!tried.bars.empty()) {
      offer(std::move(tried.bars));
    }
    if (tried.complete) {
      bound_ = std::max(bound_, best_price_);
    }
  }

  // Fills the first of every two bars as full as the parts of both allow, so that the rest gathers
  // in the second. Only bars of one kind, and only as long as it helps.
  void gather_rests() {
    if (job_.rests.permille == 0) {
      return;
    }
    std::vector<BarPattern> bars;
    for (const BarPattern& pattern : best_) {
      for (std::int64_t i = 0; i < pattern.count && bars.size() < 400; ++i) {
        bars.push_back({pattern.kind, 1, pattern.counts});
      }
    }
    std::int64_t total = 0;
    for (const BarPattern& pattern : best_) {
      total += pattern.count;
    }
    if (total > 400) {
      return;
    }
    for (std::size_t a = 0; a < bars.size(); ++a) {
      for (std::size_t b = a + 1; b < bars.size() && !limits_.stop.stop_requested(); ++b) {
        if (bars[a].kind == bars[b].kind) {
          gather(bars[a], bars[b]);
        }
      }
    }
    best_ = std::move(bars);
  }

  void gather(BarPattern& full, BarPattern& other) {
    std::vector<std::int64_t> both = full.counts;
    for (std::size_t t = 0; t < both.size(); ++t) {
      both[t] += other.counts[t];
    }
    const std::int64_t capacity = problem_.kinds[at(full.kind)].capacity;
    const BarFilling filling =
        fill_bar(problem_.lengths, problem_.lengths, both, capacity, answer_.work);
    std::int64_t now = 0;
    std::int64_t left = 0;
    for (std::size_t t = 0; t < both.size(); ++t) {
      now += full.counts[t] * problem_.lengths[t];
      left += (both[t] - filling.counts[t]) * problem_.lengths[t];
    }
    if (filling.value > now && left > 0 && left <= capacity) {
      full.counts = filling.counts;
      for (std::size_t t = 0; t < both.size(); ++t) {
        other.counts[t] = both[t] - full.counts[t];
      }
    }
  }

  void finish() {
    const std::vector<BarPattern> plain = best_;
    take_layouts();
    const BarAnswer before = answer_;
    gather_rests();
    take_layouts();
    if (answer_.cost > before.cost) {
      const std::int64_t work = answer_.work;
      answer_ = before;
      answer_.work = work;
    }
    const std::int64_t keepable = kept_at_most(bound_);
    answer_.bound = std::min(answer_.cost, keepable);
    answer_.bars_bound = std::min(answer_.bars, std::max<std::int64_t>(1, bars_bound_));
    answer_.proven = answer_.bound == answer_.cost;
    answer_.stopped = answer_.proven                  ? Stopped::kProven
                      : limits_.stop.stop_requested() ? Stopped::kCancelled
                                                      : Stopped::kWorkLimit;
  }

  // Money below which no plan can get when what it does not use comes back at the rest's worth: a
  // bar returns at most its price's thousandths, less those of the length the parts take.
  std::int64_t kept_at_most(std::int64_t price) const {
    if (job_.rests.permille == 0) {
      return price;
    }
    long double rate = 1e300L;
    long double taken = 0;
    for (const BarKind& kind : job_.kinds) {
      rate = std::min(rate, static_cast<long double>(kind.price) / kind.length);
    }
    for (const BarPart& part : job_.parts) {
      taken += static_cast<long double>(part.length) * part.demand;
    }
    const long double share = static_cast<long double>(job_.rests.permille) / 1000;
    return static_cast<std::int64_t>(std::max(
        0.0L,
        std::ceil(static_cast<long double>(price) * (1 - share) + share * rate * taken - 1e-6L)));
  }

  void take_layouts() {
    answer_.layouts.clear();
    answer_.cost = answer_.bars = 0;
    left_.clear();
    for (const auto& parts : sources_) {
      auto& left = left_.emplace_back();
      for (const int part : parts) {
        left.emplace_back(part, job_.parts[at(part)].demand);
      }
    }
    for (const BarPattern& pattern : best_) {
      for (std::int64_t wanted = pattern.count; wanted > 0;) {
        wanted -= add_layout(pattern, wanted);
      }
    }
  }

  // As many alike bars as the parts at hand allow without changing from one to another of its
  // length.
  std::int64_t add_layout(const BarPattern& pattern, std::int64_t wanted) {
    std::int64_t alike = wanted;
    for (std::size_t t = 0; t < pattern.counts.size(); ++t) {
      if (pattern.counts[t] > 0) {
        const std::int64_t copies = left_[t].front().second;
        alike = std::min(alike, std::max<std::int64_t>(1, copies / pattern.counts[t]));
      }
    }
    BarLayout layout;
    layout.kind = pattern.kind;
    layout.count = alike;
    std::int64_t taken = 0;
    for (std::size_t t = 0; t < pattern.counts.size(); ++t) {
      for (std::int64_t i = 0; i < pattern.counts[t]; ++i) {
        layout.parts.push_back(left_[t].front().first);
        left_[t].front().second -= alike;
        if (left_[t].front().second == 0) {
          left_[t].erase(left_[t].begin());
        }
      }
      taken += pattern.counts[t] * problem_.lengths[t];
    }
    const BarKind& kind = job_.kinds[at(pattern.kind)];
    layout.rest =
        std::max<std::int64_t>(0, problem_.kinds[at(pattern.kind)].capacity - taken - job_.kerf);
    layout.cost = kind.price;
    if (job_.rests.permille > 0 && layout.rest > 0 && layout.rest >= job_.rests.min_length) {
      layout.cost -= static_cast<std::int64_t>(static_cast<Int128>(layout.rest) * kind.price *
                                               job_.rests.permille /
                                               (static_cast<Int128>(kind.length) * 1000));
    }
    answer_.cost += layout.cost * alike;
    answer_.bars += alike;
    answer_.layouts.push_back(std::move(layout));
    return alike;
  }

  const BarJob& job_;
  const BarLimits& limits_;
  std::vector<std::vector<int>> sources_;
  BarProblem problem_;
  std::vector<std::unique_ptr<BarMaster>> masters_;
  std::vector<BarPattern> best_;
  std::int64_t best_price_ = 0;
  std::int64_t bound_ = 0;
  std::int64_t bars_bound_ = 0;
  std::vector<std::vector<std::pair<int, std::int64_t>>> left_;
  BarAnswer answer_;
};

}  // namespace

base::Errors check_bar_job(const BarJob& job) {
  base::Errors errors;
  if (job.kinds.empty() || job.parts.empty()) {
    errors.push_back(bad("a job needs at least one bar and one part"));
  }
  if (job.kinds.size() > kMaxRows || job.parts.size() > kMaxRows) {
    errors.push_back(bad(fmt::format("more than {} rows of bars or parts", kMaxRows)));
    return errors;
  }
  if (job.kerf < 0 || job.kerf > kMaxLength) {
    errors.push_back(bad(fmt::format("a kerf of {}", job.kerf)));
  }
  check_kinds(job, errors);
  std::int64_t copies = 0;
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    const BarPart& part = job.parts[i];
    if (part.length <= 0 || part.length > kMaxLength) {
      errors.push_back(bad(fmt::format("part {} is {} long", i, part.length)));
    }
    if (part.demand <= 0 || part.demand > kMaxCopies) {
      errors.push_back(bad(fmt::format("part {} is wanted {} times", i, part.demand)));
    } else {
      copies += part.demand;
    }
  }
  if (copies > kMaxCopies) {
    errors.push_back(bad(fmt::format("{} parts are more than one order can hold", copies)));
  }
  if (job.rests.min_length < 0 || job.rests.permille < 0 || job.rests.permille > 1000) {
    errors.push_back(bad("a rest is worth between 0 and 1000 thousandths of its bar"));
  }
  return errors;
}

base::Result<BarAnswer> solve_bars(const BarJob& job, const BarLimits& limits) {
  const base::Errors errors = check_bar_job(job);
  if (!errors.empty()) {
    return errors.front();
  }
  if (auto misfit = find_misfit(job)) {
    return *misfit;
  }
  return BarSolver{job, limits}.run();
}

}  // namespace plankwright::solve
