#include "wood/provenance.h"

#include <array>

#include <fmt/format.h>

#include "base/nearest.h"

namespace plankwright::wood {
namespace {

constexpr std::array<std::string_view, 3> kMarkWords = {"verified", "memory", "practice"};

}  // namespace

std::string_view word(Mark mark) {
  return kMarkWords[static_cast<std::size_t>(mark)];
}

std::string print(const Provenance& from) {
  const std::string_view behind = from.mark == Mark::kMemory ? ", from memory" : ", verified";
  const std::string source = from.mark == Mark::kPractice
                                 ? std::string{"(common practice, no source)"}
                                 : fmt::format("({}{})", from.source, behind);
  return from.how.empty() ? source : fmt::format("{} {}", from.how, source);
}

Provenance read_provenance(const base::CsvRow& row,
                           std::string_view mark_column,
                           std::string_view source_column) {
  const std::string& written = row.word(mark_column);
  for (std::size_t i = 0; i < kMarkWords.size(); ++i) {
    if (written == kMarkWords[i]) {
      const Mark mark = static_cast<Mark>(i);
      const bool published = mark != Mark::kPractice;
      return {.mark = mark,
              .source = published ? row.word(source_column) : row.text(source_column),
              .how = {}};
    }
  }
  row.complain(
      mark_column,
      fmt::format("`{}` is not a mark, expected {}", written, base::list_words(kMarkWords)),
      base::nearest_word(written, kMarkWords));
  return {};
}

}  // namespace plankwright::wood
