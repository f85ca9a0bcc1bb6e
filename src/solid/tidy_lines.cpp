// Straight lines are sorted onto the endless lines that carry them, longest first because a long
// line knows its direction best. On one carrier a line is an interval, and drawing each stretch
// once is taking away the intervals that were drawn before. Curves are compared chord by chord.

#include "solid/tidy_lines.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>

namespace plankwright::solid {
namespace {

constexpr double kOnLine = 2e-3;   // mm beside a line that still count as on it
constexpr double kOnCurve = 0.12;  // mm; two chords of one arc lie up to twice 0.05 mm apart
constexpr double kGrid = 1e-6;     // mm to which results are rounded

double length(ViewPoint a, ViewPoint b) {
  return std::hypot(b.x - a.x, b.y - a.y);
}

double rounded(double v) {
  return std::round(v / kGrid) * kGrid + 0.0;  // + 0.0 makes -0 a 0
}

bool before(const ViewLine& a, const ViewLine& b) {
  return std::ranges::lexicographical_compare(a.points, b.points, [](ViewPoint p, ViewPoint q) {
    return std::tie(p.x, p.y) < std::tie(q.x, q.y);
  });
}

// The place of each solid in the order in which the view first mentions them.
class Ranks {
 public:
  explicit Ranks(const View& view) {
    for (const auto* lines : {&view.visible, &view.hidden}) {
      for (const ViewLine& line : *lines) {
        ranks_.emplace(line.solid, ranks_.size());
      }
    }
  }
  std::size_t of(const ViewLine& line) const { return ranks_.at(line.solid); }

 private:
  std::map<int, std::size_t> ranks_;
};

struct Interval {
  double from = 0;
  double to = 0;
};

// Intervals apart from each other, in order.
class IntervalSet {
 public:
  void add(Interval add) {
    std::vector<Interval> kept;
    for (const Interval& i : intervals_) {
      if (i.to < add.from - kOnLine || i.from > add.to + kOnLine) {
        kept.push_back(i);
      } else {
        add = {std::min(i.from, add.from), std::max(i.to, add.to)};
      }
    }
    kept.push_back(add);
    std::ranges::sort(kept, {}, &Interval::from);
    intervals_ = std::move(kept);
  }

  std::vector<Interval> without(const IntervalSet& other) const {
    std::vector<Interval> left;
    for (Interval i : intervals_) {
      for (const Interval& taken : other.intervals_) {
        if (taken.from > i.from && taken.from < i.to) {
          left.push_back({i.from, taken.from});
        }
        if (taken.to > i.from && taken.from < i.to) {
          i.from = std::min(std::max(i.from, taken.to), i.to);
        }
      }
      left.push_back(i);
    }
    std::erase_if(left, [](const Interval& i) { return i.to - i.from <= kOnLine; });
    return left;
  }

  const std::vector<Interval>& intervals() const { return intervals_; }

 private:
  std::vector<Interval> intervals_;
};

struct Straight {
  ViewLine line;
  bool hidden = false;
  std::size_t rank = 0;
};

// An endless line with all that lies on it.
struct Carrier {
  ViewPoint at;
  ViewPoint along;
  std::vector<Straight> lines;

