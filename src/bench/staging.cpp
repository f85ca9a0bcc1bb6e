// Assembly by disassembly: a set of bodies can leave along a direction when every joint that holds
// it back has its way home along that direction and the right way round. The smallest such sets are
// closures in the "must move along" relation (Wilson 1992 calls it the directional blocking graph,
// from memory); with a few dozen bodies a plain fixed point finds them.

#include "bench/staging.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

#include "solve/staging.h"

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::Direction;
using measure::Length;
using piece::Joint;
using piece::JointKind;
using piece::PartIndex;
using piece::Piece;

constexpr std::int64_t kWork = 5'000'000;  // about a nanosecond each
constexpr std::int64_t kStates = 20'000;

using Body = std::size_t;  // index of the first part of what is already one piece of wood
using Bodies = std::set<Body>;

/// Joints that come together when one set of bodies goes home.
using Closing = std::vector<std::size_t>;

/// What closes, and what must be hard before what. `blocked` joints keep each other open.
struct Sequence {
  std::vector<Closing> closings;
  std::vector<solve::Before> before;
  std::vector<Closing> blocked;
};

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

/// Which bodies a body runs into when it is drawn out of the piece in a direction. Bodies that
/// stand in each other (halving joints, notches) are held by their joints alone.
class Ways {
 public:
  Ways(const Piece& piece, const Labels& bodies, const std::vector<bool>& left_out) {
    for (PartIndex i = 0; i < piece.parts.size(); ++i) {
      for (PartIndex j = 0; j < piece.parts.size(); ++j) {
        if (!left_out[i] && !left_out[j] && bodies.of(i) != bodies.of(j)) {
          add(piece.parts[i].body, piece.parts[j].body, bodies.of(i), bodies.of(j));
        }
      }
    }
  }

  const Bodies& hit(Body body, Direction way) const {
    static const Bodies kNone;
    const auto found = hits_[index(way)].find(body);
    return found == hits_[index(way)].end() ? kNone : found->second;
  }

 private:
  static std::size_t index(Direction way) {
    return static_cast<std::size_t>(way.axis) * 2 + (way.sign > 0 ? 1 : 0);
  }

  void add(const measure::Box& moves, const measure::Box& stands, Body a, Body b) {
    const measure::Box shared = measure::intersection(moves, stands);
    for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
      const bool in_line = std::ranges::all_of(
          std::array{Axis::kX, Axis::kY, Axis::kZ},
          [&](Axis other) { return other == axis || shared.size[other] > kScrape; });
      if (in_line && shared.size[axis] <= kScrape) {
        const int sign = stands.begin(axis) >= moves.begin(axis) ? 1 : -1;
        hits_[index({axis, sign})][a].insert(b);
      }
    }
  }

  static constexpr Length kScrape = Length::from_nm(500'000);
  std::array<std::map<Body, Bodies>, 6> hits_;
};

class Assembly {
 public:
  Assembly(const Piece& piece, const Labels& bodies, const Ways& ways)
      : piece_{piece}, bodies_{bodies}, ways_{ways} {}

