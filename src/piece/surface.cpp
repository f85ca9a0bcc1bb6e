#include "piece/surface.h"

#include <algorithm>
#include <array>
#include <set>

namespace plankwright::piece {
namespace {

constexpr std::array kDirections = {Direction{Axis::kX, -1},
                                    Direction{Axis::kX, 1},
                                    Direction{Axis::kY, -1},
                                    Direction{Axis::kY, 1},
                                    Direction{Axis::kZ, -1},
                                    Direction{Axis::kZ, 1}};
constexpr Length kHair = Length::from_nm(1'000);

/// The face of `box` that looks along `side`, as a box without thickness.
Box face_of(const Box& box, Direction side) {
  Box face = box;
  if (side.sign > 0) {
    face.at[side.axis] = box.end(side.axis);
  }
  face.size[side.axis] = Length{};
  return face;
}

double shared_area(const Box& face, const Box& other, Axis normal) {
  const Box shared = measure::intersection(face, other);
  if (shared.size[normal] < -kHair) {
    return 0;
  }
  double area = 1;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (axis != normal) {
      area *= std::max(0.0, shared.size[axis].mm());
    }
  }
  return area;
}

double face_area(const Box& box, Axis normal) {
  double area = 1;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    area *= axis == normal ? 1.0 : box.size[axis].mm();
  }
  return area;
}

/// Faces that look at the floor, or at the wall behind, or of a built-in at any side of the niche.
bool looks_away(const Piece& piece, const Box& body, Direction side) {
  const Length edge = side.sign > 0 ? body.end(side.axis) : body.begin(side.axis);
  const Length limit =
      side.sign > 0 ? piece.overall.end(side.axis) : piece.overall.begin(side.axis);
  const bool at_the_edge = side.sign > 0 ? edge >= limit - kHair : edge <= limit + kHair;
  if (side == Direction{Axis::kZ, -1}) {
    return at_the_edge;
  }
  if (!piece.fixed_to_building) {
    return false;
  }
  return at_the_edge && side != Direction{Axis::kY, -1};
}

std::set<PartIndex> box_parts(const Piece& piece) {
  std::set<PartIndex> inside;
  for (const Drawer& drawer : piece.drawers) {
    for (const PartIndex part : drawer.parts) {
      if (piece.parts[part].name.find("front") == std::string::npos ||
          piece.parts[part].name.find("box") != std::string::npos) {
        inside.insert(part);
      }
    }
  }
  return inside;
}

bool is_back(const Part& part) {
  return part.name.find("back") != std::string::npos && part.thickness_axis == Axis::kY;
}

/// Bought-in parts, and what stands hidden behind a kick face.
bool stays_raw(const Part& part) {
  return part.material == Material::kBoughtIn ||
         (part.kit == "ladder_base" && part.show_faces.empty());
}

double part_area(const Piece& piece, PartIndex index) {
  const Part& part = piece.parts[index];
  double area = 0;
  for (const Direction side : kDirections) {
    if (looks_away(piece, part.body, side) || (is_back(part) && side == Direction{Axis::kY, 1})) {
      continue;
    }
    const Box face = face_of(part.body, side);
    double left = face_area(part.body, side.axis);
    for (PartIndex other = 0; other < piece.parts.size(); ++other) {
      if (other != index) {
        left -= shared_area(face, piece.parts[other].body, side.axis);
      }
    }
    for (const Opening& opening : piece.openings) {
      if (opening.filled_with == "drawer_bank" && !part.shows(side)) {
        left -= shared_area(face, opening.box, side.axis);
      }
    }
    area += std::max(0.0, left);
  }
  return area;
}

}  // namespace

std::vector<measure::SquareMillimetres> finished_areas(const Piece& piece) {
  const std::set<PartIndex> boxes = box_parts(piece);
  std::vector<measure::SquareMillimetres> areas(piece.parts.size());
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    if (!boxes.contains(i) && !stays_raw(piece.parts[i])) {
      areas[i] = measure::SquareMillimetres{part_area(piece, i)};
    }
  }
  return areas;
}

}  // namespace plankwright::piece
