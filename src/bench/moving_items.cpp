#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include <fmt/format.h>

#include "bench/items.h"
#include "bench/staging.h"

namespace plankwright::bench {
namespace {

using measure::Axis;
using piece::Joint;
using piece::JointKind;
using piece::Part;

std::string kind_of(const Job& job, const piece::HardwareUse& use) {
  const shop::Hardware* fitting = job.shop.fitting(use.id);
  return fitting != nullptr ? fitting->kind : "";
}

bool has_fitting(const Job& job, const std::vector<PartIndex>& parts, std::string_view kind) {
  return std::ranges::any_of(job.piece.hardware, [&](const piece::HardwareUse& use) {
    return kind_of(job, use) == kind && std::ranges::any_of(parts, [&](PartIndex part) {
             return std::ranges::find(use.parts, part) != use.parts.end();
           });
  });
}

Item moving_item(const Job& job,
                 std::string subject,
                 std::string kind,
                 const std::vector<PartIndex>& parts) {
  Item item;
  item.subject = std::move(subject);
  item.kind = std::move(kind);
  item.parts = parts;
  item.waits_for = neighbours(job.piece, parts);
  for (const PartIndex part : parts) {
    item.mass += job.piece.parts[part].mass;
  }
  return item;
}

void add_doors(const Job& job, std::vector<Item>& items) {
  for (const piece::Door& door : job.piece.doors) {
    const bool hung = has_fitting(job, door.parts, "butt_hinge");
    const char* kind = hung                          ? "hung"
                       : job.piece.fixed_to_building ? "adjusted_on_site"
                                                     : "adjusted";
    items.push_back(moving_item(job, "door", kind, door.parts));
  }
}

void add_drawers(const Job& job, std::vector<Item>& items) {
  const std::vector<bool> boxes = box_parts(job.piece);
  for (const piece::Drawer& drawer : job.piece.drawers) {
    std::vector<PartIndex> box;
    std::vector<PartIndex> front;
    for (const PartIndex part : drawer.parts) {
      (boxes[part] ? box : front).push_back(part);
    }
    items.push_back(moving_item(
        job, "drawer", drawer.bought ? "bought" : "made", drawer.bought ? drawer.parts : box));
    if (!has_fitting(job, drawer.parts, "slide_pair")) {
      items.push_back(moving_item(job, "drawer", "on_runners", drawer.parts));
    }
    if (!front.empty()) {
      items.push_back(moving_item(job, "drawer", "front", front));
    }
  }
}

std::vector<PartIndex> around(const piece::Piece& piece, const measure::Box& opening) {
  std::vector<PartIndex> parts;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const measure::Box shared = measure::intersection(piece.parts[i].body, opening);
    int flat = 0;
    int wide = 0;
    for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
      flat += shared.size[axis] == Length{} ? 1 : 0;
      wide += shared.size[axis] > Length{} ? 1 : 0;
    }
    if (flat == 1 && wide == 2) {
      parts.push_back(i);
    }
  }
  return parts;
}

/// Each drawer of a bank has an opening of its own to be measured.
int drawers_in(const piece::Piece& piece, const measure::Box& opening) {
  return static_cast<int>(std::ranges::count_if(piece.drawers, [&](const piece::Drawer& drawer) {
    return !measure::intersection(drawer.inside, opening).empty();
  }));
}

void add_openings(const Job& job, std::vector<Item>& items) {
  for (const piece::Opening& opening : job.piece.openings) {
    Item item;
    item.subject = "opening";
    item.kind = opening.filled_with.empty() ? "open" : opening.filled_with;
    item.parts = around(job.piece, opening.box);
    item.count = std::max(1, drawers_in(job.piece, opening.box));
    items.push_back(std::move(item));
  }
}

void add_fittings(const Job& job, std::vector<Item>& items) {
  for (const piece::HardwareUse& use : job.piece.hardware) {
    const bool known = job.shop.fitting(use.id) != nullptr;
    Item item = moving_item(job, "fitting", known ? kind_of(job, use) : use.id, use.parts);
    if (use.parts.empty()) {
      item.parts = all_parts(job.piece);
    }
    item.count = use.count;
    item.label = known ? job.shop.fitting(use.id)->name : use.id;
    items.push_back(std::move(item));
  }
}

