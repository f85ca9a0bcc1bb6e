// Sheets as they are sawn: parts to scale, cuts numbered in order, what each cut is set to.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "papers/hatch.h"
#include "papers/label_places.h"
#include "papers/packet.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using measure::Length;
using solid::ViewBox;

constexpr double kTitleHeight = 9;
constexpr double kCutCell = 6.4;  // height of a cell in the list of cuts
constexpr double kCutCellWidth = 31;
constexpr double kListHeading = 5;
constexpr double kCutRing = 1.9;
constexpr Pen kSheetPen{.width = 0.5, .colour = kPencil};
constexpr Pen kPartPen{.width = 0.25, .colour = kPencil};
constexpr Pen kCutPen{.width = 0.35, .colour = kAccent};
constexpr TextStyle kCodeText{.letter_height = 3.2, .weight = Weight::kBold};
constexpr TextStyle kSizeText{.letter_height = 2.3, .tabular = true};
constexpr TextStyle kOffcutText{.letter_height = 2.0, .italic = true, .colour = kSoftPencil};
constexpr TextStyle kCutText{
    .letter_height = 1.9, .weight = Weight::kBold, .colour = kAccent, .tabular = true};
constexpr TextStyle kCutListText{.letter_height = 2.5, .tabular = true};
constexpr TextStyle kListTitle{.letter_height = 2.0, .weight = Weight::kMedium, .colour = kAccent};

/// One layout on its page. Sheets lie with their grain across the page, first edge at the top.
class LayoutSheet {
 public:
  LayoutSheet(Page& page,
              const Packet& packet,
              const shop::SheetStock& sheet,
              const stock::SheetLayout& layout)
      : page_{page},
        packet_{packet},
        sheet_{sheet},
        layout_{layout},
        area_{sheet_area(page.size())} {}

  void draw() {
    const Rectangle list = list_room();
    // Strips across are dimensioned on the left, strips along above.
    const double side = Drawing::dimension_room(1);
    const Rectangle room{area_.x + side,
                         area_.y + kTitleHeight + (has_upright_strips() ? side : 0),
                         area_.width - side,
                         list.y - area_.y - kTitleHeight - (has_upright_strips() ? side : 0) - 2};
    scale_ =
        fitting_scale(sheet_.length.mm(), sheet_.width.mm(), room, packet_.plan.commission.unit());
    const double w = scale_.factor * sheet_.length.mm();
    const double left = room.x + std::max(0.0, (room.width - w) / 2);
    // Sheet coordinates run down from the first edge; a view's y runs up.
    placement_ = {scale_.factor, {left, room.y}};
    Drawing drawing{page_, area_, placement_, LineEnd::kTick};
    draw_ground(drawing);
    draw_parts(drawing);
    draw_offcuts(drawing);
    draw_cuts(drawing);
    drawing.dimensions(strip_sizes());
    set_title();
    set_cut_list(list);
  }

  const std::string& scale_name() const { return scale_.name; }

 private:
  const plan::Plan& plan() const { return packet_.plan; }
  const piece::Part& part(const stock::SheetPiece& piece) const {
    return plan().piece.parts[piece.part];
  }

  static ViewPoint place(Length x, Length y) { return {x.mm(), -y.mm()}; }
  static std::vector<ViewPoint> corners(Length x, Length y, Length along, Length across) {
    return {place(x, y), place(x + along, y), place(x + along, y + across), place(x, y + across)};
  }
  Rectangle on_page(Length x, Length y, Length along, Length across) const {
    const PagePoint from = placement_.at(place(x, y));
    return {from.x, from.y, along.mm() * scale_.factor, across.mm() * scale_.factor};
  }

  void draw_ground(Drawing& drawing) {
    const auto whole = corners({}, {}, sheet_.length, sheet_.width);
    drawing.polygon(whole, kShade, kSheetPen);
    drawing.hatch(whole, 45, 2.2, kFaintPen);
  }

  void draw_parts(Drawing& drawing) {
    for (const stock::SheetPiece& piece : layout_.pieces) {
      const Colour wood = mixed(kWhite, wood_colour(part(piece)), 0.28);
      drawing.polygon(corners(piece.x, piece.y, piece.length, piece.width), wood, kPartPen);
      const Rectangle box = on_page(piece.x, piece.y, piece.length, piece.width);
      places_.block(label_part(
          page_,
          box,
          part(piece).code,
          fmt::format("{} \u00d7 {}", length(plan(), piece.length), length(plan(), piece.width)),
          part(piece).name));
      if (piece.turned) {
        draw_turned(box);
      }
    }
  }

  /// A part whose grain would run across: a small arrow says so.
  void draw_turned(const Rectangle& box) {
    const double half = std::min(4.0, box.height / 3);
    grain_arrow(page_, {box.x + 3, box.centre().y - half}, {box.x + 3, box.centre().y + half});
  }

  void draw_offcuts(Drawing& drawing) {
    for (const stock::Offcut& offcut : layout_.offcuts) {
      drawing.polygon(corners(offcut.x, offcut.y, offcut.length, offcut.width),
                      std::nullopt,
                      Pen{.width = 0.35, .colour = kSoftPencil, .dash = Dash::kHidden});
      const Rectangle box = on_page(offcut.x, offcut.y, offcut.length, offcut.width);
      places_.block(label_offcut(
          page_,
          box,
          fmt::format(
              "keep {} \u00d7 {}", length(plan(), offcut.length), length(plan(), offcut.width))));
    }
  }

