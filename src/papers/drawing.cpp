#include "papers/drawing.h"

#include <algorithm>
#include <utility>

#include "papers/hatch.h"

namespace plankwright::papers {
namespace {

constexpr double kSeam = 0.08;  // hides the hairline between parts of one face
constexpr Pen kGrainPen{.width = 0.13};
constexpr double kLit = 0.30;             // share of the wood's colour where the light falls full
constexpr double kUnlit = 0.85;           // and where none falls
constexpr double kEndGrainDarker = 0.25;  // share of dark wood in an end-grain face
constexpr double kGrainDarker = 0.35;     // and in the strokes of grain

// Wood as a crayon gives it: white paper shows through where the light falls.
Colour lit(Colour wood, const solid::PaintedFace& face) {
  const Colour tone = mixed(kWhite, wood, kUnlit + (kLit - kUnlit) * face.light);
  return face.end_grain ? mixed(tone, mixed(wood, kPencil, 0.5), kEndGrainDarker) : tone;
}

}  // namespace

Drawing::Drawing(Page& page, const Rectangle& frame, Placement placement, LineEnd end)
    : page_{page}, frame_{frame}, placement_{placement}, end_{end} {}

void Drawing::remember(const std::vector<PagePoint>& line) {
  for (std::size_t i = 0; i < line.size(); ++i) {
    const PagePoint p = line[i];
    if (!anything_drawn_) {
      drawn_ = {p.x, p.y, 0, 0};
      anything_drawn_ = true;
    }
    const double right = std::max(drawn_.right(), p.x);
    const double bottom = std::max(drawn_.bottom(), p.y);
    drawn_.x = std::min(drawn_.x, p.x);
    drawn_.y = std::min(drawn_.y, p.y);
    drawn_.width = right - drawn_.x;
    drawn_.height = bottom - drawn_.y;
    if (i > 0) {
      lines_.push_back({line[i - 1], p});
    }
  }
}

void Drawing::polyline(const std::vector<ViewPoint>& points, Pen pen) {
  std::vector<PagePoint> line;
  std::ranges::transform(points, std::back_inserter(line), [&](ViewPoint p) { return at(p); });
  remember(line);
  page_.polyline(std::move(line), pen);
}

void Drawing::view(const solid::View& view, Pen seen, Pen hidden) {
  // Hidden lines first, so that seen ones lie over their ends.
  for (const solid::ViewLine& line : view.hidden) {
    polyline(line.points, hidden);
  }
  for (const solid::ViewLine& line : view.visible) {
    polyline(line.points, seen);
  }
}

void Drawing::polygon(const std::vector<ViewPoint>& corners,
                      std::optional<Colour> fill,
                      std::optional<Pen> pen) {
  std::vector<PagePoint> loop;
  std::ranges::transform(corners, std::back_inserter(loop), [&](ViewPoint p) { return at(p); });
  auto round = loop;
  round.push_back(loop.front());
  remember(round);
  page_.area({std::move(loop)}, fill, pen);
}

void Drawing::hatch(const std::vector<ViewPoint>& corners, double angle, double pitch, Pen pen) {
  std::vector<PagePoint> loop;
  std::ranges::transform(corners, std::back_inserter(loop), [&](ViewPoint p) { return at(p); });
  for (const auto& [a, b] : hatch_lines({loop}, angle, pitch)) {
    page_.line(a, b, pen);
  }
}

void Drawing::painted(std::span<const solid::PaintedFace> faces,
                      const std::function<Colour(int solid)>& wood) {
  for (const solid::PaintedFace& face : faces) {
    const Colour own = wood(face.solid);
    const Colour tone = lit(own, face);
    std::vector<std::vector<PagePoint>> loops;
    for (const auto& points : face.loops) {
      auto& loop = loops.emplace_back();
      std::ranges::transform(points, std::back_inserter(loop), [&](ViewPoint p) { return at(p); });
    }
    page_.area(std::move(loops), tone, Pen{.width = kSeam, .colour = tone});
    Pen grain = kGrainPen;
    grain.colour = mixed(tone, mixed(own, kPencil, kGrainDarker), 0.6);
    for (const auto& [a, b] : face.grain) {
      page_.line(at(a), at(b), grain);
    }
  }
}

}  // namespace plankwright::papers
