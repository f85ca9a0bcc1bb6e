#pragma once
// The piece as it will stand: parts in their places, how they join, what is left open, what is
// screwed on. Values only. Kits make them (kit.h); build_piece.h runs the kits of a commission.

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/box.h"
#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::piece {

using measure::Axis;
using measure::Box;
using measure::Direction;
using measure::Length;
using measure::Point;

/// Index into Piece::parts.
using PartIndex = std::size_t;

/// Along the grain (or the sheet's long side), across it, and through it.
struct Size {
  Length length, width, thickness;
  friend bool operator==(const Size&, const Size&) = default;
};

/// Mirror parts are handed and never share a line of a list.
enum class Hand { kNone, kLeft, kRight };

enum class Material { kSolid, kSheet, kBoughtIn };

/// What a machine does to one part. `place` is where, in the piece's coordinates.
enum class FeatureKind {
  kMortise,
  kTenon,
  kLooseMortise,
  kHousing,
  kGroove,
  kRabbet,
  kTongue,
  kDovetails,
  kHalfLap,
  kDowelHoles,
  kBiscuitSlots,
  kPocketHoles,
  kScrewHoles,
  kPinHoles,
  kHingeBore,
  kHingeMortise,
  kClipSlots,
  kTaper,
  kArch,
  kBore,
  kNotch,
  kLippedEdge
};

struct Feature {
  FeatureKind kind = FeatureKind::kHousing;
  Direction face;  // the face it is cut into, or the edge it runs along
  Box place;
  int count = 1;  // holes, slots, pins
  Length depth;
  Length across;     // width of the cutter's path: of a housing, groove, mortise
  Length along;      // length of the path
  std::string says;  // "1/4 in wide, 1/4 in deep, stopped"
};

struct EdgeBand {
  Direction side;
  std::string stock;  // id of a band
  Length thickness;
};

/// A face of the body that leans in: the outline is straight from the full size at `from` along the
/// length axis to `to_size` at the far end.
struct Taper {
  Direction side;  // the face that leans in
  Length from;     // distance from the upper end of the part where the taper starts
  Length to_size;  // what is left of the section, in the direction of `side`, at the foot
};

/// A circular arc sawn out of one edge: `rise` over `span`, in the middle of the length.
struct Arch {
  Direction side;
  Length span;
  Length rise;
  bool bent = false;  // glued from plies over a form instead of sawn
};

/// One piece of wood or board. `body` is what is seen of it, shoulder to shoulder; tongues and
/// tenons that joints add stand in the finished size, not in the body.
struct Part {
  std::string code;     // "A02", the same for all parts of one line of the list
  std::string name;     // "case side"
  std::string path;     // "case.side_left": unique in the piece
  std::string kit;      // word of the kit that made it
  base::Position from;  // the line that asked for it
  Material material = Material::kSolid;
  std::string stock;    // id in the shop
  std::string species;  // id in the species table; of the face for sheets, "" for plain board
  Box body;
  Axis length_axis = Axis::kX;
  Axis thickness_axis = Axis::kY;
  Size finished;   // as it goes into the piece, joints included
  Size cut;        // what is sawn: finished less bands, plus what is trimmed on site
  Size rough;      // what is laid out on a board: plus allowances (equals `cut` for sheets)
  int strips = 1;  // boards glued edge to edge to make its width
  int layers = 1;  // boards glued face to face to make its thickness
  Hand hand = Hand::kNone;
  std::vector<Direction> show_faces;
  std::vector<EdgeBand> bands;
  std::vector<Taper> tapers;
  std::optional<Arch> arch;
  std::vector<Feature> features;
  Length site_length;  // left over for trimming on site
  Length site_width;
  std::string run;  // parts of one run are cut side by side in order, so that the grain flows on
  int place_in_run = 0;
  std::string cut_kind;     // "flat_sawn", "quarter_sawn", "rift_sawn": how a solid part is sawn
  bool moves_free = false;  // a panel that is not glued in
  bool risky = false;       // worth a spare
  measure::NewtonsPerMillimetre load;  // along its length, when a load of its own is asked for
  measure::Kilograms mass;
  Point centre;  // of gravity

  Axis width_axis() const;
  bool shows(Direction side) const;
};

