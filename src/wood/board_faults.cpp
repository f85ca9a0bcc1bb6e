#include "wood/board_faults.h"

#include <algorithm>
#include <cctype>

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::Percent;

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(';'), text.size());
    words.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(text.size(), end + 1));
  }
  return words;
}

BoardFaults read_row(const base::CsvRow& row) {
  const auto percent = [&](std::string_view column) { return Percent{row.number(column, 0, 100)}; };
  BoardFaults faults;
  faults.names = words_of(row.word("names"));
  faults.per_square_foot = row.number("faults_per_square_foot", 0, 50);
  faults.length = Length::from_inches(row.number("fault_length_in", 0.1, 100));
  faults.width = Length::from_inches(row.number("fault_width_in", 0.1, 12));
  faults.both_faces = percent("both_faces_pct");
  faults.upper_face = percent("one_face_upper_pct");
  if (faults.both_faces.count() + faults.upper_face.count() > 100) {
    row.complain("one_face_upper_pct", "more than 100 % with those on both faces");
  }
  faults.at_edge = percent("at_edge_pct");
  faults.sound = percent("sound_pct");
  faults.width_spread = percent("width_spread_pct");
  faults.length_spread = percent("length_spread_pct");
  faults.from = read_provenance(row);
  return faults;
}

bool same_word(std::string_view a, std::string_view b) {
  return std::ranges::equal(
      a, b, [](unsigned char x, unsigned char y) { return std::tolower(x) == std::tolower(y); });
}

}  // namespace

base::Result<BoardFaultTable> read_board_faults(std::string_view csv_text,
                                                const std::string& file) {
  return read_table<BoardFaults>("grade", csv_text, file, read_row);
}

const BoardFaults* faults_of_grade(const BoardFaultTable& table, std::string_view grade) {
  for (const BoardFaults& row : table.rows()) {
    if (same_word(row.id, grade) || std::ranges::any_of(row.names, [&](const std::string& name) {
          return same_word(name, grade);
        })) {
      return &row;
    }
  }
  return nullptr;
}

}  // namespace plankwright::wood
