#include "piece/kits/door_leaf.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/hinges.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope
using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::array<std::string_view, 2> kFits = {"inset", "overlay"};
constexpr std::array<std::string_view, 2> kSides = {"left", "right"};

// From the edge to the middle of a pull on a slab (common practice, no source).
constexpr Length kUsualPullIn = 40_mm;

const std::vector<Field>& shared_fields() {
  static const std::vector<Field> kFields = {
      {"leaves", FieldKind::kCount, "One leaf, or two for a pair", false, "1"},
      {.key = "fit",
       .kind = FieldKind::kWord,
       .says = "Inset: in its opening; overlay: in front of what bounds it",
       .fallback = "inset",
       .words = kFits},
      {"reveal",
       FieldKind::kLength,
       "Gap at each side, or how far an overlay door stays short of its line (the shop's usual "
       "one)",
       false,
       {},
       FieldRange::kNotNegative},
      {"top_reveal",
       FieldKind::kLength,
       "Reveal at the top, when it differs",
       false,
       {},
       FieldRange::kNotNegative},
      {"bottom_reveal",
       FieldKind::kLength,
       "Reveal at the bottom, when it differs",
       false,
       {},
       FieldRange::kNotNegative},
      {"gap",
       FieldKind::kLength,
       "Between the leaves of a pair (the reveal; twice the reveal when overlay)",
       false,
       {},
       FieldRange::kNotNegative},
      {"overlay",
       FieldKind::kLength,
       "How far an overlay door covers what bounds its opening, instead of a reveal",
       false,
       {},
       FieldRange::kNotNegative},
      {"stand_off",
       FieldKind::kLength,
       "Room for buffers between an overlay door and the case (1/16 in or 1.5 mm)",
       false,
       {},
       FieldRange::kPositive},
      {"hinge", FieldKind::kIdentifier, "Butt hinge or cup hinge of the shop", true},
      {"hinges",
       FieldKind::kCount,
       "On each leaf (2 up to 1 m high, 3 up to 1.6 m, else 4)",
       false,
       {},
       FieldRange::kPositive},
      {"hinge_from_end",
       FieldKind::kLength,
       "From the end of the leaf to the middle of the nearest hinge (one and a half butt hinges, "
       "or 100 mm)",
       false,
       {},
       FieldRange::kPositive},
      {.key = "hinged",
       .kind = FieldKind::kWord,
       .says = "Side of the hinges of a single leaf",
       .fallback = "left",
       .words = kSides},
      {"pull", FieldKind::kIdentifier, "Pull of the shop, one on each leaf"},
      {"pull_from_top",
       FieldKind::kLength,
       "From the top of the leaf to the middle of the pull (half way down)",
       false,
       {},
       FieldRange::kPositive},
      {"pull_in",
       FieldKind::kLength,
       "From the edge to the middle of the pull (the middle of a stile, 40 mm on a slab)",
       false,
       {},
       FieldRange::kPositive},
      {"catch", FieldKind::kIdentifier, "Catch of the shop, one on each leaf"}};
  return kFields;
}

/// The upright rectangle the leaves fill together, as a box of no depth at the front of the
/// opening.
Box front_of(const KitCall& call, Covers covers, Length reveal) {
  const bool inset = call.fields.word("fit") == "inset";
  const std::optional<Length> overlay = inset ? Length{} : call.fields.optional_length("overlay");
  const auto line = [&](Direction side, Length less) {
    const Length off = overlay && !inset ? Length{} : less;
    return overlay_line(call, side, covers, overlay) - off * side.sign;
  };
  const Length top = call.fields.optional_length("top_reveal").value_or(reveal);
  const Length bottom = call.fields.optional_length("bottom_reveal").value_or(reveal);
  const Length y = call.space.box.at.y;
  return between({line(kToLeft, reveal), y, line(kDown, bottom)},
                 {line(kToRight, reveal), y, line(kUp, top)});
}

std::string where_of(const KitCall& call, const std::string& path) {
  std::string door = path;
  std::ranges::replace(door, '_', ' ');
  return call.space.name.empty() ? door : call.space.name + " " + door;
}

Leaf leaf_at(const KitCall& call, std::string path, Box box, bool hinged_left) {
  std::string where = where_of(call, path);
  return {std::move(path), std::move(where), box, hinged_left};
}

std::vector<Leaf> pair_in(const KitCall& call, const Box& front, Length gap) {
  if (call.fields.has("hinged")) {
    call.fields.complain("hinged", "a pair of leaves is hinged on both sides: leave `hinged` out");
  }
  Box left = front;
  left.size.x = (front.size.x - gap) / 2;
  Box right = left;
  right.at.x = front.end(Axis::kX) - right.size.x;
  return {leaf_at(call, "door_left", left, true), leaf_at(call, "door_right", right, false)};
}

