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

constexpr double kTitleHeight = 6.5;
constexpr double kCutCell = 5.6;  // height of a cell in the list of cuts
constexpr double kCutCellWidth = 36;
constexpr double kListGap = 1.5;
constexpr double kCutRing = 1.9;
constexpr Pen kSheetPen{.width = 0.5, .colour = kPencil};
constexpr Pen kPartPen{.width = 0.25, .colour = kPencil};
constexpr Pen kCutPen{.width = 0.35, .colour = kAccent};
constexpr TextStyle kNoteText{.letter_height = 1.9, .colour = kSoftPencil, .line_pitch = 1.6};
constexpr TextStyle kCutText{
    .letter_height = 1.9, .weight = Weight::kBold, .colour = kAccent, .tabular = true};
constexpr TextStyle kCutListText{.letter_height = 2.5, .tabular = true};
constexpr TextStyle kListTitle{.letter_height = 2.0, .weight = Weight::kMedium, .colour = kAccent};

/// Sheets that are cut alike, and how much of the length is bought: less than the whole where the
/// supplier cuts sheets.
struct LayoutKind {
  const stock::SheetLayout* layout = nullptr;
  int sheets = 0;
  Length bought;
};

bool alike(const plan::Plan& plan, const stock::SheetLayout& a, const stock::SheetLayout& b) {
  return a.rack == b.rack &&
         std::ranges::equal(
             a.pieces, b.pieces, [&](const stock::SheetPiece& p, const stock::SheetPiece& q) {
               return plan.piece.parts[p.part].code == plan.piece.parts[q.part].code &&
                      p.x == q.x && p.y == q.y && p.length == q.length && p.width == q.width;
             });
}

/// How far along the sheet parts lie.
Length reach_of(const stock::SheetLayout& layout) {
  Length reach;
  for (const stock::SheetPiece& piece : layout.pieces) {
    reach = std::max(reach, piece.x + piece.length);
  }
  return reach;
}

std::vector<LayoutKind> kinds_of(const plan::Plan& plan, const stock::SheetNeed& need) {
  std::vector<LayoutKind> kinds;
  for (const stock::SheetLayout& layout : need.layouts) {
    const auto same = std::ranges::find_if(
        kinds, [&](const LayoutKind& kind) { return alike(plan, *kind.layout, layout); });
    if (same == kinds.end()) {
      kinds.push_back({&layout, layout.copies, layout.length});
    } else {
      same->sheets += layout.copies;
    }
  }
  // The part that is not bought is missing from the sheet that is filled least.
  const double missing = need.sheets - need.rack_pieces - need.buy_sheets;
  const auto least = std::ranges::min_element(kinds, {}, [](const LayoutKind& kind) {
    return std::pair{!kind.layout->rack.empty(), reach_of(*kind.layout)};
  });
  if (least != kinds.end() && missing > 0 && least->sheets == 1) {
    least->bought = measure::scaled(least->bought, 1 - missing);
  }
  return kinds;
}

/// One layout on its page. Sheets lie with their grain across the page, first edge at the top.
class LayoutSheet {
 public:
  LayoutSheet(Page& page,
              const Packet& packet,
              const shop::SheetStock& sheet,
              const LayoutKind& kind)
      : page_{page},
        packet_{packet},
        sheet_{sheet},
        layout_{*kind.layout},
        kind_{kind},
        area_{sheet_area(page.size())} {}

