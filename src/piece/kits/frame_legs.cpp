// The legs of a frame: section, taper, left and right.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/frame.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr int kMostLayers = 20;

constexpr std::array<std::string_view, 3> kTaperFaces = {"inner", "all", "none"};

Field length_field(std::string_view key, std::string_view says, bool required = false) {
  return {key, FieldKind::kLength, says, required, {}, FieldRange::kPositive};
}

/// What is let into a leg from one side.
struct LetIn {
  bool rail = false, stretcher = false;
  Length height, thickness, offset, length;
  friend bool operator==(const LetIn&, const LetIn&) = default;
};

LetIn let_in(const Frame& frame, FrameSide side) {
  LetIn in;
  in.stretcher = frame.stretchers[at_side(side)].has_value();
  if (frame.has_rail(side)) {
    const Member& rail = frame.rail(side);
    in.rail = true;
    in.height = rail.height;
    in.thickness = tenon_thickness(frame.joint, rail);
    in.offset = rail.setback + (rail.thickness - in.thickness) / 2;
    in.length = frame.joint.length;
  }
  return in;
}

/// How the legs differ. A leg with the same mortises in both faces is its own mirror image over the
/// corner; turned by a half turn, the front left leg is the back right one.
struct LegNames {
  std::array<std::string_view, kLegs> names;
  std::array<Hand, kLegs> hands;
};

LegNames names_of_legs(const Frame& frame) {
  const LetIn front = let_in(frame, FrameSide::kFront);
  const LetIn back = let_in(frame, FrameSide::kBack);
  const LetIn left = let_in(frame, FrameSide::kLeft);
  const LetIn right = let_in(frame, FrameSide::kRight);
  const bool square = frame.leg_x == frame.leg_y;
  if (front == back && left == right) {
    const bool alike = square && front == left;
    const Hand first = alike ? Hand::kNone : Hand::kLeft;
    const Hand second = alike ? Hand::kNone : Hand::kRight;
    return {{"leg", "leg", "leg", "leg"}, {first, second, second, first}};
  }
  const auto hand = [&](const LetIn& end, const LetIn& side, Hand which) {
    return square && end == side && left == right ? Hand::kNone : which;
  };
  return {{"front leg", "front leg", "back leg", "back leg"},
          {hand(front, left, Hand::kLeft),
           hand(front, right, Hand::kRight),
           hand(back, left, Hand::kLeft),
           hand(back, right, Hand::kRight)}};
}

/// Where the legs may begin to taper: below all that is let into them.
Length below_members(const Frame& frame) {
  Length lowest = frame.box.size.z;
  for (const auto& members : {frame.rails, frame.stretchers}) {
    for (const auto& member : members) {
      lowest = member ? std::min(lowest, member->bottom) : lowest;
    }
  }
  return frame.box.size.z - lowest;
}

std::vector<Taper> tapers_of(const KitCall& leg, const Frame& frame, std::size_t index) {
  const auto to = leg.fields.optional_length("taper_to");
  const std::string faces = leg.fields.word("taper_faces");
  if (!to || *to <= Length{} || faces == "none") {
    return {};
  }
  const Length from = leg.fields.optional_length("taper_from").value_or(below_members(frame));
  const Direction in_x = index % 2 == 0 ? kToRight : kToLeft;
  const Direction in_y = index < 2 ? kToBack : kToFront;
  std::vector<Taper> tapers = {{in_x, from, *to}, {in_y, from, *to}};
  if (faces == "all") {
    tapers.push_back({{Axis::kX, -in_x.sign}, from, *to});
    tapers.push_back({{Axis::kY, -in_y.sign}, from, *to});
  }
  return tapers;
}

}  // namespace

document::FieldTable leg_fields() {
  static const std::vector<Field> kFields = {
      {"stock", FieldKind::kIdentifier, "Solid stock of the legs", true},
      length_field("size", "Width and depth of a square leg"),
      length_field("width", "From left to right, when it is not square"),
      length_field("depth", "From front to back, when it is not square"),
      {"layers",
       FieldKind::kCount,
       "Boards glued face to face to make it",
       false,
       "1",
       FieldRange::kPositive},
      length_field("taper_to", "Section at the foot"),
      {.key = "taper_faces",
       .kind = FieldKind::kWord,
       .says = "Which faces lean in",
       .fallback = "inner",
       .words = kTaperFaces},
      length_field(
          "taper_from",
          "From the top of the leg to where it begins to taper (just below what is let into it)")};
  return kFields;
}

