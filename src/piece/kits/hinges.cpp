#include "piece/kits/hinges.h"

#include <algorithm>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope

// Where the shop's list does not say (common practice, no source).
constexpr Length kButtLength = 63.5_mm;
constexpr Length kButtWidth = 22_mm;
constexpr Length kButtThickness = 2.5_mm;
constexpr Length kCupBore = 35_mm;
constexpr Length kCupDepth = 12.5_mm;
constexpr Length kCupEdge = 4_mm;
constexpr Length kCupFromEnd = 100_mm;
// Screws of the plate of a cup hinge: 37 back from the front edge, 32 apart (from memory: the usual
// hole pattern of board furniture).
constexpr Length kPlateBack = 37_mm;
constexpr Length kPlateScrews = 32_mm;
constexpr Length kPlateHole = 5_mm;

/// One hinge kind as this kit needs it.
struct Hinge {
  const shop::Hardware* fitting = nullptr;
  bool cup = false;
  Length high;      // room it takes along the door
  Length from_end;  // usual place of its middle
};

Hinge read_hinge(const KitCall& call) {
  Hinge hinge;
  hinge.fitting = fitting_of_kind(call,
                                  call.fields.identifier("hinge"),
                                  {"butt_hinge", "cup_hinge"},
                                  "a butt hinge or a cup hinge",
                                  "hinge");
  if (hinge.fitting != nullptr) {
    hinge.cup = hinge.fitting->kind == "cup_hinge";
    hinge.high = hinge.cup ? size_of(*hinge.fitting, "bore", kCupBore)
                           : size_of(*hinge.fitting, "length", kButtLength);
    // A butt hinge stands one length of itself from the end (common practice, no source).
    hinge.from_end = hinge.cup ? kCupFromEnd : hinge.high + hinge.high / 2;
  }
  return hinge;
}

/// Middles of the hinges, from the bottom up.
std::vector<Length> hinge_heights(const KitCall& call,
                                  const Leaf& leaf,
                                  const Hinge& hinge,
                                  int count) {
  const Length height = leaf.box.size.z;
  const Length usual = std::min(hinge.from_end, height / 4);
  const Length from_end = call.fields.optional_length("hinge_from_end").value_or(usual);
  const Length apart = height - 2 * from_end;
  constexpr int kMostHinges = 20;
  if (count > kMostHinges || from_end < hinge.high / 2 || apart < (count - 1) * hinge.high) {
    does_not_fit(call,
                 call.fields.has("hinge_from_end") ? "hinge_from_end" : "hinges",
                 fmt::format("{} hinges of {} do not fit on a door {} high",
                             count,
                             shown(call, hinge.high),
                             shown(call, height)));
    return {};
  }
  if (count == 1) {
    return {leaf.box.at.z + height / 2};
  }
  std::vector<Length> middles;
  for (int i = 0; i < count; ++i) {
    middles.push_back(leaf.box.at.z + from_end + apart * i / (count - 1));
  }
  return middles;
}

/// The edge of the leaf at its hinges.
Length hinge_edge(const Leaf& leaf) {
  return leaf.hinged_left ? leaf.box.at.x : leaf.box.end(Axis::kX);
}

/// What is cut `depth` deep into the face at `x` that looks to `face`.
Feature cut_in(FeatureKind kind, Direction face, Length x, Length depth, Box place) {
  place.at.x = face.sign > 0 ? x - depth : x;
  place.size.x = depth;
  Feature feature;
  feature.kind = kind;
  feature.face = face;
  feature.place = place;
  feature.depth = depth;
  return feature;
}

void let_in_butt(const KitCall& call,
                 const Leaf& leaf,
                 const Hinge& hinge,
                 PartIndex door,
                 PartIndex post,
                 Length middle) {
  const Length thickness = size_of(*hinge.fitting, "thickness", kButtThickness);
  const Length width = std::min(size_of(*hinge.fitting, "width", kButtWidth), leaf.box.size.y);
  const Box place = {{{}, leaf.box.at.y, middle - hinge.high / 2}, {{}, width, hinge.high}};
  const Direction out = leaf.hinged_left ? kToLeft : kToRight;
  const Direction in = leaf.hinged_left ? kToRight : kToLeft;
  std::vector<Part>& parts = call.shop.piece.parts;
  const Box& body = parts[post].body;
  const Length face = leaf.hinged_left ? body.end(Axis::kX) : body.at.x;
  for (const auto& [part, side, x] : {std::tuple{door, out, hinge_edge(leaf)}, {post, in, face}}) {
    Feature mortise = cut_in(FeatureKind::kHingeMortise, side, x, thickness, place);
    mortise.across = width;
    mortise.along = hinge.high;
    parts[part].features.push_back(mortise);
  }
}

