#include "shop/rack.h"

#include <algorithm>
#include <set>
#include <span>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "document/cell_lines.h"
#include "measure/box.h"

namespace plankwright::shop {
namespace {

using document::Cell;
using document::CellLine;

/// Price of a metre of the length that is cheapest by the metre.
Money price_of_bar(const BarStock& stock, Length length) {
  double least = 0;
  for (const SoldLength& sold : stock.lengths) {
    const double metre = sold.length > Length{} ? sold.price.major() / sold.length.metres() : 0;
    least = least > 0 ? std::min(least, metre) : metre;
  }
  return Money::from_major(least * length.metres());
}

class Reader {
 public:
  Reader(const std::string& file, const Shop& shop)
      : shop_{shop}, ids_{shop.stock_ids()}, cells_{file, shop.unit, read_.errors} {}

  ReadRack read(std::string_view text) {
    for (const CellLine& line : cells_.lines(text)) {
      if (cells_.too_many_errors()) {
        break;
      }
      read_line(line);
    }
    return std::move(read_);
  }

 private:
  void read_line(const CellLine& line) {
    cells_.begin(line);
    const std::size_t before = read_.errors.size();
    RackPiece piece;
    piece.at = cells_.at(line.cells.front());
    read_label(line.cells[0], piece);
    if (line.cells.size() < 2) {
      cells_.complain(line.end,
                      "expected a label, a stock, a length and a width with commas between");
      return;
    }
    if (!find_stock(line.cells[1], piece)) {
      return;
    }
    const std::size_t sizes = piece.kind == RackKind::kBar ? 1 : 2;
    if (line.cells.size() < 2 + sizes) {
      cells_.complain(line.end,
                      sizes == 1 ? "expected the length of the bar"
                                 : "expected a length and a width with commas between");
      return;
    }
    piece.length = cells_.size(line.cells[2], "length");
    if (sizes == 2) {
      piece.width = cells_.size(line.cells[3], "width");
    }
    bool valued = false;
    for (std::size_t i = 2 + sizes; i < line.cells.size(); ++i) {
      read_more(line.cells[i], piece, valued);
    }
    if (read_.errors.size() != before) {
      return;
    }
    if (piece.kind == RackKind::kBoard && piece.width > piece.length) {
      cells_.complain(line.cells[3], "the board is wider than it is long: the length comes first");
      return;
    }
    if (!valued) {
      piece.value = rack_value(shop_, piece.stock, piece.length, piece.width);
    }
    read_.pieces.push_back(std::move(piece));
  }

  void read_label(const Cell& cell, RackPiece& piece) {
    constexpr std::size_t kLongestLabel = 24;
    piece.label = std::string{cell.text};
    if (cell.text.empty()) {
      cells_.complain(cell, "expected the label that is chalked on the piece");
    } else if (cell.text.size() > kLongestLabel) {
      cells_.complain(cell, fmt::format("expected a label of at most {} letters", kLongestLabel));
    } else if (!labels_.insert(piece.label).second) {
      cells_.complain(cell, fmt::format("the label {} stands twice", base::quote(cell.text)));
    }
  }

  bool find_stock(const Cell& cell, RackPiece& piece) {
    piece.stock = std::string{cell.text};
    if (shop_.solid(cell.text) != nullptr) {
      piece.kind = RackKind::kBoard;
    } else if (shop_.sheet(cell.text) != nullptr) {
      piece.kind = RackKind::kSheet;
    } else if (const BarStock* bar = shop_.bar(cell.text)) {
      piece.kind = RackKind::kBar;
      piece.width = bar->width;
    } else {
      cells_.complain(cell,
                      fmt::format("found {}, expected a rough board, a sheet or a bar the shop has",
                                  base::quote(cell.text)),
                      base::nearest_word(cell.text, std::span<const std::string>{ids_}));
      return false;
    }
    return true;
  }

  void read_more(const Cell& cell, RackPiece& piece, bool& valued) {
    if (cell.text.starts_with("lot ")) {
      piece.lot = std::string{cell.text.substr(4)};
    } else if (cell.text.starts_with("value ")) {
      valued = true;
      read_value(cell, piece);
    } else if (cell.text.starts_with('x')) {
      piece.count = cells_.count(cell);
    } else if (cell.text.empty()) {
      cells_.complain(cell, "found nothing between two commas");
    } else {
      cells_.complain(
          cell,
          fmt::format("found {}, expected x3 for three alike, lot NAME, or value 12.50{}",
                      base::quote(cell.text),
                      piece.kind == RackKind::kBar ? "; a bar has no width here" : ""));
    }
  }

  void read_value(const Cell& cell, RackPiece& piece) {
    constexpr std::size_t kWord = 6;  // "value "
    constexpr Money kMost = Money::from_minor(100'000'000);
    const base::Result<Money> value = measure::parse_money(cell.text.substr(kWord));
    if (!value.ok()) {
      cells_.complain(cell, fmt::format("value: {}", value.error().message));
    } else if (value.value() < Money{} || value.value() > kMost) {
      cells_.complain(cell, "expected a value of nothing or more, and at most a million");
    } else {
      piece.value = value.value();
    }
  }

  const Shop& shop_;
  std::vector<std::string> ids_;
  std::set<std::string> labels_;
  ReadRack read_;
  document::CellReader cells_;
};

}  // namespace

ReadRack read_rack(std::string_view text, const std::string& file, const Shop& shop) {
  return Reader{file, shop}.read(text);
}

Money price_of_board(const SolidStock& stock, Length length, Length width) {
  const measure::CubicMillimetres volume = measure::volume(length, width, stock.rough_thickness);
  const double sold = stock.sold_by == SoldBy::kCubicMetre ? measure::cubic_metres(volume)
                                                           : measure::board_feet(volume);
  return measure::scaled(stock.price, sold);
}

Money rack_value(const Shop& shop, std::string_view stock, Length length, Length width) {
  Money fresh;
  if (const SolidStock* solid = shop.solid(stock)) {
    fresh = price_of_board(*solid, length, width);
  } else if (const SheetStock* sheet = shop.sheet(stock)) {
    const double whole = measure::area(sheet->length, sheet->width).count();
    fresh =
        measure::scaled(sheet->price, whole > 0 ? measure::area(length, width).count() / whole : 0);
  } else if (const BarStock* bar = shop.bar(stock)) {
    fresh = price_of_bar(*bar, length);
  }
  return measure::scaled(fresh, shop.allowances.offcut_value.count() / 100);
}

}  // namespace plankwright::shop
