// Shelves in an opening: fixed ones that hold the case together, and loose ones on pins.

#include <algorithm>
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

constexpr int kMostShelves = 100;
constexpr int kPinsOfShelf = 4;

// What pins of no known size need: common practice, no source.
constexpr Length kUsualHole = Length::from_mm(5);
constexpr Length kUsualHoleDepth = Length::from_mm(10);

constexpr std::array kNosingFields = {
    Field{"stock", FieldKind::kIdentifier, "Solid stock of the nosing", true},
    Field{"height",
          FieldKind::kLength,
          "From its top, flush with the shelf, to its lower edge; 0: no nosing",
          true,
          {},
          FieldRange::kNotNegative},
    Field{"thickness",
          FieldKind::kLength,
          "What it adds to the depth of the shelf",
          true,
          {},
          FieldRange::kPositive}};

constexpr std::array kFields = {
    Field{"stock", FieldKind::kIdentifier, "Boards or sheet of the shelves", true},
    Field{"thickness",
          FieldKind::kLength,
          "Of solid shelves (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{"fixed", FieldKind::kCount, "How many are held for good", false, "0"},
    Field{"heights",
          FieldKind::kLengths,
          "From the bottom of the opening to the underside of each fixed shelf (evenly spaced)",
          false,
          {},
          FieldRange::kPositive},
    Field{"adjustable", FieldKind::kCount, "How many lie on pins", false, "0"},
    Field{"depth",
          FieldKind::kLength,
          "From back to front, without lipping or nosing (as deep as there is room)",
          false,
          {},
          FieldRange::kPositive},
    Field{"setback",
          FieldKind::kLength,
          "From the back of the opening to the back edge",
          false,
          "0",
          FieldRange::kNotNegative},
    Field{"front_gap",
          FieldKind::kLength,
          "Left free behind a door when the depth follows from the room",
          false,
          "3 mm",
          FieldRange::kNotNegative},
    Field{"end_play",
          FieldKind::kLength,
          "How much shorter an adjustable shelf is at each end",
          false,
          "1 mm",
          FieldRange::kNotNegative},
    Field{.key = "joint",
          .kind = FieldKind::kWord,
          .says = "How fixed shelves are held in the sides",
          .fallback = "housed",
          .words = kBoardJoints},
    Field{"joint_depth",
          FieldKind::kLength,
          "Of the housings (a third of the side)",
          false,
          {},
          FieldRange::kPositive},
    Field{"spacing",
          FieldKind::kLength,
          "The most between two dowels or screws of a joint",
          false,
          "150 mm",
          FieldRange::kPositive},
    Field{"screw",
          FieldKind::kIdentifier,
          "Screws of the shop, when those of screwed shelves are counted"},
    Field{"band", FieldKind::kIdentifier, "Edge band on the front edges of sheets"},
    Field{.key = "lipping",
          .kind = FieldKind::kMap,
          .says = "Solid strip as thick as the shelf on the front edges of sheets",
          .inner = kLippingFields},
    Field{.key = "nosing",
          .kind = FieldKind::kMap,
          .says = "Solid strip, mostly deeper than the shelf, that stiffens its front",
          .inner = kNosingFields},
    Field{"pin", FieldKind::kIdentifier, "Fitting that adjustable shelves lie on, four a shelf"},
    Field{"pin_inset",
          FieldKind::kLength,
          "From the front and back edges to the rows of pin holes",
          false,
          "37 mm",
          FieldRange::kPositive},
    Field{"holes",
          FieldKind::kCount,
          "Holes in a row for each shelf, an odd number",
          false,
          "5",
          FieldRange::kPositive},
    Field{"hole_spacing",
          FieldKind::kLength,
          "From hole to hole in a row",
          false,
          "32 mm",
          FieldRange::kPositive},
    Field{"load", FieldKind::kLineLoad, "What these shelves carry (what the piece is for)"}};

struct Nosing {
  std::string stock;
  Length height, thickness;
  bool fitted() const { return height > Length{} && thickness > Length{}; }
};

Nosing read_nosing(const KitCall& call) {
  if (!call.fields.has("nosing")) {
    return {};
  }
  const document::Fields fields = call.fields.map("nosing");
  return {fields.identifier("stock"), fields.length("height"), fields.length("thickness")};
}

/// Clear height between two fixed levels, and the loose shelves in it.
struct Section {
  Length low, high;
  int shelves = 0;
  /// What is left between shelves if there were `extra` more.
  Length gap(Length thickness, int extra = 0) const {
    const int count = shelves + extra;
    return (high - low - thickness * count) / (count + 1);
  }
};

class Shelves {
 public:
  explicit Shelves(const KitCall& call);
  void build();

 private:
  bool can_be_held() const;
  bool find_depth();
  bool find_levels();
  bool heights_are_good(const std::vector<Length>& heights) const;
  bool has_headroom() const;
  void share_adjustable();
  Box body_at(Length underside, Length end_play) const;
  Board add(std::string_view name, std::string_view path, const Box& body);
  void add_nosing(const NewPart& shelf, PartIndex core);
  void add_fixed(std::size_t i);
  void add_adjustable(const Section& section, Length underside, int number);
  void add_pins(PartIndex shelf, const Section& section);
  void add_pin_rows(PartIndex side, Direction inside, const Box& shelf, int holes);

  const KitCall& call_;
  const Box& opening_;
  std::string stock_;
  Length thickness_;
  int fixed_count_, adjustable_count_;
  FrontEdge edge_;
  Nosing nosing_;
  Fixing fixing_;
  bool behind_door_ = false;
  Length front_;               // how far the front may reach
  Length depth_;               // of a shelf without its strips
  Length strips_;              // what its strips add
  std::vector<Length> fixed_;  // undersides
  std::vector<Section> sections_;
  std::vector<PartIndex> loose_;
};

Shelves::Shelves(const KitCall& call)
    : call_{call},
      opening_{call.space.box},
      stock_{call.fields.identifier("stock")},
      thickness_{board_thickness(call, stock_)},
      fixed_count_{count_up_to(call, "fixed", kMostShelves)},
      adjustable_count_{count_up_to(call, "adjustable", kMostShelves)},
      edge_{read_front_edge(call)},
      nosing_{read_nosing(call)} {
  if (call.fields.has("heights") && !call.fields.has("fixed")) {
    fixed_count_ = std::min(kMostShelves, static_cast<int>(call.fields.lengths("heights").size()));
  }
  if (nosing_.fitted()) {
    edge_ = {};  // the nosing covers the edge
  }
}

bool Shelves::can_be_held() const {
  const std::string_view key = fixed_count_ > 0 ? "fixed" : "adjustable";
  if (fixed_count_ + adjustable_count_ == 0) {
    call_.fields.complain("fixed", "no shelves: write how many are `fixed` or `adjustable`");
    return false;
  }
  if (call_.space.left == Space::kNone || call_.space.right == Space::kNone) {
    call_.fields.complain(key, "nothing stands at both ends of the shelves to hold them");
    return false;
  }
  if (adjustable_count_ > 0 && !call_.fields.has("pin")) {
    call_.fields.complain("adjustable", "adjustable shelves need a `pin` to lie on");
    return false;
  }
  return true;
}

bool Shelves::find_depth() {
  front_ = opening_.at.y;
  for (const Door& door : call_.shop.piece.doors) {
    const Box shared = measure::intersection(door.leaf, opening_);
    if (shared.size.x > Length{} && shared.size.z > Length{} && shared.size.y >= Length{}) {
      behind_door_ = true;
      front_ = std::max(front_, door.leaf.end(Axis::kY));
    }
  }
  const bool lipped = is_sheet(call_, stock_) && !edge_.lipping.empty();
  strips_ = nosing_.fitted() ? nosing_.thickness : lipped ? edge_.lipping_thickness : Length{};
  const Length setback = call_.fields.length("setback");
  const Length room = opening_.end(Axis::kY) - setback - front_;
  const Length gap = behind_door_ ? call_.fields.length("front_gap") : Length{};
  depth_ = call_.fields.optional_length("depth").value_or(room - gap - strips_);
  if (depth_ + strips_ > room || depth_ <= Length{}) {
    does_not_fit(call_,
                 "depth",
                 fmt::format("shelves {} deep from back to front do not fit where there is {}{}",
                             shown(call_, depth_ + strips_),
                             shown(call_, room),
                             behind_door_ ? " behind the door" : ""));
    return false;
  }
  return true;
}

bool Shelves::heights_are_good(const std::vector<Length>& heights) const {
  if (static_cast<int>(heights.size()) != fixed_count_) {
    call_.fields.complain(
        "heights",
        fmt::format("found {} heights for {} fixed shelves", heights.size(), fixed_count_));
    return false;
  }
  Length free_from;
  for (const Length height : heights) {
    if (height < free_from || height + thickness_ > opening_.size.z) {
      does_not_fit(call_,
                   "heights",
                   fmt::format("a shelf at {} does not fit between {} and {}",
                               shown(call_, height),
                               shown(call_, free_from),
                               shown(call_, opening_.size.z - thickness_)));
      return false;
    }
    free_from = height + thickness_;
  }
  return true;
}

/// Loose shelves one by one into the section that leaves most room; of equals the upper one,
/// because what is tall stands low.
void Shelves::share_adjustable() {
  for (int shelf = 0; shelf < adjustable_count_; ++shelf) {
    const auto roomiest =
        std::ranges::max_element(sections_.rbegin(), sections_.rend(), {}, [&](const Section& s) {
          return s.gap(thickness_, 1);
        });
    ++roomiest->shelves;
  }
}

bool Shelves::has_headroom() const {
  const Length drop = std::max(Length{}, nosing_.height - thickness_);
  return std::ranges::all_of(sections_, [&](const Section& section) {
    const bool top_of_nothing = section.high == opening_.end(Axis::kZ) && section.shelves == 0;
    return section.gap(thickness_) > (top_of_nothing ? Length{} : drop);
  });
}

bool Shelves::find_levels() {
  const std::vector<Length> heights = call_.fields.lengths("heights");
  const bool given = call_.fields.has("heights");
  if (given && !heights_are_good(heights)) {
    return false;
  }
  Section open{opening_.at.z, opening_.end(Axis::kZ), fixed_count_};
  const Length even = open.gap(thickness_);
  open.shelves = 0;
  for (int i = 0; i < fixed_count_; ++i) {
    const Length underside =
        given ? opening_.at.z + heights[static_cast<std::size_t>(i)] : open.low + even;
    sections_.push_back({open.low, underside});
    fixed_.push_back(underside);
    open.low = underside + thickness_;
  }
  sections_.push_back(open);
  share_adjustable();
  if (!has_headroom()) {
    does_not_fit(call_,
                 fixed_count_ > 0 ? "fixed" : "adjustable",
                 fmt::format("{} shelves {} thick leave no room between them in an opening {} high",
                             fixed_count_ + adjustable_count_,
                             shown(call_, std::max(thickness_, nosing_.height)),
                             shown(call_, opening_.size.z)));
    return false;
  }
  return true;
}

/// With the lipping, without the nosing.
Box Shelves::body_at(Length underside, Length end_play) const {
  const Length back = opening_.end(Axis::kY) - call_.fields.length("setback");
  const Length lipping = nosing_.fitted() ? Length{} : strips_;
  return between({opening_.at.x + end_play, back - depth_ - lipping, underside},
                 {opening_.end(Axis::kX) - end_play, back, underside + thickness_});
}

void Shelves::add_nosing(const NewPart& shelf, PartIndex core) {
  if (!nosing_.fitted()) {
    return;
  }
  const document::Fields fields = call_.fields.map("nosing");
  NewPart nosing = shelf;
  nosing.name += " nosing";
  nosing.path += "_nosing";
  nosing.stock = nosing_.stock;
  nosing.thickness = Axis::kY;
  nosing.show_faces = {kToFront, kUp, kDown};
  nosing.body.at.y -= nosing_.thickness;
  nosing.body.size.y = nosing_.thickness;
  nosing.body.at.z += thickness_ - nosing_.height;
  nosing.body.size.z = nosing_.height;
  const PartIndex strip = add_part({fields, call_.space, call_.shop}, nosing);
  add_joint(call_, JointKind::kEdgeGlue, strip, core, kToBack);
  let_meet_neighbours(call_, strip, {kToLeft, kToRight});
}

Board Shelves::add(std::string_view name, std::string_view path, const Box& body) {
  NewPart part;
  part.name = named_after_unit(call_.space, name);
  part.path = path;
  part.stock = stock_;
  part.body = body;
  part.thickness = Axis::kZ;
  if (!behind_door_) {
    part.show_faces = {kToFront, kUp, kDown};
  }
  const Board board = add_board(call_, part, edge_);
  call_.shop.piece.parts[board.core].load = call_.fields.line_load("load");
  add_nosing(part, board.core);
  return board;
}

void Shelves::add_fixed(std::size_t i) {
  const Board shelf =
      add("fixed shelf", fmt::format("fixed_shelf_{}", i + 1), body_at(fixed_[i], {}));
  for (const Direction side : {kToLeft, kToRight}) {
    for (const PartIndex strip_or_core : {shelf.core, shelf.lipping.value_or(shelf.core)}) {
      for (const PartIndex other : touching(call_, strip_or_core, side)) {
        fix(call_, fixing_, fixing_.middle, {strip_or_core, {}}, {other, {}}, side);
      }
      if (!shelf.lipping) {
        break;
      }
    }
  }
  if (call_.space.behind != Space::kNone &&
      touch(call_, call_.space.behind, shelf.core, Axis::kY)) {
    Fixing screws = fixing_;
    screws.screw.clear();
    fix(call_, screws, JointKind::kScrew, {call_.space.behind, {}}, {shelf.core, {}}, kToFront);
  }
}

void Shelves::add_pin_rows(PartIndex side, Direction inside, const Box& shelf, int holes) {
  const shop::Hardware* pin = call_.shop.shop.fitting(call_.fields.identifier("pin"));
  const Length hole = pin != nullptr ? size_of(*pin, "hole", kUsualHole) : kUsualHole;
  const Length depth = pin != nullptr ? size_of(*pin, "depth", kUsualHoleDepth) : kUsualHoleDepth;
  const Length spacing = call_.fields.length("hole_spacing");
  const Length inset = call_.fields.length("pin_inset");
  Part& part = call_.shop.piece.parts[side];
  const Length face = inside.sign > 0 ? part.body.end(Axis::kX) - depth : part.body.at.x;
  const Length lowest = shelf.at.z - hole - spacing * (holes / 2);
  for (const Length at : {shelf.at.y + inset, shelf.end(Axis::kY) - inset}) {
    Feature row;
    row.kind = FeatureKind::kPinHoles;
    row.face = inside;
    row.along = spacing * (holes - 1);
    row.place = {{face, at - hole / 2, lowest}, {depth, hole, row.along + hole}};
    row.count = holes;
    row.depth = depth;
    row.across = hole;
    row.says =
        holes > 1 ? fmt::format("{} holes {} apart", holes, shown(call_, spacing)) : "1 hole";
    part.features.push_back(std::move(row));
  }
  if (depth >= part.body.size.x && part.body.size.x > Length{}) {
    does_not_fit(call_,
                 "pin",
                 fmt::format("pin holes {} deep go through the {}, which is {} thick",
                             shown(call_, depth),
                             part.name,
                             shown(call_, part.body.size.x)));
  }
}

void Shelves::add_pins(PartIndex shelf, const Section& section) {
  const Length spacing = call_.fields.length("hole_spacing");
  const int wanted = count_up_to(call_, "holes", kMostShelves) / 2;
  // Rows of neighbouring shelves must not run into each other.
  const std::int64_t fit =
      section.gap(thickness_).nm() / std::max<std::int64_t>(1, 2 * spacing.nm());
  const int holes = 1 + 2 * static_cast<int>(std::clamp<std::int64_t>(fit, 0, wanted));
  for (const Direction side : {kToLeft, kToRight}) {
    const PartIndex bound = side == kToLeft ? call_.space.left : call_.space.right;
    add_pin_rows(bound, {Axis::kX, -side.sign}, call_.shop.piece.parts[shelf].body, holes);
    Joint& joint =
        add_joint(call_, JointKind::kShelfPins, shelf, bound, side, {}, kPinsOfShelf / 2);
    joint.play = call_.fields.length("end_play");
    joint.hardware = call_.fields.identifier("pin");
  }
}

void Shelves::add_adjustable(const Section& section, Length underside, int number) {
  const Board shelf = add("adjustable shelf",
                          fmt::format("shelf_{}", number),
                          body_at(underside, call_.fields.length("end_play")));
  add_pins(shelf.core, section);
  loose_.push_back(shelf.core);
  let_meet_neighbours(call_, shelf.core, {kToLeft, kToRight, kToBack});
  if (shelf.lipping) {
    let_meet_neighbours(call_, *shelf.lipping, {kToLeft, kToRight});
  }
}

void Shelves::build() {
  if (thickness_ <= Length{} || !can_be_held() || !find_depth() || !find_levels()) {
    return;
  }
  if (adjustable_count_ > 0 && call_.fields.length("pin_inset") * 2 >= depth_) {
    does_not_fit(call_,
                 "pin_inset",
                 fmt::format("two rows of pins {} from the edges do not fit a shelf {} deep",
                             shown(call_, call_.fields.length("pin_inset")),
                             shown(call_, depth_)));
    return;
  }
  fixing_ = read_fixing(call_, call_.shop.piece.parts[call_.space.left].body.size.x);
  for (std::size_t i = 0; i < fixed_.size(); ++i) {
    add_fixed(i);
  }
  int number = 0;
  for (const Section& section : sections_) {
    const Length gap = section.gap(thickness_);
    for (int i = 0; i < section.shelves; ++i) {
      add_adjustable(section, section.low + gap * (i + 1) + thickness_ * i, ++number);
    }
  }
  add_hardware(call_,
               call_.fields.identifier("pin"),
               kPinsOfShelf * adjustable_count_,
               "adjustable shelves of " + call_.space.name,
               loose_,
               "pin");
}

void build_shelves(const KitCall& call) {
  Shelves{call}.build();
}

}  // namespace

const Kit& shelves_kit() {
  static const Kit kKit{
      "shelves", "Shelves between two sides, fixed or on pins", kFields, build_shelves};
  return kKit;
}

}  // namespace plankwright::piece
