#include "store/pattern.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "document/node.h"
#include "measure/expression.h"
#include "store/files.h"
#include "store/keeper.h"

namespace plankwright::store {
namespace {

using document::Node;

std::string text_of(const Node* node) {
  return node != nullptr && node->kind == Node::Kind::kScalar ? node->text : "";
}

const std::vector<Node::Entry>& entries_of(const Node* node) {
  static const std::vector<Node::Entry> kNone;
  return node != nullptr ? node->entries : kNone;
}

PatternStock stock_of(const Node::Entry& entry) {
  PatternStock stock{entry.key, text_of(entry.value.find("says")), {}};
  for (const Node::Entry& set : entries_of(entry.value.find("sets"))) {
    stock.sets.emplace_back(set.key, set.value.text);
  }
  return stock;
}

void replace_all(std::string& text, const std::string& place, const std::string& with) {
  const std::string open = "{{" + place + "}}";
  for (std::size_t at = text.find(open); at != std::string::npos;
       at = text.find(open, at + with.size())) {
    text.replace(at, open.size(), with);
  }
}

/// A name in quotes, whatever is in it.
std::string as_text(const std::string& name) {
  std::string out = "\"";
  for (const char c : name) {
    if (c == '"' || c == '\\') {
      out += '\\';
    }
    out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  return out + '"';
}

std::string filled(const Pattern& pattern,
                   const std::string& name,
                   const std::map<std::string, std::string>& sizes,
                   const PatternStock& stock) {
  std::string text = pattern.text;
  for (const PatternSize& size : pattern.sizes) {
    const auto typed = sizes.find(size.name);
    replace_all(text, size.name, typed == sizes.end() ? size.value : typed->second);
  }
  for (const auto& [place, word] : stock.sets) {
    replace_all(text, place, word);
  }
  // The maker's own words go in last, so that nothing in them is taken for an open place.
  replace_all(text, "name", as_text(name));
  return text;
}

base::Errors open_places(const Pattern& pattern, const std::string& file) {
  base::Errors errors;
  for (const PatternStock& stock : pattern.stocks) {
    const std::string text = filled(pattern, "", {}, stock);
    if (const std::size_t at = text.find("{{"); at != std::string::npos) {
      errors.push_back({base::ErrorCode::kBadInput,
                        fmt::format("stock {} leaves {} open",
                                    stock.id,
                                    base::quote(text.substr(at, text.find("}}", at) + 2 - at))),
                        base::Position{file, 1, 1}});
    }
  }
  return errors;
}

/// A size on its own, without names; what is typed goes into the text as it is.
base::Result<std::string> typed_size(const PatternSize& size, const std::string& typed) {
  const auto length = measure::parse_length(typed, measure::LengthUnit::kMillimetre);
  if (!length.ok() || length.value() <= measure::Length{}) {
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("{}: found {}, expected a size such as {}",
                                   size.label,
                                   base::quote(typed),
                                   size.value)};
  }
  return typed;
}

template <class List, class Name>
std::vector<std::string> names_in(const List& list, Name name) {
  std::vector<std::string> names;
  for (const auto& one : list) {
    names.push_back(one.*name);
  }
  return names;
}

base::Error unknown(const std::string& what,
                    const std::string& found,
                    const std::vector<std::string>& known) {
  const std::span<const std::string> words{known};
  return {
      base::ErrorCode::kBadInput,
      fmt::format("found {} {}, expected {}", what, base::quote(found), base::list_words(words)),
      std::nullopt,
      base::nearest_word(found, words)};
}

}  // namespace

ReadPattern read_pattern(const std::string& text, const std::string& id, const std::string& file) {
  ReadPattern read;
  document::Parsed parsed = document::parse_yaml(text, file);
  read.errors = std::move(parsed.errors);
  Pattern& pattern = read.pattern;
  pattern.id = id;
  pattern.name = text_of(parsed.root.find("pattern"));
  pattern.says = text_of(parsed.root.find("says"));
  pattern.text = text_of(parsed.root.find("text"));
  for (const Node::Entry& size : entries_of(parsed.root.find("sizes"))) {
    pattern.sizes.push_back(
        {size.key, text_of(size.value.find("label")), text_of(size.value.find("value"))});
  }
  for (const Node::Entry& stock : entries_of(parsed.root.find("stocks"))) {
    pattern.stocks.push_back(stock_of(stock));
  }
  if (read.errors.empty() &&
      (pattern.name.empty() || pattern.text.empty() || pattern.stocks.empty())) {
    read.errors.push_back({base::ErrorCode::kBadInput,
                           "a pattern needs `pattern`, `stocks` and `text`",
                           base::Position{file, 1, 1}});
  }
  const base::Errors open = open_places(pattern, file);
  read.errors.insert(read.errors.end(), open.begin(), open.end());
  return read;
}

std::vector<Pattern> patterns_in(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  std::error_code ignored;
  for (const auto& entry : std::filesystem::directory_iterator{folder, ignored}) {
    if (entry.path().extension() == ".yaml") {
      files.push_back(entry.path());
    }
  }
  std::ranges::sort(files);
  std::vector<Pattern> patterns;
  for (const auto& file : files) {
    const auto text = read_file(file);
    if (!text.ok()) {
      continue;
    }
    ReadPattern read = read_pattern(text.value(), id_from(file.stem().string()), file.string());
    if (read.errors.empty()) {
      patterns.push_back(std::move(read.pattern));
    }
  }
  return patterns;
}

base::Result<std::string> fill_pattern(const Pattern& pattern, const PatternPicks& picks) {
  std::map<std::string, std::string> sizes;
  for (const auto& [name, typed] : picks.sizes) {
    const auto size = std::ranges::find(pattern.sizes, name, &PatternSize::name);
    if (size == pattern.sizes.end()) {
      return unknown("size", name, names_in(pattern.sizes, &PatternSize::name));
    }
    const auto read = typed_size(*size, typed);
    if (!read.ok()) {
      return read.error();
    }
    sizes[name] = read.value();
  }
  const auto stock = picks.stock.empty()
                         ? pattern.stocks.begin()
                         : std::ranges::find(pattern.stocks, picks.stock, &PatternStock::id);
  if (stock == pattern.stocks.end()) {
    return unknown("stock", picks.stock, names_in(pattern.stocks, &PatternStock::id));
  }
  return filled(pattern, picks.name.empty() ? pattern.name : picks.name, sizes, *stock);
}

std::string empty_commission(const std::string& name) {
  return fmt::format(
      "# Write down what was asked for; mistakes are shown under the words.\n"
      "commission: {}\n"
      "units: mm\n"
      "shop: shop_metric.yaml\n"
      "client: {{name: }}\n"
      "piece:\n"
      "  width: 1000\n"
      "  depth: 400\n"
      "  height: 750\n",
      as_text(name));
}

}  // namespace plankwright::store
