// Assembly by disassembly: a set of bodies can leave along a direction when every joint that holds
// it back has its way home along that direction and the right way round. The smallest such sets are
// closures in the "must move along" relation (Wilson 1992 calls it the directional blocking graph,
// from memory); with a few dozen bodies a plain fixed point finds them.

#include "bench/staging.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::Direction;
using measure::Length;
using piece::Joint;
using piece::JointKind;
using piece::PartIndex;
using piece::Piece;

using Body = std::size_t;  // index of the first part of what is already one piece of wood
using Bodies = std::set<Body>;

/// Joints that come together when one set of bodies goes home.
using Closing = std::vector<std::size_t>;
/// What can be closed at one time, and before anything of the next level.
using Level = std::vector<Closing>;

bool makes_one_body(const Joint& joint) {
  return joint.kind == JointKind::kEdgeGlue || joint.kind == JointKind::kFaceGlue;
}

bool takes_part(const Joint& joint, const std::vector<bool>& left_out) {
  return !joint.undone && joint.count > 0 && joint.kind != JointKind::kScrew &&
         joint.kind != JointKind::kStands && !left_out[joint.a] && !left_out[joint.b];
}

class Labels {
 public:
  explicit Labels(std::size_t size) : label_(size) {
    std::iota(label_.begin(), label_.end(), Body{0});
  }
  Body of(PartIndex part) const {
    while (label_[part] != part) {
      part = label_[part];
    }
    return part;
  }
  void join(PartIndex a, PartIndex b) {
    const auto [low, high] = std::minmax({of(a), of(b)});
    label_[high] = low;
  }

 private:
  std::vector<Body> label_;
};

class Assembly {
 public:
  Assembly(const Piece& piece, const Labels& bodies) : piece_{piece}, bodies_{bodies} {}

  /// Levels from the first to be glued to the last.
  std::vector<Level> levels(const Bodies& set, const Closing& joints) const {
    if (joints.empty()) {
      return {};
    }
    const std::vector<Bodies> groups = split(set, joints);
    if (groups.size() < 2) {
      return {Level{joints}};  // it only goes together all at once
    }
    std::vector<Level> before;
    for (const Bodies& group : groups) {
      for (const Bodies& held : held_together(group, inside(group, joints))) {
        lay_against_the_end(before, levels(held, inside(held, joints)));
      }
    }
    before.push_back(closings(groups, joints));
    return before;
  }

 private:
  Body a(std::size_t joint) const { return bodies_.of(piece_.joints[joint].a); }
  Body b(std::size_t joint) const { return bodies_.of(piece_.joints[joint].b); }

  Closing inside(const Bodies& set, const Closing& joints) const {
    Closing found;
    std::ranges::copy_if(joints, std::back_inserter(found), [&](std::size_t joint) {
      return set.contains(a(joint)) && set.contains(b(joint));
    });
    return found;
  }

  /// The parts of a set that joints still tie to each other.
  std::vector<Bodies> held_together(const Bodies& set, const Closing& joints) const {
    std::vector<Bodies> found;
    Bodies open = set;
    while (!open.empty()) {
      Bodies one = {*open.begin()};
      grow(
          one,
          [](std::size_t) {
            return std::pair{true, true};
          },
          joints);
      for (const Body body : one) {
        open.erase(body);
      }
      found.push_back(std::move(one));
    }
    return found;
  }

  /// Adds to `set` until nothing more is drawn in. `pulls(joint)` says whether a draws b, and b a.
  template <class Pulls>
  void grow(Bodies& set, const Pulls& pulls, const Closing& joints) const {
    bool growing = true;
    while (growing) {
      growing = false;
      for (const std::size_t joint : joints) {
        const auto [a_draws_b, b_draws_a] = pulls(joint);
        if (a_draws_b && set.contains(a(joint))) {
          growing = set.insert(b(joint)).second || growing;
        }
        if (b_draws_a && set.contains(b(joint))) {
          growing = set.insert(a(joint)).second || growing;
        }
      }
    }
  }

