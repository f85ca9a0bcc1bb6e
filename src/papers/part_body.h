#pragma once
// The wood of a part as it is drawn: its body, tapered and arched, and the pulls on the fronts.

#include <vector>

#include "piece/piece.h"
#include "shop/shop.h"
#include "solid/body.h"

namespace plankwright::papers {

/// What is seen of a part: the box of its body less its tapers and its arch. Tapers on opposite
/// faces share what is taken off.
solid::Body part_body(const piece::Part& part);

/// A pull on its front, and the part it sits on.
struct DrawnPull {
  solid::Body body;
  piece::PartIndex front = 0;
};

/// Knobs and bars of the piece, of the spacing and projection that the shop knows of them. On a
/// door they are drawn at the edge that opens unless the piece says a better place than its middle.
std::vector<DrawnPull> pulls_of(const piece::Piece& piece, const shop::Shop& shop);

}  // namespace plankwright::papers