  void draw() {
    const Rectangle list = list_room();
    // Strips across are dimensioned on the left, strips along above.
    const double side = Drawing::dimension_room(1);
    const double above = has_upright_strips() ? side : 0;
    const double left_of = has_upright_strips() ? 0 : side;
    const Rectangle room{area_.x + left_of,
                         area_.y + kTitleHeight + above,
                         area_.width - left_of,
                         list.y - area_.y - kTitleHeight - above - kListGap};
    scale_ = fitting_scale(kind_.bought.mm(), layout_.width.mm(), room, plan().commission.unit());
    const double w = scale_.factor * kind_.bought.mm();
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
    const auto whole = corners({}, {}, kind_.bought, layout_.width);
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
      const Length along = std::min(offcut.length, kind_.bought - offcut.x);
      if (along < plan().shop.allowances.offcut_length) {
        continue;  // most of it is on the part of the sheet that is not bought
      }
      drawing.polygon(corners(offcut.x, offcut.y, along, offcut.width),
                      std::nullopt,
                      Pen{.width = 0.35, .colour = kSoftPencil, .dash = Dash::kHidden});
      places_.block(label_offcut(
          page_,
          on_page(offcut.x, offcut.y, along, offcut.width),
          fmt::format("keep {} \u00d7 {}", length(plan(), along), length(plan(), offcut.width))));
    }
  }

  /// The ends of a cut, on the part of the sheet that is bought.
  std::pair<ViewPoint, ViewPoint> ends_of(const stock::SheetCut& cut) const {
    const Length along_end = std::min(cut.to, kind_.bought);
    return cut.along ? std::pair{place(cut.from, cut.at), place(along_end, cut.at)}
                     : std::pair{place(cut.at, cut.from), place(cut.at, cut.to)};
  }

  void draw_cuts(Drawing& drawing) {
    for (const stock::SheetCut& cut : layout_.cuts) {
      const auto [from, to] = ends_of(cut);
      drawing.polyline({from, to}, kCutPen);
    }
    for (const stock::SheetCut& cut : layout_.cuts) {
      const auto [from, to] = ends_of(cut);
      set_ring(places_.on_line(placement_.at(from), placement_.at(to), kCutRing), cut.number);
    }
  }

  void set_ring(PagePoint at, int number) {
    page_.circle(at, kCutRing, kWhite, Pen{.width = 0.25, .colour = kAccent});
    page_.text({at.x, at.y + kCutText.letter_height / 2},
               std::to_string(number),
               kCutText,
               {.align = Align::kCentre, .anchor = Anchor::kBaseline});
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
    const std::string text = fmt::format("{}{}, {} \u00d7 {} {}: {}",
                                         from_rack() ? layout_.rack + " out of the rack: " : "",
                                         sheet_.name,
                                         length(plan(), kind_.bought),
                                         length(plan(), layout_.width),
                                         unit_name(plan()),
                                         how_many());
    text_in_room(page_, {area_.x, area_.y, area_.width - 44, 4.5}, sentence(text), kShopStrong);
    if (sheet_.grain) {
      grain_arrow(page_, {area_.right() - 30, area_.y + 2.2}, {area_.right(), area_.y + 2.2});
      page_.text({area_.right() - 32, area_.y + 2.2},
                 "grain",
                 kListTitle,
                 {.align = Align::kRight, .anchor = Anchor::kMiddle});
    }
  }

  bool from_rack() const { return !layout_.rack.empty(); }

  std::string how_many() const {
    const auto count = static_cast<std::size_t>(kind_.sheets);
    if (from_rack()) {
      return counted(count, "piece is cut like this", "pieces are cut like this");
    }
    return kind_.bought < layout_.length
               ? "part of a sheet, as it is sold"
               : counted(count, "sheet is cut like this", "sheets are cut like this");
  }

  /// What the saw does before the first numbered cut.
  std::string first_cuts() const {
    return from_rack() ? "Its edges are sawn already."
                       : fmt::format("Before them {} off the first edge and the first end.",
                                     length_with_unit(plan(), plan().shop.allowances.sheet_trim));
  }

  int cells_across() const {
    return std::max(1, static_cast<int>(std::floor(area_.width / kCutCellWidth)));
  }
  Rectangle list_room() const {
    const int rows = (static_cast<int>(layout_.cuts.size()) + cells_across() - 1) / cells_across();
    const double height = rows * kCutCell;
    return {area_.x, area_.bottom() - height, area_.width, height};
  }

  void set_cut_list(const Rectangle& room) {
    if (layout_.cuts.empty()) {
      return;
    }
    const Rectangle note = beside_block(page_.size());
    page_.text(
        {note.x + 2, note.y + 1},
        fmt::format("Cuts in order, each by the width that it frees. {} Saw kerf {}. Hatched: "
                    "waste and offcuts.",
                    first_cuts(),
                    length_with_unit(plan(), plan().shop.allowances.sheet_kerf)),
        kNoteText,
        {.width = note.width - 4});
    for (std::size_t i = 0; i < layout_.cuts.size(); ++i) {
      const auto column = static_cast<double>(i % static_cast<std::size_t>(cells_across()));
      const auto row = static_cast<double>(i / static_cast<std::size_t>(cells_across()));
      const double width = room.width / cells_across();
      set_cut({room.x + column * width, room.y + row * kCutCell, width, kCutCell}, layout_.cuts[i]);
    }
  }

  void set_cut(const Rectangle& cell, const stock::SheetCut& cut) {
    const PagePoint ring{cell.x + kCutRing + 0.3, cell.centre().y};
    set_ring(ring, cut.number);
    const Rectangle text{
        cell.x + 2 * kCutRing + 1.6, cell.y, cell.width - 2 * kCutRing - 2.6, cell.height};
    text_in_room(page_,
                 text,
                 fmt::format("{} {}", cut.along ? "rip" : "crosscut", length(plan(), cut.setting)),
                 kCutListText);
  }

  Page& page_;
  const Packet& packet_;
  const shop::SheetStock& sheet_;
  const stock::SheetLayout& layout_;
  const LayoutKind& kind_;
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
    const std::vector<LayoutKind> kinds = kinds_of(packet.plan, need);
    for (std::size_t i = 0; i < kinds.size(); ++i) {
      Page& page = packet.sheets.add_landscape(packet.info(
          fmt::format("{}, layout {} of {}", sheet->name, i + 1, kinds.size()), "Sheet layout"));
      LayoutSheet layout{page, packet, *sheet, kinds[i]};
      layout.draw();
      packet.sheets.last().scale = layout.scale_name();
    }
  }
}

}  // namespace plankwright::papers
