#include "solve/order_relaxation.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::int64_t kScale = PricedArcs::kScale;
constexpr std::int64_t kNoWay = std::int64_t{1} << 56;
constexpr double kMomentum = 0.6;
constexpr std::size_t kLeastMemory = 2;
constexpr std::int64_t kLightPass = 2'000'000;
constexpr double kFirstStep = 1;
constexpr double kLastStep = 0.002;
constexpr int kPatience = 12;  // passes without a better bound before the steps shrink

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

OrderRelaxation::OrderRelaxation(const OrderProblem& problem,
                                 const PricedArcs& arcs,
                                 int most_memory,
                                 std::int64_t most_steps)
    : problem_{problem},
      most_memory_{at(most_memory)},
      most_steps_{most_steps},
      memory_(at(problem.nodes)),
      arcs_(at(problem.nodes)),
      masks_(at(problem.nodes)),
      offset_(at(problem.nodes), 0),
      price_(at(problem.nodes), 0),
      best_price_(at(problem.nodes), 0),
      direction_(at(problem.nodes), 0),
      step_{kFirstStep} {
  rest_on(arcs);
}

void OrderRelaxation::rest_on(const PricedArcs& arcs) {
  arcs_costs_ = arcs.costs;
  arcs_base_ = arcs.base;
  std::ranges::fill(price_, 0);
  std::ranges::fill(best_price_, 0);
  std::ranges::fill(direction_, 0);
  best_value_ = 0;
  step_ = kFirstStep;
  stale_ = 0;
  laid_out_ = false;
  const std::int64_t bound = problem_.rounded((arcs_base_ + kScale - 1) / kScale);
  bound_ = std::max(bound_, std::min(bound, OrderProblem::kNoArc));
}

bool OrderRelaxation::in_window(int node, int place) const {
  return place >= static_cast<int>(problem_.earlier[at(node)].size()) &&
         place <= problem_.nodes - 1 - static_cast<int>(problem_.later[at(node)].size());
}

std::size_t OrderRelaxation::index(int node, int place, unsigned mask) const {
  const std::size_t step = at(place) - problem_.earlier[at(node)].size();
  return offset_[at(node)] + (step << memory_[at(node)].size()) + mask;
}

int OrderRelaxation::bit_of(int node, int other) const {
  const auto& memory = memory_[at(node)];
  const auto found = std::ranges::find(memory, other);
  return found == memory.end() ? -1 : static_cast<int>(found - memory.begin());
}

/// What has been done, and what must have been done before that.
unsigned OrderRelaxation::closed(int node, unsigned mask) const {
  const auto& memory = memory_[at(node)];
  unsigned all = mask;
  for (std::size_t b = 0; b < memory.size(); ++b) {
    for (std::size_t a = 0; (mask >> b & 1U) != 0 && a < memory.size(); ++a) {
      all |= problem_.precedes[at(memory[a])][at(memory[b])] != 0 ? 1U << a : 0U;
    }
  }
  return all;
}

bool OrderRelaxation::is_closed(int node, unsigned mask) const {
  return closed(node, mask) == mask;
}

void OrderRelaxation::make_arcs(int node) {
  auto& arcs = arcs_[at(node)];
  const auto& memory = memory_[at(node)];
  arcs.clear();
  for (int to = 0; to < problem_.nodes; ++to) {
    if (problem_.cost(node, to) >= OrderProblem::kNoArc) {
      continue;
    }
    Arc arc{to, 0, {}};
    for (std::size_t b = 0; b < memory.size(); ++b) {
      const bool barred = memory[b] == to || problem_.precedes[at(to)][at(memory[b])] != 0;
      arc.barred |= barred ? 1U << b : 0U;
    }
    const auto& next = memory_[at(to)];
    for (unsigned mask = 0; mask < 1U << memory.size(); ++mask) {
      unsigned after = 0;
      for (std::size_t a = 0; a < next.size(); ++a) {
        const int bit = bit_of(node, next[a]);
        const bool done = next[a] == node || problem_.precedes[at(next[a])][at(node)] != 0 ||
                          (bit >= 0 && (mask >> bit & 1U) != 0);
        after |= done ? 1U << a : 0U;
      }
      arc.mask.push_back(static_cast<std::uint16_t>(closed(to, after)));
    }
    arcs.push_back(std::move(arc));
  }
}

void OrderRelaxation::lay_out() {
  std::size_t size = 0;
  steps_ = 0;
  for (int node = 0; node < problem_.nodes; ++node) {
    offset_[at(node)] = size;
    const std::size_t places =
        at(problem_.nodes) - problem_.earlier[at(node)].size() - problem_.later[at(node)].size();
    size += places << memory_[at(node)].size();
    masks_[at(node)].clear();
    for (unsigned mask = 0; mask < 1U << memory_[at(node)].size(); ++mask) {
      if (is_closed(node, mask)) {
        masks_[at(node)].push_back(static_cast<std::uint16_t>(mask));
      }
    }
    make_arcs(node);
    steps_ += static_cast<std::int64_t>(places * masks_[at(node)].size() * arcs_[at(node)].size());
    for (const Arc& arc : arcs_[at(node)]) {
      work_ += static_cast<std::int64_t>(arc.mask.size() * (most_memory_ + 1)) * 8;
    }
  }
  value_.assign(size, kNoWay);
  if (memory_limit_ == 0) {  // as much at once as costs little
    memory_limit_ = kLeastMemory;
    while (memory_limit_ < most_memory_ && steps_ << memory_limit_ < kLightPass) {
      ++memory_limit_;
    }
  }
  laid_out_ = true;
}

