#pragma once
// The leaves of a door in their opening, and how each is hung: hinges, pull, catch.

#include <string>
#include <vector>

#include "document/fields.h"
#include "piece/kit.h"
#include "piece/kits/front_lines.h"

namespace plankwright::piece {

/// The fields of a kit of doors: its own, and those that all doors have (leaves, fit, reveals,
/// hinges, pull, catch).
std::vector<document::Field> with_door_fields(std::initializer_list<document::Field> own);

/// One leaf, where it stands when shut.
struct Leaf {
  std::string path;   // "door", "door_left"
  std::string where;  // "case.left door"
  Box box;
  bool hinged_left = true;
};

/// Places the leaves in or before the opening by the fields `leaves`, `fit`, `overlay`, `reveal`,
/// `top_reveal`, `bottom_reveal`, `gap`, `stand_off` and `hinged`. Empty when nothing is left for
/// them, which is complained of.
std::vector<Leaf> place_leaves(const KitCall& call, Length thickness, Covers covers);

/// The parts a leaf is made of; `left` and `right` are those at its upright edges (the same one for
/// a slab).
struct LeafParts {
  std::vector<PartIndex> all;
  PartIndex left = 0;
  PartIndex right = 0;
};

/// Hangs the leaf on what bounds its opening: a hinge joint, the hinges with what is let in or
/// bored for them in both parts, pull and catch; and registers the door.
void hang_leaf(const KitCall& call, const Leaf& leaf, const LeafParts& parts);

/// Usual number of hinges of a door so high: 2 up to 1 m, 3 up to 1.6 m, else 4 (common practice,
/// no source).
int usual_hinges(Length height);

}  // namespace plankwright::piece
