#include "piece/kits/drawer_heights.h"

#include <algorithm>
#include <cmath>

namespace plankwright::piece {
namespace {

using measure::Length;

/// Heights before they are rounded, as shares of `available`.
std::vector<double> exact_heights(const HeightRule& rule, Length available) {
  const int n = rule.count;
  std::vector<double> heights;
  if (rule.grading == Grading::kGeometric) {
    // available = top (1 + r + ... + r^(n-1))
    double sum = 0;
    for (int i = 0; i < n; ++i) {
      sum += std::pow(rule.ratio, i);
    }
    for (int i = 0; i < n; ++i) {
      heights.push_back(available.mm() * std::pow(rule.ratio, i) / sum);
    }
    return heights;
  }
  // available = n top + step (0 + 1 + ... + (n-1)); equal heights have no step
  const double step = rule.grading == Grading::kArithmetic ? rule.step.mm() : 0;
  const double top = available.mm() / n - step * (n - 1) / 2;
  for (int i = 0; i < n; ++i) {
    heights.push_back(top + step * i);
  }
  return heights;
}

Length cut_down(double mm, Length mark) {
  constexpr double kHairMm = 1e-6;  // a nanometre lost in the arithmetic must not cost a whole mark
  const double marks = std::floor((mm + kHairMm) / mark.mm());
  return mark * static_cast<std::int64_t>(marks);
}

}  // namespace

base::Result<std::vector<Length>> graded_heights(const HeightRule& rule,
                                                 Length available,
                                                 Length mark) {
  const base::Error no_room{base::ErrorCode::kDoesNotFit,
                            "the rule leaves nothing for one of the drawers"};
  if (rule.count < 1 || available <= Length{} || mark <= Length{}) {
    return no_room;
  }
  std::vector<Length> heights;
  Length left = available;
  for (const double height : exact_heights(rule, available)) {
    if (!std::isfinite(height)) {
      return no_room;
    }
    heights.push_back(cut_down(height, mark));
    left -= heights.back();
  }
  heights.back() += left;
  if (std::ranges::any_of(heights, [](Length height) { return height <= Length{}; })) {
    return no_room;
  }
  return heights;
}

}  // namespace plankwright::piece
