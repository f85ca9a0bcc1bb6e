#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "bench/items.h"
#include "bench/surfaces.h"
#include "measure/expression.h"

namespace plankwright::bench {
namespace {

using piece::Joint;
using piece::JointKind;
using piece::Part;

Item part_item(PartIndex part, std::string kind) {
  Item item;
  item.subject = "part";
  item.kind = std::move(kind);
  item.parts = {part};
  return item;
}

/// Boards the part is milled from. Short parts are cut from a shared blank, long enough to be
/// milled safely and twice that where they fit.
double blanks_of(const Part& part, const Limits& limits) {
  const double boards = part.strips * part.layers;
  if (part.rough.length >= limits.short_part || part.rough.length <= Length{}) {
    return boards;
  }
  return boards / std::floor(2 * limits.short_part.mm() / part.rough.length.mm());
}

Item solid_item(const Job& job, PartIndex index) {
  const Part& part = job.piece.parts[index];
  Item item = part_item(index, "solid");
  item.blanks = blanks_of(part, job.limits);
  item.feet = part.rough.length.feet() * part.strips * part.layers;
  item.mass = part.mass;
  return item;
}

/// Glue lines, in stages of as many as are pressed together.
class GlueLines {
 public:
  GlueLines(const Job& job, std::vector<Item>& items) : job_{job}, items_{items} {}

  void add(PartIndex index) {
    const Part& part = job_.piece.parts[index];
    for (int i = 0; i < (part.strips - 1) * part.layers; ++i) {
      add_line(index, "edge", edges_++);
    }
    for (int i = 1; i < part.layers; ++i) {
      add_line(index, "face", faces_++);
    }
  }

 private:
  void add_line(PartIndex index, std::string kind, int before) {
    Item item = part_item(index, std::move(kind));
    item.subject = "glue_line";
    item.chain = item.kind + " glue lines";
    item.sequence = before / std::max(1, job_.limits.glue_lines_a_stage) + 1;
    item.mass = job_.piece.parts[index].mass;
    items_.push_back(std::move(item));
  }

  const Job& job_;
  std::vector<Item>& items_;
  int edges_ = 0;
  int faces_ = 0;
};

bool is_wider_than_planer(const Job& job, const Part& part) {
  const shop::Machine* planer = job.shop.machine("planer");
  return part.strips > 1 && planer != nullptr && planer->widest && part.cut.width > *planer->widest;
}

void add_panel_items(const Job& job, PartIndex index, std::vector<Item>& items) {
  const Part& part = job.piece.parts[index];
  if (is_wider_than_planer(job, part)) {
    Item item = part_item(index, "wide");
    item.square_feet = measure::square_feet(measure::area(part.cut.length, part.cut.width));
    item.mass = part.mass;
    items.push_back(std::move(item));
  }
}

void add_taper_item(const Job& job, PartIndex index, std::vector<Item>& items) {
  const Part& part = job.piece.parts[index];
  if (part.tapers.empty()) {
    return;
  }
  Item item = part_item(index, "tapered");
  item.count = static_cast<double>(part.tapers.size());
  item.label = fmt::format(
      "taper to {}", measure::print_with_unit(part.tapers.front().to_size, job.commission.unit()));
  items.push_back(std::move(item));
}

/// Arches of one shape share a template.
class Arches {
 public:
  Arches(const Job& job, std::vector<Item>& items) : job_{job}, items_{items} {}

  void add(PartIndex index) {
    const Part& part = job_.piece.parts[index];
    if (!part.arch) {
      return;
    }
    Item item = part_item(index, part.arch->bent ? "bent_arch" : "sawn_arch");
    item.label = fmt::format("arch of {} over {}", shown(part.arch->rise), shown(part.arch->span));
    const double plies = part.arch->bent ? job_.limits.bent_plies : 1;
    item.feet = plies * (part.arch->bent ? part.rough.length : part.arch->span).feet();
    items_.push_back(item);
    if (!part.arch->bent && shapes_.insert(item.label).second) {
      item.subject = "shape";
      items_.push_back(std::move(item));
    }
  }

 private:
  std::string shown(Length length) const {
    return measure::print_with_unit(length, job_.commission.unit());
  }