  /// What has to come along when `body` leaves in direction `way`.
  Bodies leaving(Body body, Direction way, const Closing& joints) const {
    Bodies set = {body};
    const auto pulls = [&](std::size_t joint) {
      const Direction home = piece_.joints[joint].home;
      if (home.axis != way.axis) {
        return std::pair{true, true};
      }
      // `a` pulls out against its way home; `b` comes off along it.
      return std::pair{home.sign == way.sign, home.sign != way.sign};
    };
    grow(set, pulls, joints);
    return set;
  }

  /// The smallest sets that leave along an axis, one way and the other, without emptying `set`.
  std::vector<Bodies> leaving_along(Axis axis, const Bodies& set, const Closing& joints) const {
    std::vector<Bodies> taken;
    std::size_t left = set.size();
    Bodies gone;
    for (const int sign : {-1, 1}) {
      for (const Bodies& leaves : smallest({axis, sign}, set, joints)) {
        const bool apart = std::ranges::none_of(leaves, [&](Body x) { return gone.contains(x); });
        if (apart && leaves.size() < left) {
          left -= leaves.size();
          gone.insert(leaves.begin(), leaves.end());
          taken.push_back(leaves);
        }
      }
    }
    return taken;
  }

  std::vector<Bodies> smallest(Direction way, const Bodies& set, const Closing& joints) const {
    std::vector<Bodies> all;
    for (const Body body : set) {
      const Bodies leaves = leaving(body, way, joints);
      if (leaves.size() < set.size() && std::ranges::find(all, leaves) == all.end()) {
        all.push_back(leaves);
      }
    }
    std::vector<Bodies> found;
    std::ranges::copy_if(all, std::back_inserter(found), [&](const Bodies& one) {
      return std::ranges::none_of(all, [&](const Bodies& other) {
        return other.size() < one.size() && std::ranges::includes(one, other);
      });
    });
    return found;
  }

  Length extent(Axis axis, const Bodies& set) const {
    measure::Box box = piece_.parts[*set.begin()].body;
    for (const Body body : set) {
      box = measure::hull(box, piece_.parts[body].body);
    }
    return box.size[axis];
  }

  /// The sets that close last, and behind them what is left; fewer than two when nothing comes off.
  std::vector<Bodies> split(const Bodies& set, const Closing& joints) const {
    std::vector<Bodies> best;
    Length longest;
    for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
      const Length reach = extent(axis, set);
      if (!best.empty() && reach <= longest) {
        continue;
      }
      std::vector<Bodies> groups = leaving_along(axis, set, joints);
      if (!groups.empty()) {
        best = std::move(groups);
        longest = reach;
      }
    }
    Bodies rest = set;
    for (const Bodies& group : best) {
      for (const Body body : group) {
        rest.erase(body);
      }
    }
    best.push_back(std::move(rest));
    return best;
  }

  /// Joints between the groups, each with the first group that it ties.
  Level closings(const std::vector<Bodies>& groups, const Closing& joints) const {
    Level level(groups.size());
    for (const std::size_t joint : joints) {
      const auto group_of = [&](Body body) {
        return static_cast<std::size_t>(
            std::ranges::find_if(groups, [&](const Bodies& g) { return g.contains(body); }) -
            groups.begin());
      };
      const auto [first, second] = std::minmax({group_of(a(joint)), group_of(b(joint))});
      if (first != second) {
        level[first].push_back(joint);
      }
    }
    std::erase_if(level, [](const Closing& closing) { return closing.empty(); });
    return level;
  }

  /// Sub-assemblies are ready just before they are needed, so that they share a stage.
  static void lay_against_the_end(std::vector<Level>& all, const std::vector<Level>& levels) {
    while (all.size() < levels.size()) {
      all.insert(all.begin(), Level{});
    }
    for (std::size_t i = 0; i < levels.size(); ++i) {
      Level& level = all[all.size() - levels.size() + i];
      level.insert(level.end(), levels[i].begin(), levels[i].end());
    }
  }

  const Piece& piece_;
  const Labels& bodies_;
};

