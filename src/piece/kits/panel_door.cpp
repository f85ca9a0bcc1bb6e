// Frame-and-panel doors: stiles from top to bottom, rails between them, panels loose in grooves.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/door_leaf.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope
using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::array<std::string_view, 3> kJoints = {
    "stub_tenon", "mortise_and_tenon", "loose_tenon"};

constexpr int kMostMidRails = 20;

document::FieldTable fields() {
  static const std::vector<Field> kFields = with_door_fields(
      {{"stock", FieldKind::kIdentifier, "Solid stock of stiles and rails", true},
       {"thickness", FieldKind::kLength, "Of stiles and rails", true, {}, FieldRange::kPositive},
       {"stile", FieldKind::kLength, "Width of a stile", true, {}, FieldRange::kPositive},
       {"rail", FieldKind::kLength, "Width of a rail", true, {}, FieldRange::kPositive},
       {"bottom_rail",
        FieldKind::kLength,
        "Width of the bottom rail (as the others)",
        false,
        {},
        FieldRange::kPositive},
       {"mid_rails", FieldKind::kCount, "Rails between top and bottom, evenly spaced", false, "0"},
       {"mid_rail",
        FieldKind::kLength,
        "Width of these (as the others)",
        false,
        {},
        FieldRange::kPositive},
       {"tongue",
        FieldKind::kLength,
        "Depth of the groove, and of the stub tenon in it",
        true,
        {},
        FieldRange::kPositive},
       {"groove",
        FieldKind::kLength,
        "Width of the groove (a third of the frame; a thin sheet panel's own thickness)",
        false,
        {},
        FieldRange::kPositive},
       {.key = "joint",
        .kind = FieldKind::kWord,
        .says = "How the rails are held",
        .fallback = "stub_tenon",
        .words = kJoints},
       {"tenon",
        FieldKind::kLength,
        "Length of a mortised or loose tenon (two thirds of the stile)",
        false,
        {},
        FieldRange::kPositive},
       {"panel_stock", FieldKind::kIdentifier, "Stock of the panel (as the frame)"},
       {"panel_thickness",
        FieldKind::kLength,
        "Thickness of a solid panel (as the groove)",
        false,
        {},
        FieldRange::kPositive},
       {"panel_play",
        FieldKind::kLength,
        "Room for the panel to swell, at each side (1/8 in or 3 mm; none for a sheet)",
        false,
        {},
        FieldRange::kNotNegative},
       {"panel_end_play",
        FieldKind::kLength,
        "Room at each end of its grain (1/16 in or 1.5 mm; none for a sheet)",
        false,
        {},
        FieldRange::kNotNegative}});
  return kFields;
}

/// The choices of the kit, read once.
struct Frame {
  std::string stock, panel_stock;
  Length thickness, stile, rail, bottom_rail, mid_rail;
  int mid_rails = 0;
  JointKind joint = JointKind::kStubTenon;
  Length tongue, groove, tenon;
  Length panel_thickness, play, end_play;
};

/// A third of the stock (reference table of proportions); a thin sheet makes its own groove.
Length usual_groove(const KitCall& call, const Frame& frame) {
  const Length third = frame.thickness / 3;
  const Length panel = stock_thickness(call, frame.panel_stock, third);
  return is_sheet(call, frame.panel_stock) && panel <= frame.thickness / 2 ? panel : third;
}

void read_panel(const KitCall& call, Frame& frame) {
  const std::string written = call.fields.identifier("panel_stock");
  frame.panel_stock = written.empty() ? frame.stock : written;
  frame.groove = call.fields.optional_length("groove").value_or(usual_groove(call, frame));
  const Length wanted = call.fields.optional_length("panel_thickness").value_or(frame.groove);
  frame.panel_thickness = stock_thickness(call, frame.panel_stock, wanted);
  // Common practice, no source: half the swell of a usual panel at each side.
  const bool sheet = is_sheet(call, frame.panel_stock);
  frame.play = call.fields.optional_length("panel_play")
                   .value_or(sheet ? Length{} : usual(call, 0.125_in, 3_mm));
  frame.end_play = call.fields.optional_length("panel_end_play")
                       .value_or(sheet ? Length{} : usual(call, 0.0625_in, 1.5_mm));
}

