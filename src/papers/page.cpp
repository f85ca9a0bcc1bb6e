#include "papers/page.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace plankwright::papers {
namespace {

// The box of an unturned text whose point is 0,0.
Rectangle box_at_zero(const TextMark& mark) {
  const TextSize size = text_size(mark.text, mark.style, mark.place.width);
  const double width = mark.place.width > 0 ? mark.place.width : size.width;
  const double x = mark.place.align == Align::kLeft     ? 0
                   : mark.place.align == Align::kCentre ? -width / 2
                                                        : -width;
  switch (mark.place.anchor) {
    case Anchor::kTop:
      return {x, 0, width, size.height};
    case Anchor::kMiddle:
      return {x, -size.height / 2, width, size.height};
    case Anchor::kBaseline:
      return {x, -size.first_baseline, width, size.height};
    case Anchor::kBottom:
      break;
  }
  return {x, -size.height, width, size.height};
}

}  // namespace

// Liang and Barsky 1984.
bool passes(PagePoint a, PagePoint b, const Rectangle& box) {
  double enter = 0;
  double leave = 1;
  const auto clip = [&](double start, double step, double low, double high) {
    if (step == 0) {
      return start > low && start < high;
    }
    const double t1 = (low - start) / step;
    const double t2 = (high - start) / step;
    enter = std::max(enter, std::min(t1, t2));
    leave = std::min(leave, std::max(t1, t2));
    return true;
  };
  return clip(a.x, b.x - a.x, box.x, box.right()) && clip(a.y, b.y - a.y, box.y, box.bottom()) &&
         enter < leave;
}

void Page::line(PagePoint from, PagePoint to, Pen pen) {
  polyline({from, to}, pen);
}

void Page::polyline(std::vector<PagePoint> points, Pen pen) {
  marks_.emplace_back(PathMark{.lines = {std::move(points)}, .pen = pen});
}

void Page::area(std::vector<std::vector<PagePoint>> loops,
                std::optional<Colour> fill,
                std::optional<Pen> pen) {
  marks_.emplace_back(PathMark{std::move(loops), true, fill, pen});
}

void Page::rectangle(const Rectangle& r, std::optional<Colour> fill, std::optional<Pen> pen) {
  area({{{r.x, r.y}, {r.right(), r.y}, {r.right(), r.bottom()}, {r.x, r.bottom()}}}, fill, pen);
}

void Page::circle(PagePoint centre,
                  double radius,
                  std::optional<Colour> fill,
                  std::optional<Pen> pen) {
  marks_.emplace_back(ArcMark{.centre = centre, .radius = radius, .fill = fill, .pen = pen});
}

void Page::arc(PagePoint centre, double radius, double from, double to, Pen pen) {
  marks_.emplace_back(
      ArcMark{.centre = centre, .radius = radius, .from = from, .to = to, .pen = pen});
}

Rectangle Page::text(PagePoint at, std::string text, TextStyle style, TextPlace place) {
  TextMark mark{at, std::move(text), style, place};
  const Rectangle box = text_box(mark);
  if (!mark.text.empty()) {
    marks_.emplace_back(std::move(mark));
  }
  return box;
}

Rectangle text_box(const TextMark& mark) {
  const Rectangle flat = box_at_zero(mark);
  const double turn = mark.place.turn * std::numbers::pi / 180;
  const double c = std::cos(turn);
  const double s = std::sin(turn);
  PagePoint low{1e9, 1e9};
  PagePoint high{-1e9, -1e9};
  for (const PagePoint p : {PagePoint{flat.x, flat.y},
                            PagePoint{flat.right(), flat.y},
                            PagePoint{flat.x, flat.bottom()},
                            PagePoint{flat.right(), flat.bottom()}}) {
    // y runs down the page, so a turn to the left takes x to -y.
    const PagePoint q{mark.at.x + p.x * c + p.y * s, mark.at.y - p.x * s + p.y * c};
    low = {std::min(low.x, q.x), std::min(low.y, q.y)};
    high = {std::max(high.x, q.x), std::max(high.y, q.y)};
  }
  return {low.x, low.y, high.x - low.x, high.y - low.y};
}

std::vector<Rectangle> text_boxes(const Page& page) {
  std::vector<Rectangle> boxes;
  for (const Mark& mark : page.marks()) {
    if (const auto* text = std::get_if<TextMark>(&mark)) {
      boxes.push_back(text_box(*text));
    }
  }
  return boxes;
}

}  // namespace plankwright::papers
