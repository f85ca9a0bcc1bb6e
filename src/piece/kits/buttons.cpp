#include "piece/kits/buttons.h"

#include <algorithm>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

constexpr int kMostButtons = 200;
constexpr int kTongueShare = 3;  // of the thickness of a button: common practice, no source
constexpr int kTriesInWidth = 4;

struct Button {
  Length length, width, thickness, tongue, play;
  /// How far the tongue reaches into the groove when the top stands in the middle of its way.
  Length depth() const { return std::max(Length{}, tongue - play); }
};

/// A rail with the side on which its buttons sit, and how many.
struct Rail {
  PartIndex part;
  Direction inside;
  Length run;
  int buttons = 0;
};

bool is_rail(const Part& part, Axis along, Length high_enough) {
  return part.length_axis == along && part.thickness_axis != Axis::kZ &&
         part.body.size.z >= high_enough;
}

/// The two outermost rails along one axis, each with the side that looks at the other.
void find_rails(const KitCall& call,
                const std::vector<PartIndex>& below,
                Axis along,
                Length high_enough,
                std::vector<Rail>& rails) {
  const Axis across = along == Axis::kX ? Axis::kY : Axis::kX;
  const auto place = [&](PartIndex part) {
    return call.shop.piece.parts[part].body.centre()[across];
  };
  std::vector<PartIndex> found;
  std::ranges::copy_if(below, std::back_inserter(found), [&](PartIndex part) {
    return is_rail(call.shop.piece.parts[part], along, high_enough);
  });
  if (found.empty()) {
    return;
  }
  const auto [first, last] = std::ranges::minmax_element(found, {}, place);
  const auto add = [&](PartIndex part, int sign) {
    rails.push_back({part, {across, sign}, call.shop.piece.parts[part].body.size[along]});
  };
  const bool apart = place(*first) != place(*last);
  if (apart || place(*first) <= call.space.box.centre()[across]) {
    add(*first, 1);
  }
  if (apart || place(*last) > call.space.box.centre()[across]) {
    add(*last, -1);
  }
}

/// Whole buttons by the length of each rail, what is left over to the largest remainders.
void share_out(std::vector<Rail>& rails, int count) {
  Length whole;
  for (const Rail& rail : rails) {
    whole += rail.run;
  }
  std::vector<std::pair<double, std::size_t>> remainders;
  int given = 0;
  for (std::size_t i = 0; i < rails.size(); ++i) {
    const double share = count * (rails[i].run / whole);
    rails[i].buttons = static_cast<int>(share);
    given += rails[i].buttons;
    remainders.emplace_back(rails[i].buttons - share, i);
  }
  std::ranges::stable_sort(remainders, {}, &std::pair<double, std::size_t>::first);
  for (std::size_t i = 0; given < count; i = (i + 1) % remainders.size()) {
    ++rails[remainders[i].second].buttons;
    ++given;
  }
}

Box body_at(const KitCall& call, const Rail& rail, const Button& button, Length centre) {
  const Box& wood = call.shop.piece.parts[rail.part].body;
  const Axis across = rail.inside.axis;
  const Axis along = across == Axis::kX ? Axis::kY : Axis::kX;
  Box box;
  box.size[along] = button.width;
  box.size[across] = button.length - button.depth();
  box.size.z = button.thickness;
  box.at[along] = centre - button.width / 2;
  box.at[across] = rail.inside.sign > 0 ? wood.end(across) : wood.begin(across) - box.size[across];
  box.at.z = wood.end(Axis::kZ) - button.thickness;
  return box;
}

bool is_free(const KitCall& call, const Box& box) {
  return std::ranges::all_of(call.shop.piece.parts, [&](const Part& part) {
    return measure::intersection(part.body, box).empty();
  });
}

/// The free place nearest to the middle of its share of the rail.
std::optional<Box> place_for(const KitCall& call,
                             const Rail& rail,
                             const Button& button,
                             int number) {
  const Axis along = rail.inside.axis == Axis::kX ? Axis::kY : Axis::kX;
  const Length share = rail.run / rail.buttons;
  const Length middle =
      call.shop.piece.parts[rail.part].body.begin(along) + share * number + share / 2;
  const Length step = std::max(Length::from_mm(1), button.width / kTriesInWidth);
  for (Length off; off <= share / 2; off += step) {
    for (const Length centre : {middle + off, middle - off}) {
      const Box box = body_at(call, rail, button, centre);
      if (is_free(call, box)) {
        return box;
      }
    }
  }
  return std::nullopt;
}