Frame read_frame(const KitCall& call) {
  Frame frame;
  const document::Fields& f = call.fields;
  frame.stock = f.identifier("stock");
  frame.thickness = stock_thickness(call, frame.stock, f.length("thickness"));
  frame.stile = f.length("stile");
  frame.rail = f.length("rail");
  frame.bottom_rail = f.optional_length("bottom_rail").value_or(frame.rail);
  frame.mid_rail = f.optional_length("mid_rail").value_or(frame.rail);
  frame.mid_rails = f.count("mid_rails");
  frame.tongue = f.length("tongue");
  const std::string joint = f.word("joint");
  frame.joint = joint == "mortise_and_tenon" ? JointKind::kMortiseTenon
                : joint == "loose_tenon"     ? JointKind::kLooseTenon
                                             : JointKind::kStubTenon;
  // A tenon takes at most two thirds of what it is let into (reference table of proportions).
  frame.tenon = frame.joint == JointKind::kStubTenon
                    ? frame.tongue
                    : f.optional_length("tenon").value_or(2 * frame.stile / 3);
  read_panel(call, frame);
  return frame;
}

bool frame_is_sound(const KitCall& call, const Frame& frame) {
  const auto refuse = [&](std::string_view field, std::string message) {
    does_not_fit(call, field, std::move(message));
    return false;
  };
  if (frame.groove >= frame.thickness && frame.thickness > Length{}) {
    return refuse("groove",
                  fmt::format("a groove {} wide leaves nothing of a frame {} thick",
                              shown(call, frame.groove),
                              shown(call, frame.thickness)));
  }
  if (frame.panel_thickness > frame.thickness && frame.thickness > Length{}) {
    return refuse("panel_thickness",
                  fmt::format("the panel is {} thick, its frame only {}",
                              shown(call, frame.panel_thickness),
                              shown(call, frame.thickness)));
  }
  if (std::max(frame.play, frame.end_play) >= frame.tongue && frame.tongue > Length{}) {
    return refuse(frame.play >= frame.tongue ? "panel_play" : "panel_end_play",
                  fmt::format("with {} of play nothing holds the panel in a groove {} deep",
                              shown(call, std::max(frame.play, frame.end_play)),
                              shown(call, frame.tongue)));
  }
  const Length narrowest = std::min({frame.stile, frame.rail, frame.bottom_rail, frame.mid_rail});
  if (frame.tongue >= narrowest && narrowest > Length{}) {
    return refuse("tongue",
                  fmt::format("a groove {} deep leaves nothing of a rail or stile {} wide",
                              shown(call, frame.tongue),
                              shown(call, narrowest)));
  }
  if (frame.tenon >= frame.stile && frame.stile > Length{}) {
    return refuse("tenon",
                  fmt::format("a tenon {} long comes out of a stile {} wide",
                              shown(call, frame.tenon),
                              shown(call, frame.stile)));
  }
  if (frame.mid_rails > kMostMidRails) {
    return refuse("mid_rails",
                  fmt::format("found {}, expected {} at most", frame.mid_rails, kMostMidRails));
  }
  return true;
}

/// What is left between the stiles and between top and bottom rail.
Box inside_of(const Frame& frame, const Box& leaf) {
  return between(
      {leaf.at.x + frame.stile, leaf.at.y, leaf.at.z + frame.bottom_rail},
      {leaf.end(Axis::kX) - frame.stile, leaf.end(Axis::kY), leaf.end(Axis::kZ) - frame.rail});
}

bool frame_has_room(const KitCall& call, const Frame& frame, const Box& leaf) {
  const Box inside = inside_of(frame, leaf);
  if (inside.size.x <= Length{}) {
    does_not_fit(call,
                 "stile",
                 fmt::format("two stiles of {} leave nothing of a door {} wide",
                             shown(call, frame.stile),
                             shown(call, leaf.size.x)));
    return false;
  }
  if (inside.size.z - frame.mid_rails * frame.mid_rail <= Length{}) {
    does_not_fit(
        call,
        frame.mid_rails > 0 ? "mid_rails" : "rail",
        fmt::format("the rails leave no panel in a door {} high", shown(call, leaf.size.z)));
    return false;
  }
  return true;
}

/// Builds one leaf.
class LeafFrame {
 public:
  LeafFrame(const KitCall& call, const Frame& frame, const Leaf& leaf)
      : call_{call}, frame_{frame}, leaf_{leaf} {}

  LeafParts build() {
    add_stiles();
    add_rails();
    return {all_, left_, right_};
  }

 private:
  PartIndex add(
      std::string name, std::string path, Axis length, Box body, Hand hand = Hand::kNone) {
    const PartIndex index = add_part(call_,
                                     {.name = std::move(name),
                                      .path = leaf_.path + "." + path,
                                      .stock = frame_.stock,
                                      .body = body,
                                      .length = length,
                                      .thickness = Axis::kY,
                                      .show_faces = {kToFront},
                                      .hand = hand});
    all_.push_back(index);
    return index;
  }

