#include "papers/label_places.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace plankwright::papers {
namespace {

constexpr double kStep = 1.0;     // between the places that are tried along a line
constexpr double kFromEnd = 1.2;  // of a ring from the end of its line, in radii
constexpr double kClear = 0.4;
constexpr double kInside = 0.8;  // of a text from its outline
constexpr double kArrow = 2.2;
constexpr double kArrowHalf = 0.8;
constexpr TextStyle kCode{.letter_height = 3.4, .weight = Weight::kBold};
constexpr TextStyle kSize{.letter_height = 2.4, .tabular = true};
constexpr TextStyle kName{.letter_height = 1.9, .colour = kSoftPencil};
constexpr TextStyle kOffcut{.letter_height = 2.1, .italic = true};

double overlap(const Rectangle& a, const Rectangle& b) {
  const double across = std::min(a.right(), b.right()) - std::max(a.x, b.x);
  const double down = std::min(a.bottom(), b.bottom()) - std::max(a.y, b.y);
  return across > 0 && down > 0 ? across * down : 0;
}

struct LabelText {
  std::string text;
  TextStyle style;
};

struct Label {
  std::vector<LabelText> lines;
  double width = 0;
  double height = 0;
};

constexpr double kLeading = 0.45;  // of a letter height, between lines

Label stacked(std::vector<LabelText> lines, double shrink) {
  Label label;
  for (LabelText& line : lines) {
    line.style.letter_height *= shrink;
    label.width = std::max(label.width, text_size(line.text, line.style).width);
    label.height += line.style.letter_height * (label.lines.empty() ? 1 : 1 + kLeading);
    label.lines.push_back(std::move(line));
  }
  return label;
}

bool fits(const Label& label, double width, double height) {
  return label.width <= width - 2 * kInside && label.height <= height - 2 * kInside;
}

/// Set in the middle; `upright` is turned a quarter to the left.
Rectangle set_label(Page& page, const Rectangle& outline, const Label& label, bool upright) {
  const PagePoint c = outline.centre();
  double down = -label.height / 2;
  for (std::size_t i = 0; i < label.lines.size(); ++i) {
    const LabelText& line = label.lines[i];
    down += line.style.letter_height * (i == 0 ? 1 : 1 + kLeading);
    const PagePoint at = upright ? PagePoint{c.x + down, c.y} : PagePoint{c.x, c.y + down};
    page.text(at,
              line.text,
              line.style,
              {.align = Align::kCentre, .anchor = Anchor::kBaseline, .turn = upright ? 90.0 : 0.0});
  }
  const double w = upright ? label.height : label.width;
  const double h = upright ? label.width : label.height;
  return {c.x - w / 2 - kClear, c.y - h / 2 - kClear, w + 2 * kClear, h + 2 * kClear};
}

}  // namespace

PagePoint LabelPlaces::on_line(PagePoint from, PagePoint to, double radius) {
  const double line = std::hypot(to.x - from.x, to.y - from.y);
  const double first = std::min(line / 2, kFromEnd * radius);
  PagePoint best{};
  double least = std::numeric_limits<double>::max();
  for (double way = first; way <= std::max(first, line - first) && least > 0; way += kStep) {
    const double share = line > 0 ? way / line : 0;
    const PagePoint at{from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share};
    const Rectangle ring{at.x - radius, at.y - radius, 2 * radius, 2 * radius};
    double covered = 0;
    for (const Rectangle& box : taken_) {
      covered += overlap(ring.inset(-kClear), box);
    }
    if (covered < least) {
      least = covered;
      best = at;
    }
  }
  block({best.x - radius, best.y - radius, 2 * radius, 2 * radius});
  return best;
}

Rectangle label_part(Page& page,
                     const Rectangle& outline,
                     const std::string& code,
                     const std::string& size,
                     const std::string& name) {
  const std::string code_and_size = code + "  " + size;
  // From the most that can be said to the least.
  const std::vector<std::vector<LabelText>> ways = {{{code, kCode}, {size, kSize}, {name, kName}},
                                                    {{code, kCode}, {size, kSize}},
                                                    {{code_and_size, kSize}},
                                                    {{code, kSize}}};
  constexpr std::array kShrinks{1.0, 0.8};
  for (const auto& way : ways) {
    for (const double shrink : kShrinks) {
      const Label label = stacked(way, shrink);
      const bool lies = fits(label, outline.width, outline.height);
      if (lies || fits(label, outline.height, outline.width)) {
        return set_label(page, outline, label, !lies);
      }
    }
  }
  const Label least = stacked({{code, kSize}}, 0.6);
  return set_label(page, outline, least, outline.height > outline.width);
}

Rectangle label_offcut(Page& page, const Rectangle& outline, const std::string& text) {
  Label label = stacked({{text, kOffcut}}, 1);
  const bool upright =
      !fits(label, outline.width, outline.height) && outline.height > outline.width;
  const double room = (upright ? outline.height : outline.width) - 2 * kInside;
  if (label.width > room) {
    label = stacked({{text, kOffcut}}, std::max(0.7, room / label.width));
  }
  const PagePoint c = outline.centre();
  const double w = upright ? label.height : label.width;
  const double h = upright ? label.width : label.height;
  const Rectangle ground = Rectangle{c.x - w / 2, c.y - h / 2, w, h}.inset(-0.9);
  page.rectangle(ground, kWhite);
  return set_label(page, outline, label, upright);
}

void grain_arrow(Page& page, PagePoint from, PagePoint to) {
  page.line(from, to, kOutlinePen);
  const double line = std::hypot(to.x - from.x, to.y - from.y);
  const PagePoint along{(to.x - from.x) / line, (to.y - from.y) / line};
  for (const auto& [tip, way] : {std::pair{to, 1.0}, std::pair{from, -1.0}}) {
    const PagePoint back{tip.x - way * kArrow * along.x, tip.y - way * kArrow * along.y};
    page.area({{tip,
                {back.x - kArrowHalf * along.y, back.y + kArrowHalf * along.x},
                {back.x + kArrowHalf * along.y, back.y - kArrowHalf * along.x}}},
              kPencil);
  }
}

}  // namespace plankwright::papers
