#include "piece/kits/drawer_front.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/front_lines.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope
using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr int kMostPulls = 10;

constexpr std::array<std::string_view, 2> kFits = {"inset", "overlay"};

constexpr std::array kFrontFields = {
    Field{"stock", FieldKind::kIdentifier, "Stock of the fronts", true},
    Field{"thickness",
          FieldKind::kLength,
          "Of solid fronts (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{.key = "fit",
          .kind = FieldKind::kWord,
          .says = "Inset: flush in the opening; overlay: in front of what bounds it",
          .fallback = "inset",
          .words = kFits},
    Field{"reveal",
          FieldKind::kLength,
          "Gap at each side, or how far an overlay front stays short of its line (the shop's usual "
          "one)",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"top_reveal",
          FieldKind::kLength,
          "Above the highest front, when it differs",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"bottom_reveal",
          FieldKind::kLength,
          "Below the lowest front, when it differs",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"gap",
          FieldKind::kLength,
          "From front to front where no rail shows (the reveal; twice the reveal when overlay)",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"overlay",
          FieldKind::kLength,
          "How far overlay fronts cover what bounds the opening, instead of a reveal",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"stand_off",
          FieldKind::kLength,
          "Room for buffers between overlay fronts and the case (1/16 in or 1.5 mm)",
          false,
          {},
          FieldRange::kPositive},
    Field{"one_run",
          FieldKind::kIdentifier,
          "Grain runs on from front to front: `yes` in this bank, or a name shared by several",
          false,
          "no"},
    Field{"band", FieldKind::kIdentifier, "Edge band of the shop, on all four edges of a sheet"},
    Field{"pull", FieldKind::kIdentifier, "Pull of the shop"},
    Field{"pulls",
          FieldKind::kCount,
          "On each front, evenly spaced",
          false,
          "1",
          FieldRange::kPositive}};

/// How far a front stays short of the line it may reach; an overlay that is written is exact.
Length less_reveal(const FrontWay& way, Length reveal) {
  return way.overlay && !way.inset ? Length{} : reveal;
}

Length outer_edge(const KitCall& call, const FrontWay& way, Direction side, Length reveal) {
  const std::optional<Length> overlay = way.inset ? Length{} : way.overlay;
  return overlay_line(call, side, Covers::kWhole, overlay) - less_reveal(way, reveal) * side.sign;
}

/// The edge towards the next drawer of the bank.
Length inner_edge(const FrontWay& way, const FrontPlace& place, Direction side) {
  const Length opening = side.sign < 0 ? place.opening.at.z : place.opening.end(Axis::kZ);
  if (way.inset && place.rail) {
    return opening - way.reveal * side.sign;
  }
  // Half the gap on each side of the middle of the rail, or of the line where two drawers meet.
  const Length line = opening + place.rail.value_or(Length{}) / 2 * side.sign;
  const Length upper_half = way.gap - way.gap / 2;
  return line - (side.sign < 0 ? upper_half : way.gap / 2) * side.sign;
}

/// A front without room around it does not open. Overlay fronts may end with the case.
bool opens_freely(const KitCall& call, const FrontWay& way, const FrontPlace& place) {
  const Length least = std::min({way.reveal, way.top_reveal, way.bottom_reveal});
  if (way.inset && least <= Length{}) {
    does_not_fit(call, "reveal", "an inset drawer front needs a reveal on every side to open");
    return false;
  }
  const bool meets_another = !(place.highest && place.lowest) && !(way.inset && place.rail);
  if (meets_another && way.gap <= Length{}) {
    does_not_fit(call, "gap", "drawer fronts need a gap between them to open");
    return false;
  }
  return true;
}

std::vector<Point> pull_places(const Box& body, int pulls) {
  std::vector<Point> places;
  for (int i = 0; i < pulls; ++i) {
    Point at = body.centre();
    at.x = body.at.x + body.size.x * (2 * i + 1) / (2 * pulls);
    places.push_back(at);
  }
  return places;
}

}  // namespace

document::FieldTable drawer_front_fields() {
  return kFrontFields;
}

FrontWay read_front(const KitCall& call) {
  const document::Fields& f = call.fields;
  FrontWay front;
  front.stock = f.identifier("stock");
  front.thickness = board_thickness(call, front.stock);
  front.run =
      run_of(call, "one_run", call.space.name.empty() ? "drawers" : call.space.name + ".drawers");
  front.inset = f.word("fit") == "inset";
  front.reveal = f.optional_length("reveal").value_or(call.shop.shop.allowances.show_gap);
  front.gap = f.optional_length("gap").value_or(front.inset ? front.reveal : 2 * front.reveal);
  front.top_reveal = f.optional_length("top_reveal").value_or(front.reveal);
  front.bottom_reveal = f.optional_length("bottom_reveal").value_or(front.reveal);
  front.overlay = f.optional_length("overlay");
  front.stand_off = f.optional_length("stand_off").value_or(usual(call, 0.0625_in, 1.5_mm));
  front.pull = f.identifier("pull");
  front.pulls = count_up_to(call, "pulls", kMostPulls);
  front.band = band_of(call, "band");
  return front;
}

Length front_back(const KitCall& call, const FrontWay& way) {
  const Length front = call.space.box.at.y;
  return way.inset ? front + way.thickness : front - way.stand_off;
}

Box front_body(const KitCall& call, const FrontWay& way, const FrontPlace& place) {
  const Length back = front_back(call, way);
  const Length bottom = place.lowest ? outer_edge(call, way, kDown, way.bottom_reveal)
                                     : inner_edge(way, place, kDown);
  const Length top =
      place.highest ? outer_edge(call, way, kUp, way.top_reveal) : inner_edge(way, place, kUp);
  return between({outer_edge(call, way, kToLeft, way.reveal), back - way.thickness, bottom},
                 {outer_edge(call, way, kToRight, way.reveal), back, top});
}

std::optional<PartIndex> add_drawer_front(const KitCall& call,
                                          const FrontWay& way,
                                          const FrontPlace& place,
                                          const std::string& name,
                                          const std::string& path,
                                          const std::string& where) {
  if (!opens_freely(call, way, place)) {
    return std::nullopt;
  }
  const Box body = front_body(call, way, place);
  if (body.size.x <= Length{} || body.size.z <= Length{}) {
    does_not_fit(call,
                 "reveal",
                 fmt::format("the reveals leave no drawer front in an opening {} wide and {} high",
                             shown(call, place.opening.size.x),
                             shown(call, place.opening.size.z)));
    return std::nullopt;
  }
  const PartIndex front = add_part(call,
                                   {.name = name,
                                    .path = path + ".front",
                                    .stock = way.stock,
                                    .body = body,
                                    .length = Axis::kX,
                                    .thickness = Axis::kY,
                                    .show_faces = {kToFront}});
  Part& part = call.shop.piece.parts[front];
  if (way.band != nullptr && part.material == Material::kSheet) {
    for (const Direction side : {kToLeft, kToRight, kDown, kUp}) {
      part.bands.push_back({side, way.band->id, way.band->thickness});
    }
  }
  put_in_run(call.shop.piece, front, way.run);
  add_pulls(call, way.pull, front, pull_places(body, way.pulls), Axis::kX, where);
  return front;
}

}  // namespace plankwright::piece
