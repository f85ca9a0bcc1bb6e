// What comes out of the rack and what goes back into it.

#include <algorithm>
#include <tuple>

#include "stock/parts.h"

namespace plankwright::stock {
namespace {

class Rack {
 public:
  Rack(const shop::Shop& shop, Stock& stock) : shop_{shop}, stock_{stock} {}

  /// One rack piece cut up. Unknown labels are of new stock and pass by.
  void take(const std::string& label, const std::vector<PartIndex>& parts) {
    const auto piece = std::ranges::find(shop_.rack, label, &shop::RackPiece::label);
    if (label.empty() || piece == shop_.rack.end()) {
      return;
    }
    auto line = std::ranges::find(stock_.from_rack, label, &FromRack::label);
    if (line == stock_.from_rack.end()) {
      line = stock_.from_rack.insert(
          stock_.from_rack.end(),
          {label, piece->stock, piece->kind, piece->length, piece->width, 0, {}, {}});
    }
    ++line->count;
    line->value += piece->value;
    line->parts.insert(line->parts.end(), parts.begin(), parts.end());
    stock_.rack_price += piece->value;
  }

  void keep(ToRack rest) {
    const auto key = [](const ToRack& r) {
      return std::tie(r.stock, r.length, r.width, r.value, r.from);
    };
    const auto alike = std::ranges::find_if(
        stock_.to_rack, [&](const ToRack& other) { return key(other) == key(rest); });
    if (alike == stock_.to_rack.end()) {
      stock_.to_rack.push_back(std::move(rest));
    } else {
      alike->count += rest.count;
    }
  }

 private:
  const shop::Shop& shop_;
  Stock& stock_;
};

template <class Pieces>
std::vector<PartIndex> parts_on(const Pieces& pieces) {
  std::vector<PartIndex> parts;
  for (const auto& placed : pieces) {
    parts.push_back(placed.part);
  }
  std::ranges::sort(parts);
  const auto repeated = std::ranges::unique(parts);
  parts.erase(repeated.begin(), repeated.end());
  return parts;
}

}  // namespace

void settle_the_rack(Stock& stock, const shop::Shop& shop) {
  Rack rack{shop, stock};
  for (const SolidNeed& need : stock.solids) {
    for (const BoardLayout& board : need.boards) {
      rack.take(board.rack, parts_on(board.pieces));
      for (const Offcut& rest : board.rests) {
        rack.keep({need.stock,
                   shop::RackKind::kBoard,
                   rest.length,
                   rest.width,
                   1,
                   rest.value,
                   board.rack});
      }
    }
  }
  for (const SheetNeed& need : stock.sheets) {
    for (const SheetLayout& sheet : need.layouts) {
      rack.take(sheet.rack, parts_on(sheet.pieces));
      for (const Offcut& rest : sheet.offcuts) {
        rack.keep({need.stock,
                   shop::RackKind::kSheet,
                   rest.length,
                   rest.width,
                   1,
                   rest.value,
                   sheet.rack});
      }
    }
  }
  for (const BarNeed& need : stock.bars) {
    const shop::BarStock* bars = shop.bar(need.stock);
    for (const BarLayout& bar : need.layouts) {
      rack.take(bar.rack, parts_on(bar.pieces));
      if (bar.keep) {
        rack.keep({need.stock,
                   shop::RackKind::kBar,
                   bar.rest,
                   bars != nullptr ? bars->width : Length{},
                   1,
                   bar.rest_value,
                   bar.rack});
      }
    }
  }
}

}  // namespace plankwright::stock
