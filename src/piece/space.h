#pragma once
// Spaces beside and above each other: the stack from the floor up, the row from left to right.

#include <string_view>
#include <vector>

#include "document/fields.h"
#include "measure/box.h"
#include "piece/kit.h"

namespace plankwright::piece {

/// What may stand in one space of a stack, a row or a list of bays: its name, its size, how far it
/// stands back from the sides, and what is built in it.
document::FieldTable space_fields();

/// As read_cells of kit.h, for a list node.
std::vector<Cell> read_cell_list(const document::Node& list,
                                 std::string_view size_key,
                                 Length available,
                                 Workshop& shop);

/// Cuts `space` along `axis` into the spaces of `list` and fills each of them.
void fill_cells(const document::Node& list, Axis axis, const Space& space, Workshop& shop);

}  // namespace plankwright::piece
