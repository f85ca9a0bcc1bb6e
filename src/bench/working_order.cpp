// Operations that all others come before or after cut the work into stretches. Between two of them
// each stretch is a sequential ordering problem of its own, and what the stretches take adds up to
// what the whole takes: so small ones are proven one by one where the whole would be too large.

#include <algorithm>
#include <cmath>
#include <optional>

#include "bench/change_over.h"
#include "bench/order.h"
#include "solve/order.h"

namespace plankwright::bench {
namespace {

using Before = std::vector<std::vector<std::size_t>>;
using Order = std::vector<std::size_t>;

constexpr double kSteps = 100;        // of a minute: a change-over is rounded to a hundredth
constexpr std::int64_t kMostTie = 7;  // of one change-over, see tie()

/// For each batch, all that comes before it.
class Closure {
 public:
  Closure(const Before& before, const Order& topological) : is_before_(before.size()) {
    for (const std::size_t batch : topological) {
      std::vector<bool>& marks = is_before_[batch];
      marks.assign(before.size(), false);
      for (const std::size_t earlier : before[batch]) {
        marks[earlier] = true;
        for (std::size_t i = 0; i < marks.size(); ++i) {
          marks[i] = marks[i] || is_before_[earlier][i];
        }
      }
    }
  }

  bool comes_before(std::size_t a, std::size_t b) const { return is_before_[b][a]; }
  std::size_t count_before(std::size_t batch) const {
    return static_cast<std::size_t>(std::ranges::count(is_before_[batch], true));
  }
  std::size_t count_after(std::size_t batch) const {
    return static_cast<std::size_t>(std::ranges::count_if(
        is_before_, [&](const std::vector<bool>& marks) { return marks[batch]; }));
  }

 private:
  std::vector<std::vector<bool>> is_before_;
};

/// An order that keeps `before`, as near to `wished` as may be. Empty when `before` has a circle.
Order topological(const Before& before, const Order& wished) {
  Order order;
  std::vector<bool> done(before.size(), false);
  while (order.size() < before.size()) {
    const auto next = std::ranges::find_if(wished, [&](std::size_t i) {
      return !done[i] && std::ranges::all_of(before[i], [&](std::size_t b) { return done[b]; });
    });
    if (next == wished.end()) {
      return {};
    }
    done[*next] = true;
    order.push_back(*next);
  }
  return order;
}

/// One stretch: what is ordered, between what stands fast.
struct Stretch {
  std::optional<std::size_t> from;
  Order inside;
  std::optional<std::size_t> to;
};

class Orderer {
 public:
  Orderer(const Tasks& tasks,
          const std::vector<Batch>& batches,
          const Before& before,
          const Limits& limits)
      : tasks_{tasks},
        batches_{batches},
        stage_order_{by_stage(tasks, batches)},
        start_{topological(before, stage_order_)},
        closure_{before, start_},
        change_{tasks, batches, limits},
        scale_{(kMostTie + 1) * (static_cast<std::int64_t>(batches.size()) + 1)} {}

  OrderedWork order(std::int64_t work) const {
    const std::vector<Stretch> all = stretches();
    std::int64_t weight = 0;
    for (const Stretch& stretch : all) {
      weight += weight_of(stretch);
    }
    OrderedWork found;
    std::int64_t bound = 0;
    for (const Stretch& stretch : all) {
      const double share = static_cast<double>(weight_of(stretch)) / static_cast<double>(weight);
      bound += add_stretch(
          found.batches, stretch, static_cast<std::int64_t>(share * static_cast<double>(work)));
    }
    found.cost.planned = change_.of(found.batches);
    found.cost.drawing = change_.of(stage_order_);
    set_bound(found.cost, bound);
    return found;
  }

 private:
  static std::int64_t weight_of(const Stretch& stretch) {
    const auto size = static_cast<std::int64_t>(stretch.inside.size());
    return 1 + size * size;
  }

  std::vector<Stretch> stretches() const {
    std::vector<Stretch> all(1);
    for (const std::size_t batch : by_count()) {
      const bool fast =
          closure_.count_before(batch) + closure_.count_after(batch) + 1 == batches_.size();
      if (!fast) {
        all.back().inside.push_back(batch);
        continue;
      }
      all.back().to = batch;
      all.push_back({.from = batch, .inside = {}, .to = {}});
    }
    return all;
  }

  /// By how much comes before, so that what stands fast parts what is before it from what is after.
  Order by_count() const {
    std::vector<std::size_t> counts(batches_.size());
    for (std::size_t i = 0; i < counts.size(); ++i) {
      counts[i] = closure_.count_before(i);
    }
    Order order = start_;
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return counts[i]; });
    return order;
  }

