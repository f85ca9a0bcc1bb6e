#include "papers/three_views.h"

#include <algorithm>
#include <utility>

#include "papers/key_sizes.h"
#include "papers/title_block.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Length;

constexpr double kScreenRoom = 220;  // mm; a screen makes of it what it can
constexpr double kBetween = 8;       // of views, with the name of one
constexpr TextStyle kViewName{.letter_height = 2.1, .weight = Weight::kMedium, .colour = kAccent};
constexpr Pen kSeenPen{.width = 0.25, .colour = kPencil};

std::vector<Dimension> level_sizes(
    const plan::Plan& plan, const std::vector<Span>& spans, double at, Side side, double way = 1) {
  std::vector<Dimension> sizes;
  for (const Span& span : spans) {
    sizes.push_back({{way * span.from.mm(), at},
                     {way * span.to.mm(), at},
                     side,
                     length(plan, span.to - span.from)});
  }
  return sizes;
}

std::vector<Dimension> upright_sizes(const plan::Plan& plan,
                                     const std::vector<Span>& spans,
                                     double at,
                                     Side side) {
  std::vector<Dimension> sizes;
  for (const Span& span : spans) {
    sizes.push_back(
        {{at, span.from.mm()}, {at, span.to.mm()}, side, length(plan, span.to - span.from)});
  }
  return sizes;
}

Span whole(const plan::Plan& plan, Axis axis) {
  return {plan.piece.overall.begin(axis), plan.piece.overall.end(axis)};
}

void append(std::vector<Dimension>& all, std::vector<Dimension> more) {
  std::ranges::move(more, std::back_inserter(all));
}

/// Sizes stand on the side that no other view is on.
Side outer_side(Projection projection) {
  return projection == Projection::kFirstAngle ? Side::kAbove : Side::kBelow;
}

void dimension_front(Drawing& drawing, const plan::Plan& plan, Side outer) {
  const piece::Piece& piece = plan.piece;
  const double left = piece.overall.begin(Axis::kX).mm();
  const double right = piece.overall.end(Axis::kX).mm();
  const double edge =
      (outer == Side::kAbove ? piece.overall.end(Axis::kZ) : piece.overall.begin(Axis::kZ)).mm();
  std::vector<Dimension> sizes;
  append(sizes, upright_sizes(plan, unit_heights(piece), left, Side::kLeft));
  append(sizes, upright_sizes(plan, {whole(plan, Axis::kZ)}, left, Side::kLeft));
  append(sizes, level_sizes(plan, widths_across(piece), edge, outer));
  append(sizes, level_sizes(plan, {whole(plan, Axis::kX)}, edge, outer));
  const std::vector<Span> fronts = drawer_fronts(piece);
  append(sizes,
         upright_sizes(plan, fronts.empty() ? clear_height(piece) : fronts, right, Side::kRight));
  drawing.dimensions(sizes);
}

void dimension_side(Drawing& drawing, const plan::Plan& plan, Side outer) {
  const piece::Piece& piece = plan.piece;
  // Seen from the left the front of the piece is to the right.
  const double way = projection_of(plan) == Projection::kFirstAngle ? -1 : 1;
  const double edge =
      (outer == Side::kAbove ? piece.overall.end(Axis::kZ) : piece.overall.begin(Axis::kZ)).mm();
  std::vector<Dimension> sizes = level_sizes(plan, unit_depths(piece), edge, outer, way);
  append(sizes, level_sizes(plan, {whole(plan, Axis::kY)}, edge, outer, way));
  drawing.dimensions(sizes);
}

/// Room kept free round and between the views for their sizes and names.
struct Margins {
  double left = 0, between_columns = 0, right = 0, outer = 0, between_rows = 0, inner = 0;
  double across() const { return left + between_columns + right; }
  double down() const { return outer + between_rows + inner; }
};

Margins margins_of(const plan::Plan& plan) {
  const int rows = widths_across(plan.piece).empty() ? 1 : 2;
  const int depths = static_cast<int>(unit_depths(plan.piece).size()) + 1;
  return {.left = Drawing::dimension_room(unit_heights(plan.piece).size() > 3 ? 3 : 2),
          .between_columns = Drawing::dimension_room(1) + kBetween,
          .right = kBetween,
          .outer = Drawing::dimension_room(std::max(rows, depths)),
          .between_rows = kBetween,
          .inner = kBetween};
}