/// From the last place to the first; the value of the start.
std::int64_t OrderRelaxation::pass() {
  const int last = problem_.nodes - 1;
  value_[index(last, last, 0)] = 0;
  std::vector<const Arc*> open;
  for (int place = last - 1; place >= 0; --place) {
    for (int node = 0; node < last; ++node) {
      if (!in_window(node, place)) {
        continue;
      }
      open.clear();
      for (const Arc& arc : arcs_[at(node)]) {
        if (in_window(arc.to, place + 1)) {
          open.push_back(&arc);
        }
      }
      for (const unsigned mask : masks_[at(node)]) {
        std::int64_t best = kNoWay;
        for (const Arc* arc : open) {
          if ((arc->barred & mask) == 0) {
            best = std::min(
                best, cost(node, arc->to) + value_[index(arc->to, place + 1, arc->mask[mask])]);
          }
        }
        value_[index(node, place, mask)] = best;
      }
    }
  }
  work_ += steps_ * 3 + 1000;
  return value_[index(0, 0, 0)];
}

std::vector<int> OrderRelaxation::cheapest_path() const {
  std::vector<int> path = {0};
  unsigned mask = 0;
  for (int place = 0; place + 1 < problem_.nodes; ++place) {
    const int node = path.back();
    const std::int64_t rest = value_[index(node, place, mask)];
    for (const Arc& arc : arcs_[at(node)]) {
      if ((arc.barred & mask) == 0 && in_window(arc.to, place + 1) &&
          cost(node, arc.to) + value_[index(arc.to, place + 1, arc.mask[mask])] == rest) {
        path.push_back(arc.to);
        mask = arc.mask[mask];
        break;
      }
    }
  }
  return path;
}

bool OrderRelaxation::remember_between(const std::vector<int>& path,
                                       std::size_t from,
                                       std::size_t to,
                                       int node) {
  bool fresh = false;
  for (std::size_t k = from + 1; k < to; ++k) {
    auto& memory = memory_[at(path[k])];
    const bool free = path[k] != node && problem_.precedes[at(node)][at(path[k])] == 0 &&
                      problem_.precedes[at(path[k])][at(node)] == 0;
    if (free && memory.size() < memory_limit_ && std::ranges::find(memory, node) == memory.end()) {
      memory.push_back(node);
      fresh = true;
    }
  }
  return fresh;
}

/// What is done twice, or after what it must come before, is remembered on the way between.
bool OrderRelaxation::remember(const std::vector<int>& path) {
  std::vector<int> last_place(at(problem_.nodes), -1);
  bool fresh = false;
  for (std::size_t k = 0; k < path.size(); ++k) {
    const int node = path[k];
    int from = last_place[at(node)];
    for (const int later : problem_.later[at(node)]) {
      from = std::max(from, last_place[at(later)]);
    }
    if (from >= 0) {
      fresh = remember_between(path, at(from), k, node) || fresh;
    }
    last_place[at(node)] = static_cast<int>(k);
  }
  laid_out_ = laid_out_ && !fresh;
  return fresh;
}

void OrderRelaxation::move_prices(const std::vector<int>& path,
                                  std::int64_t value,
                                  std::int64_t best) {
  std::vector<double> lack(at(problem_.nodes), 1);
  for (const int node : path) {
    lack[at(node)] -= 1;
  }
  double length = 0;
  for (std::size_t i = 0; i < lack.size(); ++i) {
    direction_[i] = lack[i] + kMomentum * direction_[i];
    length += direction_[i] * direction_[i];
  }
  if (length <= 0) {
    return;
  }
  const auto gap = static_cast<double>(best * kScale - value) + static_cast<double>(kScale);
  const double step = step_ * std::max(gap, 1.0) / length;
  for (std::size_t i = 1; i + 1 < lack.size(); ++i) {
    price_[i] += std::llround(step * direction_[i]);
  }
}

std::int64_t OrderRelaxation::base() const {
  return std::accumulate(price_.begin(), price_.end(), arcs_base_);
}

bool OrderRelaxation::improve(std::int64_t best, std::int64_t work) {
  const std::int64_t last = work_ + work;
  while (work_ < last && bound_ < best && step_ >= kLastStep) {
    if (!laid_out_) {
      lay_out();
    }
    const std::int64_t rest = pass();
    if (rest >= kNoWay / 2) {
      bound_ = OrderProblem::kNoArc;
      return false;
    }
    const std::int64_t value = rest + base();
    if (value > best_value_) {
      stale_ = value > best_value_ + kScale / 4 ? 0 : stale_ + 1;
      best_value_ = value;
      best_price_ = price_;
      bound_ = std::max(bound_, problem_.rounded((value + kScale - 1) / kScale));
    } else {
      ++stale_;
    }
    const std::vector<int> path = cheapest_path();
    if (stale_ >= kPatience) {
      stale_ = 0;
      price_ = best_price_;
      if (steps_ < most_steps_ && remember(path)) {
        step_ = std::max(step_ * 0.8, kFirstStep / 4);
      } else if ((step_ /= 2) < kLastStep && memory_limit_ < most_memory_) {
        ++memory_limit_;
        step_ = kFirstStep / 2;
      }
      std::ranges::fill(direction_, 0);
      continue;
    }
    move_prices(path, value, best);
  }
  return bound_ < best && step_ >= kLastStep;
}

void OrderRelaxation::settle() {
  price_ = best_price_;
  if (!laid_out_) {
    lay_out();
  }
  pass();
}

}  // namespace plankwright::solve