/// How two parts hold together.
enum class JointKind {
  kHousing,
  kRabbet,
  kGroove,
  kMortiseTenon,
  kLooseTenon,
  kStubTenon,
  kDovetail,
  kDowel,
  kBiscuit,
  kPocketScrew,
  kScrew,
  kEdgeGlue,
  kFaceGlue,
  kHalving,
  kButton,
  kClip,
  kBolt,
  kConnector,
  kShelfPins,
  kHinge,
  kSlide,
  kStands  // stands: held by weight or by the wall
};

/// `a` goes into, or onto, `b`.
struct Joint {
  JointKind kind = JointKind::kScrew;
  PartIndex a = 0;
  PartIndex b = 0;
  Box contact;              // where the bodies meet; one size is zero
  Direction home;           // the way `a` moves when the joint closes
  Length depth;             // how far `a` reaches into `b`: added to a's finished size at that end
  Length tongue_thickness;  // of the tenon, tongue or loose tenon
  Length tongue_width;
  int count = 1;  // tenons, dowels, screws, clips, pins
  bool glued = true;
  Length play;           // room left for movement, each side
  std::string hardware;  // id of the fitting that does it, or ""
  bool undone = false;   // taken apart to carry the piece
  measure::SquareMillimetres glue_area;
  std::string kit;
  base::Position from;
};

/// Clear space between parts that something fills, or that stays open.
struct Opening {
  std::string name;  // "case.middle"
  Box box;
  std::string filled_with;  // word of a kit, or ""
  base::Position from;
};

/// Fittings bought by the piece.
struct HardwareUse {
  std::string id;  // in the shop's list
  int count = 1;
  std::string where;  // "door left"
  std::vector<PartIndex> parts;
  Point at;
  std::string kit;
  base::Position from;
};

/// A drawer as one moving thing: which parts it is and how far it comes out.
struct Drawer {
  std::string path;
  std::vector<PartIndex> parts;  // front and box
  Box inside;                    // of the box: what can be filled
  Length travel;
  bool bought = false;
};

/// A door as one moving thing.
struct Door {
  std::string path;
  std::vector<PartIndex> parts;
  bool hinged_left = true;
  Box leaf;
};

/// Parts that leave the shop as one: everything held together by joints that are not undone on
/// site.
struct Package {
  std::string name;
  std::vector<PartIndex> parts;
  Box box;
  measure::Kilograms mass;
  Point centre;
};

/// Two bodies that touch.
struct Contact {
  PartIndex a = 0;
  PartIndex b = 0;
  Box where;  // one size is zero
};

struct Piece {
  std::string name;
  Box overall;  // as written
  std::vector<Part> parts;
  std::vector<Joint> joints;
  std::vector<Opening> openings;
  std::vector<HardwareUse> hardware;
  std::vector<Drawer> drawers;
  std::vector<Door> doors;
  std::vector<Package> packages;
  measure::Kilograms mass;  // fittings included
  Point centre;
  bool fixed_to_building = false;
};

/// One line of the parts list: like parts together, handed ones apart.
struct PartLine {
  std::string code;
  std::vector<PartIndex> parts;
};

/// Parts that may share a line: same name, stock, sizes, hand, bands, shape. In the order of the
/// piece.
std::vector<PartLine> part_lines(const Piece& piece);

/// Trade word of a joint: "housing", "mortise and tenon".
std::string_view word(JointKind kind);
std::string_view word(FeatureKind kind);
std::string_view word(Hand hand);

/// True for kinds that are undone to carry the piece wherever they stand: bolts, connectors, clips,
/// buttons, hinges, slides, shelf pins, and what only stands.
bool comes_apart(JointKind kind);

/// True for kinds whose tongue stands in `a`'s finished size.
bool lets_in(JointKind kind);

/// Parts of doors and drawers. They hang on hinges and slides; what they touch does not hold them.
std::set<PartIndex> moving_parts(const Piece& piece);

/// All pairs of bodies that touch on more than a line.
std::vector<Contact> contacts(const Piece& piece);

/// All pairs of bodies that stand in each other, halving joints apart. Empty for a sound piece.
std::vector<Contact> overlaps(const Piece& piece);

/// Parts that no chain of joints ties to the first part. Empty for a sound piece.
std::vector<PartIndex> floating_parts(const Piece& piece);

}  // namespace plankwright::piece
