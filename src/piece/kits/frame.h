#pragma once
// A frame of four legs as the kit thinks of it, and what is added to the bare frame: cross rails,
// stretchers, corner blocks.

#include <array>
#include <optional>

#include "document/fields.h"
#include "piece/kit.h"
#include "piece/kits/frame_tenons.h"

namespace plankwright::piece {

/// Everything about the frame but its legs is by side: front, back, left, right.
template <class T>
using BySide = std::array<T, kFrameSides.size()>;

inline constexpr std::size_t at_side(FrameSide side) {
  return static_cast<std::size_t>(side);
}

/// Front left, front right, back left, back right.
inline constexpr std::size_t kLegs = 4;

struct Frame {
  Box box;
  Length leg_x, leg_y;  // section of a leg
  BySide<std::optional<Member>> rails, stretchers;
  FrameJoint joint, stretcher_joint;
  std::array<PartIndex, kLegs> legs = {};
  BySide<PartIndex> rail_parts = {};

  bool has_rail(FrameSide side) const { return rails[at_side(side)].has_value(); }
  const Member& rail(FrameSide side) const { return *rails[at_side(side)]; }
};

/// The side called `word`; complains at `field` of any other word.
std::optional<FrameSide> side_of(const KitCall& call,
                                 std::string_view field,
                                 std::string_view word);
/// Along x at front and back, along y at the sides.
Axis runs_along(FrameSide side);
/// The way out of the frame.
Direction outward(FrameSide side);
/// The legs at the two ends of a side, the one at the lower coordinate first.
std::array<std::size_t, 2> legs_of(FrameSide side);
/// Section of a leg along and across a side.
Length leg_along(const Frame& frame, FrameSide side);
Length leg_across(const Frame& frame, FrameSide side);
/// A rail or stretcher from shoulder to shoulder.
Box member_box(const Frame& frame, FrameSide side, const Member& member);
/// "front left leg"
std::string leg_name(std::size_t leg);

/// Joints of a rail or stretcher with its two legs.
void join_to_legs(const KitCall& call,
                  const Frame& frame,
                  FrameSide side,
                  PartIndex part,
                  const FrameJoint& joint,
                  const Member& member);

// ---- Legs

/// The field `leg`.
document::FieldTable leg_fields();
/// Reads the section of the legs; false, with a complaint, when there is none or no room for it.
bool read_leg_section(const KitCall& leg_call, Frame& frame);
/// False, with a complaint, when the legs would be tapered where something is let into them.
bool taper_fits(const KitCall& leg_call, const Frame& frame);
void add_legs(const KitCall& leg_call, Frame& frame);

// ---- Rails

/// The fields `rail` and `front_arch`.
document::FieldTable rail_fields();
document::FieldTable arch_fields();
/// The rail of one side as written, whether there is one or not.
Member read_rail(const KitCall& rail_call, const Frame& frame, FrameSide side);
/// Reads the rails of all sides that have one; false, with a complaint, when one does not fit.
bool read_rails(const KitCall& call, const KitCall& rail_call, Frame& frame);
/// The arch in the front rail, when there is one and it can be made.
std::optional<Arch> read_arch(const KitCall& call, const Frame& frame);
void add_rails(const KitCall& rail_call, Frame& frame, const std::optional<Arch>& arch);

// ---- Joints

/// The field `tenon`.
document::FieldTable tenon_fields();
/// Reads how the rails are held; the rails are known already.
void read_joint(const KitCall& call, const KitCall& tenon_call, Frame& frame);
/// False, with a complaint, when a tenon is as thick as its rail or all shoulder.
bool tenon_section_fits(const KitCall& tenon_call, const Frame& frame);
/// False, with a complaint at `field`, when two tenons would run into each other in a leg or one
/// would come out of it. Dowels can be set at different heights.
bool tenons_have_room(const KitCall& call,
                      const Frame& frame,
                      const FrameJoint& joint,
                      const BySide<std::optional<Member>>& members,
                      std::string_view what,
                      std::string_view field);

// ---- Additions

/// The field `stretchers`: between the legs above the floor.
document::FieldTable stretcher_fields();
/// Reads it into the frame; false, with a complaint, when they do not fit below the rails.
bool read_stretchers(const KitCall& call, Frame& frame);
void add_stretchers(const KitCall& call, const Frame& frame);

/// The field `cross_rail`: rails between the front and the back rail.
document::FieldTable cross_rail_fields();
void add_cross_rails(const KitCall& call, const Frame& frame);

/// The field `corner_block`: blocks that hold a leg by a bolt, so that the frame comes apart.
document::FieldTable corner_block_fields();
void add_corner_blocks(const KitCall& call, const Frame& frame);

}  // namespace plankwright::piece
