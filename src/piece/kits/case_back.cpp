#include "piece/kits/case_back.h"

#include <algorithm>

#include "piece/kits/board.h"

namespace plankwright::piece {
namespace {

/// Across the case, unless the sheet is too narrow for that or the document says which way.
Axis grain_of(const KitCall& call, const CaseBack& back, Length height) {
  const std::string grain = call.fields.word("grain");
  const shop::SheetStock* sheet = call.shop.shop.sheet(back.stock);
  const bool too_narrow = sheet != nullptr && height > sheet->width;
  return grain == "up" || (grain == "as_it_fits" && too_narrow) ? Axis::kZ : Axis::kX;
}

void let_in(const KitCall& call, const CaseBack& back, PartIndex part, PartIndex board, Axis axis) {
  const std::vector<Part>& parts = call.shop.piece.parts;
  const int sign = parts[board].body.centre()[axis] < parts[part].body.centre()[axis] ? -1 : 1;
  const bool grooved = back.way == "groove";
  Joint& joint = add_joint(call,
                           grooved ? JointKind::kGroove : JointKind::kRabbet,
                           part,
                           board,
                           {axis, sign},
                           std::max(Length{}, back.depth - back.play));
  joint.play = back.play;
  joint.glued =
      grooved && parts[part].material == Material::kSheet;  // a back in a rabbet is screwed
}

}  // namespace

CaseBack read_case_back(const KitCall& call) {
  CaseBack back;
  back.fitted = true;
  back.way = call.fields.word("way");
  back.stock = call.fields.identifier("stock");
  back.thickness = board_thickness(call, back.stock);
  back.depth = call.fields.length("depth");
  back.inset = back.way == "groove" ? call.fields.length("inset") : Length{};
  back.play = call.fields.length("play");
  return back;
}

PartIndex add_case_back(const KitCall& call,
                        const CaseBack& back,
                        const Box& body,
                        const std::vector<PartIndex>& boards,
                        Length spacing) {
  NewPart part;
  part.name = named_after_unit(call.space, "back");
  part.path = "back";
  part.stock = back.stock;
  part.body = body;
  part.length = grain_of(call, back, body.size.z);
  part.thickness = Axis::kY;
  const PartIndex index = add_part(call, part);
  call.shop.piece.parts[index].moves_free = !is_sheet(call, back.stock);
  Fixing screws;
  screws.spacing = spacing;
  for (const PartIndex board : boards) {
    for (const Axis axis : {Axis::kX, Axis::kZ}) {
      if (touch(call, index, board, axis)) {
        let_in(call, back, index, board, axis);
      }
    }
    fix(call, screws, JointKind::kScrew, {index, {}}, {board, {}}, kToFront);
  }
  return index;
}

}  // namespace plankwright::piece
