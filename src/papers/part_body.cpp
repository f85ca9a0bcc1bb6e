#include "papers/part_body.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Box;
using measure::Direction;
using measure::Length;
using piece::Part;
using solid::Outline;
using solid::OutlinePoint;
using namespace measure;  // NOLINT(google-build-using-namespace): 25_mm

/// A place in the plane square to `along` by its coordinates on the two other axes.
OutlinePoint in_plane(Axis along, Axis first, Length on_first, Length on_second) {
  // An outline's u is the earlier of its two axes (solid/body.h).
  const Axis u = along == Axis::kX ? Axis::kY : Axis::kX;
  return first == u ? OutlinePoint{on_first, on_second} : OutlinePoint{on_second, on_first};
}

Axis other_axis(Axis a, Axis b) {
  return static_cast<Axis>(3 - static_cast<std::size_t>(a) - static_cast<std::size_t>(b));
}

Length face_of(const Box& box, Direction side) {
  return side.sign > 0 ? box.end(side.axis) : box.begin(side.axis);
}

/// The wedge that a taper takes off: its far end is the foot, at the low end of the length.
solid::Lump wedge(const Part& part, const piece::Taper& taper, std::size_t facing) {
  const Axis length = part.length_axis;
  const Axis along = other_axis(length, taper.side.axis);
  const Length face = face_of(part.body, taper.side);
  const Length lean =
      (part.body.size[taper.side.axis] - taper.to_size) / static_cast<std::int64_t>(facing);
  const Length foot = part.body.begin(length);
  const auto corner = [&](Length on_length, Length on_side) {
    return in_plane(along, length, on_length, on_side);
  };
  return solid::Extrusion{
      .outline = solid::polygon({corner(part.body.end(length) - taper.from, face),
                                 corner(foot, face),
                                 corner(foot, face - lean * taper.side.sign)}),
      .along = along,
      .from = part.body.begin(along),
      .length = part.body.size[along]};
}

/// What lies under the arch, from the edge it is cut into.
solid::Lump under_arch(const Part& part, const piece::Arch& arch) {
  const Axis length = part.length_axis;
  const Axis along = other_axis(length, arch.side.axis);
  const Length edge = face_of(part.body, arch.side);
  const Length middle = part.body.centre()[length];
  const auto corner = [&](Length on_length, Length on_side) {
    return in_plane(along, length, on_length, on_side);
  };
  Outline outline;
  outline.edges.push_back({corner(middle - arch.span / 2, edge)});
  outline.edges.push_back(
      {corner(middle + arch.span / 2, edge), corner(middle, edge - arch.rise * arch.side.sign)});
  return solid::Extrusion{.outline = outline,
                          .along = along,
                          .from = part.body.begin(along),
                          .length = part.body.size[along]};
}

// How pulls are drawn where the shop's list does not say more: a turned knob with a neck, a bar on
// two posts. Pictures only; nothing is drilled by them.
constexpr Length kHeadRadius = 15_mm;
constexpr Length kNeckRadius = 7_mm;
constexpr Length kBarThick = 12_mm;
constexpr Length kBarOver = 12_mm;  // beyond its posts, each end
constexpr Length kUsualProjection = 28_mm;
constexpr Length kFromEdge = 40_mm;

struct PullSizes {
  Length spacing;
  Length projection = kUsualProjection;
};

PullSizes sizes_of(const shop::Hardware& pull) {
  PullSizes sizes;
  if (const auto spacing = pull.sizes.find("spacing"); spacing != pull.sizes.end()) {
    sizes.spacing = spacing->second;
  }
  if (const auto out = pull.sizes.find("projection");
      out != pull.sizes.end() && out->second > Length{}) {
    sizes.projection = out->second;
  }
  return sizes;
}

solid::Lump round(Point at, Length radius, Length length) {
  return solid::Extrusion{.outline = solid::circle({at.x, at.z}, radius),
                          .along = Axis::kY,
                          .from = at.y - length,
                          .length = length};
}

solid::Body knob(Point at, const PullSizes& sizes) {
  const Length neck = sizes.projection / 2;
  const Point head{at.x, at.y - neck, at.z};
  return {.wood = {round(at, kNeckRadius, neck), round(head, kHeadRadius, sizes.projection - neck)},
          .cuts = {}};
}

solid::Body bar(Point at, const PullSizes& sizes, Axis along) {
  const Length half = sizes.spacing / 2;
  const Length reach = half + kBarOver;
  const Length neck = sizes.projection - kBarThick;
  Point first = at;
  Point second = at;
  first[along] -= half;
  second[along] += half;
  Box whole{{at.x - kBarThick / 2, at.y - sizes.projection, at.z - kBarThick / 2},
            {kBarThick, kBarThick, kBarThick}};
  whole.at[along] = at[along] - reach;
  whole.size[along] = reach * 2;
  return {
      .wood = {whole, round(first, kNeckRadius / 2, neck), round(second, kNeckRadius / 2, neck)},
      .cuts = {}};
}

const piece::Door* door_with(const piece::Piece& piece, piece::PartIndex part) {
  const auto found = std::ranges::find_if(piece.doors, [&](const piece::Door& door) {
    return std::ranges::find(door.parts, part) != door.parts.end();
  });
  return found == piece.doors.end() ? nullptr : &*found;
}

Point place_on_front(const piece::HardwareUse& use, const Part& front, const piece::Door* door) {
  Point at = use.at;
  at.y = front.body.begin(Axis::kY);
  if (door != nullptr && at.x == door->leaf.centre().x) {
    at.x = door->hinged_left ? door->leaf.end(Axis::kX) - kFromEdge
                             : door->leaf.begin(Axis::kX) + kFromEdge;
  }
  return at;
}

}  // namespace

solid::Body part_body(const Part& part) {
  solid::Body body{.wood = {part.body}, .cuts = {}};
  for (const piece::Taper& taper : part.tapers) {
    const auto facing = std::ranges::count_if(
        part.tapers, [&](const piece::Taper& other) { return other.side.axis == taper.side.axis; });
    body.cuts.push_back(wedge(part, taper, static_cast<std::size_t>(facing)));
  }
  if (part.arch) {
    body.cuts.push_back(under_arch(part, *part.arch));
  }
  return body;
}

std::vector<DrawnPull> pulls_of(const piece::Piece& piece, const shop::Shop& shop) {
  std::vector<DrawnPull> pulls;
  for (const piece::HardwareUse& use : piece.hardware) {
    const shop::Hardware* pull = shop.fitting(use.id);
    if (pull == nullptr || pull->kind != "pull" || use.parts.empty()) {
      continue;
    }
    const piece::PartIndex front = use.parts.front();
    const piece::Door* door = door_with(piece, front);
    const Point at = place_on_front(use, piece.parts[front], door);
    const PullSizes sizes = sizes_of(*pull);
    const Axis along = door != nullptr ? Axis::kZ : Axis::kX;
    pulls.push_back({sizes.spacing > Length{} ? bar(at, sizes, along) : knob(at, sizes), front});
  }
  return pulls;
}

}  // namespace plankwright::papers