  double off(ViewPoint p) const {
    return std::abs((p.x - at.x) * along.y - (p.y - at.y) * along.x);
  }
  double place(ViewPoint p) const { return (p.x - at.x) * along.x + (p.y - at.y) * along.y; }
  ViewPoint point(double t) const {
    return {rounded(at.x + along.x * t), rounded(at.y + along.y * t)};
  }
  bool carries(const ViewLine& line) const {
    return off(line.points[0]) < kOnLine && off(line.points[1]) < kOnLine;
  }
};

Carrier carrier_of(const ViewLine& line) {
  auto [a, b] = std::pair{line.points[0], line.points[1]};
  if (std::tie(b.x, b.y) < std::tie(a.x, a.y)) {
    std::swap(a, b);
  }
  const double l = length(a, b);
  return {.at = a, .along = {(b.x - a.x) / l, (b.y - a.y) / l}, .lines = {}};
}

std::vector<Carrier> sort_onto_carriers(std::vector<Straight> lines) {
  std::ranges::stable_sort(lines, std::ranges::greater{}, [](const Straight& s) {
    return rounded(length(s.line.points[0], s.line.points[1]));
  });
  std::vector<Carrier> carriers;
  for (Straight& line : lines) {
    auto it =
        std::ranges::find_if(carriers, [&](const Carrier& c) { return c.carries(line.line); });
    if (it == carriers.end()) {
      it = carriers.insert(carriers.end(), carrier_of(line.line));
    }
    it->lines.push_back(std::move(line));
  }
  return carriers;
}

// Seen lines before hidden ones, earlier solids before later ones.
void draw_once(Carrier& carrier, View& view) {
  const auto turn = [](const Straight& s) { return std::pair{s.hidden, s.rank}; };
  std::ranges::stable_sort(carrier.lines, {}, turn);
  IntervalSet drawn;
  for (auto it = carrier.lines.begin(); it != carrier.lines.end();) {
    const Straight& first = *it;
    IntervalSet own;
    for (; it != carrier.lines.end() && turn(*it) == turn(first); ++it) {
      const auto [a, b] =
          std::minmax({carrier.place(it->line.points[0]), carrier.place(it->line.points[1])});
      own.add({a, b});
    }
    for (const Interval& i : own.without(drawn)) {
      (first.hidden ? view.hidden : view.visible)
          .push_back({first.line.solid, {carrier.point(i.from), carrier.point(i.to)}});
    }
    for (const Interval& i : own.intervals()) {
      drawn.add(i);
    }
  }
}

double distance_to_chord(ViewPoint p, ViewPoint a, ViewPoint b) {
  const double l = length(a, b);
  if (l == 0) {
    return length(p, a);
  }
  const double t = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / (l * l);
  const double u = std::clamp(t, 0.0, 1.0);
  return length(p, {a.x + (b.x - a.x) * u, a.y + (b.y - a.y) * u});
}

bool lies_on(ViewPoint p, const std::vector<ViewLine>& curves) {
  return std::ranges::any_of(curves, [&](const ViewLine& curve) {
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
      if (distance_to_chord(p, curve.points[i - 1], curve.points[i]) < kOnCurve) {
        return true;
      }
    }
    return false;
  });
}

// The runs of `curve` that do not lie on `drawn`.
std::vector<ViewLine> free_runs(const ViewLine& curve, const std::vector<ViewLine>& drawn) {
  std::vector<ViewLine> runs;
  bool open = false;
  for (std::size_t i = 1; i < curve.points.size(); ++i) {
    const ViewPoint a = curve.points[i - 1];
    const ViewPoint b = curve.points[i];
    const bool covered = lies_on(a, drawn) && lies_on(b, drawn) &&
                         lies_on({(a.x + b.x) / 2, (a.y + b.y) / 2}, drawn);
    if (!covered && !open) {
      runs.push_back({curve.solid, {a}});
    }
    if (!covered) {
      runs.back().points.push_back(b);
    }
    open = !covered;
  }
  return runs;
}

void draw_curves_once(const std::vector<ViewLine>& curves,
                      std::vector<ViewLine>& drawn,
                      std::vector<ViewLine>& out) {
  for (const ViewLine& curve : curves) {
    for (ViewLine& run : free_runs(curve, drawn)) {
      for (ViewPoint& p : run.points) {
        p = {rounded(p.x), rounded(p.y)};
      }
      drawn.push_back(run);
      out.push_back(std::move(run));
    }
  }
}

std::vector<ViewLine> take_curves(std::vector<ViewLine>& lines) {
  std::vector<ViewLine> curves;
  std::ranges::copy_if(
      lines, std::back_inserter(curves), [](const ViewLine& l) { return l.points.size() > 2; });
  std::erase_if(lines, [](const ViewLine& l) {
    return l.points.size() != 2 || length(l.points[0], l.points[1]) <= kOnLine;
  });
  return curves;
}

void put_in_order(View& view, const Ranks& ranks) {
  for (auto* lines : {&view.visible, &view.hidden}) {
    std::ranges::sort(*lines, [&](const ViewLine& a, const ViewLine& b) {
      return ranks.of(a) != ranks.of(b) ? ranks.of(a) < ranks.of(b) : before(a, b);
    });
    for (const ViewLine& line : *lines) {
      std::ranges::for_each(line.points, [&](ViewPoint p) { view.bounds.add(p); });
    }
  }
}

}  // namespace

View tidied(View view) {
  const Ranks ranks{view};
  const auto curves = take_curves(view.visible);
  const auto hidden_curves = take_curves(view.hidden);
  std::vector<Straight> straights;
  for (auto* lines : {&view.visible, &view.hidden}) {
    for (ViewLine& line : *lines) {
      const auto rank = ranks.of(line);
      straights.push_back({std::move(line), lines == &view.hidden, rank});
    }
  }
  View tidy{.name = std::move(view.name), .visible = {}, .hidden = {}, .bounds = {}};
  for (Carrier& carrier : sort_onto_carriers(std::move(straights))) {
    draw_once(carrier, tidy);
  }
  std::vector<ViewLine> drawn_curves;
  draw_curves_once(curves, drawn_curves, tidy.visible);
  draw_curves_once(hidden_curves, drawn_curves, tidy.hidden);
  put_in_order(tidy, ranks);
  return tidy;
}

}  // namespace plankwright::solid
