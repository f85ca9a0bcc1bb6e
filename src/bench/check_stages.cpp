// Plain matrices and loops over them, so that this can be believed without believing the planner.

#include "bench/check_stages.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::Direction;
using piece::Joint;
using piece::JointKind;
using piece::PartIndex;
using piece::Piece;

constexpr std::array<Axis, 3> kAxes = {Axis::kX, Axis::kY, Axis::kZ};
constexpr auto kScrape = measure::Length::from_nm(500'000);

/// What still holds, while a piece is being taken apart.
class Standing {
 public:
  Standing(const Piece& piece, const std::vector<bool>& left_out)
      : piece_{piece}, left_out_{left_out}, closed_(piece.joints.size(), false) {
    for (std::size_t i = 0; i < piece.joints.size(); ++i) {
      const Joint& joint = piece.joints[i];
      solid_.push_back(joint.kind == JointKind::kEdgeGlue || joint.kind == JointKind::kFaceGlue);
      if (solid_[i]) {
        closed_[i] = true;
      }
    }
  }

  bool is_staged(std::size_t joint) const {
    const Joint& it = piece_.joints[joint];
    return !solid_[joint] && !it.undone && it.count > 0 && it.kind != JointKind::kScrew &&
           it.kind != JointKind::kStands && !left_out_[it.a] && !left_out_[it.b];
  }
  void close(std::size_t joint) { closed_[joint] = true; }

  /// Opens the joints of one stage; those that no move opens are returned.
  std::vector<std::size_t> open(const GlueStage& stage) {
    std::vector<bool> wet(piece_.joints.size(), false);
    for (const std::size_t joint : stage.joints) {
      wet[joint] = true;
    }
    while (open_some(stage, wet)) {
    }
    std::vector<std::size_t> stuck;
    std::ranges::copy_if(
        stage.joints, std::back_inserter(stuck), [&](std::size_t joint) { return closed_[joint]; });
    return stuck;
  }

 private:
  /// Draws out one part with all that must come along; true when that opens a joint of the stage.
  bool open_some(const GlueStage& stage, const std::vector<bool>& wet) {
    for (const PartIndex part : stage.parts) {
      for (const Axis axis : kAxes) {
        for (const int sign : {-1, 1}) {
          if (open_between(moving(part, {axis, sign}, wet), wet)) {
            return true;
          }
        }
      }
    }
    return false;
  }

  bool open_between(const std::vector<bool>& moves, const std::vector<bool>& wet) {
    bool opened = false;
    for (std::size_t i = 0; i < closed_.size(); ++i) {
      const Joint& joint = piece_.joints[i];
      if (closed_[i] && wet[i] && moves[joint.a] != moves[joint.b]) {
        closed_[i] = false;
        opened = true;
      }
    }
    return opened;
  }

  std::vector<bool> moving(PartIndex start, Direction way, const std::vector<bool>& wet) const {
    const std::vector<bool> held = together(start);
    std::vector<bool> moves(piece_.parts.size(), false);
    moves[start] = true;
    for (bool more = true; more;) {
      more = false;
      for (std::size_t i = 0; i < closed_.size(); ++i) {
        const Joint& joint = piece_.joints[i];
        if (closed_[i] && moves[joint.a] != moves[joint.b] &&
            holds(joint, moves[joint.a], way, wet[i])) {
          moves[joint.a] = moves[joint.b] = more = true;
        }
      }
      for (PartIndex i = 0; i < moves.size(); ++i) {
        for (PartIndex j = 0; moves[i] && j < moves.size(); ++j) {
          if (!moves[j] && held[j] && runs_into(i, j, way)) {
            moves[j] = more = true;
          }
        }
      }
    }
    return moves;
  }

  /// A hard joint holds every way, a wet one every way but back out.
  static bool holds(const Joint& joint, bool a_moves, Direction way, bool wet) {
    const int out = a_moves ? -joint.home.sign : joint.home.sign;
    return !wet || joint.home.axis != way.axis || way.sign != out;
  }

  std::vector<bool> together(PartIndex start) const {
    std::vector<bool> held(piece_.parts.size(), false);
    held[start] = true;
    for (bool more = true; more;) {
      more = false;
      for (std::size_t i = 0; i < closed_.size(); ++i) {
        const Joint& joint = piece_.joints[i];
        if (closed_[i] && held[joint.a] != held[joint.b]) {
          held[joint.a] = held[joint.b] = more = true;
        }
      }
    }
    return held;
  }

  bool runs_into(PartIndex moves, PartIndex stands, Direction way) const {
    const measure::Box& a = piece_.parts[moves].body;
    const measure::Box& b = piece_.parts[stands].body;
    const measure::Box shared = measure::intersection(a, b);
    if (shared.size[way.axis] > kScrape) {
      return false;  // beside each other, or let into each other: their joints say what holds
    }
    const bool ahead = (way.sign > 0) == (b.begin(way.axis) >= a.begin(way.axis));
    return ahead && std::ranges::all_of(kAxes, [&](Axis axis) {
             return axis == way.axis || shared.size[axis] > kScrape;
           });
  }

  const Piece& piece_;
  const std::vector<bool>& left_out_;
  std::vector<bool> closed_;
  std::vector<bool> solid_;
};

std::string name_of(const Piece& piece, std::size_t joint) {
  const Joint& it = piece.joints[joint];
  return fmt::format(
      "{} of {} in {}", piece::word(it.kind), piece.parts[it.a].path, piece.parts[it.b].path);
}

}  // namespace

std::vector<std::string> check_stages(const Piece& piece,
                                      const std::vector<bool>& left_out,
                                      const std::vector<GlueStage>& stages) {
  std::vector<std::string> faults;
  std::vector<int> times(piece.joints.size(), 0);
  Standing standing{piece, left_out};
  for (const GlueStage& stage : stages) {
    for (const std::size_t joint : stage.joints) {
      ++times[joint];
      standing.close(joint);
    }
  }
  for (std::size_t i = 0; i < times.size(); ++i) {
    if (times[i] > 1 || (times[i] == 1 && !standing.is_staged(i))) {
      faults.push_back(fmt::format("{} closes {} times", name_of(piece, i), times[i]));
    }
  }
  for (std::size_t i = stages.size(); i-- > 0;) {
    for (const std::size_t joint : standing.open(stages[i])) {
      faults.push_back(fmt::format(
          "stage {}: {} cannot be taken apart", stages[i].number, name_of(piece, joint)));
    }
  }
  return faults;
}

}  // namespace plankwright::bench