  const Job& job_;
  std::vector<Item>& items_;
  std::set<std::string> shapes_;
};

/// Board that comes finished is not sanded.
bool comes_finished(const Job& job, const Part& part) {
  const shop::Finish* finish = job.shop.finish(job.commission.finish);
  return part.material == piece::Material::kSheet && finish != nullptr &&
         finish->applied == "touch_up";
}

void add_surface_items(const Job& job,
                       PartIndex index,
                       const Surface& surface,
                       std::vector<Item>& items) {
  if (comes_finished(job, job.piece.parts[index])) {
    return;
  }
  for (const auto& [kind, area] :
       {std::pair{"inside", surface.inside}, {"outside", surface.outside}}) {
    if (area.count() > 0) {
      Item item = part_item(index, kind);
      item.square_feet = measure::square_feet(area);
      items.push_back(std::move(item));
    }
  }
}

void add_site_items(const Job& job, PartIndex index, std::vector<Item>& items) {
  const Part& part = job.piece.parts[index];
  if (part.site_width <= Length{} && part.site_length <= Length{}) {
    return;
  }
  const bool scribed = part.site_width > Length{};
  Item item = part_item(index, scribed ? "scribed" : "trimmed");
  item.feet = (scribed ? part.finished.length : part.finished.width).feet();
  items.push_back(std::move(item));
}

bool is_back(const Part& part) {
  return part.name.ends_with("back") && part.thickness_axis == measure::Axis::kY;
}

void add_band_items(const Job& job, PartIndex index, std::vector<Item>& items) {
  const Part& part = job.piece.parts[index];
  for (const piece::EdgeBand& band : part.bands) {
    Item item = part_item(index, "edge");
    item.subject = "band";
    const bool along = band.side.axis != part.length_axis;
    item.feet = (along ? part.finished.length : part.finished.width).feet();
    const shop::BandStock* stock = job.shop.band(band.stock);
    item.label = stock != nullptr ? stock->name : band.stock;
    items.push_back(std::move(item));
  }
}

/// Solid strips glued along the edges of boards, once each, however many boards they run over.
void add_strip_items(const Job& job, std::vector<Item>& items) {
  std::set<PartIndex> seen;
  for (const Joint& joint : job.piece.joints) {
    const Part& strip = job.piece.parts[joint.a];
    const bool glued_on =
        joint.kind == JointKind::kEdgeGlue && strip.material == piece::Material::kSolid;
    if (glued_on && seen.insert(joint.a).second) {
      Item item = part_item(joint.a, "strip");
      item.feet = strip.finished.length.feet();
      items.push_back(std::move(item));
    }
  }
}

bool is_button(const piece::Piece& piece, PartIndex part) {
  return std::ranges::any_of(piece.joints, [&](const Joint& joint) {
    return joint.kind == JointKind::kButton && joint.a == part;
  });
}

/// Parts that are screwed or bolted on, once each; backs and buttons are fitted apart, and what is
/// joined on site is counted by the load.
void add_screwed_items(const Job& job, std::vector<Item>& items) {
  const std::vector<bool> boxes = box_parts(job.piece);
  std::set<PartIndex> seen;
  for (const Joint& joint : job.piece.joints) {
    const bool screwed = joint.kind == JointKind::kScrew || joint.kind == JointKind::kBolt ||
                         joint.kind == JointKind::kConnector;
    const bool on_site = joint.undone && job.piece.fixed_to_building;
    if (!screwed || on_site || joint.count <= 0 || is_back(job.piece.parts[joint.a]) ||
        is_button(job.piece, joint.a) || any_of({joint.a, joint.b}, boxes) ||
        !seen.insert(joint.a).second) {
      continue;
    }
    Item item = part_item(joint.a, "screwed");
    item.waits_for = {joint.b};
    items.push_back(std::move(item));
  }
}

}  // namespace

void add_part_items(const Job& job, std::vector<Item>& items) {
  const std::vector<bool> boxes = box_parts(job.piece);
  const std::vector<Surface> surfaces = surfaces_of(job.piece);
  GlueLines lines{job, items};
  Arches arches{job, items};
  for (PartIndex i = 0; i < job.piece.parts.size(); ++i) {
    const Part& part = job.piece.parts[i];
    const bool bar = job.shop.bar(part.stock) != nullptr;
    if (boxes[i] || (part.material == piece::Material::kBoughtIn && !bar)) {
      continue;
    }
    if (part.material == piece::Material::kSolid && !bar) {
      items.push_back(solid_item(job, i));
      lines.add(i);
      add_panel_items(job, i, items);
    } else {
      items.push_back(part_item(i, bar ? "bar" : "sheet"));
      items.back().mass = part.mass;
    }
    add_band_items(job, i, items);
    add_taper_item(job, i, items);
    arches.add(i);
    add_surface_items(job, i, surfaces[i], items);
    add_site_items(job, i, items);
    if (is_back(part)) {
      items.push_back(part_item(i, "back"));
      items.back().waits_for = neighbours(job.piece, {i});
    }
  }
  add_strip_items(job, items);
  add_screwed_items(job, items);
}

}  // namespace plankwright::bench