void bore_cup(const KitCall& call,
              const Leaf& leaf,
              const Hinge& hinge,
              PartIndex door,
              PartIndex post,
              Length middle) {
  const Length depth = size_of(*hinge.fitting, "bore_depth", kCupDepth);
  const Length edge = size_of(*hinge.fitting, "edge", kCupEdge);
  const Length x =
      leaf.hinged_left ? hinge_edge(leaf) + edge : hinge_edge(leaf) - edge - hinge.high;
  Feature bore;
  bore.kind = FeatureKind::kHingeBore;
  bore.face = kToBack;
  bore.place = {{x, leaf.box.end(Axis::kY) - depth, middle - hinge.high / 2},
                {hinge.high, depth, hinge.high}};
  bore.depth = depth;
  bore.across = hinge.high;
  std::vector<Part>& parts = call.shop.piece.parts;
  parts[door].features.push_back(bore);

  const Box& body = parts[post].body;
  const bool inset = call.fields.word("fit") == "inset";
  const Length y = call.space.box.at.y + kPlateBack + (inset ? leaf.box.size.y : Length{});
  const Box place = {{{}, y - kPlateHole / 2, middle - kPlateScrews / 2 - kPlateHole / 2},
                     {{}, kPlateHole, kPlateScrews + kPlateHole}};
  Feature screws = cut_in(FeatureKind::kScrewHoles,
                          leaf.hinged_left ? kToRight : kToLeft,
                          leaf.hinged_left ? body.end(Axis::kX) : body.at.x,
                          std::min(kCupDepth, body.size.x),
                          place);
  screws.count = 2;
  screws.across = kPlateHole;
  screws.along = kPlateScrews;
  parts[post].features.push_back(screws);
}

/// How far the leaf covers the part it hangs on.
Length covered(const Leaf& leaf, const Box& post) {
  return leaf.hinged_left ? post.end(Axis::kX) - leaf.box.at.x : leaf.box.end(Axis::kX) - post.at.x;
}

bool cup_fits(
    const KitCall& call, const Leaf& leaf, const Hinge& hinge, PartIndex door, PartIndex post) {
  const Length depth = size_of(*hinge.fitting, "bore_depth", kCupDepth);
  const Length needs = size_of(*hinge.fitting, "edge", kCupEdge) + hinge.high;
  const Length cover = covered(leaf, call.shop.piece.parts[post].body);
  const Length most = size_of(*hinge.fitting, "overlay", cover);
  const Part& part = call.shop.piece.parts[door];
  if (depth >= leaf.box.size.y) {
    does_not_fit(call,
                 "hinge",
                 fmt::format("the cup of {} is bored {} deep, but the {} is {} thick",
                             hinge.fitting->name,
                             shown(call, depth),
                             part.name,
                             shown(call, leaf.box.size.y)));
  } else if (needs > part.body.size.x) {
    does_not_fit(call,
                 "hinge",
                 fmt::format("the cup of {} takes {}, but the {} is {} wide",
                             hinge.fitting->name,
                             shown(call, needs),
                             part.name,
                             shown(call, part.body.size.x)));
  } else if (cover > most) {
    does_not_fit(call,
                 "hinge",
                 fmt::format("the door covers {} at its hinges, but {} allows {}",
                             shown(call, cover),
                             hinge.fitting->name,
                             shown(call, most)));
  } else {
    return true;
  }
  return false;
}

void add_hinge_joint(
    const KitCall& call, const Leaf& leaf, PartIndex door, PartIndex post, int count) {
  const std::string id = call.fields.identifier("hinge");
  const Direction home = leaf.hinged_left ? kToLeft : kToRight;
  add_joint(call, JointKind::kHinge, door, post, home, {}, count).hardware = id;
  add_hardware(call, id, count, leaf.where, {door, post}, "hinge");
}

}  // namespace

void fit_hinges(const KitCall& call, const Leaf& leaf, PartIndex hinge_part, int count) {
  const PartIndex post = leaf.hinged_left ? call.space.left : call.space.right;
  if (post == Space::kNone) {
    does_not_fit(call,
                 "hinged",
                 fmt::format("there is nothing at the {} of this opening to hang a door on",
                             leaf.hinged_left ? "left" : "right"));
    return;
  }
  const Hinge hinge = read_hinge(call);
  if (hinge.fitting == nullptr || (hinge.cup && !cup_fits(call, leaf, hinge, hinge_part, post))) {
    return;
  }
  for (const Length middle : hinge_heights(call, leaf, hinge, count)) {
    (hinge.cup ? bore_cup : let_in_butt)(call, leaf, hinge, hinge_part, post, middle);
  }
  add_hinge_joint(call, leaf, hinge_part, post, count);
}

}  // namespace plankwright::piece
