// What the machines are set to for the joints, mates in one setting.

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "bench/marking.h"

namespace plankwright::bench {
namespace {

/// Tails and tenons are cut to what they go into.
bool is_set_up(const Mark& mark) {
  return mark.what != "tenon" && mark.slope == 0;
}

/// From the reference face to the middle of what is cut into an edge or an end.
Length middle_from_face(const Mark& mark) {
  if (mark.from_face.empty()) {
    return {};
  }
  return (mark.from_face.front() + mark.from_face.back()) / 2;
}

struct Passing {
  std::set<std::string> codes;
  std::set<std::string> mates;
  int count = 0;
};

using Key = std::tuple<std::string, Length, Length, Length>;

}  // namespace

std::vector<JointSetting> joint_settings(const piece::Piece& piece,
                                         const std::vector<MarkedFamily>& families) {
  std::map<Key, Passing> passing;
  for (const MarkedFamily& family : families) {
    for (const Mark& mark : family.marks) {
      if (!is_set_up(mark)) {
        continue;
      }
      Passing& one = passing[{mark.what, mark.wide, mark.depth, middle_from_face(mark)}];
      for (const piece::PartIndex part : family.parts) {
        one.codes.insert(piece.parts[part].code);
      }
      one.mates.insert(mark.mates.begin(), mark.mates.end());
      one.count += mark.count * static_cast<int>(family.parts.size());
    }
  }
  std::vector<JointSetting> settings;
  for (const auto& [key, one] : passing) {
    const auto& [what, wide, depth, from_face] = key;
    settings.push_back(
        {.what = what,
         .wide = wide,
         .depth = depth,
         .from_face = from_face,
         .codes = {one.codes.begin(), one.codes.end()},
         .count = one.count,
         .mates = !one.mates.empty() && std::ranges::includes(one.codes, one.mates)});
  }
  return settings;
}

}  // namespace plankwright::bench