/// The piece as it is glued up: drawer boxes have their own standard and are left out, and the glue
/// of a back belongs to fitting it. A back in grooves still closes with the case; one that is set
/// in from behind comes later.
struct GluedUp {
  piece::Piece piece;
  std::vector<bool> left_out;
};

GluedUp glued_up(const piece::Piece& piece) {
  GluedUp glued{piece, box_parts(piece)};
  for (Joint& joint : glued.piece.joints) {
    if (piece.parts[joint.a].name.ends_with("back")) {
      joint.glued = false;
      glued.left_out[joint.a] = glued.left_out[joint.a] || joint.kind == JointKind::kRabbet;
    }
  }
  return glued;
}

/// What the paths of the parts begin with, in words: "case left door".
std::string unit_of(const piece::Piece& piece, const std::vector<PartIndex>& parts) {
  std::string common = piece.parts[parts.front()].path + ".";
  for (const PartIndex part : parts) {
    const std::string path = piece.parts[part].path + ".";
    const auto differs = std::ranges::mismatch(common, path).in1;
    common.erase(differs, common.end());
    common.erase(common.rfind('.') + 1);
  }
  std::ranges::replace_if(
      common, [](char c) { return c == '.' || c == '_'; }, ' ');
  while (common.ends_with(' ')) {
    common.pop_back();
  }
  return common.empty() ? "parts" : common;
}

void add_glue_stages(const Job& job, std::vector<Item>& items) {
  std::vector<bool> in_door(job.piece.parts.size(), false);
  for (const piece::Door& door : job.piece.doors) {
    for (const PartIndex part : door.parts) {
      in_door[part] = true;
    }
  }
  const int most = most_joints_a_stage(job);
  for (const GlueStage& stage : glue_up_of(job).stages) {
    const bool door = any_of(stage.parts, in_door);
    Item item = moving_item(job, "glue_stage", door ? "door" : "case", stage.parts);
    item.waits_for = door ? item.waits_for : std::vector<PartIndex>{};
    item.count = stage.glued;
    item.chain = chain_of(stage);
    item.sequence = stage.number;
    item.label = unit_of(job.piece, stage.parts);
    if (stage.of > 1) {
      item.label += fmt::format(", stage {} of {}", stage.number, stage.of);
    }
    const bool crowded = stage.glued > most || stage.glued > job.limits.joints_for_two;
    item.people = crowded ? 2 : 1;
    items.push_back(std::move(item));
  }
}

}  // namespace

std::string chain_of(const GlueStage& stage) {
  return fmt::format("assembly {}", stage.assembly);
}

measure::Minutes time_to_close(const Job& job) {
  constexpr double kTableCelsius = 20;
  const shop::Glue* glue = job.shop.glue(job.commission.glue);
  const wood::Adhesive* type = glue != nullptr ? job.shop.adhesives.get(glue->type) : nullptr;
  if (type == nullptr || !type->open) {
    return {};
  }
  measure::Minutes time = type->open->value;
  if (type->closed) {
    time += type->closed->value;
  }
  const double warmer = job.shop.climate.temperature.count() - kTableCelsius;
  const double halvings = std::max(0.0, warmer / job.limits.glue_halves.count());
  return time * (job.limits.share_of_open_time * std::exp2(-halvings));
}

int most_joints_a_stage(const Job& job) {
  const measure::Minutes time = time_to_close(job);
  if (time.count() <= 0 || job.minutes_a_joint.count() <= 0) {
    return std::numeric_limits<int>::max();
  }
  return std::max(1, static_cast<int>(time / job.minutes_a_joint));
}

GlueUp glue_up_of(const Job& job) {
  const GluedUp glued = glued_up(job.piece);
  StageRoom room{.most_joints = most_joints_a_stage(job),
                 .clamps = job.shop.clamps,
                 .spacing = job.limits.clamp_spacing};
  std::ranges::sort(room.clamps, {}, &shop::ClampSet::reach);
  return glue_up(glued.piece, glued.left_out, room);
}

void add_moving_items(const Job& job, std::vector<Item>& items) {
  add_openings(job, items);
  add_glue_stages(job, items);
  add_drawers(job, items);
  add_doors(job, items);
  add_fittings(job, items);
}

}  // namespace plankwright::bench
