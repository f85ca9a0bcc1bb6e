#include "piece/kits/board.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/nearest.h"
#include "measure/expression.h"

namespace plankwright::piece {
namespace {

constexpr Length kHair = Length::from_nm(1'000);
constexpr std::array kAxes = {Axis::kX, Axis::kY, Axis::kZ};

const Box& body(const KitCall& call, PartIndex part) {
  return call.shop.piece.parts[part].body;
}

std::vector<PartIndex> parts_of(const Board& board) {
  std::vector<PartIndex> parts = {board.core};
  if (board.lipping) {
    parts.push_back(*board.lipping);
  }
  return parts;
}

/// The longer side of the face on which two bodies meet.
Length run_of_contact(const KitCall& call, PartIndex a, PartIndex b) {
  const Box where = measure::intersection(body(call, a), body(call, b));
  return std::max({where.size.x, where.size.y, where.size.z});
}

void fix_parts(const KitCall& call,
               const Fixing& fixing,
               JointKind kind,
               PartIndex a,
               PartIndex b,
               Direction home) {
  if (lets_in(kind)) {
    add_joint(call, kind, a, b, home, fixing.depth);
    return;
  }
  const int count = fixings_along(run_of_contact(call, a, b), fixing.spacing);
  Joint& joint = add_joint(call, kind, a, b, home, {}, count);
  if (kind == JointKind::kScrew && !fixing.screw.empty()) {
    joint.hardware = fixing.screw;
    add_hardware(
        call, fixing.screw, count, call.shop.piece.parts[a].name + " ends", {a, b}, "screw");
  }
}

/// The strip in front of a core, as long and as thick as it.
PartIndex add_lipping(const KitCall& call,
                      const NewPart& part,
                      const FrontEdge& edge,
                      PartIndex core) {
  const document::Fields lipping = call.fields.map("lipping");
  NewPart strip = part;
  strip.name += " lipping";
  strip.path += "_lipping";
  strip.stock = edge.lipping;
  strip.body.size.y = edge.lipping_thickness;
  strip.thickness = Axis::kY;
  strip.hand = Hand::kNone;
  const PartIndex index = add_part({lipping, call.space, call.shop}, strip);
  add_joint(call, JointKind::kEdgeGlue, index, core, kToBack);
  return index;
}

}  // namespace

bool same_place(Length a, Length b) {
  return a - b <= kHair && b - a <= kHair;
}

std::string unit_name(const Space& space) {
  return space.name.substr(0, space.name.find('.'));
}

std::string named_after_unit(const Space& space, std::string_view name) {
  const std::string unit = unit_name(space);
  return unit.empty() ? std::string{name} : fmt::format("{} {}", unit, name);
}

bool is_sheet(const KitCall& call, std::string_view stock) {
  return call.shop.shop.sheet(stock) != nullptr;
}

Length board_thickness(const KitCall& call, std::string_view stock, std::string_view key) {
  const std::optional<Length> written = call.fields.optional_length(key);
  if (written && !is_sheet(call, stock)) {
    return *written;
  }
  const shop::SolidStock* solid = call.shop.shop.solid(stock);
  const shop::BarStock* bar = call.shop.shop.bar(stock);
  return stock_thickness(call,
                         stock,
                         solid != nullptr ? solid->surfaced_thickness
                         : bar != nullptr ? bar->thickness
                                          : Length{});
}

int fixings_along(Length run, Length spacing) {
  constexpr int kLeast = 2;
  constexpr int kMost = 1'000;  // a spacing far too small must not count for ever
  if (spacing <= Length{} || run <= Length{}) {
    return kLeast;
  }
  const auto count = (run.nm() + spacing.nm() - 1) / spacing.nm();
  return static_cast<int>(std::clamp<std::int64_t>(count, kLeast, kMost));
}

bool touch(const KitCall& call, PartIndex a, PartIndex b, Axis axis) {
  const Box where = measure::intersection(body(call, a), body(call, b));
  return std::ranges::all_of(kAxes, [&](Axis other) {
    return other == axis ? same_place(where.size[other], Length{}) : where.size[other] > kHair;
  });
}

std::vector<PartIndex> touching(const KitCall& call, PartIndex part, Direction side) {
  const auto face = [&](PartIndex index, bool far) {
    return far ? body(call, index).end(side.axis) : body(call, index).begin(side.axis);
  };
  std::vector<PartIndex> found;
  for (PartIndex other = 0; other < call.shop.piece.parts.size(); ++other) {
    const bool beside = same_place(face(part, side.sign > 0), face(other, side.sign < 0));
    if (other != part && beside && touch(call, part, other, side.axis)) {
      found.push_back(other);
    }
  }
  return found;
}

FrontEdge read_band(const KitCall& call) {
  const std::string id = call.fields.identifier("band");
  const shop::BandStock* band = call.shop.shop.band(id);
  if (band != nullptr) {
    return {.band = id, .band_thickness = band->thickness, .lipping = {}, .lipping_thickness = {}};
  }
  if (!id.empty()) {
    std::vector<std::string> known;
    for (const shop::BandStock& stock : call.shop.shop.bands) {
      known.push_back(stock.id);
    }
    call.fields.complain("band",
                         fmt::format("`{}` is not an edge band of the shop", id),
                         base::nearest_word(id, std::span<const std::string>{known}));
  }
  return {};
}

FrontEdge read_front_edge(const KitCall& call) {
  FrontEdge edge = read_band(call);
  if (call.fields.has("lipping")) {
    const document::Fields lipping = call.fields.map("lipping");
    edge.lipping = lipping.identifier("stock");
    edge.lipping_thickness = lipping.length("thickness");
    edge.band.clear();
  }
  return edge;
}

Board add_board(const KitCall& call,
                const NewPart& part,
                const FrontEdge& edge,
                std::string_view field) {
  const bool sheet = is_sheet(call, part.stock);
  const bool lipped = sheet && !edge.lipping.empty() && edge.lipping_thickness > Length{};
  NewPart core = part;
  if (lipped) {
    core.body.at.y += edge.lipping_thickness;
    core.body.size.y -= edge.lipping_thickness;
  }
  Board board{.core = add_part(call, core, field), .lipping = std::nullopt};
  if (lipped) {
    board.lipping = add_lipping(call, part, edge, board.core);
  } else if (sheet && !edge.band.empty()) {
    call.shop.piece.parts[board.core].bands.push_back({kToFront, edge.band, edge.band_thickness});
  }
  return board;
}

Fixing read_fixing(const KitCall& call, Length into) {
  const std::string way = call.fields.word("joint");
  Fixing fixing;
  if (way == "dowelled" || way == "screwed") {
    fixing.corner = way == "dowelled" ? JointKind::kDowel : JointKind::kScrew;
    fixing.middle = fixing.corner;
  } else {
    fixing.corner = way == "rabbeted" ? JointKind::kRabbet : JointKind::kHousing;
    fixing.depth = call.fields.optional_length("joint_depth").value_or(into / 3);
  }
  fixing.spacing = call.fields.length("spacing");
  fixing.screw = call.fields.identifier("screw");
  return fixing;
}

void fix(const KitCall& call,
         const Fixing& fixing,
         JointKind kind,
         const Board& a,
         const Board& b,
         Direction home) {
  for (const PartIndex from : parts_of(a)) {
    for (const PartIndex into : parts_of(b)) {
      if (!touch(call, from, into, home.axis)) {
        continue;
      }
      const bool strip = from != a.core || into != b.core;
      if (strip && !lets_in(kind)) {  // too thin for a dowel or a screw
        add_joint(call, JointKind::kEdgeGlue, from, into, home);
      } else {
        fix_parts(call, fixing, kind, from, into, home);
      }
    }
  }
}

std::vector<PartIndex> add_run(const KitCall& call, NewPart part, int pieces) {
  std::vector<PartIndex> run;
  const Box whole = part.body;
  const std::string path = part.path;
  for (int piece = 0; piece < pieces; ++piece) {
    const Length end = whole.at.x + whole.size.x * (piece + 1) / pieces;
    part.path = pieces > 1 ? fmt::format("{}_{}", path, piece + 1) : path;
    part.body.size.x = end - part.body.at.x;
    run.push_back(add_part(call, part));
    if (piece > 0) {
      let_meet(call, run[run.size() - 2], run.back(), kToRight);
    }
    part.body.at.x = end;
  }
  return run;
}

void let_meet(const KitCall& call, PartIndex a, PartIndex b, Direction home) {
  add_joint(call, JointKind::kStands, a, b, home);
}

void let_meet_neighbours(const KitCall& call,
                         PartIndex part,
                         std::initializer_list<Direction> sides) {
  for (const Direction side : sides) {
    for (const PartIndex other : touching(call, part, side)) {
      const bool tied = std::ranges::any_of(call.shop.piece.joints, [&](const Joint& joint) {
        return (joint.a == part && joint.b == other) || (joint.a == other && joint.b == part);
      });
      if (!tied) {
        let_meet(call, part, other, side);
      }
    }
  }
}

int count_up_to(const KitCall& call, std::string_view key, int most) {
  const int count = call.fields.count(key);
  if (count > most) {
    call.fields.complain(key, fmt::format("found {}, expected at most {}", count, most));
    return most;
  }
  return count;
}

void show(const KitCall& call, PartIndex part, Direction side) {
  Part& seen = call.shop.piece.parts[part];
  if (!seen.shows(side)) {
    seen.show_faces.push_back(side);
  }
}

}  // namespace plankwright::piece