  void add_stiles() {
    Box left = leaf_.box;
    left.size.x = frame_.stile;
    Box right = left;
    right.at.x = leaf_.box.end(Axis::kX) - frame_.stile;
    left_ = add("door stile", "stile_left", Axis::kZ, left, Hand::kLeft);
    right_ = add("door stile", "stile_right", Axis::kZ, right, Hand::kRight);
  }

  PartIndex add_rail(const std::string& name,
                     const std::string& path,
                     Length bottom,
                     Length width) {
    Box body = inside_of(frame_, leaf_.box);
    body.at.z = bottom;
    body.size.z = width;
    const PartIndex rail = add(name, path, Axis::kX, body);
    for (const auto& [stile, home] : {std::pair{left_, kToLeft}, {right_, kToRight}}) {
      Joint& joint = add_joint(call_, frame_.joint, rail, stile, home, frame_.tenon);
      joint.tongue_thickness = frame_.groove;
      joint.tongue_width = width;
    }
    return rail;
  }

  void add_rails() {
    const Box inside = inside_of(frame_, leaf_.box);
    PartIndex below = add_rail("door rail", "rail_bottom", leaf_.box.at.z, frame_.bottom_rail);
    const PartIndex top = add_rail("door rail", "rail_top", inside.end(Axis::kZ), frame_.rail);
    const Length panel =
        (inside.size.z - frame_.mid_rails * frame_.mid_rail) / (frame_.mid_rails + 1);
    // From the top down, so that the odd nanometres of the division are in the lowest panel.
    std::vector<Length> bottoms;
    for (int i = frame_.mid_rails; i >= 1; --i) {
      bottoms.push_back(inside.end(Axis::kZ) - i * (panel + frame_.mid_rail));
    }
    for (std::size_t i = 0; i < bottoms.size(); ++i) {
      const std::string path =
          fmt::format("mid_rail{}", bottoms.size() > 1 ? fmt::format("_{}", i + 1) : "");
      const PartIndex rail = add_rail("door mid rail", path, bottoms[i], frame_.mid_rail);
      add_panel(below, rail);
      below = rail;
    }
    add_panel(below, top);
  }

  /// A panel between two rails, loose in its grooves.
  void add_panel(PartIndex below, PartIndex above) {
    const std::vector<Part>& parts = call_.shop.piece.parts;
    Box body = inside_of(frame_, leaf_.box);
    body.at.z = parts[below].body.end(Axis::kZ);
    body.size.z = parts[above].body.at.z - body.at.z;
    body.at.y += (frame_.thickness - frame_.panel_thickness) / 2;
    body.size.y = frame_.panel_thickness;
    const PartIndex panel = add_panel_part(body);
    for (const auto& [part, home, play] : {std::tuple{left_, kToLeft, frame_.play},
                                           {right_, kToRight, frame_.play},
                                           {below, kDown, frame_.end_play},
                                           {above, kUp, frame_.end_play}}) {
      Joint& joint = add_joint(call_, JointKind::kGroove, panel, part, home, frame_.tongue - play);
      joint.tongue_thickness = std::min(frame_.groove, frame_.panel_thickness);
      joint.play = play;
      joint.glued = false;
    }
  }

  PartIndex add_panel_part(const Box& body) {
    const PartIndex panel = add_part(call_,
                                     {.name = "door panel",
                                      .path = leaf_.path + ".panel",
                                      .stock = frame_.panel_stock,
                                      .body = body,
                                      .length = Axis::kZ,
                                      .thickness = Axis::kY,
                                      .show_faces = {kToFront}},
                                     call_.fields.has("panel_stock") ? "panel_stock" : "stock");
    call_.shop.piece.parts[panel].moves_free = true;
    all_.push_back(panel);
    return panel;
  }

  const KitCall& call_;
  const Frame& frame_;
  const Leaf& leaf_;
  PartIndex left_ = 0;
  PartIndex right_ = 0;
  std::vector<PartIndex> all_;
};

void build(const KitCall& call) {
  const Frame frame = read_frame(call);
  if (!frame_is_sound(call, frame)) {
    return;
  }
  for (const Leaf& leaf : place_leaves(call, frame.thickness, Covers::kHalf)) {
    if (frame_has_room(call, frame, leaf.box)) {
      hang_leaf(call, leaf, LeafFrame{call, frame, leaf}.build());
    }
  }
}

}  // namespace

const Kit& panel_door_kit() {
  static const Kit kKit = {
      "panel_door", "Doors of stiles, rails and panels that are free to move", fields(), build};
  return kKit;
}

}  // namespace plankwright::piece
