// Bars and strips as they are cut: the parts in the order of the cuts, each place measured from the
// first end.

#include <algorithm>

#include <fmt/format.h>

#include "papers/label_places.h"
#include "papers/packet.h"
#include "papers/stock_wording.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using measure::Length;

constexpr double kBarHeight = 9;
constexpr double kHead = 4.6;   // over a bar
constexpr double kRuler = 5.4;  // under it
constexpr double kBetween = 2.4;
constexpr Pen kBarPen{.width = 0.35, .colour = kPencil};
constexpr Pen kPartPen{.width = 0.25, .colour = kPencil};
constexpr TextStyle kHeadText{.letter_height = 2.3, .weight = Weight::kMedium};
constexpr TextStyle kRulerText{.letter_height = 1.9, .colour = kSoftPencil, .tabular = true};

/// Bars that are cut alike.
struct BarKind {
  const stock::BarLayout* layout = nullptr;
  int count = 1;
};

bool alike(const plan::Plan& plan, const stock::BarLayout& a, const stock::BarLayout& b) {
  return a.length == b.length && a.rack == b.rack &&
         std::ranges::equal(
             a.pieces, b.pieces, [&](const stock::BarPiece& p, const stock::BarPiece& q) {
               return plan.piece.parts[p.part].code == plan.piece.parts[q.part].code &&
                      p.from == q.from && p.length == q.length;
             });
}

std::vector<BarKind> kinds_of(const plan::Plan& plan, const stock::BarNeed& need) {
  std::vector<BarKind> kinds;
  for (const stock::BarLayout& bar : need.layouts) {
    const auto same = std::ranges::find_if(
        kinds, [&](const BarKind& kind) { return alike(plan, *kind.layout, bar); });
    if (same == kinds.end()) {
      kinds.push_back({&bar, 1});
    } else {
      ++same->count;
    }
  }
  return kinds;
}

/// Everything cut from bars or strips.
std::vector<const stock::BarNeed*> needs_of(const plan::Plan& plan) {
  std::vector<const stock::BarNeed*> needs;
  for (const stock::BarNeed& need : plan.stock.bars) {
    needs.push_back(&need);
  }
  for (const stock::BandNeed& need : plan.stock.bands) {
    if (need.strips) {
      needs.push_back(&*need.strips);
    }
  }
  std::erase_if(needs, [](const stock::BarNeed* need) { return need->layouts.empty(); });
  return needs;
}

Length longest_of(const std::vector<const stock::BarNeed*>& needs) {
  Length longest;
  for (const stock::BarNeed* need : needs) {
    for (const stock::BarLayout& bar : need->layouts) {
      longest = std::max(longest, bar.length);
    }
  }
  return longest;
}

class BarSetter {
 public:
  BarSetter(Flow& flow, const plan::Plan& plan, double factor)
      : flow_{flow}, plan_{plan}, factor_{factor} {}

  void set(const BarKind& kind, const std::string& name) {
    const stock::BarLayout& bar = *kind.layout;
    const Rectangle room = flow_.take(kHead + kBarHeight + kRuler + kBetween);
    flow_.page().text({room.x, room.y + 0.6}, title(kind, name), kHeadText);
    outline_ = {room.x, room.y + kHead, bar.length.mm() * factor_, kBarHeight};
    flow_.page().rectangle(outline_, kShade, kBarPen);
    for (const stock::BarPiece& piece : bar.pieces) {
      set_piece(piece);
    }
    if (bar.keep) {
      label_offcut(flow_.page(),
                   {outline_.right() - bar.rest.mm() * factor_,
                    outline_.y,
                    bar.rest.mm() * factor_,
                    outline_.height},
                   fmt::format("keep {}", length(plan_, bar.rest)));
    }
    set_ruler(bar);
  }

 private:
  std::string title(const BarKind& kind, const std::string& name) const {
    const std::string size = length_with_unit(plan_, kind.layout->length);
    const auto count = static_cast<std::size_t>(kind.count);
    return kind.layout->rack.empty()
               ? fmt::format(
                     "{}, {}, {}", sentence(name), size, counted(count, "like this", "like this"))
               : fmt::format("{} out of the rack: {}, {}, {}",
                             kind.layout->rack,
                             name,
                             size,
                             counted(count, "like this", "like this"));
  }

  void set_piece(const stock::BarPiece& piece) {
    const piece::Part& part = plan_.piece.parts[piece.part];
    const Rectangle box{outline_.x + piece.from.mm() * factor_,
                        outline_.y,
                        piece.length.mm() * factor_,
                        outline_.height};
    flow_.page().rectangle(box, mixed(kWhite, wood_colour(part), 0.3), kPartPen);
    label_part(flow_.page(), box, part.code, length(plan_, piece.length), part.name);
  }

  void set_ruler(const stock::BarLayout& bar) {
    double last = outline_.x - 1;
    for (const stock::BarPiece& piece : bar.pieces) {
      const double x = outline_.x + (piece.from + piece.length).mm() * factor_;
      const std::string text = length(plan_, piece.from + piece.length);
      const double width = text_size(text, kRulerText).width;
      flow_.page().line({x, outline_.bottom()}, {x, outline_.bottom() + 1.2}, kThinPen);
      if (x - width > last) {
        flow_.page().text({x, outline_.bottom() + 1.8}, text, kRulerText, {.align = Align::kRight});
        last = x + 1.5;
      }
    }
  }

  Flow& flow_;
  const plan::Plan& plan_;
  double factor_;
  Rectangle outline_;
};

}  // namespace

void add_bar_layouts(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  const std::vector<const stock::BarNeed*> needs = needs_of(plan);
  if (needs.empty()) {
    return;
  }
  SheetInfo info = packet.info("Bars", "Bar layout");
  const Rectangle area = sheet_area(landscape(page_size(plan.shop)));
  const DrawingScale scale = fitting_scale(
      longest_of(needs).mm(), 1, {0, 0, area.width, area.height}, plan.commission.unit());
  info.scale = scale.name;
  Flow flow = packet.sheets.flow(info, true);
  flow.paragraph(
      fmt::format("Lengths to scale. The figures under a bar are where each part ends, in {} from "
                  "its left end, a saw kerf of {} between two parts; edge strips are snapped.",
                  unit_name(plan),
                  length_with_unit(plan, plan.shop.allowances.saw_kerf)));
  BarSetter setter{flow, plan, scale.factor};
  for (const stock::BarNeed* need : needs) {
    for (const BarKind& kind : kinds_of(plan, *need)) {
      setter.set(kind, stock_name(plan, need->stock));
    }
  }
}

}  // namespace plankwright::papers