bool read_leg_section(const KitCall& leg, Frame& frame) {
  const auto size = leg.fields.optional_length("size");
  const auto width = leg.fields.optional_length("width");
  const auto depth = leg.fields.optional_length("depth");
  if (!size && (!width || !depth)) {
    leg.fields.complain("size", "say the `size` of a square leg, or its `width` and `depth`");
    return false;
  }
  frame.leg_x = width.value_or(size.value_or(Length{}));
  frame.leg_y = depth.value_or(size.value_or(Length{}));
  const std::pair<Length, Length> checks[] = {{frame.leg_x, frame.box.size.x},
                                              {frame.leg_y, frame.box.size.y}};
  for (const auto& [section, overall] : checks) {
    if (section <= Length{}) {
      return false;  // reported where it was read
    }
    if (2 * section >= overall) {
      does_not_fit(leg,
                   "size",
                   fmt::format("two legs of {} leave nothing between them in {}",
                               shown(leg, section),
                               shown(leg, overall)));
      return false;
    }
  }
  return true;
}

bool taper_fits(const KitCall& leg, const Frame& frame) {
  const auto to = leg.fields.optional_length("taper_to");
  if (!to || leg.fields.word("taper_faces") == "none") {
    return true;
  }
  const Length thinner = std::min(frame.leg_x, frame.leg_y);
  if (*to > thinner) {
    does_not_fit(
        leg,
        "taper_to",
        fmt::format("a leg of {} cannot taper to {}", shown(leg, thinner), shown(leg, *to)));
    return false;
  }
  const Length highest = below_members(frame);
  const Length from = leg.fields.optional_length("taper_from").value_or(highest);
  if (from >= frame.box.size.z) {
    does_not_fit(leg,
                 leg.fields.has("taper_from") ? "taper_from" : "taper_to",
                 fmt::format("a taper {} down begins below the foot of a leg {} long",
                             shown(leg, from),
                             shown(leg, frame.box.size.z)));
    return false;
  }
  if (from < highest) {
    does_not_fit(
        leg,
        "taper_from",
        fmt::format(
            "the taper begins {} down, but rails or stretchers meet the leg as far as {} down",
            shown(leg, from),
            shown(leg, highest)));
    return false;
  }
  return true;
}

void add_legs(const KitCall& leg, Frame& frame) {
  static constexpr std::array<std::string_view, kLegs> kPaths = {
      "leg_front_left", "leg_front_right", "leg_back_left", "leg_back_right"};
  const LegNames names = names_of_legs(frame);
  const int layers = count_up_to(leg, "layers", kMostLayers);
  for (std::size_t i = 0; i < kLegs; ++i) {
    Box body = frame.box;
    body.size.x = frame.leg_x;
    body.size.y = frame.leg_y;
    body.at.x = i % 2 == 0 ? frame.box.at.x : frame.box.end(Axis::kX) - frame.leg_x;
    body.at.y = i < 2 ? frame.box.at.y : frame.box.end(Axis::kY) - frame.leg_y;
    frame.legs[i] =
        add_part(leg,
                 {.name = std::string{names.names[i]},
                  .path = std::string{kPaths[i]},
                  .stock = leg.fields.identifier("stock"),
                  .body = body,
                  .length = Axis::kZ,
                  .thickness = frame.leg_x < frame.leg_y ? Axis::kX : Axis::kY,
                  .show_faces = {i < 2 ? kToFront : kToBack, i % 2 == 0 ? kToLeft : kToRight},
                  .hand = names.hands[i],
                  .layers = layers});
    leg.shop.piece.parts[frame.legs[i]].tapers = tapers_of(leg, frame, i);
  }
}

}  // namespace plankwright::piece
