#include "bench/clamps.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace plankwright::bench {
namespace {

using measure::Axis;
using piece::Joint;
using piece::JointKind;

bool is_pressed(const Joint& joint) {
  return joint.glued && joint.kind != JointKind::kPocketScrew && joint.kind != JointKind::kScrew;
}

Length longest_side(const measure::Box& contact) {
  return std::max({contact.size.x, contact.size.y, contact.size.z});
}

int count_along(Length length, Length spacing) {
  if (spacing <= Length{}) {
    return 1;
  }
  const std::int64_t whole = (length.nm() + spacing.nm() - 1) / spacing.nm();
  return static_cast<int>(std::clamp<std::int64_t>(whole, 1, 1000));
}

/// Around every part of the stage that lies in the line of the clamps.
measure::Box span_of(const piece::Piece& piece,
                     const std::vector<std::size_t>& joints,
                     piece::PartIndex part,
                     Axis axis) {
  measure::Box span = piece.parts[part].body;
  for (const std::size_t i : joints) {
    const Joint& joint = piece.joints[i];
    if (joint.home.axis == axis && (joint.a == part || joint.b == part)) {
      span = measure::hull(span, piece.parts[joint.a].body);
      span = measure::hull(span, piece.parts[joint.b].body);
    }
  }
  return span;
}

/// The longest pressed joint by which `line.part` goes home along `line.axis`.
const Joint* longest_joint(const piece::Piece& piece,
                           const std::vector<std::size_t>& joints,
                           const ClampLine& line) {
  const Joint* longest = nullptr;
  for (const std::size_t i : joints) {
    const Joint& joint = piece.joints[i];
    const bool pressed = is_pressed(joint) && joint.a == line.part && joint.home.axis == line.axis;
    if (pressed &&
        (longest == nullptr || longest_side(joint.contact) > longest_side(longest->contact))) {
      longest = &joint;
    }
  }
  return longest;
}

Axis longest_axis(const measure::Box& contact) {
  constexpr std::array kAll = {Axis::kX, Axis::kY, Axis::kZ};
  return *std::ranges::max_element(kAll, {}, [&](Axis axis) { return contact.size[axis]; });
}

}  // namespace

std::vector<ClampLine> clamp_lines(const piece::Piece& piece,
                                   const std::vector<std::size_t>& joints,
                                   const StageRoom& room) {
  std::map<std::pair<piece::PartIndex, Axis>, Length> longest;
  for (const std::size_t i : joints) {
    const Joint& joint = piece.joints[i];
    if (is_pressed(joint)) {
      Length& length = longest[{joint.a, joint.home.axis}];
      length = std::max(length, longest_side(joint.contact));
    }
  }
  std::vector<ClampLine> lines;
  for (const auto& [at, length] : longest) {
    ClampLine line{.part = at.first,
                   .axis = at.second,
                   .count = count_along(length, room.spacing),
                   .span = span_of(piece, joints, at.first, at.second).size[at.second],
                   .reach = {},
                   .force = {},
                   .at = {}};
    const auto set = std::ranges::find_if(
        room.clamps, [&](const shop::ClampSet& one) { return one.reach >= line.span; });
    if (set != room.clamps.end()) {
      line.reach = set->reach;
      line.force = set->force;
    }
    lines.push_back(line);
  }
  return lines;
}

void place_clamps(const piece::Piece& piece,
                  const std::vector<std::size_t>& joints,
                  std::vector<ClampLine>& lines) {
  for (ClampLine& line : lines) {
    line.at.clear();
    const Joint* joint = longest_joint(piece, joints, line);
    if (joint == nullptr) {
      continue;
    }
    const Axis along = longest_axis(joint->contact);
    measure::Point at = joint->contact.centre();
    at[line.axis] = span_of(piece, joints, line.part, line.axis).centre()[line.axis];
    const Length between = joint->contact.size[along] / line.count;
    at[along] = joint->contact.begin(along) + between / 2;
    for (int i = 0; i < line.count; ++i) {
      line.at.push_back(at);
      at[along] = at[along] + between;
    }
  }
}

std::int64_t clamps_from(const std::vector<shop::ClampSet>& clamps, std::size_t from) {
  std::int64_t count = 0;
  for (std::size_t i = from; i < clamps.size(); ++i) {
    count += clamps[i].count;
  }
  return count;
}

std::vector<std::int64_t> clamps_used(const std::vector<ClampLine>& lines, const StageRoom& room) {
  std::vector<std::int64_t> uses;
  for (const shop::ClampSet& set : room.clamps) {
    std::int64_t count = 0;
    for (const ClampLine& line : lines) {
      count += line.reach >= set.reach ? line.count : 0;
    }
    uses.push_back(count);
  }
  return uses;
}

}  // namespace plankwright::bench
