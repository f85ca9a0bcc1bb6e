#include "papers/drawing_scale.h"

#include <algorithm>

namespace plankwright::papers {
namespace {

constexpr const char* kNotToScale = "not to scale";

double fitting_factor(double width, double height, const Rectangle& room) {
  const double across = width > 0 ? room.width / width : 1;
  const double down = height > 0 ? room.height / height : 1;
  return std::min(across, down);
}

}  // namespace

std::vector<DrawingScale> drawing_scales(measure::LengthUnit unit) {
  if (unit == measure::LengthUnit::kMillimetre) {
    return {{1, "1:1"},
            {1.0 / 2, "1:2"},
            {1.0 / 5, "1:5"},
            {1.0 / 10, "1:10"},
            {1.0 / 15, "1:15"},
            {1.0 / 20, "1:20"},
            {1.0 / 25, "1:25"},
            {1.0 / 50, "1:50"},
            {1.0 / 100, "1:100"}};
  }
  return {{1, "full size"},
          {6.0 / 12, "6\" = 1'"},
          {3.0 / 12, "3\" = 1'"},
          {1.5 / 12, "1 1/2\" = 1'"},
          {1.0 / 12, "1\" = 1'"},
          {0.75 / 12, "3/4\" = 1'"},
          {0.5 / 12, "1/2\" = 1'"},
          {0.25 / 12, "1/4\" = 1'"},
          {0.125 / 12, "1/8\" = 1'"}};
}

DrawingScale fitting_scale(double width,
                           double height,
                           const Rectangle& room,
                           measure::LengthUnit unit) {
  const double most = fitting_factor(width, height, room);
  for (DrawingScale& scale : drawing_scales(unit)) {
    if (scale.factor <= most) {
      return std::move(scale);
    }
  }
  return {most, kNotToScale};
}

DrawingScale picture_scale(const solid::ViewBox& picture, const Rectangle& room) {
  return {fitting_factor(picture.width(), picture.height(), room), kNotToScale};
}

Rectangle page_box(const solid::ViewBox& view, const Placement& placement) {
  const PagePoint low = placement.at(view.low);
  const PagePoint high = placement.at(view.high);
  return {low.x, high.y, high.x - low.x, low.y - high.y};
}

Placement centred(const solid::ViewBox& view, double factor, const Rectangle& room) {
  const solid::ViewPoint middle = view.centre();
  const PagePoint centre = room.centre();
  return {factor, {centre.x - factor * middle.x, centre.y + factor * middle.y}};
}

solid::Camera side_view(Projection projection) {
  return projection == Projection::kFirstAngle ? solid::left_view() : solid::right_view();
}

}  // namespace plankwright::papers
