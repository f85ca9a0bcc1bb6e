// Doors of one board: veneered sheet banded on its edges, or solid wood.

#include <array>

#include <fmt/format.h>

#include "base/nearest.h"
#include "piece/kits/board.h"
#include "piece/kits/door_leaf.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::array<std::string_view, 2> kGrains = {"upright", "level"};

document::FieldTable fields() {
  static const std::vector<Field> kFields = with_door_fields(
      {{"stock", FieldKind::kIdentifier, "Sheet or solid stock of the doors", true},
       {"thickness",
        FieldKind::kLength,
        "Of a solid door (the most the stock finishes at)",
        false,
        {},
        FieldRange::kPositive},
       {.key = "grain",
        .kind = FieldKind::kWord,
        .says = "Which way the grain runs",
        .fallback = "upright",
        .words = kGrains},
       {"band", FieldKind::kIdentifier, "Edge band of the shop, on all four edges of a sheet"},
       {"one_run",
        FieldKind::kIdentifier,
        "Grain runs on across the doors: `yes` in this opening, or a name shared by several",
        false,
        "no"}});
  return kFields;
}

void band_edges(const KitCall& call, PartIndex door) {
  const shop::BandStock* band = band_of(call, "band");
  Part& part = call.shop.piece.parts[door];
  if (band == nullptr || part.material != Material::kSheet) {
    return;
  }
  for (const Direction side : {kToLeft, kToRight, kDown, kUp}) {
    part.bands.push_back({side, band->id, band->thickness});
  }
}

void build(const KitCall& call) {
  const std::string stock = call.fields.identifier("stock");
  const Length thickness = board_thickness(call, stock);
  const std::string own_run = call.space.name.empty() ? "doors" : call.space.name + ".doors";
  const std::string run = run_of(call, "one_run", own_run);
  const bool upright = call.fields.word("grain") != "level";
  for (const Leaf& leaf : place_leaves(call, thickness, Covers::kWhole)) {
    const PartIndex door = add_part(call,
                                    {.name = "door",
                                     .path = leaf.path,
                                     .stock = stock,
                                     .body = leaf.box,
                                     .length = upright ? Axis::kZ : Axis::kX,
                                     .thickness = Axis::kY,
                                     .show_faces = {kToFront},
                                     .hand = leaf.hinged_left ? Hand::kLeft : Hand::kRight});
    band_edges(call, door);
    put_in_run(call.shop.piece, door, run);
    hang_leaf(call, leaf, {{door}, door, door});
  }
}

}  // namespace

const Kit& slab_door_kit() {
  static const Kit kKit = {"slab_door", "Doors of one board", fields(), build};
  return kKit;
}

}  // namespace plankwright::piece
