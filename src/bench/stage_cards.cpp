#include "bench/stage_cards.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "bench/items.h"
#include "bench/stage_card_of.h"
#include "bench/surfaces.h"

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::Minutes;
using piece::Joint;

/// What receives stands there before what goes into it.
std::vector<PartIndex> in_order(const piece::Piece& piece, const GlueStage& stage) {
  std::vector<PartIndex> order;
  for (const std::size_t joint : stage.joints) {
    for (const PartIndex part : {piece.joints[joint].b, piece.joints[joint].a}) {
      if (std::ranges::find(order, part) == order.end()) {
        order.push_back(part);
      }
    }
  }
  return order;
}

measure::Box hull_of(const piece::Piece& piece, const std::vector<PartIndex>& parts) {
  measure::Box box = piece.parts[parts.front()].body;
  for (const PartIndex part : parts) {
    box = measure::hull(box, piece.parts[part].body);
  }
  return box;
}

/// Across the largest side of the box around the parts.
Length diagonal_of(const piece::Piece& piece, const GlueStage& stage) {
  if (stage.parts.size() < 3) {
    return {};
  }
  const measure::Box box = hull_of(piece, stage.parts);
  std::array<double, 3> sides = {box.size.x.mm(), box.size.y.mm(), box.size.z.mm()};
  std::ranges::sort(sides);
  return Length::from_mm(std::hypot(sides[1], sides[2]));
}

Length smallest_side(const measure::Box& box) {
  return std::min({box.size.x, box.size.y, box.size.z});
}

bool is_flat(const piece::Piece& piece, const std::vector<PartIndex>& parts) {
  Length thickest;
  for (const PartIndex part : parts) {
    thickest = std::max(thickest, smallest_side(piece.parts[part].body));
  }
  return !parts.empty() && smallest_side(hull_of(piece, parts)) <= thickest;
}

void warn_of_time(const StageCard& card, std::vector<std::string>& warnings) {
  if (card.has.count() > 0 && card.takes > card.has) {
    warnings.push_back(fmt::format(
        "{} joints take {:.0f} min with {} and the glue gives {:.0f} min. What helps: a slower "
        "glue, {} more hands, or a joint that is screwed or left loose.",
        card.glued,
        card.takes.count(),
        card.people == 1 ? "one person" : fmt::format("{} people", card.people),
        card.has.count(),
        static_cast<int>(std::ceil(card.takes / card.has * card.people)) - card.people));
  }
}

void warn_of_clamps(const Job& job, const StageCard& card, std::vector<std::string>& warnings) {
  StageRoom room;
  room.clamps = job.shop.clamps;
  room.spacing = job.limits.clamp_spacing;
  std::ranges::sort(room.clamps, {}, &shop::ClampSet::reach);
  const auto print = [&](Length length) {
    return measure::print(length, job.commission.unit()) +
           (job.commission.unit() == measure::LengthUnit::kInch ? " in" : " mm");
  };
  for (const ClampLine& line : card.clamps) {
    if (!room.clamps.empty() && line.reach <= Length{}) {
      warnings.push_back(fmt::format("No clamp reaches {} over {}: join two, or use a band.",
                                     print(line.span),
                                     job.piece.parts[line.part].name));
    }
  }
  const std::vector<std::int64_t> uses = clamps_used(card.clamps, room);
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const std::int64_t there = clamps_from(room.clamps, i);
    if (uses[i] > there) {
      warnings.push_back(fmt::format("Asks for {} clamps of {} or more; the shop has {}.",
                                     uses[i],
                                     print(room.clamps[i].reach),
                                     there));
    }
  }
}

int cauls_of(const std::vector<ClampLine>& lines) {
  return 2 * static_cast<int>(std::ranges::count_if(
                 lines, [](const ClampLine& line) { return line.count > 1; }));
}

void set_times(const Job& job, StageCard& card) {
  card.takes = job.minutes_a_joint * (static_cast<double>(card.glued) / card.people);
  card.spread = card.takes * job.limits.spreading_share;
  card.assemble = card.takes * job.limits.assembling_share;
  card.square = card.takes - card.spread - card.assemble;
  card.has = time_to_close(job);
  const shop::Glue* glue = job.shop.glue(job.commission.glue);
  const wood::Adhesive* type = glue != nullptr ? job.shop.adhesives.get(glue->type) : nullptr;
  if (type != nullptr && type->clamp) {
    card.clamps_off = type->clamp->value;
    card.worked = type->cure ? type->cure->value : type->clamp->value;
  }
}

}  // namespace

StageCard stage_card_of(const Job& job, const GlueStage& stage, const Item& item) {
  StageCard card;
  card.name = item.label;
  card.parts = in_order(job.piece, stage);
  card.joints = stage.joints;
  card.glued = stage.glued;
  card.people = item.people;
  card.clamps = stage.clamps;
  place_clamps(job.piece, stage.joints, card.clamps);
  card.flat = is_flat(job.piece, card.parts);
  card.cauls = cauls_of(stage.clamps);
  card.diagonal = diagonal_of(job.piece, stage);
  set_times(job, card);
  const std::vector<Surface> surfaces = surfaces_of(job.piece);
  std::ranges::copy_if(card.parts, std::back_inserter(card.reach), [&](PartIndex part) {
    return surfaces[part].inside.count() > 0;
  });
  warn_of_time(card, card.warnings);
  warn_of_clamps(job, card, card.warnings);
  return card;
}

std::string describe_blocked(const piece::Piece& piece, const std::vector<std::size_t>& joints) {
  constexpr std::size_t kMost = 6;
  std::string text = "cannot be assembled: ";
  for (std::size_t i = 0; i < std::min(kMost, joints.size()); ++i) {
    const Joint& joint = piece.joints[joints[i]];
    text += fmt::format("{}{} of `{}` in `{}`",
                        i == 0 ? "" : ", ",
                        piece::word(joint.kind),
                        piece.parts[joint.a].path,
                        piece.parts[joint.b].path);
  }
  if (joints.size() > kMost) {
    text += fmt::format(" and {} more", joints.size() - kMost);
  }
  return text +
         " keep each other from closing. What helps: let one of them in from another side, make it "
         "of two parts, or screw it.";
}

}  // namespace plankwright::bench
