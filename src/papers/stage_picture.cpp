#include "papers/stage_picture.h"

#include <algorithm>
#include <map>

#include "piece/pull_apart.h"

namespace plankwright::papers {
namespace {

using measure::Length;

constexpr double kStep = 0.16;  // of the longest side, between parts pulled apart

/// The parts of a stage alone, tied by the joints that it closes.
piece::Piece stage_alone(const piece::Piece& whole, const bench::StageCard& card) {
  piece::Piece alone;
  std::map<piece::PartIndex, piece::PartIndex> place;
  for (const piece::PartIndex part : card.parts) {
    place[part] = alone.parts.size();
    alone.parts.push_back(whole.parts[part]);
  }
  for (const std::size_t i : card.joints) {
    piece::Joint joint = whole.joints[i];
    joint.a = place[joint.a];
    joint.b = place[joint.b];
    alone.joints.push_back(joint);
  }
  return alone;
}

double longest_side(const std::vector<piece::Part>& parts) {
  measure::Box hull = parts.front().body;
  for (const piece::Part& part : parts) {
    hull = measure::hull(hull, part.body);
  }
  return std::max({hull.size.x.mm(), hull.size.y.mm(), hull.size.z.mm()});
}

}  // namespace

std::vector<measure::Point> pulled_out(const piece::Piece& piece, const bench::StageCard& card) {
  std::vector<measure::Point> moves;
  if (card.parts.empty()) {
    return moves;
  }
  const piece::Piece alone = stage_alone(piece, card);
  const double step = kStep * longest_side(alone.parts);
  for (const piece::PulledOut& out : piece::pull_apart(alone)) {
    moves.push_back({Length::from_mm(out.x * step),
                     Length::from_mm(out.y * step),
                     Length::from_mm(out.z * step)});
  }
  return moves;
}

}  // namespace plankwright::papers
