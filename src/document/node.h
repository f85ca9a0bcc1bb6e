#pragma once
// A written document as a tree that knows where each word of it stands.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace plankwright::document {

/// One value of a document. Plain data; children keep the order in which they were written.
struct Node {
  enum class Kind { kEmpty, kScalar, kList, kMap };
  struct Entry;

  Kind kind = Kind::kEmpty;
  base::Position at = {};        // of the first character of the value
  std::string text = {};         // of a scalar, quotes taken off
  bool quoted = false;           // a quoted scalar is text, never an expression
  std::vector<Node> items = {};  // of a list
  std::vector<Entry> entries;    // of a map; clang allows no `= {}` before Entry is known

  /// The value under `key`, or nullptr.
  const Node* find(std::string_view key) const;
};

struct Node::Entry {
  std::string key;
  base::Position key_at;
  Node value;
};

/// A node without children, and one of plain text: what stands for a name without a line of its
/// own, such as a choice taken or a size measured on site.
Node make_node(Node::Kind kind, base::Position at = {});
Node make_scalar(std::string text, base::Position at = {});

/// What a message calls a node: `34 7/8` in its marks, "a list", "a map" or "nothing".
std::string kind_of(const Node& node);

/// A document read, or all that is wrong with it.
struct Parsed {
  Node root;
  base::Errors errors;
  /// False when some of the text could not be understood: what is not in `root` may still have been
  /// written, so looking for missing or unknown keys would blame the maker for nothing.
  bool readable = true;
};

/// Reads YAML 1.2 with the parts of it a written document needs: maps, lists, plain and quoted
/// scalars, comments, block text. A quoted text ends on its own line (longer text stands under a
/// `|`), so that a forgotten quote is found where it was forgotten. Errors (each with its place,
/// all that can be found in one go, at most 100): syntax, duplicate keys, anchors, aliases, tags
/// and merge keys (not part of the format), unfinished quotes and brackets, tabs as indentation,
/// bytes that are not UTF-8 text, a text over 4 MiB or of half a million words, nesting over 64.
Parsed parse_yaml(std::string_view text, const std::string& file);

}  // namespace plankwright::document
