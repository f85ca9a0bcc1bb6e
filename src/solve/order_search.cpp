#include "solve/order_search.h"

#include <algorithm>
#include <cmath>

namespace plankwright::solve {
namespace {

constexpr std::size_t kLongest = 60;  // stretch that is moved
constexpr double kWarm = 1.5;         // of the mean change-over
constexpr double kCold = 0.1;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

OrderSearch::OrderSearch(const OrderProblem& problem, std::uint64_t seed)
    : problem_{problem},
      random_{seed},
      path_{greedy_path(problem)},
      cost_{problem.cost_of(path_)},
      best_{path_},
      best_cost_{cost_},
      waits_(at(problem.nodes), 1),
      queue_{path_},
      place_(at(problem.nodes), 0),
      barred_(at(problem.nodes), 0) {
  for (std::size_t i = 0; i < path_.size(); ++i) {
    place_[at(path_[i])] = static_cast<int>(i);
  }
}

std::int64_t OrderSearch::gain_of(std::size_t left, std::size_t middle, std::size_t right) const {
  const auto cost = [&](std::size_t a, std::size_t b) { return problem_.cost(path_[a], path_[b]); };
  return cost(left, left + 1) + cost(middle, middle + 1) + cost(right, right + 1) -
         cost(left, middle + 1) - cost(right, left + 1) - cost(middle, right + 1);
}

/// The best stretch behind place `left` to turn round: none of it must come before another.
void OrderSearch::find_turn(std::size_t left, Exchange& best) {
  ++searches_;
  const auto cost = [&](std::size_t a, std::size_t b) { return problem_.cost(path_[a], path_[b]); };
  const std::size_t last = path_.size() - 1;
  std::int64_t inside = 0;
  for (std::size_t right = left + 1; right < last && barred_[at(path_[right])] != searches_;
       ++right) {
    if (right > left + 1) {
      inside += cost(right - 1, right) - cost(right, right - 1);
      const std::int64_t gain = inside + cost(left, left + 1) + cost(right, right + 1) -
                                cost(left, right) - cost(left + 1, right + 1);
      if (gain > best.gain) {
        best = {left, left, right, gain, true};
      }
    }
    for (const int later : problem_.later[at(path_[right])]) {
      barred_[at(later)] = searches_;
    }
    work_ += static_cast<std::int64_t>(problem_.later[at(path_[right])].size()) + 8;
  }
}

/// The best exchange behind place `left`. A node may move forward past the left stretch as long as
/// nothing of that must come before it.
OrderSearch::Exchange OrderSearch::best_exchange(std::size_t left) {
  Exchange best{left, left, left, 0, false};
  find_turn(left, best);
  ++searches_;
  const std::size_t last = path_.size() - 1;
  for (std::size_t middle = left + 1; middle + 1 < last && middle <= left + kLongest; ++middle) {
    for (const int later : problem_.later[at(path_[middle])]) {
      barred_[at(later)] = searches_;
    }
    work_ += static_cast<std::int64_t>(problem_.later[at(path_[middle])].size());
    std::size_t right = middle + 1;
    for (; right < last && right <= middle + kLongest && barred_[at(path_[right])] != searches_;
         ++right) {
      const std::int64_t gain = gain_of(left, middle, right);
      if (gain > best.gain) {
        best = {left, middle, right, gain, false};
      }
    }
    work_ += static_cast<std::int64_t>(right - middle) * 5;
  }
  return best;
}

void OrderSearch::apply(const Exchange& exchange) {
  const auto begin = path_.begin() + static_cast<std::ptrdiff_t>(exchange.left) + 1;
  const auto end = path_.begin() + static_cast<std::ptrdiff_t>(exchange.right) + 1;
  if (exchange.turned) {
    std::reverse(begin, end);
  } else {
    std::rotate(begin, path_.begin() + static_cast<std::ptrdiff_t>(exchange.middle) + 1, end);
  }
  cost_ -= exchange.gain;
  for (std::size_t i = exchange.left + 1; i <= exchange.right; ++i) {
    place_[at(path_[i])] = static_cast<int>(i);
  }
  const std::size_t seam = exchange.left + exchange.right - exchange.middle;
  for (const std::size_t around : {exchange.left, seam, exchange.right}) {
    const std::size_t from = around >= 2 ? around - 2 : 0;
    for (std::size_t i = from; i <= around + 1 && i + 1 < path_.size(); ++i) {
      if (waits_[at(path_[i])] == 0) {
        waits_[at(path_[i])] = 1;
        queue_.push_back(path_[i]);
      }
    }
  }
  work_ += static_cast<std::int64_t>(exchange.right - exchange.left) + 20;
}

void OrderSearch::descend() {
  for (std::size_t k = 0; k < queue_.size(); ++k) {
    const int node = queue_[k];
    waits_[at(node)] = 0;
    const std::size_t place = at(place_[at(node)]);
    if (place + 3 > path_.size()) {
      continue;
    }
    const Exchange exchange = best_exchange(place);
    if (exchange.gain > 0) {
      apply(exchange);
    }
  }
  queue_.clear();
}

/// A few short exchanges that need not be good.
void OrderSearch::shake() {
  const int size = static_cast<int>(path_.size());
  for (int kicks = 1 + random_.below(3), tries = 0; kicks > 0 && tries < 50; ++tries) {
    const std::size_t left = at(random_.below(std::max(1, size - 3)));
    const std::size_t middle = left + 1 + at(random_.below(8));
    const std::size_t right = middle + 1 + at(random_.below(8));
    if (right + 1 >= path_.size()) {
      continue;
    }
    bool free = true;
    for (std::size_t a = left + 1; a <= middle && free; ++a) {
      for (std::size_t b = middle + 1; b <= right && free; ++b) {
        free = problem_.precedes[at(path_[a])][at(path_[b])] == 0;
      }
    }
    const std::int64_t gain = free ? gain_of(left, middle, right) : 0;
    if (free && gain > -OrderProblem::kNoArc / 2) {
      apply({left, middle, right, gain, false});
      --kicks;
    }
    work_ += 60;
  }
}

void OrderSearch::learn(const std::vector<int>& path) {
  const std::int64_t cost = problem_.cost_of(path);
  if (cost < best_cost_) {
    best_ = path;
    best_cost_ = cost;
    best_work_ = work_;
    go_back(path, cost);
  }
}

/// As for cooling metal (Kirkpatrick et al., 1983): a worse order is let through the seldomer the
/// cooler it is; when cold, warm up again for longer.
bool OrderSearch::lets_through(std::int64_t more) {
  if (++rounds_ >= cycle_) {
    rounds_ = 0;
    cycle_ += cycle_ / 2;
    return false;
  }
  const double warmth =
      kWarm * std::pow(kCold / kWarm, static_cast<double>(rounds_) / static_cast<double>(cycle_));
  const double mean = static_cast<double>(best_cost_) / static_cast<double>(path_.size());
  return random_.fraction() < std::exp(-static_cast<double>(more) / (warmth * mean + 1e-9));
}

void OrderSearch::go_back(const std::vector<int>& path, std::int64_t cost) {
  path_ = path;
  cost_ = cost;
  for (std::size_t i = 0; i < path_.size(); ++i) {
    place_[at(path_[i])] = static_cast<int>(i);
  }
}

void OrderSearch::run(std::int64_t work, std::int64_t goal, const std::function<bool()>& stop) {
  const std::int64_t last = work_ + work;
  std::vector<int> before;
  while (work_ < last && best_cost_ > goal && !stop()) {
    before = path_;
    const std::int64_t cost_before = cost_;
    if (queue_.empty()) {
      shake();
    }
    descend();
    work_ += static_cast<std::int64_t>(path_.size()) + 50;
    if (cost_ < best_cost_) {
      best_ = path_;
      best_cost_ = cost_;
      best_work_ = work_;
    }
    if (cost_ > cost_before && !lets_through(cost_ - cost_before)) {
      if (rounds_ == 0) {
        go_back(best_, best_cost_);
      } else {
        go_back(before, cost_before);
      }
    }
  }
}

}  // namespace plankwright::solve
