#include "store/edit_text.h"

#include <functional>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "document/node.h"
#include "store/files.h"

namespace plankwright::store {
namespace {

const std::string kText =
    "# a bench\n"
    "commission: A bench   # for the porch\n"
    "client: {name: 'Wren''s', note: \"a \\\"good\\\" one\"}   # kept\n"
    "names:\n"
    "  long: 1200\n"
    "  side: 3/4   # thick\n"
    "says: |\n"
    "  two\n"
    "  lines\n"
    "sizes: [4 1/2, 5 3/8]\n";

std::string edited(const Edit& edit) {
  const auto text = edit_text(kText, "bench.yaml", edit);
  return text.ok() ? text.value() : "refused: " + text.error().message;
}

std::string with(const std::string& from, const std::string& to) {
  std::string text = kText;
  text.replace(text.find(from), from.size(), to);
  return text;
}

TEST(EditText, ChangesTheValueAndNothingElse) {
  EXPECT_EQ(edited({6, 9, "3/4", "13/16"}), with("3/4", "13/16"));
  EXPECT_EQ(edited({5, 9, "1200", "long_bench / 2"}), with("1200", "long_bench / 2"));
  EXPECT_EQ(edited({10, 9, "4 1/2", "5"}), with("4 1/2", "5"));
  EXPECT_EQ(edited({2, 13, "A bench", "Two benches"}), with("A bench ", "Two benches "));
}

TEST(EditText, KeepsQuotesAndSetsThemWhereTheyAreNeeded) {
  EXPECT_EQ(edited({3, 16, "Wren's", "Mo"}), with("'Wren''s'", "\"Mo\""));
  EXPECT_EQ(edited({3, 33, "a \"good\" one", "a \"bad\" one"}),
            with("\"a \\\"good\\\" one\"", "\"a \\\"bad\\\" one\""));
  EXPECT_EQ(edited({2, 13, "A bench", "A bench: long # or short"}),
            with("A bench ", "\"A bench: long # or short\" "));
}

TEST(EditText, SaysWhyNot) {
  EXPECT_EQ(edited({6, 9, "7/8", "1"}),
            "refused: found `3/4`, expected `7/8`; the text has changed since it was read");
  EXPECT_EQ(edited({4, 1, "names", "x"}), "refused: there is no single value here to change");
  EXPECT_EQ(edited({99, 1, "x", "y"}), "refused: there is no single value here to change");
  EXPECT_EQ(edited({7, 7, "two\nlines\n", "one"}),
            "refused: only a value of one line can be changed here; write in the text");
  EXPECT_EQ(edited({5, 9, "1200", "1\nshop: x"}),
            "refused: only a value of one line can be changed here; write in the text");
}

TEST(EditText, CountsCharactersNotBytes) {
  const auto text = edit_text("a: {b: Zoë ½, c: 5}\r\nd: 1\r\n", "x", {1, 18, "5", "6"});
  ASSERT_TRUE(text.ok()) << text.error().message;
  EXPECT_EQ(text.value(), "a: {b: Zoë ½, c: 6}\r\nd: 1\r\n");
}

void each_value(const document::Node& node, const std::function<void(const document::Node&)>& use) {
  if (node.kind == document::Node::Kind::kScalar) {
    use(node);
  }
  for (const auto& item : node.items) {
    each_value(item, use);
  }
  for (const auto& entry : node.entries) {
    each_value(entry.value, use);
  }
}

TEST(EditText, ReachesEveryOneLineValueOfTheExamples) {
  for (const char* name : {"hall_cabinet", "dining_table", "study_wall"}) {
    const std::string text =
        read_file(fmt::format("{}/examples/{}.yaml", PLANKWRIGHT_SOURCE_DIR, name)).value();
    int count = 0;
    each_value(document::parse_yaml(text, name).root, [&](const document::Node& node) {
      if (node.text.find('\n') != std::string::npos) {
        return;
      }
      const auto changed =
          edit_text(text, name, {node.at.line, node.at.column, node.text, "77 1/2"});
      ASSERT_TRUE(changed.ok()) << base::describe(changed.error(), text);
      // All but the one line is as it was.
      EXPECT_EQ(std::ranges::count(changed.value(), '\n'), std::ranges::count(text, '\n'));
      EXPECT_LE(changed.value().size(), text.size() + 8);
      ++count;
    });
    EXPECT_GT(count, 60) << name;
  }
}

RC_GTEST_PROP(EditText, SurvivesAnyText, (const std::string& text, const std::string& to)) {
  const int line = *rc::gen::inRange(-1, 4);
  const int column = *rc::gen::inRange(-1, 8);
  const auto changed = edit_text(text, "x", {line, column, text.substr(0, 3), to});
  RC_ASSERT(changed.ok() || !changed.error().message.empty());
}

RC_GTEST_PROP(EditText, WhatIsWrittenIsReadBack, ()) {
  const auto to =
      *rc::gen::nonEmpty(rc::gen::container<std::string>(rc::gen::inRange(' ', '\x7f')));
  const auto changed = edit_text(kText, "x", {2, 13, "A bench", to});
  if (changed.ok()) {
    const auto again = document::parse_yaml(changed.value(), "x");
    RC_ASSERT(again.errors.empty());
    RC_ASSERT(again.root.find("commission")->text == to);
    RC_ASSERT(again.root.find("names")->find("side")->text == "3/4");
  }
}

}  // namespace
}  // namespace plankwright::store