PartIndex add_button(const KitCall& call,
                     const Rail& rail,
                     const Button& button,
                     const Box& body,
                     const std::vector<PartIndex>& slab,
                     int number) {
  NewPart part;
  part.name = "button";
  part.path = fmt::format("button_{}", number);
  part.stock = call.fields.identifier("stock");
  part.body = body;
  part.length = rail.inside.axis;
  part.thickness = Axis::kZ;
  const PartIndex index = add_part(call, part);
  Joint& tongue = add_joint(call,
                            JointKind::kButton,
                            index,
                            rail.part,
                            {rail.inside.axis, -rail.inside.sign},
                            button.depth());
  tongue.tongue_thickness =
      call.fields.optional_length("tongue_thickness").value_or(button.thickness / kTongueShare);
  tongue.tongue_width = button.width;
  tongue.play = button.play;
  for (const PartIndex above : slab) {
    if (touch(call, index, above, Axis::kZ)) {
      Joint& screw = add_joint(call, JointKind::kScrew, index, above, kUp);
      screw.hardware = call.fields.identifier("screw");
    }
  }
  let_meet_neighbours(call, index, {kToLeft, kToRight, kToFront, kToBack, kUp});
  return index;
}

bool is_good(const KitCall& call, const Button& button) {
  if (button.play > button.tongue) {
    call.fields.complain("play",
                         fmt::format("a tongue {} long with {} play comes out of its groove",
                                     shown(call, button.tongue),
                                     shown(call, button.play)));
    return false;
  }
  if (button.tongue >= button.length) {
    does_not_fit(call,
                 "tongue",
                 fmt::format("a tongue {} long leaves nothing of a button {} long",
                             shown(call, button.tongue),
                             shown(call, button.length)));
    return false;
  }
  return true;
}

std::vector<Rail> rails_below(const KitCall& call,
                              const std::vector<PartIndex>& slab,
                              Length high_enough) {
  std::vector<PartIndex> below;
  for (const PartIndex part : slab) {
    for (const PartIndex other : touching(call, part, kDown)) {
      if (std::ranges::find(below, other) == below.end()) {
        below.push_back(other);
      }
    }
  }
  std::vector<Rail> rails;
  find_rails(call, below, Axis::kX, high_enough, rails);
  find_rails(call, below, Axis::kY, high_enough, rails);
  return rails;
}

}  // namespace

void add_buttons(const KitCall& call, const std::vector<PartIndex>& slab) {
  const Button button{call.fields.length("length"),
                      call.fields.length("width"),
                      call.fields.length("thickness"),
                      call.fields.length("tongue"),
                      call.fields.length("play")};
  const int count = count_up_to(call, "count", kMostButtons);
  if (!is_good(call, button)) {
    return;
  }
  std::vector<Rail> rails = rails_below(call, slab, button.thickness);
  if (rails.empty()) {
    call.fields.complain("count",
                         fmt::format("no rail at least {} high stands below for buttons to hold",
                                     shown(call, button.thickness)));
    return;
  }
  for (const PartIndex part : slab) {
    let_meet_neighbours(call, part, {kDown});
  }
  share_out(rails, count);
  std::vector<PartIndex> buttons;
  for (const Rail& rail : rails) {
    for (int number = 0; number < rail.buttons; ++number) {
      const auto body = place_for(call, rail, button, number);
      if (!body) {
        does_not_fit(call,
                     "count",
                     fmt::format("there is no room for {} buttons on the {}",
                                 rail.buttons,
                                 call.shop.piece.parts[rail.part].name));
        return;
      }
      buttons.push_back(
          add_button(call, rail, button, *body, slab, static_cast<int>(buttons.size()) + 1));
    }
  }
  add_hardware(
      call, call.fields.identifier("screw"), count, "buttons under the top", buttons, "screw");
}

}  // namespace plankwright::piece
