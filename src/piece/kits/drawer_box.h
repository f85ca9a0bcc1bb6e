#pragma once
// Drawer boxes: made of sides, ends and a bottom in its groove, or bought to size.

#include <span>
#include <string>
#include <vector>

#include "document/fields.h"
#include "piece/kit.h"

namespace plankwright::piece {

/// The field `box` of a bank of drawers.
document::FieldTable drawer_box_fields();

/// The choices in it, read once.
struct BoxWay {
  bool bought = false;
  JointKind corner = JointKind::kDovetail;
  std::string stock, bottom_stock, bought_as;
  Length side, end;
  Length bottom, bottom_groove, bottom_up;
  Length tail_pitch;
  Length height_step;  // bought boxes are made in steps of this
};

/// Reads the map `box`; complains of what is missing for the way that is chosen.
BoxWay read_box_way(const KitCall& box_call);

/// A box in its place.
struct DrawerBox {
  std::vector<PartIndex> parts;
  PartIndex front = 0;  // what the drawer front is screwed to
  PartIndex left = 0;
  PartIndex right = 0;
  Box inside;  // what can be filled
};

/// Makes a box of the outer size `outer`. Parts are named with `number` behind them ("", " 1") and
/// stand under `path`; `where` is what the maker calls the drawer. Complains when the bottom and
/// its groove have no room in it.
DrawerBox add_drawer_box(const KitCall& box_call,
                         const BoxWay& way,
                         const Box& outer,
                         const std::string& number,
                         const std::string& path,
                         const std::string& where);

/// Tails on a side so high, one for each `pitch` of the jig, at least two.
int tails_on(Length height, Length pitch);

}  // namespace plankwright::piece
