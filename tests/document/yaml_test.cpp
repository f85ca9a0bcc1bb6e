#include <string>

#include <gtest/gtest.h>

#include "document/node.h"
#include "document/show.h"

namespace plankwright::document {
namespace {

struct TreeCase {
  std::string_view why, text, tree;
};

TEST(ParseYaml, ReadsMapsListsAndText) {
  const TreeCase cases[] = {
      {"an empty file", "", "~"},
      {"only comments", "# nothing\n\n  # yet\n", "~"},
      {"a map", "long: 60 cm\nside: 3/4\n", "{long: 60 cm, side: 3/4}"},
      {"order is kept", "b: 1\na: 2\n", "{b: 1, a: 2}"},
      {"foot and inch marks", "long: 5' 2-1/2\"\n", "{long: 5' 2-1/2\"}"},
      {"a name without value", "legs:\nside: 2\n", "{legs: ~, side: 2}"},
      {"nested maps", "a:\n  b:\n    c: 1\n  d: 2\ne: 3\n", "{a: {b: {c: 1}, d: 2}, e: 3}"},
      {"a list under its name", "a:\n- 1\n- 2\nb: 3\n", "{a: [1, 2], b: 3}"},
      {"a list indented", "a:\n  - 1\n  - 2\n", "{a: [1, 2]}"},
      {"maps in a list", "- a: 1\n  b: 2\n- a: 3\n", "[{a: 1, b: 2}, {a: 3}]"},
      {"lists in a list", "- - 1\n  - 2\n- - 3\n", "[[1, 2], [3]]"},
      {"an item without value", "-\n- 1\n", "[~, 1]"},
      {"in brackets", "a: [1, {b: 2, c: []}, 'x']\n", "{a: [1, {b: 2, c: []}, \"x\"]}"},
      {"brackets over lines",
       "a: [1,\n   2,\n  ]\nb: {c: 1,\n  d: 2}\n",
       "{a: [1, 2], b: {c: 1, d: 2}}"},
      {"brackets from the first column", "{\n\"a\": 1,\n\"b\": [2,\n3]\n}\n", "{a: 1, b: [2, 3]}"},
      {"quotes", "a: 'it''s'\nb: \"a \\\"b\\\" \\u00e9\"\n", "{a: \"it's\", b: \"a \"b\" é\"}"},
      {"a quoted name", "\"a b\": 1\n", "{a b: 1}"},
      {"a name of several words", "top rail: 1\n", "{top rail: 1}"},
      {"comments", "a: 1 # one\n# all\nb: 'x # y' # two\nc: d#e\n", "{a: 1, b: \"x # y\", c: d#e}"},
      {"a colon inside",
       "a: http://example.org/x:1\nb: 12:30\n",
       "{a: http://example.org/x:1, b: 12:30}"},
      {"addresses in a list", "- http://example.org\n", "[http://example.org]"},
      {"signs inside",
       "a: b, c & d * e [f] {g} | h > i @ j ! k\n",
       "{a: b, c & d * e [f] {g} | h > i @ j ! k}"},
      {"text that goes on", "a: one\n  two\n\n  three\nb: 1\n", "{a: one two\nthree, b: 1}"},
      {"text that goes on with quotes",
       "a: one\n  'two' \"three\nb: 1\n",
       "{a: one 'two' \"three, b: 1}"},
      {"text on the next line", "a:\n  one\n  two\n", "{a: one two}"},
      {"block text",
       "a: |\n  one: 'two\n   - three\n\n  @four\nb: 1\n",
       "{a: \"one: 'two\n - three\n\n@four\n\", b: 1}"},
      {"folded text", "a: >\n  one\n  two\nb: 1\n", "{a: \"one two\n\", b: 1}"},
      {"block text in a list",
       "- |\n  a\n  \tb\n- c: |-\n    d\n  e: 2\n",
       "[\"a\n\tb\n\", {c: \"d\", e: 2}]"},
      {"block text at the end of the file", "a: |\n  x", "{a: \"x\n\"}"},
      {"a document start", "---\na: 1\n", "{a: 1}"},
      {"a document end", "a: 1\n...\n# done\n", "{a: 1}"},
      {"lines of other systems", "a: 1\r\nb:\r\n  - 2\r\n", "{a: 1, b: [2]}"},
      {"a byte order mark",
       "\xEF\xBB\xBF"
       "a: 1\n",
       "{a: 1}"},
      {"tabs between", "a:\t1\nb: [1,\t2]\n", "{a: 1, b: [1, 2]}"},
      {"tabs in an empty line", "a: 1\n\t\nb: 2\n", "{a: 1, b: 2}"},
      {"a minus is no dash", "a: -1/2\nb: [-1, -2]\n", "{a: -1/2, b: [-1, -2]}"},
      {"other scripts", "größe: ½\n寸: 3\n", "{größe: ½, 寸: 3}"}};
  for (const TreeCase& c : cases) {
    SCOPED_TRACE(c.why);
    const Parsed parsed = parse_yaml(c.text, "a.yaml");
    EXPECT_EQ(show(parsed.errors, c.text), "");
    EXPECT_TRUE(parsed.readable);
    EXPECT_EQ(show(parsed.root), c.tree);
  }
}

// YAML 1.2.2, chapter 2, examples 2.1 to 2.6, 2.13 and 2.14 in form, with words of the workshop.
TEST(ParseYaml, ReadsTheFormsOfTheStandardsPreview) {
  const TreeCase cases[] = {
      {"2.1 sequence of scalars", "- ash\n- cherry top\n- oak\n", "[ash, cherry top, oak]"},
      {"2.2 mapping scalars to scalars",
       "hr:  65    # hours\navg: 0.278 # days\nrbi: 147   # knobs\n",
       "{hr: 65, avg: 0.278, rbi: 147}"},
      {"2.3 mapping scalars to sequences",
       "top:\n- ash board\n- oak edge\nlegs:\n- ash\n",
       "{top: [ash board, oak edge], legs: [ash]}"},
      {"2.4 sequence of mappings",
       "-\n  name: top\n  hr:   65\n  avg:  0.278\n-\n  name: leg\n  hr:   63\n",
       "[{name: top, hr: 65, avg: 0.278}, {name: leg, hr: 63}]"},
      {"2.5 sequence of sequences",
       "- [name        , hr, avg  ]\n- [back rail    , 65, 0.278]\n",
       "[[name, hr, avg], [back rail, 65, 0.278]]"},
      {"2.6 mapping of mappings",
       "back rail: {hr: 65, avg: 0.278}\nleg: {\n    hr: 63,\n    avg: 0.288,\n }\n",
       "{back rail: {hr: 65, avg: 0.278}, leg: {hr: 63, avg: 0.288}}"},
      {"2.13 newlines are kept in literals",
       "# a sketch\n--- |\n  \\//||\\/||\n  // ||  ||__\n",
       "\"\\//||\\/||\n// ||  ||__\n\""},
      {"2.14 newlines become spaces in folded scalars",
       "--- >\n  The top's\n  year was crippled\n  by a knot.\n",
       "\"The top's year was crippled by a knot.\n\""}};
  for (const TreeCase& c : cases) {
    SCOPED_TRACE(c.why);
    const Parsed parsed = parse_yaml(c.text, "a.yaml");
    EXPECT_EQ(show(parsed.errors, c.text), "");
    EXPECT_EQ(show(parsed.root), c.tree);
  }
}

TEST(ParseYaml, KnowsWhereEverythingStands) {
  const Parsed parsed = parse_yaml(
      "größe: ½ # a\n"
      "tür:\n"
      "  - {höhe: 'x', b: 60 cm}\n"
      "  - |\n"
      "    text\n"
      "leer:\n",
      "a.yaml");
  ASSERT_TRUE(parsed.errors.empty());
  const Node& root = parsed.root;
  EXPECT_EQ(show_place(root.at), "1:1");
  EXPECT_EQ(show_place(root.find("größe")->at), "1:8");
  const Node& list = *root.find("tür");
  EXPECT_EQ(show_place(root.entries[1].key_at), "2:1");
  EXPECT_EQ(show_place(list.at), "3:3");
  EXPECT_EQ(show_place(list.items[0].at), "3:5");
  EXPECT_EQ(show_place(list.items[0].entries[0].key_at), "3:6");
  EXPECT_EQ(show_place(list.items[0].find("höhe")->at), "3:12");
  EXPECT_EQ(show_place(list.items[0].find("b")->at), "3:20");
  EXPECT_EQ(show_place(list.items[1].at), "4:5");
  EXPECT_EQ(show_place(root.find("leer")->at), "6:1");
  EXPECT_EQ(root.at.file, "a.yaml");
  EXPECT_EQ(root.find("b"), nullptr);
}

struct MistakeCase {
  std::string_view why, text, told;
};

TEST(ParseYaml, TellsEachMistakeWhereItIs) {
  const MistakeCase cases[] = {
      {"a name twice",
       "a: 1\nb: 2\na: 3\n",
       "f:3:1: error: `a` is written twice in this map, first in line 1\n  a: 3\n  ^\n"},
      {"a name twice in braces",
       "x: {a: 1, a: 2}\n",
       "f:1:11: error: `a` is written twice in this map, first in line 1\n  x: {a: 1, a: 2}\n      "
       "      ^\n"},
      {"a forgotten quote",
       "a: 'x\nb: 'y'\n",
       "f:1:4: error: found `'` without its closing quote in the same line; longer text stands "
       "under a "
       "`|`\n  a: 'x\n     ^\n"},
      {"a forgotten quote in the last line",
       "a: 1\nb: 'y",
       "f:2:4: error: found `'` without its closing quote in the same line; longer text stands "
       "under a "
       "`|`\n  b: 'y\n     ^\n"},
      {"text behind a quote",
       "a: \"6\" wide\n",
       "f:1:8: error: found text behind the closing `\"`; either all of it goes into quotes or "
       "none\n"
       "  a: \"6\" wide\n         ^\n"},
      {"a forgotten bracket",
       "a: [1, 2\nb: 3\n",
       "f:1:4: error: found `[` without its `]`\n  a: [1, 2\n     ^\n"},
      {"a forgotten brace at the end",
       "a: {b: 1",
       "f:1:4: error: found `{` without its `}`\n  a: {b: 1\n     ^\n"},
      {"a bracket closed by a brace",
       "a: [1}\n",
       "f:1:6: error: found `}` without its `{` before it\n  a: [1}\n       ^\n"},
      {"a bracket too many",
       "a: 1\nb: ]\n",
       "f:2:4: error: found `]` without its `[` before it\n  b: ]\n     ^\n"},
      {"no comma behind a quote",
       "a: ['x' 'y']\n",
       "f:1:9: error: found `'y']`, expected `,` or the closing bracket\n  a: ['x' 'y']\n          "
       "^\n"},
      {"an alias",
       "a: *b\n",
       "f:1:4: error: found `*` at the start of a value, where YAML keeps it for aliases; text "
       "that "
       "begins so goes into quotes\n  a: *b\n     ^\n"},
      {"an anchor",
       "a: &b 1\n",
       "f:1:4: error: found `&` at the start of a value, where YAML keeps it for anchors; text "
       "that "
       "begins so goes into quotes\n  a: &b 1\n     ^\n"},
      {"a tag",
       "a: !!str 1\n",
       "f:1:4: error: found `!` at the start of a value, where YAML keeps it for tags; text that "
       "begins so goes into quotes\n  a: !!str 1\n     ^\n"},
      {"a sign for nothing",
       "a: @b\n",
       "f:1:4: error: found `@` at the start of a value, where YAML keeps it for itself; text that "
       "begins so goes into quotes\n  a: @b\n     ^\n"},
      {"more than",
       "a: > 5\n",
       "f:1:4: error: found `>` at the start of a value, where YAML keeps it for block text; text "
       "that "
       "begins so goes into quotes\n  a: > 5\n     ^\n"},
      {"a directive",
       "%YAML 1.2\n",
       "f:1:1: error: found `%` at the start of a value, where YAML keeps it for directives; text "
       "that "
       "begins so goes into quotes\n  %YAML 1.2\n  ^\n"},
      {"a merge key",
       "a: 1\n<<: {b: 2}\n",
       "f:2:1: error: found `<<`; merging maps is not part of the format\n  <<: {b: 2}\n  ^\n"},
      {"a tab as indentation",
       "a:\n\tb: 1\n",
       "f:2:1: error: found a tab as indentation, expected spaces\n  \tb: 1\n  ^\n"},
      {"a second colon",
       "note: see drawing: 2\n",
       "f:1:18: error: found a second `: ` in one line; text with a colon goes into quotes\n"
       "  note: see drawing: 2\n                   ^\n"},
      {"no space behind the colon",
       "a: 1\nb:2\n",
       "f:2:2: error: found `b:2`, expected a space behind the `:`\n  b:2\n   ^\n"},
      {"no colon",
       "a: 1\nb 2\nc: 3\n",
       "f:2:1: error: found `b 2`, expected `name: value`\n  b 2\n  ^\n"},
      {"a value in the first column",
       "a:\n'b'\n",
       "f:2:1: error: found `'b'`, expected `name: value`\n  'b'\n  ^\n"},
      {"a line that fits nothing above it",
       "  a: 1\nb: 2\nc: 3\n",
       "f:2:1: error: this line is not indented like the lines above it, or is no `name: value`\n"
       "  b: 2\n  ^\n"
       "f:3:1: error: this line is not indented like the lines above it, or is no `name: value`\n"
       "  c: 3\n  ^\n"},
      {"no name", ": 1\n", "f:1:1: error: found `:` without a name before it\n  : 1\n  ^\n"},
      {"indented too far",
       "a: 1\n  b: 2\n",
       "f:2:3: error: this line is indented further than `a`, which already has its value; names "
       "of "
       "one map stand under one another\n    b: 2\n    ^\n"},
      {"indented between two",
       "a:\n    b: 1\n  c: 2\n",
       "f:3:3: error: this line is not indented like the lines above it, or is no `name: value`\n"
       "    c: 2\n    ^\n"},
      {"a list where a map is",
       "a: 1\n- b\n",
       "f:2:1: error: this line is not indented like the lines above it, or is no `name: value`\n"
       "  - b\n  ^\n"},
      {"a list on the line of its name",
       "a: - 1\n",
       "f:1:4: error: found `-` behind a name; a list begins on the next line\n  a: - 1\n     ^\n"},
      {"a list as a name",
       "[a, b]: 1\n",
       "f:1:1: error: found a list as a name, expected a word before the `:`\n  [a, b]: 1\n  ^\n"},
      {"a second document",
       "a: 1\n---\nb: 2\n",
       "f:2:1: error: found a second document, expected one in a file\n  ---\n  ^\n"},
      {"an unknown escape",
       "a: \"C:\\wood\"\n",
       "f:1:7: error: found a `\\` in double quotes that begins no known sign; write `\\\\` for "
       "one "
       "`\\`, or use single quotes\n  a: \"C:\\wood\"\n        ^\n"},
      {"a number that is no character",
       "a: \"\\uD800\"\n",
       "f:1:11: error: found before this a `\\` whose number stands for no character\n"
       "  a: \"\\uD800\"\n            ^\n"},
      {"a byte of another encoding",
       "a: gr\xF6\xDF"
       "e\n",
       "f:1:6: error: found the byte F6, expected text in UTF-8\n  a: gr\xF6\xDF"
       "e\n       ^\n"},
      {"a control character",
       "a: x\x07y\n",
       "f:1:5: error: found the byte 07, expected text in UTF-8\n  a: x\x07y\n      ^\n"}};
  for (const MistakeCase& c : cases) {
    SCOPED_TRACE(c.why);
    const Parsed parsed = parse_yaml(c.text, "f");
    EXPECT_EQ(show(parsed.errors, c.text), c.told);
  }
}

TEST(ParseYaml, FindsFiveMistakesInOneRun) {
  const std::string_view text =
      "title: \"A low table\n"
      "long: *48\n"
      "note: oak: or ash\n"
      "legs:\n"
      "    side: 2\n"
      "  count: 4\n"
      "side: 1\n"
      "side: 2\n";
  const Parsed parsed = parse_yaml(text, "table.yaml");
  EXPECT_FALSE(parsed.readable);
  EXPECT_EQ(
      show(parsed.errors, text),
      "table.yaml:1:8: error: found `\"` without its closing quote in the same line; longer text "
      "stands under a `|`\n"
      "  title: \"A low table\n"
      "         ^\n"
      "table.yaml:2:7: error: found `*` at the start of a value, where YAML keeps it for aliases; "
      "text that begins so goes into quotes\n"
      "  long: *48\n"
      "        ^\n"
      "table.yaml:3:10: error: found a second `: ` in one line; text with a colon goes into "
      "quotes\n"
      "  note: oak: or ash\n"
      "           ^\n"
      "table.yaml:6:3: error: this line is not indented like the lines above it, or is no `name: "
      "value`\n"
      "    count: 4\n"
      "    ^\n"
      "table.yaml:8:1: error: `side` is written twice in this map, first in line 7\n"
      "  side: 2\n"
      "  ^\n");
}

TEST(ParseYaml, KeepsAReadableTreeWhenOnlyANameIsDoubled) {
  const Parsed parsed = parse_yaml("a: 1\na: 2\nb: 3\n", "f");
  EXPECT_EQ(parsed.errors.size(), 1U);
  EXPECT_TRUE(parsed.readable);
  EXPECT_EQ(show(parsed.root), "{a: 1, b: 3}");
}

std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) {
    all += text;
  }
  return all;
}