  void draw_cuts(Drawing& drawing) {
    for (const stock::SheetCut& cut : layout_.cuts) {
      const ViewPoint from = cut.along ? place(cut.from, cut.at) : place(cut.at, cut.from);
      const ViewPoint to = cut.along ? place(cut.to, cut.at) : place(cut.at, cut.to);
      drawing.polyline({from, to}, kCutPen);
    }
    for (const stock::SheetCut& cut : layout_.cuts) {
      const PagePoint from =
          placement_.at(cut.along ? place(cut.from, cut.at) : place(cut.at, cut.from));
      const PagePoint to = placement_.at(cut.along ? place(cut.to, cut.at) : place(cut.at, cut.to));
      const PagePoint at = places_.on_line(from, to, kCutRing);
      page_.circle(at, kCutRing, kWhite, Pen{.width = 0.25, .colour = kAccent});
      page_.text({at.x, at.y + kCutText.letter_height / 2},
                 std::to_string(cut.number),
                 kCutText,
                 {.align = Align::kCentre, .anchor = Anchor::kBaseline});
    }
  }

  bool has_upright_strips() const {
    return std::ranges::any_of(
        layout_.cuts, [](const stock::SheetCut& cut) { return cut.stage == 1 && !cut.along; });
  }

  /// The strips that the cuts through the whole sheet free.
  std::vector<Dimension> strip_sizes() const {
    std::vector<Dimension> sizes;
    for (const stock::SheetCut& cut : layout_.cuts) {
      if (cut.stage != 1) {
        continue;
      }
      const Length from = cut.at - cut.setting;
      const std::string text = length(plan(), cut.setting);
      if (cut.along) {
        sizes.push_back({place({}, cut.at), place({}, from), Side::kLeft, text});
      } else {
        sizes.push_back({place(from, {}), place(cut.at, {}), Side::kAbove, text});
      }
    }
    return sizes;
  }

  void set_title() {
    const std::string copies =
        layout_.copies > 1 ? fmt::format("cut {} sheets so", layout_.copies) : "cut 1 sheet so";
    const std::string text = fmt::format("{}, {} \u00d7 {} {}: {}",
                                         sheet_.name,
                                         length(plan(), sheet_.length),
                                         length(plan(), sheet_.width),
                                         unit_name(plan()),
                                         copies);
    text_in_room(page_, {area_.x, area_.y, area_.width - 44, 5}, sentence(text), kShopStrong);
    if (sheet_.grain) {
      grain_arrow(page_, {area_.right() - 30, area_.y + 2.5}, {area_.right(), area_.y + 2.5});
      page_.text({area_.right() - 32, area_.y + 2.5},
                 "grain",
                 kListTitle,
                 {.align = Align::kRight, .anchor = Anchor::kMiddle});
    }
  }

  int cells_across() const {
    return std::max(1, static_cast<int>(std::floor(area_.width / kCutCellWidth)));
  }
  Rectangle list_room() const {
    const int rows = (static_cast<int>(layout_.cuts.size()) + cells_across() - 1) / cells_across();
    const double height = rows == 0 ? 0 : kListHeading + rows * kCutCell;
    return {area_.x, area_.bottom() - height, area_.width, height};
  }

  void set_cut_list(const Rectangle& room) {
    if (layout_.cuts.empty()) {
      return;
    }
    const auto& trim = plan().shop.allowances;
    page_.text(
        {room.x, room.y},
        fmt::format("Cuts in order, by the width that each frees. Trim {} off the first edge "
                    "and the first end before; saw kerf {}.",
                    length_with_unit(plan(), trim.sheet_trim),
                    length_with_unit(plan(), trim.sheet_kerf)),
        kListTitle);
    for (std::size_t i = 0; i < layout_.cuts.size(); ++i) {
      const auto column = static_cast<double>(i % static_cast<std::size_t>(cells_across()));
      const auto row = static_cast<double>(i / static_cast<std::size_t>(cells_across()));
      const double width = room.width / cells_across();
      set_cut({room.x + column * width, room.y + kListHeading + row * kCutCell, width, kCutCell},
              layout_.cuts[i]);
    }
  }

  void set_cut(const Rectangle& cell, const stock::SheetCut& cut) {
    const PagePoint ring{cell.x + kCutRing + 0.3, cell.centre().y};
    page_.circle(ring, kCutRing, kWhite, Pen{.width = 0.25, .colour = kAccent});
    page_.text({ring.x, ring.y + kCutText.letter_height / 2},
               std::to_string(cut.number),
               kCutText,
               {.align = Align::kCentre, .anchor = Anchor::kBaseline});
    const Rectangle text{
        cell.x + 2 * kCutRing + 1.6, cell.y, cell.width - 2 * kCutRing - 2.6, cell.height};
    text_in_room(page_,
                 text,
                 fmt::format("{} {}", cut.along ? "rip" : "cross", length(plan(), cut.setting)),
                 kCutListText);
  }

  Page& page_;
  const Packet& packet_;
  const shop::SheetStock& sheet_;
  const stock::SheetLayout& layout_;
  Rectangle area_;
  DrawingScale scale_;
  Placement placement_;
  LabelPlaces places_;
};

}  // namespace

void add_sheet_layouts(const Packet& packet) {
  for (const stock::SheetNeed& need : packet.plan.stock.sheets) {
    const shop::SheetStock* sheet = packet.plan.shop.sheet(need.stock);
    if (sheet == nullptr) {
      continue;
    }
    for (std::size_t i = 0; i < need.layouts.size(); ++i) {
      Page& page = packet.sheets.add_landscape(
          packet.info(fmt::format("{}, layout {} of {}", sheet->name, i + 1, need.layouts.size()),
                      "Sheet layout"));
      LayoutSheet layout{page, packet, *sheet, need.layouts[i]};
      layout.draw();
      packet.sheets.last().scale = layout.scale_name();
    }
  }
}

}  // namespace plankwright::papers
