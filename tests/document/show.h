#pragma once
// Documents and their mistakes as text, to be compared in one look.

#include <string>

#include <fmt/format.h>

#include "document/node.h"

namespace plankwright::document {

/// A tree on one line: `{a: 1, b: ["text"]}`; quoted text in double quotes, nothing as `~`.
inline std::string show(const Node& node) {
  std::string text;
  switch (node.kind) {
    case Node::Kind::kEmpty:
      return "~";
    case Node::Kind::kScalar:
      return node.quoted ? fmt::format("\"{}\"", node.text) : node.text;
    case Node::Kind::kList:
      for (const Node& item : node.items) {
        text += fmt::format("{}{}", text.empty() ? "" : ", ", show(item));
      }
      return fmt::format("[{}]", text);
    case Node::Kind::kMap:
      for (const Node::Entry& entry : node.entries) {
        text += fmt::format("{}{}: {}", text.empty() ? "" : ", ", entry.key, show(entry.value));
      }
      return fmt::format("{{{}}}", text);
  }
  return {};
}

inline std::string show_place(const base::Position& at) {
  return fmt::format("{}:{}", at.line, at.column);
}

/// All errors as the maker sees them.
inline std::string show(const base::Errors& errors, std::string_view source) {
  std::string text;
  for (const base::Error& error : errors) {
    text += base::describe(error, source);
  }
  return text;
}

}  // namespace plankwright::document