  std::int64_t steps(measure::Minutes minutes) const {
    return std::llround(minutes.count() * kSteps) * scale_;
  }

  /// What is liked better where minutes are the same: stage by stage, wide before narrow, as
  /// listed.
  std::int64_t tie(std::size_t from, std::size_t to) const {
    const Task& a = batches_[from].first(tasks_);
    const Task& b = batches_[to].first(tasks_);
    const bool widens = a.standard == b.standard && a.setting.kind == b.setting.kind &&
                        a.setting.length < b.setting.length;
    return (b.rule.rank < a.rule.rank ? 4 : 0) + (widens ? 2 : 0) + (to < from ? 1 : 0);
  }

  std::int64_t steps_between(std::size_t from, std::size_t to) const {
    return steps(change_.between(from, to)) + tie(from, to);
  }

  std::int64_t steps_to(const std::optional<std::size_t>& from, std::size_t to) const {
    return from ? steps_between(*from, to) : steps(change_.at_first(to));
  }

  std::int64_t steps_of(const Stretch& stretch, const Order& inside) const {
    std::int64_t total = 0;
    std::optional<std::size_t> last = stretch.from;
    for (const std::size_t batch : inside) {
      total += steps_to(last, batch);
      last = batch;
    }
    return stretch.to ? total + steps_to(last, *stretch.to) : total;
  }

  solve::OrderJob job_of(const Stretch& stretch) const {
    const Order& inside = stretch.inside;
    solve::OrderJob job;
    for (std::size_t a = 0; a < inside.size(); ++a) {
      job.first.push_back(steps_to(stretch.from, inside[a]));
      job.last.push_back(stretch.to ? steps_between(inside[a], *stretch.to) : 0);
      std::vector<std::int64_t>& row = job.change.emplace_back();
      for (std::size_t b = 0; b < inside.size(); ++b) {
        row.push_back(a == b ? 0 : steps_between(inside[a], inside[b]));
        if (closure_.comes_before(inside[a], inside[b])) {
          job.before.push_back({static_cast<int>(a), static_cast<int>(b)});
        }
      }
    }
    return job;
  }

  /// What takes least after the one before, again and again.
  Order nearest(const Stretch& stretch) const {
    Order order;
    Order left = stretch.inside;
    std::optional<std::size_t> last = stretch.from;
    while (!left.empty()) {
      const auto is_ready = [&](std::size_t i) {
        return std::ranges::none_of(left,
                                    [&](std::size_t j) { return closure_.comes_before(j, i); });
      };
      auto next = left.end();
      for (auto it = left.begin(); it != left.end(); ++it) {
        if (is_ready(*it) && (next == left.end() || steps_to(last, *it) < steps_to(last, *next))) {
          next = it;
        }
      }
      last = *next;
      order.push_back(*next);
      left.erase(next);
    }
    return order;
  }

  /// Appends the stretch and what stands fast behind it; gives what it cannot go below, in steps.
  std::int64_t add_stretch(Order& order, const Stretch& stretch, std::int64_t work) const {
    Order inside = nearest(stretch);
    std::int64_t bound = inside.size() < 2 ? steps_of(stretch, inside) : 0;
    if (inside.size() > 1 && work > 0) {
      const auto answer = solve::solve_order(job_of(stretch), {.work = work});
      if (answer.ok()) {
        bound = answer.value().bound;
        Order found;
        for (const int i : answer.value().order) {
          found.push_back(stretch.inside[static_cast<std::size_t>(i)]);
        }
        inside = steps_of(stretch, found) <= steps_of(stretch, inside) ? found : inside;
      }
    }
    order.insert(order.end(), inside.begin(), inside.end());
    if (stretch.to) {
      order.push_back(*stretch.to);
    }
    return bound;
  }

  /// Ties never add up to a step, so an order takes at least the whole steps of the bound.
  void set_bound(SettingOrder& cost, std::int64_t bound) const {
    const double least = static_cast<double>(bound / scale_) / kSteps;
    cost.bound = std::min(cost.planned.total(), change_.always() + measure::Minutes{least});
    cost.proven = cost.planned.total().count() - cost.bound.count() < 0.5 / kSteps;
  }

  const Tasks& tasks_;
  const std::vector<Batch>& batches_;
  const Order stage_order_;
  const Order start_;
  const Closure closure_;
  const ChangeOver change_;
  const std::int64_t scale_;
};

}  // namespace

OrderedWork working_order(const Tasks& tasks,
                          const std::vector<Batch>& batches,
                          const std::vector<std::vector<std::size_t>>& before,
                          const Limits& limits,
                          std::int64_t work) {
  return Orderer{tasks, batches, before, limits}.order(work);
}

}  // namespace plankwright::bench
