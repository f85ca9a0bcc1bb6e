// A strip between the piece and a wall, left too wide and fitted to the wall on site.

#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::array kFields = {Field{"stock", FieldKind::kIdentifier, "Boards or sheet", true},
                                Field{"thickness",
                                      FieldKind::kLength,
                                      "Of a solid strip (the most the stock finishes at)",
                                      false,
                                      {},
                                      FieldRange::kPositive},
                                Field{"setback",
                                      FieldKind::kLength,
                                      "How far its face stands behind the front",
                                      false,
                                      "0",
                                      FieldRange::kNotNegative},
                                Field{"site_width",
                                      FieldKind::kLength,
                                      "Left over in width, for scribing to the wall",
                                      false,
                                      "0",
                                      FieldRange::kNotNegative},
                                Field{"site_length",
                                      FieldKind::kLength,
                                      "Left over in length, for trimming to floor or ceiling",
                                      false,
                                      "0",
                                      FieldRange::kNotNegative}};

void build_scribe_strip(const KitCall& call) {
  NewPart part;
  part.name = named_after_unit(call.space, "scribe strip");
  part.path = "strip";
  part.stock = call.fields.identifier("stock");
  part.body = call.space.box;
  part.length = Axis::kZ;
  part.thickness = Axis::kY;
  part.show_faces = {kToFront};
  const Length setback = call.fields.length("setback");
  const Length thickness = board_thickness(call, part.stock);
  if (setback + thickness > part.body.size.y) {
    does_not_fit(call,
                 "setback",
                 fmt::format("a strip {} thick and set back by {} does not fit a depth of {}",
                             shown(call, thickness),
                             shown(call, setback),
                             shown(call, part.body.size.y)));
    return;
  }
  part.body.at.y += setback;
  part.body.size.y = thickness;
  Part& strip = call.shop.piece.parts[add_part(call, part)];
  strip.site_width = call.fields.length("site_width");
  strip.site_length = call.fields.length("site_length");
}

}  // namespace

const Kit& scribe_strip_kit() {
  static const Kit kKit{"scribe_strip",
                        "An upright strip between a built-in and the wall, fitted on site",
                        kFields,
                        build_scribe_strip};
  return kKit;
}

}  // namespace plankwright::piece
