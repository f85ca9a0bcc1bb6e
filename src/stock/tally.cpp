#include "stock/tally.h"

#include <charconv>
#include <optional>
#include <span>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "document/cell_lines.h"
#include "measure/expression.h"
#include "shop/take.h"

namespace plankwright::stock {
namespace {

using document::Cell;
using document::CellLine;
using measure::Length;

constexpr Length kQuarter = Length::from_nm(6'350'000);

/// `5/4`: quarters of an inch, without a unit.
std::optional<int> quarters_of(std::string_view text) {
  int quarters = 0;
  const auto [end, wrong] = std::from_chars(text.data(), text.data() + text.size(), quarters);
  const bool good =
      wrong == std::errc{} &&
      std::string_view{end, static_cast<std::size_t>(text.data() + text.size() - end)} == "/4";
  return good && quarters > 0 ? std::optional{quarters} : std::nullopt;
}

class Reader {
 public:
  Reader(const std::string& file, const shop::Shop& shop)
      : shop_{shop}, ids_{shop::ids_of(shop.solids)}, cells_{file, shop.unit, read_.errors} {}

  ReadTally read(std::string_view text) {
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
    const std::vector<Cell>& cells = line.cells;
    const std::size_t before = read_.errors.size();
    TallyBoard board;
    board.at = cells_.at(cells.front());
    const shop::SolidStock* stock = shop_.solid(cells[0].text);
    board.stock = std::string{cells[0].text};
    if (stock == nullptr) {
      cells_.complain(
          cells[0],
          fmt::format("found {}, expected a rough board the shop has", base::quote(cells[0].text)),
          base::nearest_word(cells[0].text, std::span<const std::string>{ids_}));
    }
    if (cells.size() < 3) {
      cells_.complain(line.end, "expected a stock, a length and a width with commas between");
      return;
    }
    board.length = cells_.size(cells[1], "length");
    board.width = cells_.size(cells[2], "width");
    for (std::size_t i = 3; i < cells.size(); ++i) {
      read_more(cells[i], stock, board);
    }
    if (read_.errors.size() == before && board.width > board.length) {
      cells_.complain(cells[2], "the board is wider than it is long: the length comes first");
    }
    if (read_.errors.size() == before) {
      read_.boards.push_back(std::move(board));
    }
  }

  void read_more(const Cell& cell, const shop::SolidStock* stock, TallyBoard& board) {
    if (cell.text.starts_with("lot ")) {
      board.lot = std::string{cell.text.substr(4)};
    } else if (cell.text.starts_with('x')) {
      board.count = cells_.count(cell);
    } else if (cell.text.empty()) {
      cells_.complain(cell, "found nothing between two commas");
    } else {
      check_thickness(cell, stock);
    }
  }

  void check_thickness(const Cell& cell, const shop::SolidStock* stock) {
    const std::optional<int> quarters = quarters_of(cell.text);
    Length thickness = quarters ? *quarters * kQuarter : Length{};
    if (!quarters) {
      const auto read = measure::parse_length(cell.text, shop_.unit);
      if (!read.ok()) {
        cells_.complain(
            cell,
            fmt::format("found {}, expected a thickness such as 5/4 or a size, x3 for three "
                        "alike, or lot NAME",
                        base::quote(cell.text)));
        return;
      }
      thickness = read.value();
    }
    if (stock != nullptr && thickness < stock->surfaced_thickness) {
      cells_.complain(cell,
                      fmt::format("a board {} thick does not plane to the {} of {}",
                                  quarters ? std::string{cell.text}
                                           : measure::print_with_unit(thickness, shop_.unit),
                                  measure::print_with_unit(stock->surfaced_thickness, shop_.unit),
                                  stock->name));
    }
  }

  const shop::Shop& shop_;
  std::vector<std::string> ids_;
  ReadTally read_;
  document::CellReader cells_;
};

}  // namespace

ReadTally read_tally(std::string_view text, const std::string& file, const shop::Shop& shop) {
  return Reader{file, shop}.read(text);
}

}  // namespace plankwright::stock
