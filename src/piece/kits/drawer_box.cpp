#include "piece/kits/drawer_box.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope
using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::array<std::string_view, 4> kWays = {"dovetailed", "dowelled", "rabbeted", "bought"};

constexpr std::array kBoxFields = {
    Field{.key = "way",
          .kind = FieldKind::kWord,
          .says = "How the corners are made, or that the boxes are bought",
          .fallback = "dovetailed",
          .words = kWays},
    Field{"stock", FieldKind::kIdentifier, "Stock of sides and ends"},
    Field{"side", FieldKind::kLength, "Thickness of a side", false, {}, FieldRange::kPositive},
    Field{"end",
          FieldKind::kLength,
          "Thickness of front and back of the box (as the sides)",
          false,
          {},
          FieldRange::kPositive},
    Field{"height_less",
          FieldKind::kLength,
          "How much lower the box is than its opening (what the slides ask for)",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"length",
          FieldKind::kLength,
          "From front to back on wooden runners (what there is); on slides a box is as long as "
          "they are",
          false,
          {},
          FieldRange::kPositive},
    Field{"bottom_stock", FieldKind::kIdentifier, "Stock of the bottom"},
    Field{"bottom_thickness",
          FieldKind::kLength,
          "Of a solid bottom (1/4 in or 6 mm)",
          false,
          {},
          FieldRange::kPositive},
    Field{"bottom_groove",
          FieldKind::kLength,
          "How deep the bottom is let into sides and ends (1/4 in or 6 mm, at most half of them)",
          false,
          {},
          FieldRange::kPositive},
    Field{"bottom_up",
          FieldKind::kLength,
          "From the lower edge of the box to the underside of its bottom (1/2 in or 12 mm)",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"tail_pitch",
          FieldKind::kLength,
          "From tail to tail of the dovetail jig (7/8 in or 22 mm)",
          false,
          {},
          FieldRange::kPositive},
    Field{"bought_as", FieldKind::kIdentifier, "The bought box in the shop's list of fittings"}};

void require(const KitCall& call, std::string_view field, std::string_view why) {
  if (!call.fields.has(field)) {
    call.fields.complain(field, fmt::format("`{}` is missing: {}", field, why));
  }
}

JointKind corner_of(std::string_view way) {
  return way == "dowelled"   ? JointKind::kDowel
         : way == "rabbeted" ? JointKind::kRabbet
                             : JointKind::kDovetail;
}

/// Builds one box of boards.
class MadeBox {
 public:
  MadeBox(const KitCall& call,
          const BoxWay& way,
          const Box& outer,
          std::string number,
          std::string path)
      : call_{call}, way_{way}, outer_{outer}, number_{std::move(number)}, path_{std::move(path)} {
    const Length x = way_.side;
    const Length y = way_.end;
    inside_ = between({outer.at.x + x, outer.at.y + y, outer.at.z + way.bottom_up + way.bottom},
                      {outer.end(Axis::kX) - x, outer.end(Axis::kY) - y, outer.end(Axis::kZ)});
  }

  DrawerBox build() {
    add_sides();
    add_ends();
    join_corners();
    add_bottom();
    box_.inside = inside_;
    return box_;
  }

 private:
  // Dovetailed ends run through from side to side; otherwise the sides run through.
  bool ends_run_through() const { return way_.corner == JointKind::kDovetail; }

  PartIndex add(const std::string& name,
                const std::string& path,
                Axis length,
                Axis thickness,
                Box body,
                Hand hand) {
    const PartIndex index = add_part(call_,
                                     {.name = name + number_,
                                      .path = path_ + "." + path,
                                      .stock = way_.stock,
                                      .body = body,
                                      .length = length,
                                      .thickness = thickness,
                                      .hand = hand});
    box_.parts.push_back(index);
    return index;
  }

  void add_sides() {
    Box body = outer_;
    if (ends_run_through()) {
      body.at.y = inside_.at.y;
      body.size.y = inside_.size.y;
    }
    body.size.x = way_.side;
    box_.left = add("drawer side", "side_left", Axis::kY, Axis::kX, body, Hand::kLeft);
    body.at.x = inside_.end(Axis::kX);
    box_.right = add("drawer side", "side_right", Axis::kY, Axis::kX, body, Hand::kRight);
  }

  void add_ends() {
    Box body = outer_;
    if (!ends_run_through()) {
      body.at.x = inside_.at.x;
      body.size.x = inside_.size.x;
    }
    body.size.y = way_.end;
    box_.front = add("drawer box end", "box_front", Axis::kX, Axis::kY, body, Hand::kNone);
    body.at.y = inside_.end(Axis::kY);
    back_ = add("drawer box end", "box_back", Axis::kX, Axis::kY, body, Hand::kNone);
  }

  void join_corners() {
    for (const auto& [side, out] : {std::pair{box_.left, kToLeft}, {box_.right, kToRight}}) {
      for (const auto& [end, away] : {std::pair{box_.front, kToFront}, {back_, kToBack}}) {
        if (ends_run_through()) {
          add_joint(call_,
                    way_.corner,
                    side,
                    end,
                    away,
                    way_.end,
                    tails_on(outer_.size.z, way_.tail_pitch));
        } else {
          const bool rabbet = way_.corner == JointKind::kRabbet;
          add_joint(call_,
                    way_.corner,
                    end,
                    side,
                    out,
                    rabbet ? way_.side / 2 : Length{},
                    rabbet ? 1 : dowels());
        }
      }
    }
  }

  /// One dowel every two inches and no fewer than two (common practice, no source).
  int dowels() const { return fixings_along(outer_.size.z, 50_mm); }

