#include "piece/kits/front_lines.h"

#include <algorithm>
#include <string_view>

namespace plankwright::piece {
namespace {

/// "case" of "case.side_left": everything in the same unit begins with it.
std::string_view unit_of(const Part& part) {
  const std::size_t dot = part.path.rfind('.');
  return std::string_view{part.path}.substr(0, dot == std::string::npos ? 0 : dot);
}

bool is_in_unit(const Part& part, std::string_view unit) {
  return unit.empty() || (part.path.size() > unit.size() && part.path.starts_with(unit) &&
                          part.path[unit.size()] == '.');
}

/// How far along `side` a box reaches; larger is farther out.
Length reach(const Box& box, Direction side) {
  return side.sign < 0 ? -box.begin(side.axis) : box.end(side.axis);
}

bool face_each_other(const Box& a, const Box& b, Axis across) {
  const Box shared = measure::intersection(a, b);
  return std::ranges::all_of(
      std::initializer_list<Axis>{Axis::kX, Axis::kY, Axis::kZ},
      [&](Axis axis) { return axis == across || shared.size[axis] > Length{}; });
}

}  // namespace

PartIndex bounding(const Space& space, Direction side) {
  if (side.axis == Axis::kX) {
    return side.sign < 0 ? space.left : space.right;
  }
  return side.sign < 0 ? space.below : space.above;
}

bool is_outermost(const Piece& piece, PartIndex part, Direction side) {
  const Part& bound = piece.parts[part];
  return std::ranges::none_of(piece.parts, [&](const Part& other) {
    return other.thickness_axis == bound.thickness_axis && is_in_unit(other, unit_of(bound)) &&
           reach(other.body, side) > reach(bound.body, side) &&
           face_each_other(other.body, bound.body, side.axis);
  });
}

Length overlay_line(const KitCall& call,
                    Direction side,
                    Covers covers,
                    std::optional<Length> overlay) {
  const Box& opening = call.space.box;
  const Length inner = side.sign < 0 ? opening.begin(side.axis) : opening.end(side.axis);
  if (overlay) {
    return inner + *overlay * side.sign;
  }
  const PartIndex part = bounding(call.space, side);
  if (part == Space::kNone) {
    return inner;
  }
  const Box& body = call.shop.piece.parts[part].body;
  if (covers == Covers::kWhole && is_outermost(call.shop.piece, part, side)) {
    return side.sign < 0 ? body.begin(side.axis) : body.end(side.axis);
  }
  return body.begin(side.axis) + body.size[side.axis] / 2;
}

}  // namespace plankwright::piece
