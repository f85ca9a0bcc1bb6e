#include "document/node.h"

#include <algorithm>
#include <utility>

#include "base/quote.h"

namespace plankwright::document {

const Node* Node::find(std::string_view key) const {
  const auto entry = std::ranges::find_if(entries, [key](const Entry& e) { return e.key == key; });
  return entry == entries.end() ? nullptr : &entry->value;
}

Node make_node(Node::Kind kind, base::Position at) {
  Node node;
  node.kind = kind;
  node.at = std::move(at);
  return node;
}

Node make_scalar(std::string text, base::Position at) {
  Node node = make_node(Node::Kind::kScalar, std::move(at));
  node.text = std::move(text);
  return node;
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
