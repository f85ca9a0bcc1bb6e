#include "shop/hardware_kinds.h"

#include <algorithm>
#include <array>
#include <iterator>

namespace plankwright::shop {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::string_view kSlide[] = {"width_less", "length", "height_less", "travel"};
constexpr std::string_view kLength[] = {"length"};
constexpr std::string_view kCup[] = {"bore", "bore_depth", "edge"};
constexpr std::string_view kSpacing[] = {"spacing"};
constexpr std::string_view kPin[] = {"hole", "depth"};
constexpr std::string_view kClip[] = {"slot", "reach"};
constexpr std::string_view kScrew[] = {"diameter", "length"};
constexpr std::string_view kHeight[] = {"height"};
constexpr std::string_view kBox[] = {"side", "bottom"};

constexpr HardwareKind kKinds[] = {
    {"slide_pair", "Left and right slide of one drawer", kSlide},
    {"butt_hinge", "Two-leaf hinge let into door and frame", kLength},
    {"cup_hinge", "Hinge whose cup is bored into the door", kCup},
    {"pull", "Handle or knob of a drawer or door", kSpacing},
    {"catch", "What keeps a door shut"},
    {"shelf_pin", "Peg under a shelf", kPin},
    {"top_clip", "Clip that holds a top and lets it move", kClip},
    {"button_screw", "Screw of a wooden button", kScrew},
    {"leg_bolt", "Bolt through a corner block into a leg", kScrew},
    {"insert", "Threaded insert", kScrew},
    {"glide", "Pad under a foot", kHeight},
    {"leveller", "Foot that can be turned to level the piece", kHeight},
    {"screw", "Wood screw", kScrew},
    {"connector", "Screw or bolt that holds one case to the next", kScrew},
    {"wall_fixing", "What holds a piece to a wall", kLength},
    {"anchor", "Set that keeps a piece from tipping over"},
    {"drawer_box", "Drawer box bought in", kBox},
    {"other", "Anything else bought by the piece"}};

constexpr auto kWords = [] {
  std::array<std::string_view, std::size(kKinds)> words{};
  for (std::size_t i = 0; i < words.size(); ++i) {
    words[i] = kKinds[i].word;
  }
  return words;
}();

constexpr Field size_field(std::string_view key, std::string_view says) {
  return {.key = key, .kind = FieldKind::kLength, .says = says, .range = FieldRange::kNotNegative};
}

constexpr Field kSizes[] = {
    size_field("width_less", "What the box of a drawer is narrower than its opening, outside"),
    size_field("height_less", "What the box of a drawer is lower than its opening, at least"),
    size_field("length", "Length; of a slide also that of the box it carries"),
    size_field("travel", "How far a drawer comes out"),
    size_field("width", "Width, of one leaf of a hinge"),
    size_field("thickness", "Thickness, of one leaf of a hinge"),
    size_field("bore", "Diameter of a hinge cup"),
    size_field("bore_depth", "Depth of a hinge cup"),
    size_field("edge", "From the edge of the door to the bore"),
    size_field("overlay", "The most a door on this hinge may cover"),
    size_field("spacing", "Between the two screws of a pull, 0 for a knob"),
    size_field("projection", "How far it stands out"),
    size_field("hole", "Diameter of the hole"),
    size_field("depth", "Depth of the hole"),
    size_field("slot", "Width of the slot a clip hooks into"),
    size_field("reach", "How far it reaches under what it holds"),
    size_field("diameter", "Diameter, of an insert that of its hole"),
    size_field("height", "How far it lifts the foot, 0 when it stands beside the wood"),
    size_field("adjust", "How much of the height can be turned"),
    size_field("side", "Thickness of the sides of a drawer box"),
    size_field("bottom", "Thickness of the bottom of a drawer box"),
    size_field("height_step", "Drawer boxes are made in steps of this height")};

}  // namespace

std::span<const HardwareKind> hardware_kinds() {
  return kKinds;
}

const HardwareKind* hardware_kind(std::string_view word) {
  const auto* it = std::ranges::find(kKinds, word, &HardwareKind::word);
  return it == std::end(kKinds) ? nullptr : it;
}

std::span<const std::string_view> hardware_kind_words() {
  return kWords;
}

document::FieldTable hardware_size_fields() {
  return kSizes;
}

}  // namespace plankwright::shop
