#pragma once
// What it takes to go from one batch of work to another.

#include <cstdint>
#include <vector>

#include "bench/batches.h"
#include "bench/setting_order.h"

namespace plankwright::bench {

/// Change-overs between all batches of a job. A batch that finds the machine as it needs it (the
/// same standard in the same setting was just done) is not set up again.
class ChangeOver {
 public:
  /// All of these must outlive this.
  ChangeOver(const Tasks& tasks, const std::vector<Batch>& batches, const Limits& limits);

  bool walks(std::size_t from, std::size_t to) const;
  bool fetches(std::size_t from, std::size_t to) const;
  /// True when `to` goes on in the setting of `from`.
  bool goes_on(std::size_t from, std::size_t to) const;
  /// Of its machine; zero for what is not set.
  measure::Minutes setting(std::size_t batch) const;
  /// Of all batches whose setting no other batch shares: it is made once in any order.
  measure::Minutes always() const;
  /// What `to` takes beside `always` when it follows `from`, and when it comes first of all.
  measure::Minutes between(std::size_t from, std::size_t to) const;
  measure::Minutes at_first(std::size_t batch) const;

  OrderMinutes of(const std::vector<std::size_t>& order) const;

 private:
  const Task& first(std::size_t batch) const { return batches_[batch].first(tasks_); }

  const Tasks& tasks_;
  const std::vector<Batch>& batches_;
  const Limits& limits_;
  std::vector<bool> shared_;  // another batch has the same setting
};

}  // namespace plankwright::bench
