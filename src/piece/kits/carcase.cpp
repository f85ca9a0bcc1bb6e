// A box of boards: the sides run the full height and everything else stands between them. What is
// left between sides and dividers are openings, filled by other kits.

#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/case_back.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;
using document::Node;

constexpr std::array<std::string_view, 4> kTops = {"panel", "rails", "stretchers", "none"};
/// Kits that may stand in the carcase itself when it has no bays; doors before what they close off.
constexpr std::array<std::string_view, 5> kContents = {
    "panel_door", "slab_door", "drawer_bank", "shelves", "part"};
constexpr std::size_t kClosing = 3;  // the first of them hide what is inside

constexpr std::array kFields = {
    Field{"stock",
          FieldKind::kIdentifier,
          "Boards or sheet of all parts that have no stock of their own",
          true},
    Field{"side_stock", FieldKind::kIdentifier, "Of the two sides (as the other parts)"},
    Field{"divider_stock", FieldKind::kIdentifier, "Of the dividers (as the other parts)"},
    Field{"thickness",
          FieldKind::kLength,
          "Of parts of solid wood (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{.key = "joint",
          .kind = FieldKind::kWord,
          .says = "How the parts are held in the sides",
          .fallback = "housed",
          .words = kBoardJoints},
    Field{"joint_depth",
          FieldKind::kLength,
          "Of housings and rabbets (a third of the side)",
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
          "Screws of the shop, when those of screwed joints are counted"},
    Field{.key = "top",
          .kind = FieldKind::kWord,
          .says = "What closes the case above: a panel, two flat rails, two stretchers under a "
                  "counter, or "
                  "nothing",
          .fallback = "panel",
          .words = kTops},
    Field{"top_rail_width",
          FieldKind::kLength,
          "Of rails and stretchers, from front to back",
          false,
          "80 mm",
          FieldRange::kPositive},
    Field{"bottom", FieldKind::kYesNo, "No for a case that stands on what is below", false, "yes"},
    Field{.key = "back",
          .kind = FieldKind::kMap,
          .says = "The back, when there is one",
          .inner = kCaseBackFields},
    Field{"band", FieldKind::kIdentifier, "Edge band on the front edges of sheets"},
    Field{.key = "lipping",
          .kind = FieldKind::kMap,
          .says = "Solid strip on the front edges of sheets, in place of a band",
          .inner = kLippingFields},
    Field{"bays", FieldKind::kAny, "Openings from left to right, a divider between each"},
    Field{"panel_door", FieldKind::kAny, "Framed doors in the one opening of a case without bays"},
    Field{"slab_door", FieldKind::kAny, "Slab doors in the one opening of a case without bays"},
    Field{"drawer_bank", FieldKind::kAny, "Drawers in the one opening of a case without bays"},
    Field{"shelves", FieldKind::kAny, "Shelves in the one opening of a case without bays"},
    Field{"part", FieldKind::kAny, "Plain parts in the one opening of a case without bays"}};

/// The kits of `node` alone, doors and drawers first, so that what stands behind them knows them.
Node contents_of(const Node& node) {
  Node contents = node;
  std::ranges::stable_partition(contents.entries, [](const Node::Entry& entry) {
    return entry.key != "shelves" && entry.key != "part";
  });
  return contents;
}

bool is_content(std::string_view key) {
  return std::ranges::find(kContents, key) != kContents.end();
}

bool is_closed(const Node& node) {
  return std::ranges::any_of(node.entries, [](const Node::Entry& entry) {
    const auto kit = std::ranges::find(kContents, entry.key) - kContents.begin();
    return static_cast<std::size_t>(kit) < kClosing;
  });
}

class Case {
 public:
  explicit Case(const KitCall& call);
  void build();

 private:
  bool has_room() const;
  bool holds_together() const;
  Board add(
      std::string_view name, std::string_view path, const Box& body, Axis length, Axis thickness);
  void add_sides();
  void add_bottom();
  void add_top();
  void add_top_rails();
  void add_dividers();
  void add_back();
  void read_bays();
  void fill_bays();
  void fill_bay(std::size_t bay, Length from, const Node& contents);