bool leaf_has_size(const KitCall& call, const Leaf& leaf) {
  if (leaf.box.size.x > Length{} && leaf.box.size.z > Length{}) {
    return true;
  }
  does_not_fit(call,
               "reveal",
               fmt::format("the reveals leave nothing of an opening {} wide and {} high",
                           shown(call, call.space.box.size.x),
                           shown(call, call.space.box.size.z)));
  return false;
}

struct Gaps {
  bool inset;
  Length reveal, between;
};

/// A door without room around it does not open. Overlay doors may end with the case.
bool opens_freely(const KitCall& call, const Gaps& gaps) {
  const document::Fields& f = call.fields;
  for (const std::string_view field : {"reveal", "top_reveal", "bottom_reveal"}) {
    if (gaps.inset && f.optional_length(field).value_or(gaps.reveal) <= Length{}) {
      does_not_fit(call, field, "an inset door needs a reveal on every side to open");
      return false;
    }
  }
  if (gaps.between <= Length{} && f.count("leaves") == 2) {
    does_not_fit(call, "gap", "two leaves need a gap between them to open");
    return false;
  }
  return true;
}

Point pull_place(const KitCall& call, const Leaf& leaf, const Part& lock_part) {
  const Length half = lock_part.body.size.x / 2;
  const bool slab = lock_part.body.size.x == leaf.box.size.x;
  const Length in =
      call.fields.optional_length("pull_in").value_or(slab ? std::min(half, kUsualPullIn) : half);
  const Length down = call.fields.optional_length("pull_from_top").value_or(leaf.box.size.z / 2);
  const Length x = leaf.hinged_left ? leaf.box.end(Axis::kX) - in : leaf.box.at.x + in;
  return {x, leaf.box.at.y, leaf.box.end(Axis::kZ) - down};
}

void fit_pull(const KitCall& call, const Leaf& leaf, PartIndex lock_part) {
  const Point at = pull_place(call, leaf, call.shop.piece.parts[lock_part]);
  const Box body = call.shop.piece.parts[lock_part].body;
  for (const auto& [axis, field] : {std::pair{Axis::kX, "pull_in"}, {Axis::kZ, "pull_from_top"}}) {
    if (at[axis] < body.begin(axis) || at[axis] > body.end(axis)) {
      does_not_fit(call, field, "the pull would stand beside the door");
      return;
    }
  }
  add_pulls(call, call.fields.identifier("pull"), lock_part, {at}, Axis::kZ, leaf.where);
}

}  // namespace

std::vector<Field> with_door_fields(std::initializer_list<Field> own) {
  std::vector<Field> fields = own;
  fields.insert(fields.end(), shared_fields().begin(), shared_fields().end());
  return fields;
}

std::vector<Leaf> place_leaves(const KitCall& call, Length thickness, Covers covers) {
  const std::size_t errors_before = call.shop.errors.size();
  const bool inset = call.fields.word("fit") == "inset";
  const Length reveal =
      call.fields.optional_length("reveal").value_or(call.shop.shop.allowances.show_gap);
  const Length gap = call.fields.optional_length("gap").value_or(inset ? reveal : 2 * reveal);
  Box front = front_of(call, covers, reveal);
  front.size.y = thickness;
  if (!inset) {
    front.at.y -= thickness +
                  call.fields.optional_length("stand_off").value_or(usual(call, 0.0625_in, 1.5_mm));
  }
  const int leaves = call.fields.count("leaves");
  if (leaves != 1 && leaves != 2) {
    call.fields.complain("leaves", fmt::format("found {} leaves, expected 1 or 2", leaves));
    return {};
  }
  if (call.shop.errors.size() != errors_before || !opens_freely(call, {inset, reveal, gap})) {
    return {};
  }
  const std::vector<Leaf> placed =
      leaves == 2
          ? pair_in(call, front, gap)
          : std::vector{leaf_at(call, "door", front, call.fields.word("hinged") != "right")};
  return leaf_has_size(call, placed.front()) ? placed : std::vector<Leaf>{};
}

int usual_hinges(Length height) {
  return height <= 1000_mm ? 2 : height <= 1600_mm ? 3 : 4;
}

void hang_leaf(const KitCall& call, const Leaf& leaf, const LeafParts& parts) {
  const PartIndex hinge_part = leaf.hinged_left ? parts.left : parts.right;
  const PartIndex lock_part = leaf.hinged_left ? parts.right : parts.left;
  const int written = call.fields.count("hinges");
  const int count = written > 0 ? written : usual_hinges(leaf.box.size.z);
  fit_hinges(call, leaf, hinge_part, count);
  fit_pull(call, leaf, lock_part);
  const std::string catch_id = call.fields.identifier("catch");
  if (fitting_of_kind(call, catch_id, {"catch"}, "a catch", "catch") != nullptr) {
    add_hardware(call, catch_id, 1, leaf.where, {lock_part}, "catch");
  }
  call.shop.piece.doors.push_back(
      {call.space.name.empty() ? leaf.path : call.space.name + "." + leaf.path,
       parts.all,
       leaf.hinged_left,
       leaf.box});
}

}  // namespace plankwright::piece
