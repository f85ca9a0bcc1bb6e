#include "stock/tally.h"

#include <charconv>
#include <optional>
#include <span>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "measure/expression.h"

namespace plankwright::stock {
namespace {

using measure::Length;

constexpr std::size_t kMostErrors = 100;
constexpr std::size_t kMostLines = 5'000;
constexpr int kMostAlike = 500;
constexpr Length kQuarter = Length::from_nm(6'350'000);

/// A cell of a line and the column (in characters, from 1) where its text begins.
struct Cell {
  std::string_view text;
  int column = 1;
};

int characters(std::string_view text) {
  int count = 0;
  for (const char c : text) {
    count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  }
  return count;
}

std::vector<Cell> cells_of(std::string_view line) {
  std::vector<Cell> cells;
  for (std::size_t from = 0; from <= line.size();) {
    const std::size_t to = std::min(line.find(',', from), line.size());
    std::string_view text = line.substr(from, to - from);
    std::size_t first = text.find_first_not_of(" \t");
    first = first == std::string_view::npos ? text.size() : first;
    const std::size_t last = text.find_last_not_of(" \t");
    text = text.substr(first, last == std::string_view::npos ? 0 : last + 1 - first);
    cells.push_back({text, characters(line.substr(0, from + first)) + 1});
    from = to + 1;
  }
  return cells;
}

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
  Reader(const std::string& file, const shop::Shop& shop) : file_{file}, shop_{shop} {
    for (const shop::SolidStock& stock : shop.solids) {
      ids_.push_back(stock.id);
    }
  }

  ReadTally read(std::string_view text) {
    for (std::size_t from = 0; from < text.size() && read_.errors.size() < kMostErrors;) {
      const std::size_t to = std::min(text.find('\n', from), text.size());
      ++line_;
      if (static_cast<std::size_t>(line_) > kMostLines) {
        complain({{}, 1}, fmt::format("expected at most {} lines in one tally", kMostLines));
        break;
      }
      std::string_view line = text.substr(from, to - from);
      line = line.substr(0, line.find('#'));
      while (!line.empty() && (line.back() == '\r' || line.back() == ' ' || line.back() == '\t')) {
        line.remove_suffix(1);
      }
      if (line.find_first_not_of(" \t") != std::string_view::npos) {
        read_line(line);
      }
      from = to + 1;
    }
    return std::move(read_);
  }

 private:
  void complain(const Cell& cell, std::string message, std::string nearest = {}) {
    read_.errors.push_back({base::ErrorCode::kBadInput,
                            std::move(message),
                            base::Position{file_, line_, cell.column},
                            std::move(nearest)});
  }

  void read_line(std::string_view line) {
    const std::vector<Cell> cells = cells_of(line);
    const std::size_t before = read_.errors.size();
    TallyBoard board;
    board.at = {file_, line_, cells.front().column};
    const shop::SolidStock* stock = shop_.solid(cells[0].text);
    board.stock = std::string{cells[0].text};
    if (stock == nullptr) {
      complain(
          cells[0],
          fmt::format("found {}, expected a rough board the shop has", base::quote(cells[0].text)),
          base::nearest_word(cells[0].text, std::span<const std::string>{ids_}));
    }
    if (cells.size() < 3) {
      complain({{}, characters(line) + 1},
               "expected a stock, a length and a width with commas between");
      return;
    }
    board.length = size(cells[1], "length");
    board.width = size(cells[2], "width");
    for (std::size_t i = 3; i < cells.size(); ++i) {
      read_more(cells[i], stock, board);
    }
    if (read_.errors.size() == before && board.width > board.length) {
      complain(cells[2], "the board is wider than it is long: the length comes first");
    }
    if (read_.errors.size() == before) {
      read_.boards.push_back(std::move(board));
    }
  }

  Length size(const Cell& cell, std::string_view what) {
    const auto read = measure::parse_length(cell.text, shop_.unit);
    if (!read.ok()) {
      Cell at = cell;
      at.column += read.error().at ? read.error().at->column - 1 : 0;
      complain(at, fmt::format("{}: {}", what, read.error().message), read.error().nearest);
      return {};
    }
    constexpr Length kLongest = Length::from_nm(9'000'000'000);
    if (read.value() <= Length{} || read.value() > kLongest) {
      complain(cell,
               fmt::format("found a {} of {}, expected more than nothing and at most 9 m",
                           what,
                           measure::print_with_unit(read.value(), shop_.unit)));
    }
    return read.value();
  }

  void read_more(const Cell& cell, const shop::SolidStock* stock, TallyBoard& board) {
    if (cell.text.starts_with("lot ")) {
      board.lot = std::string{cell.text.substr(4)};
    } else if (cell.text.starts_with('x')) {
      read_count(cell, board);
    } else if (cell.text.empty()) {
      complain(cell, "found nothing between two commas");
    } else {
      check_thickness(cell, stock);
    }
  }

  void read_count(const Cell& cell, TallyBoard& board) {
    const std::string_view digits = cell.text.substr(1);
    const auto [end, wrong] =
        std::from_chars(digits.data(), digits.data() + digits.size(), board.count);
    if (wrong != std::errc{} || end != digits.data() + digits.size() || board.count < 1 ||
        board.count > kMostAlike) {
      complain(cell,
               fmt::format("found {}, expected a count such as x3, at most x{}",
                           base::quote(cell.text),
                           kMostAlike));
      board.count = 1;
    }
  }

  void check_thickness(const Cell& cell, const shop::SolidStock* stock) {
    const std::optional<int> quarters = quarters_of(cell.text);
    Length thickness = quarters ? *quarters * kQuarter : Length{};
    if (!quarters) {
      const auto read = measure::parse_length(cell.text, shop_.unit);
      if (!read.ok()) {
        complain(cell,
                 fmt::format("found {}, expected a thickness such as 5/4 or a size, x3 for three "
                             "alike, or lot NAME",
                             base::quote(cell.text)));
        return;
      }
      thickness = read.value();
    }
    if (stock != nullptr && thickness < stock->surfaced_thickness) {
      complain(cell,
               fmt::format("a board {} thick does not plane to the {} of {}",
                           quarters ? std::string{cell.text}
                                    : measure::print_with_unit(thickness, shop_.unit),
                           measure::print_with_unit(stock->surfaced_thickness, shop_.unit),
                           stock->name));
    }
  }

  const std::string& file_;
  const shop::Shop& shop_;
  std::vector<std::string> ids_;
  ReadTally read_;
  int line_ = 0;
};

}  // namespace

ReadTally read_tally(std::string_view text, const std::string& file, const shop::Shop& shop) {
  return Reader{file, shop}.read(text);
}

}  // namespace plankwright::stock
