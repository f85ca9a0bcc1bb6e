#include "bench/order.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <utility>

namespace plankwright::bench {
namespace {

using Marks = std::vector<bool>;

Marks marks_of(const std::vector<PartIndex>& parts, std::size_t size) {
  Marks marks(size, false);
  for (const PartIndex part : parts) {
    marks[part] = true;
  }
  return marks;
}

std::size_t part_count(const std::vector<Batch>& batches) {
  std::size_t count = 0;
  for (const Batch& batch : batches) {
    for (const auto* parts : {&batch.parts, &batch.waits_for}) {
      for (const PartIndex part : *parts) {
        count = std::max(count, part + 1);
      }
    }
  }
  return count;
}

bool is_next_in_chain(const Task& earlier, const Task& later) {
  return !earlier.item->chain.empty() && earlier.item->chain == later.item->chain &&
         earlier.rule.rank == later.rule.rank && earlier.item->sequence < later.item->sequence;
}

/// Leaves out what other predecessors already wait for. `order` lists every batch behind all of its
/// predecessors.
void keep_direct(std::vector<std::vector<std::size_t>>& before,
                 const std::vector<std::size_t>& order) {
  std::vector<Marks> all(before.size(), Marks(before.size(), false));  // direct and indirect
  for (const std::size_t batch : order) {
    std::vector<std::size_t> direct;
    for (const std::size_t earlier : before[batch]) {
      const bool implied = std::ranges::any_of(before[batch], [&](std::size_t other) {
        return other != earlier && all[other][earlier];
      });
      if (!implied) {
        direct.push_back(earlier);
      }
      all[batch][earlier] = true;
      for (std::size_t i = 0; i < before.size(); ++i) {
        all[batch][i] = all[batch][i] || all[earlier][i];
      }
    }
    before[batch] = std::move(direct);
  }
}

double minutes_of(const Batch& batch, const Tasks& tasks) {
  const shop::LabourStandard& standard = *batch.first(tasks).standard;
  return standard.setup.count() + standard.per_unit.count() * batch.units;
}

/// Chance of failure for its cost; zero when nothing can be spoiled.
double urgency(const Batch& batch, const Tasks& tasks) {
  const double minutes = minutes_of(batch, tasks);
  return minutes > 0 ? batch.first(tasks).rule.fails / minutes : 0;
}

/// All that comes before `batch`, itself included.
Marks all_before(std::size_t batch, const std::vector<std::vector<std::size_t>>& before) {
  Marks marks(before.size(), false);
  std::vector<std::size_t> open = {batch};
  marks[batch] = true;
  while (!open.empty()) {
    const std::size_t one = open.back();
    open.pop_back();
    for (const std::size_t earlier : before[one]) {
      if (!marks[earlier]) {
        marks[earlier] = true;
        open.push_back(earlier);
      }
    }
  }
  return marks;
}

/// The latest stage of what `batch` waits for.
std::size_t stage_before(std::size_t batch,
                         const Tasks& tasks,
                         const std::vector<Batch>& batches,
                         const std::vector<std::vector<std::size_t>>& before) {
  std::size_t rank = 0;
  for (const std::size_t earlier : before[batch]) {
    rank = std::max(rank, batches[earlier].first(tasks).rule.rank);
  }
  return rank;
}

}  // namespace

// A batch stands behind all it can have to wait for.
std::vector<std::size_t> by_stage(const Tasks& tasks, const std::vector<Batch>& batches) {
  std::vector<std::size_t> order(batches.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    const Task& first = batches[i].first(tasks);
    return std::pair{first.rule.rank, first.item->sequence};
  });
  return order;
}

std::vector<std::vector<std::size_t>> predecessors(const Tasks& tasks,
                                                   const std::vector<Batch>& batches) {
  const std::size_t parts = part_count(batches);
  std::vector<std::vector<std::size_t>> before(batches.size());
  for (std::size_t later = 0; later < batches.size(); ++later) {
    const Task& task = batches[later].first(tasks);
    Marks needed = marks_of(batches[later].parts, parts);
    for (const PartIndex part : batches[later].waits_for) {
      needed[part] = true;
    }
    for (std::size_t earlier = 0; earlier < batches.size(); ++earlier) {
      const Task& other = batches[earlier].first(tasks);
      if (is_next_in_chain(other, task) ||
          (other.rule.rank < task.rule.rank && any_of(batches[earlier].parts, needed))) {
        before[later].push_back(earlier);
      }
    }
  }
  keep_direct(before, by_stage(tasks, batches));
  return before;
}

std::vector<std::vector<std::size_t>> risky_steps_early(
    const Tasks& tasks,
    const std::vector<Batch>& batches,
    const std::vector<std::vector<std::size_t>>& before) {
  std::vector<std::size_t> risky;
  for (std::size_t i = 0; i < batches.size(); ++i) {
    if (urgency(batches[i], tasks) > 0) {
      risky.push_back(i);
    }
  }
  std::ranges::stable_sort(
      risky, std::greater{}, [&](std::size_t i) { return urgency(batches[i], tasks); });
  std::vector<std::vector<std::size_t>> early = before;
  for (const std::size_t step : risky) {
    const Marks needed = all_before(step, early);
    const std::size_t rank = stage_before(step, tasks, batches, before);
    for (std::size_t i = 0; i < batches.size(); ++i) {
      if (!needed[i] && batches[i].first(tasks).rule.rank >= rank) {
        early[i].push_back(step);
      }
    }
  }
  return early;
}

}  // namespace plankwright::bench