  /// Adds the closings of a set, innermost first; returns which they are.
  std::vector<int> close(const Bodies& set, const Closing& joints, Sequence& sequence) const {
    if (joints.empty()) {
      return {};
    }
    const std::vector<Bodies> groups = split(set, joints);
    if (groups.size() < 2) {
      sequence.blocked.push_back(joints);
      sequence.closings.push_back(joints);
      return {static_cast<int>(sequence.closings.size()) - 1};
    }
    std::vector<int> all;
    for (const Bodies& group : groups) {
      for (const Bodies& held : held_together(group, inside(group, joints))) {
        const std::vector<int> inner = close(held, inside(held, joints), sequence);
        all.insert(all.end(), inner.begin(), inner.end());
      }
    }
    const std::size_t ready = all.size();
    for (Closing& closing : closings(groups, joints)) {
      const int number = static_cast<int>(sequence.closings.size());
      for (std::size_t i = 0; i < ready; ++i) {
        sequence.before.push_back({all[i], number});
      }
      sequence.closings.push_back(std::move(closing));
      all.push_back(number);
    }
    return all;
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
  Bodies leaving(Body body, Direction way, const Bodies& all, const Closing& joints) const {
    Bodies set = {body};
    const auto pulls = [&](std::size_t joint) {
      const Direction home = piece_.joints[joint].home;
      if (home.axis != way.axis) {
        return std::pair{true, true};
      }
      // `a` pulls out against its way home; `b` comes off along it.
      return std::pair{home.sign == way.sign, home.sign != way.sign};
    };
    for (std::size_t size = 0; size < set.size();) {
      grow(set, pulls, joints);
      size = set.size();
      push(set, way, all);
    }
    return set;
  }

  /// Adds what stands in the way of `set`.
  void push(Bodies& set, Direction way, const Bodies& all) const {
    std::vector<Body> open{set.begin(), set.end()};
    while (!open.empty()) {
      const Body body = open.back();
      open.pop_back();
      for (const Body hit : ways_.hit(body, way)) {
        if (all.contains(hit) && set.insert(hit).second) {
          open.push_back(hit);
        }
      }
    }
  }

  /// The smallest sets that leave along an axis, one way and the other, without emptying `set`: as
  /// many as there can be, so that rungs come off a spine and not the spine off its rungs.
  std::vector<Bodies> leaving_along(Axis axis, const Bodies& set, const Closing& joints) const {
    const std::vector<Bodies> low = smallest({axis, -1}, set, joints);
    const std::vector<Bodies> high = smallest({axis, 1}, set, joints);
    std::vector<Bodies> low_first = apart(low, high, set.size());
    std::vector<Bodies> high_first = apart(high, low, set.size());
    const bool more = closings(high_first, joints).size() > closings(low_first, joints).size();
    return more ? high_first : low_first;
  }

  static std::vector<Bodies> apart(const std::vector<Bodies>& first,
                                   const std::vector<Bodies>& second,
                                   std::size_t left) {
    std::vector<Bodies> taken;
    Bodies gone;
    for (const auto* way : {&first, &second}) {
      for (const Bodies& leaves : *way) {
        const bool alone = std::ranges::none_of(leaves, [&](Body x) { return gone.contains(x); });
        if (alone && leaves.size() < left) {
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
      const Bodies leaves = leaving(body, way, set, joints);
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
  std::vector<Closing> closings(const std::vector<Bodies>& groups, const Closing& joints) const {
    std::vector<Closing> level(groups.size());
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

  const Piece& piece_;
  const Labels& bodies_;
  const Ways& ways_;
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

/// Closings as tasks: what they take of a stage's joints and of its clamps.
solve::StagingJob job_of(const Piece& piece,
                         const std::vector<bool>& spread,
                         const Sequence& sequence,
                         const StageRoom& room) {
  solve::StagingJob job;
  job.stage_time = std::max(1, room.most_joints);
  for (std::size_t r = 0; r < room.clamps.size(); ++r) {
    job.resources.push_back(clamps_from(room.clamps, r));
  }
  for (const Closing& closing : sequence.closings) {
    solve::StagingTask task;
    // What only closes as a whole fills a stage, however long it takes; the card says so.
    task.time = std::min<std::int64_t>(job.stage_time, glued_in(spread, closing));
    task.uses = clamps_used(clamp_lines(piece, closing, room), room);
    for (std::size_t r = 0; r < task.uses.size(); ++r) {
      task.uses[r] = std::min(task.uses[r], job.resources[r]);
    }
    job.tasks.push_back(std::move(task));
  }
  // Loose joints need no glue to harden; they close with the glued ones beside them.
  for (const solve::Before& pair : sequence.before) {
    const bool hard = job.tasks[static_cast<std::size_t>(pair.first)].time > 0 &&
                      job.tasks[static_cast<std::size_t>(pair.second)].time > 0;
    (hard ? job.stage_before : job.before).push_back(pair);
  }
  return job;
}

struct Loads {
  std::vector<Closing> loads;
  int bound = 0;
};

Loads loads_of(const Piece& piece,
               const std::vector<bool>& spread,
               const Sequence& sequence,
               const StageRoom& room) {
  const solve::StagingJob job = job_of(piece, spread, sequence, room);
  const bool glued = std::ranges::any_of(job.tasks, [](const auto& task) { return task.time > 0; });
  const auto answer = solve::solve_staging(job, {.work = kWork, .states = kStates});
  if (!glued || !answer.ok()) {
    return {};  // a job without an obstacle has an answer: nothing is spread
  }
  Loads found;
  found.bound = answer.value().bound;
  found.loads.resize(static_cast<std::size_t>(answer.value().stages));
  for (std::size_t i = 0; i < sequence.closings.size(); ++i) {
    Closing& load = found.loads[static_cast<std::size_t>(answer.value().stage_of[i])];
    load.insert(load.end(), sequence.closings[i].begin(), sequence.closings[i].end());
  }
  return found;
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

GlueUp glue_up(const Piece& piece, const std::vector<bool>& left_out, const StageRoom& room) {
  Labels bodies{piece.parts.size()};
  for (const Joint& joint : piece.joints) {
    if (makes_one_body(joint)) {
      bodies.join(joint.a, joint.b);
    }
  }
  const std::vector<bool> spread = spread_joints(piece, bodies);
  const Ways ways{piece, bodies, left_out};
  const Assembly assembly{piece, bodies, ways};
  GlueUp glued;
  std::size_t number = 0;
  for (const auto& [first, held] : assemblies_of(piece, left_out, bodies)) {
    Sequence sequence;
    assembly.close(held.bodies, held.joints, sequence);
    const Loads loads = loads_of(piece, spread, sequence, room);
    glued.bound += loads.bound;
    glued.blocked.insert(glued.blocked.end(), sequence.blocked.begin(), sequence.blocked.end());
    for (std::size_t i = 0; i < loads.loads.size(); ++i) {
      glued.stages.push_back({.joints = loads.loads[i],
                              .parts = parts_of(piece, loads.loads[i]),
                              .assembly = number,
                              .number = static_cast<int>(i + 1),
                              .of = static_cast<int>(loads.loads.size()),
                              .glued = glued_in(spread, loads.loads[i]),
                              .clamps = clamp_lines(piece, loads.loads[i], room)});
    }
    ++number;
  }
  return glued;
}

}  // namespace plankwright::bench
