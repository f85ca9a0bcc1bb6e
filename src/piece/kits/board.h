#pragma once
// Boards of a case: how thick they come, what runs along their front edge, how their ends are held.

#include <array>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "document/fields.h"
#include "piece/kit.h"

namespace plankwright::piece {

inline constexpr Direction kToLeft{Axis::kX, -1};
inline constexpr Direction kToRight{Axis::kX, 1};
inline constexpr Direction kToFront{Axis::kY, -1};
inline constexpr Direction kToBack{Axis::kY, 1};
inline constexpr Direction kDown{Axis::kZ, -1};
inline constexpr Direction kUp{Axis::kZ, 1};

/// Field `joint` of kits that hold boards between boards.
inline constexpr std::array<std::string_view, 4> kBoardJoints = {
    "housed", "rabbeted", "dowelled", "screwed"};

/// Fields of a solid strip glued along a front edge.
inline constexpr std::array kLippingFields = {
    document::Field{"stock", document::FieldKind::kIdentifier, "Solid stock of the strip", true},
    document::Field{"thickness",
                    document::FieldKind::kLength,
                    "How much of the depth it takes",
                    true,
                    {},
                    document::FieldRange::kPositive}};

/// Ends of units are not always exact: equal shares are cut down to the nanometre.
bool same_place(Length a, Length b);

/// `case` of the space `case.left`: what the makers call the unit; parts are named after it.
std::string unit_name(const Space& space);
/// `case side`; only `side` in a space without a name.
std::string named_after_unit(const Space& space, std::string_view name);

bool is_sheet(const KitCall& call, std::string_view stock);

/// Thickness of a part of `stock`: a sheet's own, else what is written under `key`, else the most
/// that boards of the stock finish at.
Length board_thickness(const KitCall& call,
                       std::string_view stock,
                       std::string_view key = "thickness");

/// How many dowels or screws hold `run` when they stand no wider than `spacing`; at least two.
int fixings_along(Length run, Length spacing);

/// True when the bodies meet on a face square to `axis`.
bool touch(const KitCall& call, PartIndex a, PartIndex b, Axis axis);

/// Parts that meet the face of `part` that looks to `side`, in the order of the piece.
std::vector<PartIndex> touching(const KitCall& call, PartIndex part, Direction side);

/// What covers the front edge of sheets: a band, or a solid strip.
struct FrontEdge {
  std::string band;
  Length band_thickness;
  std::string lipping;  // stock
  Length lipping_thickness;
};

/// Reads the field `band`; complains of one that the shop has not.
FrontEdge read_band(const KitCall& call);

/// Reads the fields `band` and `lipping`; a lipping takes the place of a band.
FrontEdge read_front_edge(const KitCall& call);

/// A board, and the strip on its front edge when it has one.
struct Board {
  PartIndex core = Space::kNone;
  std::optional<PartIndex> lipping;
};

/// Adds a board as large as `part.body` with its strip, which is taken off the depth of the core.
/// Edges of solid boards are left as they are.
Board add_board(const KitCall& call,
                const NewPart& part,
                const FrontEdge& edge,
                std::string_view field = "stock");

/// How the ends of boards are held.
struct Fixing {
  JointKind corner = JointKind::kHousing;  // where two boards end
  JointKind middle = JointKind::kHousing;  // where one runs on
  Length depth;                            // of what is let in
  Length spacing;                          // of dowels and screws
  std::string screw;                       // fitting, or ""
};

/// Reads the fields `joint`, `joint_depth`, `spacing` and `screw`. A housing or rabbet is a third
/// of `into` deep when nothing is written (a quarter to a third: reference table of proportions).
Fixing read_fixing(const KitCall& call, Length into);

/// Joints wherever `a` meets `b` on its way `home`; through the strips on their fronts too.
void fix(const KitCall& call,
         const Fixing& fixing,
         JointKind kind,
         const Board& a,
         const Board& b,
         Direction home);

/// `part` cut along its width into `pieces` equal lengths that meet end to end.
std::vector<PartIndex> add_run(const KitCall& call, NewPart part, int pieces);

/// Two parts that only meet: nothing is cut and nothing glued.
void let_meet(const KitCall& call, PartIndex a, PartIndex b, Direction home);

/// Lets `part` meet everything that touches it on these sides and that no joint ties to it yet.
void let_meet_neighbours(const KitCall& call,
                         PartIndex part,
                         std::initializer_list<Direction> sides);

/// A count as written, at most `most`: complains of more, so that no slip of the pen builds
/// forever.
int count_up_to(const KitCall& call, std::string_view key, int most);

/// Adds `side` to the faces that are seen, once.
void show(const KitCall& call, PartIndex part, Direction side);

}  // namespace plankwright::piece