  /// The front face of the back, where parts in front of it end.
  Length rear() const;
  /// Where parts end that hold the back in a groove.
  Length rear_of_grooved() const { return back_.way == "groove" ? box_.end(Axis::kY) : rear(); }
  Length left_inside() const { return box_.at.x + side_; }
  Length right_inside() const { return box_.end(Axis::kX) - side_; }
  Length floor() const { return box_.at.z + (bottom_ ? level_ : Length{}); }
  Length ceiling() const { return box_.end(Axis::kZ) - (top_.empty() ? Length{} : level_); }
  std::string end_name(std::string_view alone) const;

  const KitCall& call_;
  Box box_;
  std::string stock_, side_stock_, divider_stock_;
  Length level_, side_, divider_;  // thicknesses: bottom and top, sides, dividers
  std::string top_kind_;
  Length rail_width_;
  FrontEdge edge_;
  Fixing fixing_;
  CaseBack back_;
  std::vector<Cell> bays_;
  Board left_, right_;
  std::optional<Board> bottom_;
  std::vector<Board> top_;
  std::vector<Board> dividers_;
  PartIndex back_part_ = Space::kNone;
};

Case::Case(const KitCall& call) : call_{call}, box_{call.space.box} {
  const auto stock_or = [&](std::string_view key) {
    return call.fields.has(key) ? call.fields.identifier(key) : stock_;
  };
  stock_ = call.fields.identifier("stock");
  side_stock_ = stock_or("side_stock");
  divider_stock_ = stock_or("divider_stock");
  level_ = board_thickness(call, stock_);
  side_ = board_thickness(call, side_stock_);
  divider_ = board_thickness(call, divider_stock_);
  top_kind_ = call.fields.word("top");
  rail_width_ = call.fields.length("top_rail_width");
  edge_ = read_front_edge(call);
  fixing_ = read_fixing(call, side_);
  if (call.fields.has("back")) {
    const document::Fields back = call.fields.map("back");
    back_ = read_case_back({back, call.space, call.shop});
  }
}

Length Case::rear() const {
  return box_.end(Axis::kY) - back_.inset - back_.thickness;
}

bool Case::has_room() const {
  const auto fits = [&](std::string_view key, std::string_view what, Length room, Length taken) {
    if (taken < room || taken <= Length{}) {
      return true;
    }
    does_not_fit(call_,
                 key,
                 fmt::format("the {} take {} of the case, which is only {}",
                             what,
                             shown(call_, taken),
                             shown(call_, room)));
    return false;
  };
  const Length in_front = rear() - box_.at.y;
  const bool railed = top_kind_ == "rails" || top_kind_ == "stretchers";
  const bool wide = fits("thickness", "two sides", box_.size.x, side_ * 2);
  const bool high = fits("thickness", "bottom and top", box_.size.z, level_ * 2);
  const bool deep = fits("back", "back and its inset", box_.size.y, box_.size.y - in_front);
  const bool clear =
      !railed || !deep || fits("top_rail_width", "two rails", in_front, rail_width_ * 2);
  return wide && high && deep && clear;
}

bool Case::holds_together() const {
  const bool bottom = call_.fields.yes("bottom");
  if (!bottom && top_kind_ == "none" && !back_.fitted) {
    call_.fields.complain("bottom",
                          "without bottom, top and back nothing holds the sides together");
    return false;
  }
  if (!bottom && top_kind_ == "none" && bays_.size() > 1) {
    call_.fields.complain("bays", "without bottom and top nothing holds the dividers");
    return false;
  }
  return true;
}

/// Name of bottom or top; they are one part of the list when both are alike.
std::string Case::end_name(std::string_view alone) const {
  const bool both = call_.fields.yes("bottom") && top_kind_ == "panel";
  return named_after_unit(call_.space, both ? "top/bottom" : alone);
}

Board Case::add(
    std::string_view name, std::string_view path, const Box& body, Axis length, Axis thickness) {
  NewPart part;
  part.name = name;
  part.path = path;
  part.stock = stock_;
  part.body = body;
  part.length = length;
  part.thickness = thickness;
  part.show_faces = {kToFront};
  return add_board(call_, part, edge_);
}