/// Sets out the three views in line, with room only where sizes stand, so that the piece comes out
/// as large as it can.
ThreeViews arranged(const Rectangle& room, const PiecePicture& picture, const plan::Plan& plan) {
  const Margins m = margins_of(plan);
  const solid::ViewBox& front = picture.front.bounds;
  const solid::ViewBox& side = picture.side.bounds;
  const solid::ViewBox& top = picture.top.bounds;
  ThreeViews set;
  set.scale = fitting_scale(front.width() + side.width(),
                            front.height() + top.height(),
                            {0, 0, room.width - m.across(), room.height - m.down()},
                            plan.commission.unit());
  const double f = set.scale.factor;
  const double width = f * (front.width() + side.width()) + m.across();
  const double height = f * (front.height() + top.height()) + m.down();
  const PagePoint corner{room.centre().x - width / 2, room.centre().y - height / 2};
  const bool front_above = projection_of(plan) == Projection::kFirstAngle;
  const double front_top =
      corner.y + (front_above ? m.outer : m.inner + f * top.height() + m.between_rows);
  const double top_top =
      front_above ? front_top + f * front.height() + m.between_rows : corner.y + m.inner;
  const auto placed = [f](const solid::ViewBox& box, double left, double upper) {
    return centred(box, f, {left, upper, f * box.width(), f * box.height()});
  };
  const double left = corner.x + m.left;
  set.front = placed(front, left, front_top);
  set.side = placed(side, left + f * front.width() + m.between_columns, front_top);
  set.top = placed(top, left, top_top);
  // In line with each other, whatever stands out of one view only.
  set.side.zero.y = set.front.zero.y;
  set.top.zero.x = set.front.zero.x;
  return set;
}

void name_view(Page& page, const Drawing& drawing, const std::string& name, bool above) {
  const Rectangle& box = drawing.drawn();
  page.text({box.x, above ? box.y - 2 : box.bottom() + 2},
            name,
            kViewName,
            {.anchor = above ? Anchor::kBottom : Anchor::kTop});
}

}  // namespace

DrawingScale draw_three_views(Page& page,
                              const Rectangle& room,
                              const PiecePicture& picture,
                              const plan::Plan& plan) {
  const ThreeViews views = arranged(room, picture, plan);
  const Side outer = outer_side(projection_of(plan));
  const bool name_above = outer == Side::kBelow;
  {
    Drawing front{page, room, views.front, LineEnd::kTick};
    front.view(picture.front, kSeenPen);
    name_view(page, front, "Front", name_above);
    dimension_front(front, plan, outer);
  }
  {
    Drawing side{page, room, views.side, LineEnd::kTick};
    side.view(picture.side, kSeenPen);
    name_view(page, side, picture.side.name == "left" ? "Left side" : "Right side", name_above);
    dimension_side(side, plan, outer);
  }
  {
    Drawing top{page, room, views.top, LineEnd::kTick};
    top.view(picture.top, kSeenPen);
    name_view(page, top, "Top", name_above);
  }
  return views.scale;
}

Page view_page(ShownView shown, const PiecePicture& picture, const plan::Plan& plan) {
  const solid::View& view = shown == ShownView::kFront  ? picture.front
                            : shown == ShownView::kSide ? picture.side
                            : shown == ShownView::kTop  ? picture.top
                                                        : picture.perspective;
  const bool flat = shown != ShownView::kPerspective;
  const Rectangle room{0, 0, kScreenRoom, kScreenRoom};
  const DrawingScale scale =
      flat ? fitting_scale(view.bounds.width(), view.bounds.height(), room, plan.commission.unit())
           : picture_scale(view.bounds, room);
  const double margin = Drawing::dimension_room(flat ? 3 : 1);
  Page page{{scale.factor * view.bounds.width() + 2 * margin,
             scale.factor * view.bounds.height() + 2 * margin}};
  if (!flat) {
    draw_perspective_with_sizes(page, page.area(), picture, plan);
    return page;
  }
  Drawing drawing{
      page, page.area(), centred(view.bounds, scale.factor, page.area()), LineEnd::kTick};
  drawing.view(view, kSeenPen);
  if (shown == ShownView::kFront) {
    dimension_front(drawing, plan, Side::kBelow);
  } else if (shown == ShownView::kSide) {
    dimension_side(drawing, plan, Side::kBelow);
  } else {
    drawing.overall(Side::kBelow, length(plan, plan.piece.overall.size.x));
    drawing.overall(Side::kLeft, length(plan, plan.piece.overall.size.y));
  }
  return page;
}

bool views_want_landscape(const PiecePicture& picture, const plan::Plan& plan, PageSize size) {
  return arranged(sheet_area(landscape(size)), picture, plan).scale.factor >=
         arranged(sheet_area(size), picture, plan).scale.factor;
}

}  // namespace plankwright::papers
