#include "document/node.h"

#include <algorithm>

#include "base/quote.h"

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
  return base::quote(node.text);
}

}  // namespace plankwright::document
