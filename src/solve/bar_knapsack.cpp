// Bounded knapsack. Whole-number values make both ways exact, and ties go to the earlier type, so
// the same prices always give the same pattern.

#include "solve/bar_knapsack.h"

#include <algorithm>
#include <numeric>

namespace plankwright::solve {
namespace {

__extension__ using Int128 = __int128;

constexpr std::int64_t kMostTable = 4'000'000;
constexpr std::int64_t kMostNodes = 3'000'000;

struct Bundle {
  std::size_t type = 0;
  std::int64_t copies = 0;
};

// Powers of two of every type, so that a choice of bundles is any number up to the most.
std::vector<Bundle> bundles_of(const std::vector<std::int64_t>& lengths,
                               const std::vector<std::int64_t>& values,
                               const std::vector<std::int64_t>& most,
                               std::int64_t capacity) {
  std::vector<Bundle> bundles;
  for (std::size_t t = 0; t < lengths.size(); ++t) {
    std::int64_t left = values[t] > 0 ? std::min(most[t], capacity / lengths[t]) : 0;
    for (std::int64_t copies = 1; left > 0; copies *= 2) {
      const std::int64_t taken = std::min(copies, left);
      bundles.push_back({t, taken});
      left -= taken;
    }
  }
  return bundles;
}

BarFilling fill_by_table(const std::vector<std::int64_t>& lengths,
                         const std::vector<std::int64_t>& values,
                         const std::vector<Bundle>& bundles,
                         std::int64_t capacity,
                         std::int64_t& work) {
  const auto width = static_cast<std::size_t>(capacity) + 1;
  std::vector<std::int64_t> best(width, 0);
  std::vector<std::vector<bool>> taken(bundles.size(), std::vector<bool>(width, false));
  for (std::size_t b = 0; b < bundles.size(); ++b) {
    const auto size = static_cast<std::size_t>(lengths[bundles[b].type] * bundles[b].copies);
    const std::int64_t value = values[bundles[b].type] * bundles[b].copies;
    for (std::size_t room = width - 1; room >= size && room < width; --room) {
      if (best[room - size] + value > best[room]) {
        best[room] = best[room - size] + value;
        taken[b][room] = true;
      }
    }
  }
  work += 2 * static_cast<std::int64_t>(width * bundles.size());
  BarFilling filling{std::vector<std::int64_t>(lengths.size(), 0), best.back(), best.back()};
  std::size_t room = width - 1;
  for (std::size_t b = bundles.size(); b-- > 0;) {
    if (taken[b][room]) {
      filling.counts[bundles[b].type] += bundles[b].copies;
      room -= static_cast<std::size_t>(lengths[bundles[b].type] * bundles[b].copies);
    }
  }
  return filling;
}

class Brancher {
 public:
  Brancher(const std::vector<std::int64_t>& lengths,
           const std::vector<std::int64_t>& values,
           const std::vector<std::int64_t>& most)
      : lengths_{lengths}, values_{values}, most_{most}, counts_(lengths.size(), 0) {
    for (std::size_t t = 0; t < lengths.size(); ++t) {
      if (values[t] > 0 && most[t] > 0) {
        order_.push_back(t);
      }
    }
    std::ranges::stable_sort(order_, [&](std::size_t a, std::size_t b) {
      return static_cast<Int128>(values[a]) * lengths[b] >
             static_cast<Int128>(values[b]) * lengths[a];
    });
    shortest_.assign(order_.size() + 1, std::int64_t{1} << 62U);
    for (std::size_t i = order_.size(); i-- > 0;) {
      shortest_[i] = std::min(shortest_[i + 1], lengths[order_[i]]);
    }
  }

  BarFilling run(std::int64_t capacity, std::int64_t& work) {
    best_.counts = counts_;
    branch(0, capacity, 0);
    best_.bound = best_.value;
    if (nodes_ > kMostNodes) {
      best_.bound = bound(0, capacity);
    }
    work += 8 * nodes_;
    return best_;
  }

 private:
  std::int64_t bound(std::size_t i, std::int64_t room) const {
    return i < order_.size() ? static_cast<std::int64_t>(static_cast<Int128>(values_[order_[i]]) *
                                                         room / lengths_[order_[i]])
                             : 0;
  }

  void branch(std::size_t i, std::int64_t room, std::int64_t value) {
    if (value > best_.value) {
      best_.value = value;
      best_.counts = counts_;
    }
    for (; i < order_.size() && room >= shortest_[i]; ++i) {
      if (++nodes_ > kMostNodes || value + bound(i, room) <= best_.value) {
        return;
      }
      const std::size_t t = order_[i];
      for (std::int64_t times = std::min(most_[t], room / lengths_[t]); times > 0; --times) {
        counts_[t] = times;
        branch(i + 1, room - times * lengths_[t], value + times * values_[t]);
      }
      counts_[t] = 0;
    }
  }

  const std::vector<std::int64_t>& lengths_;
  const std::vector<std::int64_t>& values_;
  const std::vector<std::int64_t>& most_;
  std::vector<std::int64_t> counts_;
  std::vector<std::size_t> order_;
  std::vector<std::int64_t> shortest_;
  BarFilling best_;
  std::int64_t nodes_ = 0;
};

}  // namespace

BarFilling fill_bar(const std::vector<std::int64_t>& lengths,
                    const std::vector<std::int64_t>& values,
                    const std::vector<std::int64_t>& most,
                    std::int64_t capacity,
                    std::int64_t& work) {
  const std::vector<Bundle> bundles = bundles_of(lengths, values, most, capacity);
  if (bundles.empty()) {
    return {std::vector<std::int64_t>(lengths.size(), 0), 0, 0};
  }
  if (capacity < kMostTable / static_cast<std::int64_t>(bundles.size())) {
    return fill_by_table(lengths, values, bundles, capacity, work);
  }
  return Brancher{lengths, values, most}.run(capacity, work);
}

}  // namespace plankwright::solve
