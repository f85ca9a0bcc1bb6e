#include "document/cell_lines.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "base/quote.h"
#include "document/line_scan.h"

namespace plankwright::document {
namespace {

using measure::Length;

constexpr std::size_t kMostLines = 5'000;
constexpr int kMostAlike = 500;

int characters(std::string_view text) {
  return static_cast<int>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
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

std::string_view without_comment(std::string_view line) {
  line = line.substr(0, line.find('#'));
  const std::size_t last = line.find_last_not_of(" \t\r");
  return line.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

}  // namespace

std::vector<CellLine> CellReader::lines(std::string_view text) {
  std::vector<CellLine> lines;
  int number = 0;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find('\n', from), text.size());
    ++number;
    if (static_cast<std::size_t>(number) > kMostLines) {
      line_ = number;
      complain(1, fmt::format("expected at most {} lines in one list", kMostLines));
      break;
    }
    const std::string_view line = without_comment(text.substr(from, to - from));
    if (!line.empty()) {
      lines.push_back({number, characters(line) + 1, cells_of(line)});
    }
    from = to + 1;
  }
  return lines;
}

bool CellReader::too_many_errors() const {
  return errors_.size() >= kMostErrors;
}

void CellReader::complain(const Cell& cell, std::string message, std::string nearest) {
  errors_.push_back({base::ErrorCode::kBadInput, std::move(message), at(cell), std::move(nearest)});
}

Length CellReader::size(const Cell& cell, std::string_view what) {
  const auto read = measure::parse_length(cell.text, unit_);
  if (!read.ok()) {
    Cell wrong = cell;
    wrong.column += read.error().at ? read.error().at->column - 1 : 0;
    complain(wrong, fmt::format("{}: {}", what, read.error().message), read.error().nearest);
    return {};
  }
  constexpr Length kLongest = Length::from_nm(9'000'000'000);
  if (read.value() <= Length{} || read.value() > kLongest) {
    complain(cell,
             fmt::format("found a {} of {}, expected more than nothing and at most 9 m",
                         what,
                         measure::print_with_unit(read.value(), unit_)));
  }
  return read.value();
}

int CellReader::count(const Cell& cell) {
  const std::string_view digits =
      cell.text.starts_with('x') ? cell.text.substr(1) : std::string_view{};
  int count = 0;
  const char* end_of_digits = digits.data() + digits.size();
  const auto [end, wrong] = std::from_chars(digits.data(), end_of_digits, count);
  if (wrong != std::errc{} || end != end_of_digits || count < 1 || count > kMostAlike) {
    complain(cell,
             fmt::format("found {}, expected a count such as x3, at most x{}",
                         base::quote(cell.text),
                         kMostAlike));
    return 1;
  }
  return count;
}

}  // namespace plankwright::document
