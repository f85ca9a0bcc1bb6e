// A horizontal strip that closes what is left between the piece and the ceiling.

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

constexpr int kMostPieces = 50;
constexpr std::array<std::string_view, 2> kFaces = {"front", "below"};

constexpr std::array kFields = {
    Field{"stock", FieldKind::kIdentifier, "Boards or sheet", true},
    Field{"thickness",
          FieldKind::kLength,
          "Of a solid filler (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{"pieces", FieldKind::kCount, "In how many lengths", false, "1", FieldRange::kPositive},
    Field{.key = "face",
          .kind = FieldKind::kWord,
          .says = "Which side of the gap it closes: the front, or what is seen from below",
          .fallback = "front",
          .words = kFaces},
    Field{"site_length",
          FieldKind::kLength,
          "Left over for trimming on site, shared out over the pieces",
          false,
          "0",
          FieldRange::kNotNegative},
    Field{"site_height",
          FieldKind::kLength,
          "Left over in height (in depth, when it closes the gap from below)",
          false,
          "0",
          FieldRange::kNotNegative}};

void build_filler(const KitCall& call) {
  const bool front = call.fields.word("face") == "front";
  NewPart part;
  part.name = named_after_unit(call.space, "filler");
  part.path = "filler";
  part.stock = call.fields.identifier("stock");
  part.body = call.space.box;
  part.thickness = front ? Axis::kY : Axis::kZ;
  part.show_faces = {front ? kToFront : kDown};
  const Length thickness = board_thickness(call, part.stock);
  Length& gap = part.body.size[part.thickness];
  if (thickness > gap) {
    does_not_fit(call,
                 "stock",
                 fmt::format("a filler {} thick does not fit a gap of {}",
                             shown(call, thickness),
                             shown(call, gap)));
    return;
  }
  gap = thickness;
  const int pieces = count_up_to(call, "pieces", kMostPieces);
  for (const PartIndex piece : add_run(call, part, pieces)) {
    call.shop.piece.parts[piece].site_length = call.fields.length("site_length") / pieces;
    call.shop.piece.parts[piece].site_width = call.fields.length("site_height");
  }
}

}  // namespace

const Kit& filler_kit() {
  static const Kit kKit{
      "filler", "A strip that closes the gap above a built-in", kFields, build_filler};
  return kKit;
}

}  // namespace plankwright::piece