void Case::add_sides() {
  const Length rear_edge = back_.way == "none" ? rear() : box_.end(Axis::kY);
  const auto side = [&](std::string_view path, Length from, Direction outside, Hand hand) {
    NewPart part;
    part.name = named_after_unit(call_.space, "side");
    part.path = path;
    part.stock = side_stock_;
    part.body =
        between({from, box_.at.y, box_.at.z}, {from + side_, rear_edge, box_.end(Axis::kZ)});
    part.length = Axis::kZ;
    part.thickness = Axis::kX;
    part.show_faces = {kToFront, outside};
    part.hand = hand;
    return add_board(call_, part, edge_, call_.fields.has("side_stock") ? "side_stock" : "stock");
  };
  left_ = side("side_left", box_.at.x, kToLeft, Hand::kLeft);
  right_ = side("side_right", right_inside(), kToRight, Hand::kRight);
}

void Case::add_bottom() {
  if (!call_.fields.yes("bottom")) {
    return;
  }
  const Box body = between({left_inside(), box_.at.y, box_.at.z},
                           {right_inside(), rear_of_grooved(), box_.at.z + level_});
  bottom_ = add(end_name("bottom"), "bottom", body, Axis::kX, Axis::kZ);
  fix(call_, fixing_, fixing_.corner, *bottom_, left_, kToLeft);
  fix(call_, fixing_, fixing_.corner, *bottom_, right_, kToRight);
}

void Case::add_top_rails() {
  const bool rails = top_kind_ == "rails";
  const std::string path = rails ? "top_rail" : "stretcher";
  const std::string name = named_after_unit(call_.space, rails ? "top rail" : "stretcher");
  const auto rail = [&](std::string_view where, Length from) {
    const Box body = between({left_inside(), from, box_.end(Axis::kZ) - level_},
                             {right_inside(), from + rail_width_, box_.end(Axis::kZ)});
    top_.push_back(add(name, path + std::string{where}, body, Axis::kX, Axis::kZ));
  };
  rail("_front", box_.at.y);
  rail("_back", rear() - rail_width_);
}

void Case::add_top() {
  if (top_kind_ == "panel") {
    const Box body = between({left_inside(), box_.at.y, box_.end(Axis::kZ) - level_},
                             {right_inside(), rear_of_grooved(), box_.end(Axis::kZ)});
    top_.push_back(add(end_name("top"), "top", body, Axis::kX, Axis::kZ));
    show(call_, top_.front().core, kUp);
  } else if (top_kind_ != "none") {
    add_top_rails();
  }
  for (const Board& board : top_) {
    fix(call_, fixing_, fixing_.corner, board, left_, kToLeft);
    fix(call_, fixing_, fixing_.corner, board, right_, kToRight);
  }
}

void Case::add_dividers() {
  Length at = left_inside();
  for (std::size_t bay = 0; bay + 1 < bays_.size(); ++bay) {
    at += bays_[bay].size;
    NewPart part;
    part.name = named_after_unit(call_.space, "divider");
    part.path = fmt::format("divider_{}", bay + 1);
    part.stock = divider_stock_;
    part.body = between({at, box_.at.y, floor()}, {at + divider_, rear(), ceiling()});
    part.length = Axis::kZ;
    part.thickness = Axis::kX;
    part.show_faces = {kToFront};
    const Board divider = add_board(
        call_, part, edge_, call_.fields.has("divider_stock") ? "divider_stock" : "stock");
    if (bottom_) {
      fix(call_, fixing_, fixing_.middle, divider, *bottom_, kDown);
    }
    for (const Board& board : top_) {
      fix(call_, fixing_, fixing_.middle, divider, board, kUp);
    }
    dividers_.push_back(divider);
    at += divider_;
  }
}

