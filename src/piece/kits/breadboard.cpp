#include "piece/kits/breadboard.h"

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/placing.h"
#include "wood/moisture.h"
#include "wood/movement.h"

namespace plankwright::piece {
namespace {

constexpr int kMostPins = 15;

// Common practice, no source.
constexpr int kWidthInThicknesses = 3;
constexpr int kTongueShareOfWidth = 3;
constexpr int kPinShareOfThickness = 4;
// The tenon of the reference table of proportions: a third of the stock.
constexpr int kTongueShareOfThickness = 3;

/// Half of what the width of the slab changes between the dry and the damp end of the year in the
/// client's room; zero when the wood is not known.
Length seasonal_play(const KitCall& call, const Part& slab) {
  const wood::Species* species = call.shop.shop.species.get(slab.species);
  const auto cut = wood::parse_cut(slab.cut_kind);
  const commission::Room& room = call.shop.commission.room;
  const auto dry = wood::equilibrium_moisture(room.temperature, room.humidity_low);
  const auto damp = wood::equilibrium_moisture(room.temperature, room.humidity_high);
  if (species == nullptr || !cut.ok() || !dry.ok() || !damp.ok()) {
    return {};
  }
  const auto moved = wood::movement(*species,
                                    wood::Side::kWidth,
                                    cut.value(),
                                    slab.body.size[slab.width_axis()],
                                    dry.value(),
                                    damp.value());
  return moved.ok() ? moved.value().change / 2 : Length{};
}

/// The groove for the tongue, in the edge that looks at the slab.
Feature groove_for(const Joint& joint) {
  Feature groove;
  groove.kind = FeatureKind::kGroove;
  groove.face = {joint.home.axis, -joint.home.sign};
  groove.place = joint.contact;
  groove.place.size[joint.home.axis] = joint.depth;
  if (joint.home.sign < 0) {
    groove.place.at[joint.home.axis] -= joint.depth;
  }
  groove.depth = joint.depth;
  groove.across = joint.tongue_thickness;
  groove.along = joint.tongue_width;
  return groove;
}

/// Pins spread over the width of the slab, bored from below so that they are not seen.
Feature pins_through(const KitCall& call, const Joint& joint, const Part& end, int pins) {
  const Length pin = end.body.size.z / kPinShareOfThickness;
  Feature bore;
  bore.kind = FeatureKind::kBore;
  bore.face = kDown;
  bore.count = pins;
  bore.depth = end.body.size.z - pin;
  bore.across = pin;
  bore.along = joint.tongue_width;
  bore.place = end.body;
  bore.place.at[joint.home.axis] =
      joint.contact.at[joint.home.axis] + (joint.depth * joint.home.sign - pin) / 2;
  bore.place.size[joint.home.axis] = pin;
  bore.says =
      pins > 1 ? fmt::format("{} pins, the middle one glued, the others in slots with {} each way",
                             pins,
                             shown(call, joint.play))
               : "1 pin, glued";
  return bore;
}

PartIndex add_end(const KitCall& call, PartIndex slab_index, Direction end) {
  const Part slab = call.shop.piece.parts[slab_index];
  const Axis along = end.axis;
  NewPart part;
  part.name = slab.name + " breadboard end";
  part.path = end.sign < 0 ? "breadboard_end_left" : "breadboard_end_right";
  part.stock = call.fields.has("stock") ? call.fields.identifier("stock") : slab.stock;
  part.length = slab.width_axis();
  part.thickness = Axis::kZ;
  part.layers = slab.layers;
  part.hand = end.sign < 0 ? Hand::kLeft : Hand::kRight;
  part.show_faces = {kUp, end, {part.length, -1}, {part.length, 1}};
  part.body = slab.body;
  part.body.size[along] = breadboard_width(call, slab.body.size.z);
  part.body.at[along] =
      end.sign < 0 ? slab.body.begin(along) - part.body.size[along] : slab.body.end(along);
  const PartIndex index = add_part(call, part);
  const Length tongue =
      call.fields.optional_length("tongue").value_or(part.body.size[along] / kTongueShareOfWidth);
  Joint& joint = add_joint(call, JointKind::kStubTenon, slab_index, index, end, tongue);
  joint.tongue_thickness = slab.body.size.z / kTongueShareOfThickness;
  joint.tongue_width = slab.body.size[part.length];
  joint.glued = false;  // but for a hand's breadth in the middle
  joint.play = call.fields.optional_length("play").value_or(seasonal_play(call, slab));
  Part& made = call.shop.piece.parts[index];
  made.features.push_back(groove_for(joint));
  if (const int pins = count_up_to(call, "pins", kMostPins); pins > 0) {
    made.features.push_back(pins_through(call, joint, made, pins));
  }
  return index;
}

}  // namespace

Length breadboard_width(const KitCall& call, Length thickness) {
  return call.fields.optional_length("width").value_or(thickness * kWidthInThicknesses);
}

std::vector<PartIndex> add_breadboard_ends(const KitCall& call, PartIndex slab) {
  const Axis along = call.shop.piece.parts[slab].length_axis;
  const PartIndex left = add_end(call, slab, {along, -1});
  const PartIndex right = add_end(call, slab, {along, 1});
  return {left, right};
}

}  // namespace plankwright::piece
