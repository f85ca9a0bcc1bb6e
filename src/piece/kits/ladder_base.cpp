// A plinth like a ladder laid on edge: two long rails with cross members between them, in sections
// that can be carried, and a kick face that hides the joints between the sections.

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

constexpr int kMostSections = 20;
constexpr int kMostMembers = 200;
constexpr int kMostPieces = 50;
constexpr int kMostLevellers = 500;

constexpr std::array<std::string_view, 2> kJoints = {"screwed", "dowelled"};

constexpr std::array kKickFields = {
    Field{"stock", FieldKind::kIdentifier, "Boards or sheet of the face", true},
    Field{"thickness",
          FieldKind::kLength,
          "Of a solid face (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{"pieces", FieldKind::kCount, "In how many lengths", false, "1", FieldRange::kPositive},
    Field{"over_left", FieldKind::kLength, "How far it runs past the base at the left", false, "0"},
    Field{
        "over_right", FieldKind::kLength, "How far it runs past the base at the right", false, "0"},
    Field{"site_length",
          FieldKind::kLength,
          "Left over for trimming on site, shared out over the pieces",
          false,
          "0",
          FieldRange::kNotNegative},
    Field{"site_height",
          FieldKind::kLength,
          "Left over in height, for scribing to the floor",
          false,
          "0",
          FieldRange::kNotNegative}};

constexpr std::array kFields = {
    Field{"stock", FieldKind::kIdentifier, "Boards or sheet of the ladders", true},
    Field{"thickness",
          FieldKind::kLength,
          "Of solid rails and members (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{"sections",
          FieldKind::kCount,
          "How many ladders stand side by side",
          false,
          "1",
          FieldRange::kPositive},
    Field{"cross_members",
          FieldKind::kCount,
          "In all ladders together, two of them at the ends of each",
          true,
          {},
          FieldRange::kPositive},
    Field{.key = "joint",
          .kind = FieldKind::kWord,
          .says = "How the members are held between the rails",
          .fallback = "screwed",
          .words = kJoints},
    Field{"spacing",
          FieldKind::kLength,
          "The most between two dowels or screws of a joint",
          false,
          "150 mm",
          FieldRange::kPositive},
    Field{.key = "kick",
          .kind = FieldKind::kMap,
          .says = "Face in front of the base",
          .inner = kKickFields},
    Field{"leveller", FieldKind::kIdentifier, "Fitting that the base is levelled with"},
    Field{"levellers", FieldKind::kCount, "How many of them in all", false, "0"}};

class LadderBase {
 public:
  explicit LadderBase(const KitCall& call);
  void build();

 private:
  bool has_room() const;
  NewPart upright(std::string_view name, std::string path, const Box& body, Axis length) const;
  void add_section(int section, const Box& room, int members);
  void add_members(int section, const Box& room, int members);
  void join_to_last_section(PartIndex front, PartIndex back, PartIndex member);
  void add_kick();
  void add_levellers();

  const KitCall& call_;
  std::string stock_;
  Length thickness_;
  int sections_, members_;
  JointKind joint_;
  Length spacing_;
  std::vector<PartIndex> front_rails_;
  std::vector<PartIndex> back_rails_;
  std::vector<PartIndex> member_parts_;
};

LadderBase::LadderBase(const KitCall& call)
    : call_{call},
      stock_{call.fields.identifier("stock")},
      thickness_{board_thickness(call, stock_)},
      sections_{count_up_to(call, "sections", kMostSections)},
      members_{count_up_to(call, "cross_members", kMostMembers)},
      joint_{call.fields.word("joint") == "dowelled" ? JointKind::kDowel : JointKind::kScrew},
      spacing_{call.fields.length("spacing")} {}

bool LadderBase::has_room() const {
  if (members_ <= 0) {
    return false;  // reported already
  }
  if (members_ < 2 * sections_) {
    call_.fields.complain(
        "cross_members",
        fmt::format("found {}, but every ladder needs one at each end: {} for {}",
                    members_,
                    2 * sections_,
                    sections_ == 1 ? "1 section" : fmt::format("{} sections", sections_)));
    return false;
  }
  if (thickness_ * 2 >= call_.space.box.size.y) {
    does_not_fit(call_,
                 "stock",
                 fmt::format("two rails {} thick leave no room in a base {} deep",
                             shown(call_, thickness_),
                             shown(call_, call_.space.box.size.y)));
    return false;
  }
  const int most = (members_ + sections_ - 1) / sections_;  // in one section
  if (thickness_ * most >= call_.space.box.size.x / sections_) {
    does_not_fit(call_,
                 "cross_members",
                 fmt::format("{} cross members {} thick leave no room in a ladder {} wide",
                             most,
                             shown(call_, thickness_),
                             shown(call_, call_.space.box.size.x / sections_)));
    return false;
  }
  return true;
}

NewPart LadderBase::upright(std::string_view name,
                            std::string path,
                            const Box& body,
                            Axis length) const {
  NewPart part;
  part.name = named_after_unit(call_.space, name);
  part.path = std::move(path);
  part.stock = stock_;
  part.body = body;
  part.length = length;
  part.thickness = length == Axis::kX ? Axis::kY : Axis::kX;
  return part;
}

void LadderBase::add_members(int section, const Box& room, int members) {
  const Length clear =
      room.size.x - thickness_;  // from the left of the first to the left of the last
  const PartIndex front = front_rails_.back();
  const PartIndex back = back_rails_.back();
  for (int member = 0; member < members; ++member) {
    const Length at = room.at.x + clear * member / (members - 1);
    const Box body =
        between({at, room.at.y + thickness_, room.at.z},
                {at + thickness_, room.end(Axis::kY) - thickness_, room.end(Axis::kZ)});
    const PartIndex part = add_part(
        call_,
        upright("cross member", fmt::format("member_{}_{}", section, member + 1), body, Axis::kY));
    const int fixings = fixings_along(body.size.z, spacing_);
    add_joint(call_, joint_, part, front, kToFront, {}, fixings);
    add_joint(call_, joint_, part, back, kToBack, {}, fixings);
    member_parts_.push_back(part);
  }
}

/// Ladders are screwed together through their end members where the piece will stand.
void LadderBase::join_to_last_section(PartIndex front, PartIndex back, PartIndex member) {
  let_meet(call_, front_rails_.back(), front, kToLeft);
  let_meet(call_, back_rails_.back(), back, kToLeft);
  const PartIndex first = member_parts_[member + 1];
  const int screws = fixings_along(call_.space.box.size.y, spacing_);
  add_joint(call_, JointKind::kScrew, first, member_parts_[member], kToLeft, {}, screws).undone =
      true;
}

void LadderBase::add_section(int section, const Box& room, int members) {
  const auto rail = [&](std::string_view where, Length from) {
    const Box body = between({room.at.x, from, room.at.z},
                             {room.end(Axis::kX), from + thickness_, room.end(Axis::kZ)});
    return add_part(call_,
                    upright("rail", fmt::format("rail_{}_{}", where, section), body, Axis::kX));
  };
  const bool first = front_rails_.empty();
  const PartIndex last_front = first ? 0 : front_rails_.back();
  const PartIndex last_back = first ? 0 : back_rails_.back();
  const std::size_t last_member = member_parts_.size() - 1;
  front_rails_.push_back(rail("front", room.at.y));
  back_rails_.push_back(rail("back", room.end(Axis::kY) - thickness_));
  add_members(section, room, members);
  if (!first) {
    join_to_last_section(last_front, last_back, last_member);
  }
}

void LadderBase::add_kick() {
  if (!call_.fields.has("kick")) {
    return;
  }
  const document::Fields fields = call_.fields.map("kick");
  const KitCall call{fields, call_.space, call_.shop};
  const std::string stock = fields.identifier("stock");
  const Length thickness = board_thickness(call, stock);
  const int pieces = count_up_to(call, "pieces", kMostPieces);
  const Box& base = call_.space.box;
  NewPart face;
  face.name = named_after_unit(call_.space, "kick face");
  face.path = "kick";
  face.stock = stock;
  face.body =
      between({base.at.x - fields.length("over_left"), base.at.y - thickness, base.at.z},
              {base.end(Axis::kX) + fields.length("over_right"), base.at.y, base.end(Axis::kZ)});
  face.show_faces = {kToFront};
  for (const PartIndex piece : add_run(call, face, pieces)) {
    Part& part = call_.shop.piece.parts[piece];
    part.site_length = fields.length("site_length") / pieces;
    part.site_width = fields.length("site_height");
    for (const PartIndex rail : touching(call, piece, kToBack)) {
      const Length shared =
          measure::intersection(part.body, call_.shop.piece.parts[rail].body).size.x;
      const int screws = fixings_along(shared, spacing_);
      add_joint(call, JointKind::kScrew, piece, rail, kToBack, {}, screws).undone = true;
    }
  }
}

void LadderBase::add_levellers() {
  add_hardware(call_,
               call_.fields.identifier("leveller"),
               count_up_to(call_, "levellers", kMostLevellers),
               "under the " + (call_.space.name.empty() ? "base" : call_.space.name),
               member_parts_,
               "leveller");
}

void LadderBase::build() {
  if (!has_room()) {
    return;
  }
  Box room = call_.space.box;
  for (int section = 0; section < sections_; ++section) {
    const Length end = call_.space.box.at.x + call_.space.box.size.x * (section + 1) / sections_;
    room.size.x = end - room.at.x;
    const int members = members_ / sections_ + (section < members_ % sections_ ? 1 : 0);
    add_section(section + 1, room, members);
    room.at.x = end;
  }
  add_kick();
  add_levellers();
}

void build_ladder_base(const KitCall& call) {
  LadderBase{call}.build();
}

}  // namespace

const Kit& ladder_base_kit() {
  static const Kit kKit{"ladder_base",
                        "A plinth of two long rails and cross members, with a kick face in front",
                        kFields,
                        build_ladder_base};
  return kKit;
}

}  // namespace plankwright::piece
