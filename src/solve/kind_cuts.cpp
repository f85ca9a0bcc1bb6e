// A search in depth over the numbers of each kind, dearest first; the last kind follows from the
// cuts. Whole-number arithmetic throughout, kinds of equal price in the job's order.

#include "solve/kind_cuts.h"

#include <algorithm>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::int64_t kMostNodes = 300'000;
constexpr std::size_t kMostCuts = 400;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

struct KindCuts::Walk {
  Sheets sheets;
  std::int64_t below = 0;
  std::size_t most = 0;
  std::int64_t nodes = 0;
  std::vector<std::pair<std::int64_t, Sheets>> found;  // a heap, dearest on top
};

KindCuts::KindCuts(const PackProblem& problem, std::vector<std::int64_t> prices)
    : problem_{problem}, prices_{std::move(prices)}, order_(prices_.size()) {
  std::iota(order_.begin(), order_.end(), 0);
  std::ranges::stable_sort(order_, [&](int a, int b) {
    const bool last_a = !problem_.kinds[at(a)].is_limited();
    const bool last_b = !problem_.kinds[at(b)].is_limited();
    return last_a != last_b ? last_b : prices_[at(a)] > prices_[at(b)];
  });
}

void KindCuts::add(std::vector<std::int64_t> values, Int128 worth) {
  if (cuts_.size() == kMostCuts) {
    cuts_.erase(cuts_.begin());
  }
  cuts_.push_back({std::move(values), worth});
}

std::int64_t KindCuts::price_of(const Sheets& sheets) const {
  std::int64_t price = 0;
  for (std::size_t k = 0; k < sheets.size(); ++k) {
    price += sheets[k] * prices_[k];
  }
  return price;
}

bool KindCuts::allows(const Sheets& sheets) const {
  return std::ranges::all_of(cuts_, [&](const Cut& cut) {
    Int128 held = 0;
    for (std::size_t k = 0; k < sheets.size(); ++k) {
      held += static_cast<Int128>(cut.values[k]) * sheets[k];
    }
    return held >= cut.worth;
  });
}

std::optional<std::int64_t> KindCuts::fewest_of_last(const Sheets& sheets) const {
  const std::size_t last = at(order_.back());
  std::int64_t fewest = 0;
  for (const Cut& cut : cuts_) {
    Int128 missing = cut.worth;
    for (std::size_t k = 0; k < sheets.size(); ++k) {
      missing -= k == last ? 0 : static_cast<Int128>(cut.values[k]) * sheets[k];
    }
    if (missing <= 0) {
      continue;
    }
    if (cut.values[last] == 0) {
      return std::nullopt;
    }
    const Int128 needed = (missing + cut.values[last] - 1) / cut.values[last];
    fewest = std::max(fewest, static_cast<std::int64_t>(needed));
  }
  return fewest <= problem_.kinds[last].available ? std::optional{fewest} : std::nullopt;
}

void KindCuts::descend(Walk& walk, std::size_t depth, std::int64_t price) const {
  if (++walk.nodes > kMostNodes) {
    return;
  }
  const std::size_t kind = at(order_[depth]);
  if (depth + 1 == order_.size()) {
    const auto fewest = fewest_of_last(walk.sheets);
    if (fewest && price + *fewest * prices_[kind] < walk.below) {
      walk.sheets[kind] = *fewest;
      walk.found.emplace_back(price + *fewest * prices_[kind], walk.sheets);
      std::ranges::push_heap(walk.found);
      walk.sheets[kind] = 0;
      if (walk.found.size() > walk.most) {
        std::ranges::pop_heap(walk.found);
        walk.found.pop_back();
        walk.below = std::min(walk.below, walk.found.front().first + 1);
      }
    }
    return;
  }
  const std::int64_t stock = problem_.kinds[kind].available;
  for (std::int64_t number = 0; number <= stock; ++number) {
    const std::int64_t sum = price + number * prices_[kind];
    if (sum >= walk.below || walk.nodes > kMostNodes) {
      break;
    }
    walk.sheets[kind] = number;
    descend(walk, depth + 1, sum);
  }
  walk.sheets[kind] = 0;
}

std::vector<KindCuts::Sheets> KindCuts::cheapest(std::int64_t below,
                                                 std::size_t most,
                                                 bool& complete) const {
  Walk walk;
  walk.sheets.assign(prices_.size(), 0);
  walk.below = below;
  walk.most = most;
  descend(walk, 0, 0);
  complete = walk.nodes <= kMostNodes;
  std::ranges::sort(walk.found);
  std::vector<Sheets> sheets;
  for (auto& [price, each] : walk.found) {
    sheets.push_back(std::move(each));
  }
  return sheets;
}

}  // namespace plankwright::solve