/// Which joints are counted when glue is spread: glued ones, and of those that tie the same two
/// bodies the same way only the first.
std::vector<bool> spread_joints(const Piece& piece, const Labels& bodies) {
  std::set<std::tuple<Body, Body, Axis, int>> seen;
  std::vector<bool> spread;
  for (const Joint& joint : piece.joints) {
    spread.push_back(
        joint.glued &&
        seen.insert({bodies.of(joint.a), bodies.of(joint.b), joint.home.axis, joint.home.sign})
            .second);
  }
  return spread;
}

int glued_in(const std::vector<bool>& spread, const Closing& joints) {
  return static_cast<int>(
      std::ranges::count_if(joints, [&](std::size_t joint) { return spread[joint]; }));
}

/// Levels as loads of at most `most` glued joints. Loose joints close with the next glued ones.
std::vector<Closing> loads_of(const std::vector<bool>& spread,
                              const std::vector<Level>& levels,
                              int most) {
  std::vector<Closing> loads;
  Closing load;
  const auto finish = [&] {
    if (glued_in(spread, load) > 0) {
      loads.push_back(std::exchange(load, {}));
    }
  };
  for (const Level& level : levels) {
    finish();
    for (const Closing& closing : level) {
      if (glued_in(spread, load) + glued_in(spread, closing) > most) {
        finish();
      }
      load.insert(load.end(), closing.begin(), closing.end());
    }
  }
  finish();
  if (!load.empty() && !loads.empty()) {
    loads.back().insert(loads.back().end(), load.begin(), load.end());
  }
  return loads;
}

std::vector<PartIndex> parts_of(const Piece& piece, const Closing& joints) {
  std::set<PartIndex> parts;
  for (const std::size_t joint : joints) {
    parts.insert({piece.joints[joint].a, piece.joints[joint].b});
  }
  return {parts.begin(), parts.end()};
}

struct Held {
  Bodies bodies;
  Closing joints;
};

/// Bodies that joints hold together, and the joints between them.
std::map<Body, Held> assemblies_of(const Piece& piece,
                                   const std::vector<bool>& left_out,
                                   const Labels& bodies) {
  Labels together = bodies;
  for (const Joint& joint : piece.joints) {
    if (takes_part(joint, left_out) && !makes_one_body(joint)) {
      together.join(bodies.of(joint.a), bodies.of(joint.b));
    }
  }
  std::map<Body, Held> found;
  for (std::size_t i = 0; i < piece.joints.size(); ++i) {
    const Joint& joint = piece.joints[i];
    const Body a = bodies.of(joint.a);
    const Body b = bodies.of(joint.b);
    if (takes_part(joint, left_out) && !makes_one_body(joint) && a != b) {
      Held& held = found[together.of(a)];
      held.bodies.insert({a, b});
      held.joints.push_back(i);
    }
  }
  return found;
}

}  // namespace

std::vector<GlueStage> glue_stages(const Piece& piece,
                                   const std::vector<bool>& left_out,
                                   int most_joints) {
  Labels bodies{piece.parts.size()};
  for (const Joint& joint : piece.joints) {
    if (makes_one_body(joint)) {
      bodies.join(joint.a, joint.b);
    }
  }
  const std::vector<bool> spread = spread_joints(piece, bodies);
  std::vector<GlueStage> stages;
  std::size_t number = 0;
  for (const auto& [first, held] : assemblies_of(piece, left_out, bodies)) {
    const Assembly assembly{piece, bodies};
    const std::vector<Closing> loads =
        loads_of(spread, assembly.levels(held.bodies, held.joints), most_joints);
    for (std::size_t i = 0; i < loads.size(); ++i) {
      stages.push_back({.joints = loads[i],
                        .parts = parts_of(piece, loads[i]),
                        .assembly = number,
                        .number = static_cast<int>(i + 1),
                        .of = static_cast<int>(loads.size()),
                        .glued = glued_in(spread, loads[i])});
    }
    ++number;
  }
  return stages;
}

}  // namespace plankwright::bench
