// The faces of all boxes divide space into cells that are each all wood or no wood at all, so the
// volume is a sum over cells.

#include "solid/box_body.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <span>

namespace plankwright::solid {
namespace {

using measure::Axis;
using measure::Box;
using measure::Length;
using measure::Point;

std::vector<Box> boxes_of(const std::vector<Lump>& lumps) {
  std::vector<Box> boxes;
  for (const Lump& lump : lumps) {
    const Box& box = std::get<Box>(lump);
    if (!box.empty()) {
      boxes.push_back(box);
    }
  }
  return boxes;
}

struct BoxBody {
  explicit BoxBody(const Body& body) : wood{boxes_of(body.wood)}, cuts{boxes_of(body.cuts)} {}
  std::vector<Box> wood;
  std::vector<Box> cuts;

  bool holds_wood(Point p) const {
    const auto around = [&](const Box& b) {
      return std::ranges::all_of(std::array{Axis::kX, Axis::kY, Axis::kZ}, [&](Axis axis) {
        return b.begin(axis) <= p[axis] && p[axis] < b.end(axis);
      });
    };
    return std::ranges::any_of(wood, around) && std::ranges::none_of(cuts, around);
  }

  std::optional<Box> reach() const {
    if (wood.empty()) {
      return std::nullopt;
    }
    Box whole = wood.front();
    for (const Box& box : wood) {
      whole = measure::hull(whole, box);
    }
    return whole;
  }
};

// Where faces of the bodies cut `axis` inside `room`, with the ends of the room.
std::vector<Length> divisions(std::span<const BoxBody> bodies, const Box& room, Axis axis) {
  std::vector<Length> places{room.begin(axis), room.end(axis)};
  const auto add = [&](Length place) {
    if (place > room.begin(axis) && place < room.end(axis)) {
      places.push_back(place);
    }
  };
  for (const BoxBody& body : bodies) {
    for (const auto* boxes : {&body.wood, &body.cuts}) {
      for (const Box& box : *boxes) {
        add(box.begin(axis));
        add(box.end(axis));
      }
    }
  }
  std::ranges::sort(places);
  places.erase(std::ranges::unique(places).begin(), places.end());
  return places;
}

measure::CubicMillimetres wood_in_all(std::span<const BoxBody> bodies, const Box& room) {
  const auto xs = divisions(bodies, room, Axis::kX);
  const auto ys = divisions(bodies, room, Axis::kY);
  const auto zs = divisions(bodies, room, Axis::kZ);
  measure::CubicMillimetres sum;
  for (std::size_t i = 1; i < xs.size(); ++i) {
    for (std::size_t j = 1; j < ys.size(); ++j) {
      for (std::size_t k = 1; k < zs.size(); ++k) {
        const Point corner{xs[i - 1], ys[j - 1], zs[k - 1]};
        if (std::ranges::all_of(bodies, [&](const BoxBody& b) { return b.holds_wood(corner); })) {
          sum += measure::volume(Box{corner, Point{xs[i], ys[j], zs[k]} - corner});
        }
      }
    }
  }
  return sum;
}

}  // namespace

bool is_of_boxes(const Body& body) {
  const auto is_box = [](const Lump& lump) { return std::holds_alternative<Box>(lump); };
  return std::ranges::all_of(body.wood, is_box) && std::ranges::all_of(body.cuts, is_box);
}

measure::CubicMillimetres volume_of_boxes(const Body& body) {
  assert(is_of_boxes(body));
  const BoxBody boxes{body};
  const auto room = boxes.reach();
  return room ? wood_in_all({&boxes, 1}, *room) : measure::CubicMillimetres{};
}

measure::CubicMillimetres shared_volume_of_boxes(const Body& a, const Body& b) {
  assert(is_of_boxes(a) && is_of_boxes(b));
  const std::array bodies{BoxBody{a}, BoxBody{b}};
  const auto reach_a = bodies[0].reach();
  const auto reach_b = bodies[1].reach();
  if (!reach_a || !reach_b) {
    return {};
  }
  const Box room = measure::intersection(*reach_a, *reach_b);
  return room.empty() ? measure::CubicMillimetres{} : wood_in_all(bodies, room);
}

}  // namespace plankwright::solid
