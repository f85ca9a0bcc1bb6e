#include "document/node.h"

#include <algorithm>

#include <fmt/format.h>

namespace plankwright::document {

const Node* Node::find(std::string_view key) const {
  const auto entry = std::ranges::find_if(entries, [key](const Entry& e) { return e.key == key; });
  return entry == entries.end() ? nullptr : &entry->value;
}

std::string kind_of(const Node& node) {
  switch (node.kind) {
    case Node::Kind::kEmpty:
      return "nothing";
    case Node::Kind::kList:
      return "a list";
    case Node::Kind::kMap:
      return "a map";
    case Node::Kind::kScalar:
      break;
  }
  constexpr std::size_t kLongestShown = 60;
  return node.text.size() <= kLongestShown && node.text.find('\n') == std::string::npos
             ? fmt::format("`{}`", node.text)
             : "a long text";
}

}  // namespace plankwright::document
