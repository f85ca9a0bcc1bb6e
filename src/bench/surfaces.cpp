#include "bench/surfaces.h"

#include <algorithm>

#include "piece/surface.h"

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::SquareMillimetres;

SquareMillimetres area_of_face(const piece::Part& part, Axis across) {
  double area = 1;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (axis != across) {
      area *= part.body.size[axis].mm();
    }
  }
  return SquareMillimetres{area};
}

}  // namespace

std::vector<Surface> surfaces_of(const piece::Piece& piece) {
  const std::vector<SquareMillimetres> areas = piece::finished_areas(piece);
  std::vector<Surface> surfaces(areas.size());
  for (std::size_t i = 0; i < areas.size(); ++i) {
    SquareMillimetres shown;
    for (const measure::Direction face : piece.parts[i].show_faces) {
      shown += area_of_face(piece.parts[i], face.axis);
    }
    surfaces[i].outside = std::min(shown, areas[i]);
    surfaces[i].inside = areas[i] - surfaces[i].outside;
  }
  return surfaces;
}

}  // namespace plankwright::bench