TEST(ParseYaml, RefusesWhatIsNoDocument) {
  EXPECT_EQ(show(parse_yaml(repeated("a: 1\n", 2'000'000), "f").errors, ""),
            "f:1:1: error: found a text of 9 MiB, expected at most 4 MiB\n");
  EXPECT_EQ(show(parse_yaml(std::string("\x89PNG\r\n\x1A\n\0\0\0\x0DIHDR", 16), "f").errors, ""),
            "f:1:1: error: this is not a text in UTF-8\n");
  const std::string utf16{
      "\xFF\xFE"
      "a\0:\0 \0"
      "1\0",
      10};
  EXPECT_EQ(show(parse_yaml(utf16, "f").errors, ""), "f:1:1: error: this is not a text in UTF-8\n");
  EXPECT_EQ(show(parse_yaml(repeated("[", 100'000), "f").errors, ""),
            "f:1:65: error: found brackets more than 64 deep\n");
  EXPECT_EQ(show(parse_yaml(repeated("- ", 100'000), "f").errors, ""),
            "f:1:129: error: found maps and lists more than 64 deep\n");
  const Parsed many = parse_yaml(repeated("- 1\n", 300'000), "f");
  EXPECT_EQ(show(many.errors, ""),
            "f:250001:1: error: found more than 500000 names, values and signs\n");
  EXPECT_FALSE(many.readable);
}

TEST(ParseYaml, EndsItsListOfMistakes) {
  EXPECT_EQ(parse_yaml(repeated("a: *b\n", 1000), "f").errors.size(), 100U);
  EXPECT_EQ(parse_yaml(repeated("a: 1\n", 1000), "f").errors.size(), 100U);
}

}  // namespace
}  // namespace plankwright::document
