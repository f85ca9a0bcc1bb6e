#pragma once
// A kit is a way of building: it takes a space, some choices of its own and a stock, and gives
// parts, joints, fittings and the openings that are left. One kit is one file in kits/ and one
// test.

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "commission/commission.h"
#include "document/fields.h"
#include "measure/box.h"
#include "piece/piece.h"
#include "shop/shop.h"

namespace plankwright::piece {

/// A clear box to be built in, and what stands around it.
struct Space {
  std::string name;  // "case.left": parts made in it are called after it
  Box box;
  // The parts that bound an opening, when a kit left it; npos when nothing is there.
  static constexpr PartIndex kNone = static_cast<PartIndex>(-1);
  PartIndex left = kNone, right = kNone, below = kNone, above = kNone, behind = kNone;
  Length front_setback;  // from the front of the opening to the front of what bounds it
};

/// What every kit needs and fills.
struct Workshop {
  const shop::Shop& shop;
  const commission::Commission& commission;
  base::Errors& errors;
  Piece& piece;
  int depth = 0;  // of kits within kits; bounded
};

/// One use of a kit.
struct KitCall {
  const document::Fields& fields;
  Space space;
  Workshop& shop;
};

struct Kit {
  std::string_view word;  // key in the document: "carcase"
  std::string_view says;  // one sentence for the handbook
  document::FieldTable fields;
  void (*build)(const KitCall& call);
};

/// All kits, in the order of the handbook.
std::span<const Kit> all_kits();

/// Runs the kits written in `node` (a map: `drawers: ...`, `shelves: ...`) in `space`; used by kits
/// for their openings and by build_piece for the piece itself.
void fill(const document::Node& node, const Space& space, Workshop& shop);

/// What a kit says of one part; the rest of Part is worked out when all kits have run.
struct NewPart {
  std::string name;  // "side"
  std::string path;  // within the space: "side_left"
  std::string stock;
  Box body;
  Axis length = Axis::kX;
  Axis thickness = Axis::kY;
  std::vector<Direction> show_faces = {};
  Hand hand = Hand::kNone;
  int layers = 1;  // boards glued face to face to make its thickness
};

/// Adds a part to the piece; complains at `field` when the stock is not in the shop (nearest
/// offered), when a size is not positive, when the part is thicker than its stock gives. The
/// returned part may be changed further (bands, tapers, features) by its index.
PartIndex add_part(const KitCall& call, const NewPart& part, std::string_view field = "stock");

/// Adds a joint; `contact` is worked out from the bodies. `depth` reaches from a into b along
/// `home`. Complains when a joint is wider or deeper than its part.
Joint& add_joint(const KitCall& call,
                 JointKind kind,
                 PartIndex a,
                 PartIndex b,
                 Direction home,
                 Length depth = {},
                 int count = 1);

/// Adds fittings; complains at `field` when the shop has none of that id.
void add_hardware(const KitCall& call,
                  std::string_view id,
                  int count,
                  std::string where,
                  std::vector<PartIndex> parts,
                  std::string_view field);

/// One of several spaces beside or above each other, as written in a list (`bays`, `row`, `stack`).
struct Cell {
  std::string name;  // as written, or "bay_2"
  Length size;       // along the axis they are lined up on
  const document::Node* node = nullptr;
  base::Position at;
};

/// Reads the list under `field`: maps with `name`, `size_key` ("width" or "height"; absent or
/// `rest`: an equal share of what is left) and kits. Complains when the sizes do not add up to
/// `available` (parts of the kit between the cells taken off by the caller), saying by how much.
std::vector<Cell> read_cells(const KitCall& call,
                             std::string_view field,
                             std::string_view size_key,
                             Length available);

/// Thickness of a part when its stock leaves no choice (a sheet's true thickness), else `wanted`.
Length stock_thickness(const KitCall& call, std::string_view stock, Length wanted);

}  // namespace plankwright::piece
