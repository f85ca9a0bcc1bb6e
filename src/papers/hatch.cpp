#include "papers/hatch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace plankwright::papers {
namespace {

// Page coordinates turned so that the hatching is level.
struct Turned {
  double c = 1;
  double s = 0;
  PagePoint in(PagePoint p) const { return {p.x * c - p.y * s, p.x * s + p.y * c}; }
  PagePoint out(PagePoint p) const { return {p.x * c + p.y * s, -p.x * s + p.y * c}; }
};

std::vector<double> crossings(const std::vector<std::vector<PagePoint>>& loops, double y) {
  std::vector<double> xs;
  for (const auto& loop : loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const PagePoint a = loop[i];
      const PagePoint b = loop[(i + 1) % loop.size()];
      if ((a.y < y) != (b.y < y)) {
        xs.push_back(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
      }
    }
  }
  std::ranges::sort(xs);
  return xs;
}

}  // namespace

std::vector<std::pair<PagePoint, PagePoint>> hatch_lines(
    const std::vector<std::vector<PagePoint>>& loops, double angle, double pitch) {
  const double radians = angle * std::numbers::pi / 180;
  const Turned turned{std::cos(radians), std::sin(radians)};
  auto level = loops;
  double low = 1e9;
  double high = -1e9;
  for (auto& loop : level) {
    for (PagePoint& p : loop) {
      p = turned.in(p);
      low = std::min(low, p.y);
      high = std::max(high, p.y);
    }
  }
  std::vector<std::pair<PagePoint, PagePoint>> lines;
  for (double row = std::ceil(low / pitch); row * pitch <= high; ++row) {
    const auto xs = crossings(level, row * pitch);
    for (std::size_t i = 1; i < xs.size(); i += 2) {
      lines.emplace_back(turned.out({xs[i - 1], row * pitch}), turned.out({xs[i], row * pitch}));
    }
  }
  return lines;
}

}  // namespace plankwright::papers
