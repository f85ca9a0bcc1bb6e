#include "wood/sources.h"

#include <fmt/format.h>

namespace plankwright::wood {

base::Result<SourceTable> read_sources(std::string_view csv_text, const std::string& file) {
  return read_table<Source>("source", csv_text, file, [](const base::CsvRow& row) {
    return Source{.id = {},
                  .document = row.word("document"),
                  .where = row.text("where"),
                  .address = row.text("url")};
  });
}

std::vector<std::string> keys_of(const Provenance& from) {
  std::vector<std::string> keys;
  std::string_view rest = from.source;
  while (!rest.empty()) {
    const std::size_t end = rest.find(';');
    keys.emplace_back(rest.substr(0, end));
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
  }
  return keys;
}

std::string spell_out(const Provenance& from, const SourceTable& sources) {
  Provenance spelled = from;
  spelled.source.clear();
  for (const std::string& key : keys_of(from)) {
    const Source* source = sources.get(key);
    const std::string name = source == nullptr       ? key
                             : source->where.empty() ? source->document
                                                     : source->document + ", " + source->where;
    spelled.source += (spelled.source.empty() ? "" : "; ") + name;
  }
  if (spelled.mark == Mark::kPractice) {
    return print(spelled);
  }
  const std::string text = fmt::format(
      "{} ({})", spelled.source, from.mark == Mark::kMemory ? "from memory" : "verified");
  return from.how.empty() ? text : from.how + "; " + text;
}

}  // namespace plankwright::wood
