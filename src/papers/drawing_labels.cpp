// A label is tried on its point and then on rings round it; the cheapest place wins. Covering a
// text or leaving the frame is never taken while anything else is to be had; crossing lines costs a
// little, and so does distance.

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "papers/drawing.h"

namespace plankwright::papers {
namespace {

constexpr std::array kRings{6.0, 9.0, 13.0, 18.0, 24.0, 31.0, 40.0, 52.0};
constexpr int kDirections = 24;
constexpr double kClear = 0.7;         // kept free round a text
constexpr double kGround = 0.3;        // of white round a text over lines
constexpr double kCrossedLine = 15.0;  // costs, in millimetres of distance
constexpr double kCrossedByLeader = 0.3;
constexpr double kCrossedLeader = 25.0;
constexpr double kCoveredText = 1e3;
constexpr double kOutOfFrame = 1e6;
constexpr double kDot = 0.45;
constexpr double kArrow = 2.0;
constexpr double kArrowHalf = 0.32;
constexpr double kRingRoom = 1.1;  // between a mark and its ring
constexpr TextStyle kNoteText{.letter_height = 2.1};
constexpr TextStyle kBalloonText{.letter_height = 1.9,
                                 .weight = Weight::kBold,
                                 .colour = kAccent,
                                 .tabular = true,
                                 .fractions = false};

bool cross(PagePoint a, PagePoint b, PagePoint c, PagePoint d) {
  const auto side = [](PagePoint p, PagePoint q, PagePoint r) {
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

Rectangle around(PagePoint middle, double width, double height) {
  return {middle.x - width / 2, middle.y - height / 2, width, height};
}

// Where a leader leaves a text: the middle of its nearer end.
PagePoint leaves(const Rectangle& box, PagePoint towards) {
  if (towards.x > box.x && towards.x < box.right()) {
    return {std::clamp(towards.x, box.x, box.right()),
            towards.y < box.y ? box.y - kClear : box.bottom() + kClear};
  }
  return {towards.x <= box.x ? box.x - kClear : box.right() + kClear, box.centre().y};
}

}  // namespace

double Drawing::spot_cost(PagePoint at, const Rectangle& box) const {
  const Rectangle wide = box.inset(-kClear);
  double cost = frame_.contains(box) ? 0 : kOutOfFrame;
  for (const Rectangle& text : texts_) {
    cost += wide.overlaps(text) ? kCoveredText : 0;
  }
  for (const Segment& line : lines_) {
    cost += passes(line.from, line.to, wide) ? kCrossedLine : 0;
  }
  const PagePoint start = leaves(box, at);
  if (passes(at, at, box)) {
    return cost;
  }
  for (const Rectangle& text : texts_) {
    cost += passes(start, at, text) ? kCrossedLeader : 0;
  }
  for (const Segment& other : leaders_) {
    cost += cross(start, at, other.from, other.to) ? kCrossedLeader : 0;
    cost += passes(other.from, other.to, wide) ? kCrossedLeader : 0;
  }
  for (const Segment& line : lines_) {
    cost += cross(start, at, line.from, line.to) ? kCrossedByLeader : 0;
  }
  return cost;
}

Drawing::Spot Drawing::best_spot(PagePoint at, double width, double height, bool on_it) const {
  Spot best{.box = around(at, width, height)};
  best.cost = on_it ? spot_cost(at, best.box) : 2 * kOutOfFrame;
  for (const double ring : kRings) {
    for (int i = 0; i < kDirections; ++i) {
      const double angle = 2 * std::numbers::pi * (i + 0.5) / kDirections;
      const double c = std::cos(angle);
      const double s = std::sin(angle);
      // The ring is the gap between the point and the box, so wide texts keep their distance.
      const PagePoint middle{at.x + c * (ring + width / 2), at.y - s * (ring + height / 2)};
      const Rectangle box = around(middle, width, height);
      const double cost = ring + spot_cost(at, box);
      if (cost < best.cost) {
        best = {.box = box, .cost = cost, .moved = true};
      }
    }
  }
  best.free = best.cost < kCoveredText;
  return best;
}

void Drawing::leader(PagePoint at, const Rectangle& box, LeaderEnd end) {
  const PagePoint start = leaves(box, at);
  const double length = std::hypot(at.x - start.x, at.y - start.y);
  page_.line(start, at, kThinPen);
  leaders_.push_back({start, at});
  if (end == LeaderEnd::kDot || length == 0) {
    page_.circle(at, kDot, kPencil);
    return;
  }
  const double dx = (at.x - start.x) / length;
  const double dy = (at.y - start.y) / length;
  const PagePoint back{at.x - dx * kArrow, at.y - dy * kArrow};
  page_.area({{at,
               {back.x - dy * kArrowHalf, back.y + dx * kArrowHalf},
               {back.x + dy * kArrowHalf, back.y - dx * kArrowHalf}}},
             kPencil);
}

// On white where lines run behind it.
void Drawing::set_label(const Rectangle& box, const std::string& text, const TextStyle& style) {
  const Rectangle ground = box.inset(-kGround);
  if (std::ranges::any_of(lines_, [&](const Segment& l) { return passes(l.from, l.to, ground); })) {
    page_.rectangle(ground, kWhite);
  }
  keep_text(page_.text({box.x, box.y}, text, style));
}

bool Drawing::note(ViewPoint point, const std::string& text, LeaderEnd end) {
  const TextSize size = text_size(text, kNoteText);
  const Spot spot = best_spot(at(point), size.width, size.height, /*on_it=*/false);
  leader(at(point), spot.box, end);
  set_label(spot.box, text, kNoteText);
  return spot.free;
}

bool Drawing::label(ViewPoint point, const std::string& text, const TextStyle& style) {
  const TextSize size = text_size(text, style);
  const Spot spot = best_spot(at(point), size.width, size.height, /*on_it=*/true);
  if (spot.moved) {
    leader(at(point), spot.box, LeaderEnd::kDot);
  }
  set_label(spot.box, text, style);
  return spot.free;
}

bool Drawing::balloon(ViewPoint point, const std::string& text) {
  const TextSize size = text_size(text, kBalloonText);
  const double radius =
      std::max(kBalloonText.letter_height, size.width / 2 + kRingRoom / 2) + kRingRoom / 2;
  const Spot spot = best_spot(at(point), 2 * radius, 2 * radius, /*on_it=*/false);
  const PagePoint middle = spot.box.centre();
  const PagePoint to = at(point);
  const double length = std::hypot(to.x - middle.x, to.y - middle.y);
  const PagePoint start{middle.x + (to.x - middle.x) * radius / length,
                        middle.y + (to.y - middle.y) * radius / length};
  page_.line(start, to, kThinPen);
  page_.circle(to, kDot, kPencil);
  leaders_.push_back({start, to});
  page_.circle(middle, radius, kWhite, Pen{.width = 0.25, .colour = kAccent});
  page_.text({middle.x, middle.y + kBalloonText.letter_height / 2},
             text,
             kBalloonText,
             {.align = Align::kCentre, .anchor = Anchor::kBaseline});
  keep_text(spot.box);
  return spot.free;
}

}  // namespace plankwright::papers
