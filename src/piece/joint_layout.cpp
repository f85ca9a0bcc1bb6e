#include "piece/joint_layout.h"

#include <algorithm>

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): 6_mm

constexpr std::int64_t kSlope = 8;         // lengths of tail to one of slope
constexpr std::int64_t kTailInPins = 3;    // a tail is as wide as so many pins
constexpr std::int64_t kDepthOfDowel = 3;  // thicknesses

Length thin_side(const Joint& joint) {
  Length thin;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (axis != joint.home.axis && (thin == Length{} || joint.contact.size[axis] < thin)) {
      thin = joint.contact.size[axis];
    }
  }
  return thin;
}

/// The hole in a part with so much wood behind the joint.
Length hole(Length wanted, Length room) {
  return std::min(wanted, room * 4 / 5);
}

}  // namespace

std::vector<Tail> dovetail_tails(Length height, int count, Length depth) {
  if (count < 1) {
    return {};
  }
  // Half a pin at each edge makes `count` steps of a tail and a pin; wider half pins are taken off
  // the steps between them.
  const std::int64_t parts = kTailInPins + 1;
  Length half_pin = height / (count * parts * 2);
  if (half_pin < 6_mm) {
    half_pin = 6_mm;
  }
  const Length rest = height - half_pin * 2;
  const Length lean = depth / kSlope;
  // `rest` is `count` tails and one pin less, in steps of a pin.
  const std::int64_t pins = count * kTailInPins + count - 1;
  std::vector<Tail> tails;
  for (std::int64_t i = 0; i < count; ++i) {
    const Length from = half_pin + Length::from_nm(rest.nm() * (i * parts) / pins);
    const Length to = half_pin + Length::from_nm(rest.nm() * (i * parts + kTailInPins) / pins);
    if (to - from <= lean * 4) {  // less than half of it would be left at the shoulder
      return {};
    }
    tails.push_back({from, to, from + lean, to - lean});
  }
  return tails;
}

std::vector<Length> fixings_in_row(Length length, int count) {
  std::vector<Length> at;
  if (count == 1) {
    return {length / 2};
  }
  if (count < 1) {
    return {};
  }
  const Length end = std::min(length / (count * std::int64_t{2}), 40_mm);
  for (std::int64_t i = 0; i < count; ++i) {
    at.push_back(end + Length::from_nm((length - end * 2).nm() * i / (count - 1)));
  }
  return at;
}

Length dowel_thickness(const Joint& joint) {
  return joint.tongue_thickness > Length{} ? joint.tongue_thickness : thin_side(joint) / 3;
}

DowelDepths dowel_depths(const Piece& piece, const Joint& joint) {
  const Length wanted =
      joint.depth > Length{} ? joint.depth : dowel_thickness(joint) * kDepthOfDowel;
  const Axis axis = joint.home.axis;
  return {hole(wanted, piece.parts[joint.a].body.size[axis]),
          hole(wanted, piece.parts[joint.b].body.size[axis])};
}

}  // namespace plankwright::piece
