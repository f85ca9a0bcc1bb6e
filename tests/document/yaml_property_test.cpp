#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "document/fields.h"
#include "document/show.h"

namespace plankwright::document {
namespace {

int upto(int most) {
  return *rc::gen::inRange(0, most);
}

template <class List>
std::string one_of(const List& list) {
  return std::string{list[static_cast<std::size_t>(upto(static_cast<int>(std::size(list))))]};
}

// ---- Any tree that is written is read again
// ------------------------------------------------------

constexpr const char* kWords[] = {
    "ash", "34 7/8", "5' 2-1/2\"", "long - 2", "-1/2", "top rail", "½", "yes", "a#b"};
constexpr const char* kQuoted[] = {"", "a: b", "# no", "it's", "\"6\"", "- x", "[1", "@", "größe"};

Node some_scalar() {
  Node node = make_scalar("");
  node.quoted = upto(3) == 0;
  node.text = node.quoted ? one_of(kQuoted) : one_of(kWords);
  return node;
}

void add(Node& map, const std::string& key, Node value) {
  Node::Entry& entry = map.entries.emplace_back();
  entry.key = key;
  entry.value = std::move(value);
}

Node some_tree(int depth) {
  if (depth == 0 || upto(3) == 0) {
    return some_scalar();
  }
  const int size = upto(4);
  if (upto(2) == 0) {
    Node list = make_node(Node::Kind::kList);
    for (int i = 0; i < size; ++i) {
      list.items.push_back(some_tree(depth - 1));
    }
    return list;
  }
  Node map = make_node(Node::Kind::kMap);
  for (int i = 0; i < size; ++i) {
    add(map, fmt::format("k{}", i), some_tree(depth - 1));
  }
  return map;
}

std::string written_scalar(const Node& node) {
  if (!node.quoted) {
    return node.text;
  }
  std::string doubled;
  for (const char c : node.text) {
    doubled += c == '\'' ? "''" : std::string{c};
  }
  return fmt::format("'{}'", doubled);
}

std::string written_flow(const Node& node) {
  if (node.kind == Node::Kind::kScalar) {
    return written_scalar(node);
  }
  std::string inside;
  for (const Node& item : node.items) {
    inside += (inside.empty() ? "" : ", ") + written_flow(item);
  }
  for (const Node::Entry& entry : node.entries) {
    inside += (inside.empty() ? "" : ", ") + entry.key + ": " + written_flow(entry.value);
  }
  const bool list = node.kind == Node::Kind::kList;
  return fmt::format("{}{}{}", list ? "[" : "{", inside, list ? "]" : "}");
}

/// Behind `name:` or `-`, at a depth of `indent` spaces.
std::string written(const Node& node, int indent) {
  const bool empty = node.items.empty() && node.entries.empty();
  if (node.kind == Node::Kind::kScalar || empty || upto(4) == 0) {
    return fmt::format(" {}{}\n", written_flow(node), upto(4) == 0 ? "  # as drawn" : "");
  }
  const std::string margin(static_cast<std::size_t>(indent), ' ');
  const int step = 1 + upto(4);
  std::string text = upto(5) == 0 ? "  # a comment: 'odd\n" : "\n";
  for (const Node& item : node.items) {
    text += fmt::format("{}-{}", margin, written(item, indent + step));
  }
  for (const Node::Entry& entry : node.entries) {
    text += fmt::format("{}{}:{}", margin, entry.key, written(entry.value, indent + step));
    text += upto(5) == 0 ? "\n" : "";
  }
  return text;
}

RC_GTEST_PROP(ParseYamlProperty, ReadsBackEveryTree, ()) {
  Node map = make_node(Node::Kind::kMap);
  add(map, "root", some_tree(4));
  const std::string text = "root:" + written(map.entries[0].value, 2);
  RC_LOG() << text;
  const Parsed parsed = parse_yaml(text, "f");
  RC_ASSERT(show(parsed.errors, text) == "");
  RC_ASSERT(show(parsed.root) == show(map));
}

// ---- Anything at all is a document or placed mistakes
// ---------------------------------------------

constexpr std::string_view kSides[] = {"a", "b"};
constexpr Field kInner[] = {{.key = "a", .kind = FieldKind::kLength, .says = "", .required = true},
                            {.key = "c", .kind = FieldKind::kWord, .says = "", .words = kSides}};
constexpr Field kTable[] = {{.key = "a", .kind = FieldKind::kLengths, .says = "", .required = true},
                            {.key = "b", .kind = FieldKind::kMap, .says = "", .inner = kInner},
                            {.key = "c", .kind = FieldKind::kMaps, .says = "", .inner = kInner}};

void check_places(const base::Errors& errors, std::string_view text) {
  const auto lines = std::ranges::count(text, '\n') + 1;
  for (const base::Error& error : errors) {
    RC_ASSERT(error.at.has_value());
    RC_ASSERT(error.at->line >= 1);
    RC_ASSERT(error.at->line <= lines);
    RC_ASSERT(error.at->column >= 1);
    RC_ASSERT(error.at->column <= static_cast<int>(text.size()) + 1);
    RC_ASSERT(!error.message.empty());
    RC_ASSERT(error.message.size() < 1000U);
    RC_ASSERT(!base::describe(error, text).empty());
  }
}

void read_and_check(const std::string& text) {
  RC_LOG() << text;
  const Parsed parsed = parse_yaml(text, "f");
  RC_ASSERT((parsed.readable || !parsed.errors.empty()));
  check_places(parsed.errors, text);
  Names names{measure::LengthUnit::kInch};
  for (const Node::Entry& entry : parsed.root.entries) {
    names.set(entry.key, entry.value);
  }
  base::Errors errors;
  const Fields fields{parsed.root, kTable, names, errors};
  static_cast<void>(fields.lengths("a"));
  static_cast<void>(fields.map("b").length("a"));
  for (const Fields& map : fields.maps("c")) {
    static_cast<void>(map.word("c"));
  }
  check_places(errors, text);
}

RC_GTEST_PROP(ParseYamlProperty, SurvivesPiecesInAnyOrder, ()) {
  static const std::vector<std::string> kPieces{"a",
                                                "b",
                                                "c",
                                                "x y",
                                                ":",
                                                ": ",
                                                "- ",
                                                "-",
                                                "\n",
                                                "\n",
                                                "\n  ",
                                                "\n    ",
                                                " ",
                                                "'",
                                                "s'",
                                                "\"t\"",
                                                "\"",
                                                "[",
                                                "]",
                                                "{",
                                                "}",
                                                ", ",
                                                "1",
                                                "5' 2\"",
                                                " # c",
                                                "|\n",
                                                ">",
                                                "a: ",
                                                "b: ",
                                                "c: ",
                                                "\n- ",
                                                "\n  - ",
                                                "\n  b: ",
                                                "a:\n",
                                                "[1, 2]",
                                                "{a: 1}",
                                                "---\n",
                                                "...\n",
                                                "\t",
                                                "é",
                                                "*",
                                                "&",
                                                "!",
                                                "%",
                                                "@",
                                                "`",
                                                "?",
                                                "? ",
                                                "<<: ",
                                                "\\",
                                                "\r\n",
                                                "\r",
                                                "\xff",
                                                "\xe2\x82",
                                                std::string(1, '\0'),
                                                "\x07",
                                                "\xEF\xBB\xBF",
                                                "~"};
  std::string text;
  const int pieces = upto(60);
  for (int i = 0; i < pieces; ++i) {
    text += one_of(kPieces);
  }
  read_and_check(text);
}

RC_GTEST_PROP(ParseYamlProperty, SurvivesASlipInAGoodDocument, ()) {
  std::string text =
      "a: [34 7/8, 5' 2-1/2\"]\nb:\n  a: 3/4 in  # thick\n  c: 'b'\nc:\n  - a: 1 1/2\n    c: a\n  "
      "- {a: 2, c: b}\n"
      "note: |\n  as drawn: \"x\n";
  const int slips = 1 + upto(3);
  for (int i = 0; i < slips; ++i) {
    const auto at = static_cast<std::size_t>(upto(static_cast<int>(text.size())));
    switch (upto(3)) {
      case 0:
        text.erase(at, 1 + static_cast<std::size_t>(upto(4)));
        break;
      case 1:
        text[at] = static_cast<char>(upto(256));
        break;
      default:
        text.insert(
            at,
            one_of(std::vector<std::string>{":", " ", "\n", "'", "\"", "[", "}", "-", "\t", ": "}));
    }
  }
  read_and_check(text);
}

RC_GTEST_PROP(ParseYamlProperty, SurvivesAnyBytes, (const std::string& bytes)) {
  read_and_check(bytes);
}

}  // namespace
}  // namespace plankwright::document