  void add_bottom() {
    Box body = inside_;
    body.at.z = outer_.at.z + way_.bottom_up;
    body.size.z = way_.bottom;
    const PartIndex bottom = add_part(call_,
                                      {.name = "drawer bottom",
                                       .path = path_ + ".bottom",
                                       .stock = way_.bottom_stock,
                                       .body = body,
                                       .length = Axis::kX,
                                       .thickness = Axis::kZ},
                                      "bottom_stock");
    call_.shop.piece.parts[bottom].moves_free = !is_sheet(call_, way_.bottom_stock);
    for (const auto& [part, home] : {std::pair{box_.left, kToLeft},
                                     {box_.right, kToRight},
                                     {box_.front, kToFront},
                                     {back_, kToBack}}) {
      add_joint(call_, JointKind::kGroove, bottom, part, home, way_.bottom_groove).glued = false;
    }
    box_.parts.push_back(bottom);
  }

  const KitCall& call_;
  const BoxWay& way_;
  Box outer_;
  Box inside_;
  std::string number_, path_;
  DrawerBox box_;
  PartIndex back_ = 0;
};

DrawerBox add_bought_box(const KitCall& call,
                         const BoxWay& way,
                         const Box& outer,
                         const std::string& number,
                         const std::string& path,
                         const std::string& where) {
  const PartIndex box = add_part(call,
                                 {.name = "drawer box" + number,
                                  .path = path + ".box",
                                  .stock = way.bought_as,
                                  .body = outer,
                                  .length = Axis::kY,
                                  .thickness = Axis::kZ},
                                 "bought_as");
  call.shop.piece.parts[box].material = Material::kBoughtIn;
  add_hardware(call, way.bought_as, 1, where, {box}, "bought_as");
  const Box inside = between(
      {outer.at.x + way.side, outer.at.y + way.end, outer.at.z + way.bottom_up + way.bottom},
      {outer.end(Axis::kX) - way.side, outer.end(Axis::kY) - way.end, outer.end(Axis::kZ)});
  return {{box}, box, box, box, inside};
}

void read_bought(const KitCall& call, BoxWay& way) {
  require(call, "bought_as", "the bought box in the shop's list of fittings");
  way.bought_as = call.fields.identifier("bought_as");
  const shop::Hardware* box =
      fitting_of_kind(call, way.bought_as, {"drawer_box"}, "a drawer box", "bought_as");
  if (box == nullptr) {
    way.bought_as.clear();  // said once
  } else {
    way.side = size_of(*box, "side", way.side);
    way.end = way.side;
    way.bottom = size_of(*box, "bottom", way.bottom);
    way.height_step = size_of(*box, "height_step", {});
  }
}

bool bottom_has_room(const KitCall& call, const BoxWay& way, const Box& outer) {
  const Length above = outer.size.z - way.bottom_up - way.bottom;
  if (above <= Length{}) {
    does_not_fit(call,
                 "bottom_up",
                 fmt::format("a box {} high has no room for a bottom of {} that stands {} up in it",
                             shown(call, outer.size.z),
                             shown(call, way.bottom),
                             shown(call, way.bottom_up)));
    return false;
  }
  const Length thinnest = std::min(way.side, way.end);
  if (!way.bought && way.bottom_groove >= thinnest && thinnest > Length{}) {
    does_not_fit(call,
                 "bottom_groove",
                 fmt::format("a groove {} deep goes through a side {} thick",
                             shown(call, way.bottom_groove),
                             shown(call, thinnest)));
    return false;
  }
  return true;
}

}  // namespace

document::FieldTable drawer_box_fields() {
  return kBoxFields;
}

BoxWay read_box_way(const KitCall& call) {
  const document::Fields& f = call.fields;
  BoxWay way;
  const std::string word = f.word("way");
  way.bought = word == "bought";
  way.corner = corner_of(word);
  way.stock = f.identifier("stock");
  way.bottom_stock = f.identifier("bottom_stock");
  way.side = stock_thickness(call, way.stock, f.length("side"));
  way.end = stock_thickness(call, way.stock, f.optional_length("end").value_or(way.side));
  // Common practice, no source; the groove of 1/4 in from memory.
  const auto usually = [&](std::string_view field, Length in_inches, Length in_millimetres) {
    return f.optional_length(field).value_or(usual(call, in_inches, in_millimetres));
  };
  way.bottom = stock_thickness(call, way.bottom_stock, usually("bottom_thickness", 0.25_in, 6_mm));
  way.bottom_groove = f.has("bottom_groove")
                          ? f.length("bottom_groove")
                          : std::min(usual(call, 0.25_in, 6_mm), std::min(way.side, way.end) / 2);
  way.bottom_up = usually("bottom_up", 0.5_in, 12_mm);
  way.tail_pitch = usually("tail_pitch", 0.875_in, 22_mm);
  if (way.bought) {
    read_bought(call, way);
  } else {
    require(call, "stock", "stock of sides and ends");
    require(call, "bottom_stock", "stock of the bottom");
    if (!is_sheet(call, way.stock)) {
      require(call, "side", "thickness of a side");
    }
  }
  return way;
}

DrawerBox add_drawer_box(const KitCall& call,
                         const BoxWay& way,
                         const Box& outer,
                         const std::string& number,
                         const std::string& path,
                         const std::string& where) {
  if (!bottom_has_room(call, way, outer)) {
    return {};
  }
  return way.bought ? add_bought_box(call, way, outer, number, path, where)
                    : MadeBox{call, way, outer, number, path}.build();
}

int tails_on(Length height, Length pitch) {
  constexpr int kLeast = 2;
  constexpr int kMost = 100;
  if (pitch <= Length{}) {
    return kLeast;
  }
  return std::clamp(static_cast<int>(std::min<double>(height / pitch + 0.5, kMost)), kLeast, kMost);
}

}  // namespace plankwright::piece