void Case::add_back() {
  if (!back_.fitted) {
    return;
  }
  const bool planted = back_.way == "none";
  const bool grooved = back_.way == "groove";
  const Box body =
      between({planted ? box_.at.x : left_inside(), rear(), grooved ? floor() : box_.at.z},
              {planted ? box_.end(Axis::kX) : right_inside(),
               rear() + back_.thickness,
               grooved && top_kind_ == "panel" ? ceiling() : box_.end(Axis::kZ)});
  std::vector<PartIndex> boards = {left_.core, right_.core};
  if (bottom_) {
    boards.push_back(bottom_->core);
  }
  for (const std::vector<Board>& more : {top_, dividers_}) {
    std::ranges::transform(more, std::back_inserter(boards), &Board::core);
  }
  const document::Fields fields = call_.fields.map("back");
  back_part_ =
      add_case_back({fields, call_.space, call_.shop}, back_, body, boards, fixing_.spacing);
}

void Case::read_bays() {
  const Length inside = right_inside() - left_inside();
  const Node* list = call_.fields.node("bays");
  if (list == nullptr) {
    bays_ = {{.name = "", .size = inside, .node = &call_.fields.node(), .at = call_.fields.at()}};
    return;
  }
  const auto count = static_cast<std::int64_t>(list->items.size());
  bays_ =
      read_cells(call_, "bays", "width", inside - divider_ * std::max<std::int64_t>(0, count - 1));
  for (const Node::Entry& entry : call_.fields.node().entries) {
    if (is_content(entry.key)) {
      call_.fields.complain(
          entry.key,
          fmt::format("`{}` stands beside `bays`: write it in the bay that it fills", entry.key));
    }
  }
}

void Case::fill_bay(std::size_t bay, Length from, const Node& contents) {
  const Board& left = bay == 0 ? left_ : dividers_[bay - 1];
  const Board& right = bay + 1 == bays_.size() ? right_ : dividers_[bay];
  Space space = call_.space;
  if (!bays_[bay].name.empty()) {
    space.name += (space.name.empty() ? "" : ".") + bays_[bay].name;
  }
  space.box = between({from, box_.at.y, floor()}, {from + bays_[bay].size, rear(), ceiling()});
  space.left = left.core;
  space.right = right.core;
  space.below = bottom_ ? bottom_->core : Space::kNone;
  space.above = top_.empty() ? Space::kNone : top_.front().core;
  space.behind = back_part_;
  space.front_setback = {};
  if (!is_closed(contents)) {
    show(call_, left.core, kToRight);
    show(call_, right.core, kToLeft);
    for (const auto& [part, side] :
         {std::pair{space.below, kUp}, {space.above, kDown}, {space.behind, kToFront}}) {
      if (part != Space::kNone) {
        show(call_, part, side);
      }
    }
  }
  const auto kit = std::ranges::find_if(contents.entries, [](const Node::Entry& entry) {
    return std::ranges::any_of(all_kits(), [&](const Kit& k) { return k.word == entry.key; });
  });
  call_.shop.piece.openings.push_back(
      {space.name, space.box, kit == contents.entries.end() ? "" : kit->key, bays_[bay].at});
  fill(contents, space, call_.shop);
}

void Case::fill_bays() {
  Length from = left_inside();
  for (std::size_t bay = 0; bay < bays_.size(); ++bay) {
    Node contents = contents_of(*bays_[bay].node);
    if (!call_.fields.has("bays")) {
      std::erase_if(contents.entries,
                    [](const Node::Entry& entry) { return !is_content(entry.key); });
    }
    fill_bay(bay, from, contents);
    from += bays_[bay].size + divider_;
  }
}

void Case::build() {
  if (!has_room()) {
    return;
  }
  read_bays();
  if (bays_.empty() || !holds_together()) {
    return;
  }
  add_sides();
  add_bottom();
  add_top();
  add_dividers();
  add_back();
  fill_bays();
}

void build_carcase(const KitCall& call) {
  Case{call}.build();
}

}  // namespace

const Kit& carcase_kit() {
  static const Kit kKit{
      "carcase",
      "A box of boards: sides, bottom, top, back and dividers, with openings to fill",
      kFields,
      build_carcase};
  return kKit;
}

}  // namespace plankwright::piece
