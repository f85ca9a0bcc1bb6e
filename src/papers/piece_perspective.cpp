// The perspective of the piece, and its sizes along the edges nearest to the eye.

#include <array>
#include <cmath>
#include <numbers>

#include "papers/piece_drawing.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using solid::Vector;

constexpr Pen kPicturePen{.width = 0.2, .colour = kPencil};
constexpr Pen kGround{.width = 0.13, .colour = kFaintPencil};
constexpr TextStyle kSizeText{.letter_height = 2.6, .weight = Weight::kMedium, .tabular = true};
constexpr double kOff = 0.09;           // of the longest size: from the piece to the line of a size
constexpr double kExtensionGap = 0.15;  // of that way, left free at the piece
constexpr double kPast = 1.2;           // that extension lines run past, of the same way
constexpr double kBeside = 1.7;         // and that a size is set which its line is too short for
constexpr double kTick = 1.3;
constexpr double kTextRoom = 6;  // on the paper, round everything
constexpr double kTextSide = 1.2;

void draw_wood(Drawing& drawing, const PiecePicture& picture, const plan::Plan& plan) {
  drawing.painted(picture.painted, [&](int solid) {
    const auto number = static_cast<std::size_t>(solid);
    const Colour wood = wood_colour(plan.piece.parts[picture.part_of[number]]);
    const bool is_pull = number >= plan.piece.parts.size();
    return is_pull ? mixed(wood, kPencil, 0.35) : wood;
  });
  drawing.view(picture.perspective, kPicturePen);
}

/// A size in space: along an edge of the piece, and the way out from it to where it is written.
struct SpaceSize {
  Vector from, to, out;
  std::string text;
};

std::array<SpaceSize, 3> sizes_of(const plan::Plan& plan) {
  const measure::Box& box = plan.piece.overall;
  const Vector low = solid::to_vector(box.at);
  const Vector high = solid::to_vector(box.end());
  const double off = kOff * std::max({high.x - low.x, high.y - low.y, high.z - low.z});
  return {{{{low.x, low.y, low.z},
            {high.x, low.y, low.z},
            {0, -off, 0},
            length_with_unit(plan, box.size.x)},
           {{high.x, low.y, low.z},
            {high.x, high.y, low.z},
            {off, 0, 0},
            length_with_unit(plan, box.size.y)},
           {{low.x, low.y, low.z},
            {low.x, low.y, high.z},
            {-off, 0, 0},
            length_with_unit(plan, box.size.z)}}};
}

void add_to(solid::ViewBox& box, ViewPoint p) {
  box.empty() ? void(box = {p, p}) : box.add(p);
}

PagePoint between(PagePoint a, PagePoint b, double share) {
  return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

void tick(Page& page, PagePoint at, double turn) {
  const double slope = turn * std::numbers::pi / 180 + std::numbers::pi / 4;
  const double x = kTick * std::cos(slope);
  const double y = -kTick * std::sin(slope);
  page.line({at.x - x, at.y - y}, {at.x + x, at.y + y}, kOutlinePen);
}

/// Degrees anticlockwise by which a text is turned to run along the line from `a` to `b`, never
/// upside down.
double turn_along(PagePoint a, PagePoint b) {
  double turn = std::atan2(a.y - b.y, b.x - a.x) * 180 / std::numbers::pi;
  if (turn > 91) {
    turn -= 180;
  } else if (turn <= -89) {
    turn += 180;
  }
  return turn;
}

void draw_size(Page& page,
               const Placement& placement,
               const solid::Camera& eye,
               const SpaceSize& size) {
  const auto on_page = [&](Vector place) { return placement.at(solid::project(eye, place)); };
  const PagePoint a = on_page(size.from + size.out);
  const PagePoint b = on_page(size.to + size.out);
  for (const Vector& corner : {size.from, size.to}) {
    page.line(
        on_page(corner + size.out * kExtensionGap), on_page(corner + size.out * kPast), kThinPen);
  }
  const double turn = turn_along(a, b);
  tick(page, a, turn);
  tick(page, b, turn);
  const double line = std::hypot(b.x - a.x, b.y - a.y);
  const double half = text_size(size.text, kSizeText).width / 2 + kTextSide;
  const PagePoint middle = between(a, b, 0.5);
  if (2 * half + 2 * kTick < line) {
    page.line(a, between(a, b, 0.5 - half / line), kThinPen);
    page.line(between(a, b, 0.5 + half / line), b, kThinPen);
    page.text(middle,
              size.text,
              kSizeText,
              {.align = Align::kCentre, .anchor = Anchor::kMiddle, .turn = turn});
    return;
  }
  page.line(a, b, kThinPen);
  // Beside a line that is too short for it, on the side away from the piece.
  const PagePoint away = on_page((size.from + size.to) * 0.5 + size.out * kBeside);
  page.text(away, size.text, kSizeText, {.align = Align::kCentre, .anchor = Anchor::kTop});
}

}  // namespace

void draw_perspective(Page& page,
                      const Rectangle& room,
                      const PiecePicture& picture,
                      const plan::Plan& plan) {
  const DrawingScale scale = picture_scale(picture.perspective.bounds, room);
  Drawing drawing{page, room, centred(picture.perspective.bounds, scale.factor, room)};
  draw_wood(drawing, picture, plan);
}

void draw_perspective_with_sizes(Page& page,
                                 const Rectangle& room,
                                 const PiecePicture& picture,
                                 const plan::Plan& plan) {
  const auto sizes = sizes_of(plan);
  solid::ViewBox all = picture.perspective.bounds;
  for (const SpaceSize& size : sizes) {
    add_to(all, solid::project(picture.eye, size.from + size.out));
    add_to(all, solid::project(picture.eye, size.to + size.out));
  }
  const Rectangle inner = room.inset(kTextRoom);
  const Placement placement = centred(all, picture_scale(all, inner).factor, inner);
  Drawing drawing{page, room, placement};
  draw_wood(drawing, picture, plan);
  for (const SpaceSize& size : sizes) {
    draw_size(page, placement, picture.eye, size);
  }
}

}  // namespace plankwright::papers
