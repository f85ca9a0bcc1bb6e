#include "document/names.h"

#include <string>

#include <gtest/gtest.h>

#include "document/show.h"

namespace plankwright::document {
namespace {

using measure::LengthUnit;

/// The names of a document that is one map, and its text for messages.
struct Book {
  std::string text;
  Parsed parsed;
  Names names;

  explicit Book(std::string_view written, LengthUnit unit = LengthUnit::kInch)
      : text{written}, parsed{parse_yaml(written, "t")}, names{unit} {
    for (const Node::Entry& entry : parsed.root.entries) {
      names.set(entry.key, entry.value);
    }
  }
  /// What goes wrong when the size of `name` is wanted.
  std::string told(std::string_view name) const {
    auto value = names.value(name);
    if (!value.ok() && !value.error().at) {
      value = names.evaluate(*names.find(name));
    }
    return value.ok() ? "no error" : base::describe(value.error(), text);
  }
};

TEST(NamesOfADocument, MayUseEachOtherInAnyOrder) {
  const Book book("top: long - 2 * side\nlong: 5'\nside: 1 1/2 in\ncount: 4\nhalf: count / 2\n");
  EXPECT_EQ(book.names.value("top").value().length, measure::Length::from_inches(57));
  EXPECT_EQ(book.names.value("half").value().number, 2);
  EXPECT_FALSE(book.names.value("half").value().is_length);
}

TEST(NamesOfADocument, AreReadInTheDocumentsUnit) {
  const Book book("long: 900\nsum: long + 1 mm\n", LengthUnit::kMillimetre);
  EXPECT_FALSE(book.names.value("long").value().is_length);
  EXPECT_EQ(book.names.value("sum").value().length, measure::Length::from_mm(901));
}

TEST(NamesOfADocument, ChangeWithAChoice) {
  Book book("long: 900 mm\nhalf: long / 2\n");
  EXPECT_EQ(book.names.value("half").value().length, measure::Length::from_mm(450));
  book.names.set("long", make_scalar("1 m"));
  EXPECT_EQ(book.names.value("half").value().length, measure::Length::from_mm(500));
}

TEST(NamesOfADocument, StandForWordsAndListsToo) {
  const Book book("joint: housed\nsizes: [1, 2]\n");
  EXPECT_EQ(book.names.find("joint")->text, "housed");
  EXPECT_EQ(book.names.find("sizes")->items.size(), 2U);
  EXPECT_EQ(book.names.find("missing"), nullptr);
  EXPECT_EQ(book.names.nearest("jiont"), "joint");
  EXPECT_EQ(book.names.nearest("completely_different"), "");
}

struct MistakeCase {
  std::string_view why, text, name, told;
};

TEST(NamesOfADocument, BlameTheLineThatIsWrong) {
  const MistakeCase cases[] = {
      {"a mistyped name",
       "long: 5'\ntop: long - 2 * lomg\n",
       "top",
       "t:2:17: error: unknown name `lomg`; did you mean `long`?\n"
       "  top: long - 2 * lomg\n                  ^\n"},
      {"a mistake in the name that is used",
       "long: 5' +\ntop: long - 2\n",
       "top",
       "t:1:11: error: found the end, expected a size or a name\n  long: 5' +\n            ^\n"},
      {"a circle of two",
       "long: side * 2\nside: 1 + long\n",
       "long",
       "t:2:11: error: `long` goes round in a circle: long -> side -> long\n"
       "  side: 1 + long\n            ^\n"},
      {"a circle of one",
       "long: long + 1\n",
       "long",
       "t:1:7: error: `long` goes round in a circle: long -> long\n  long: long + 1\n        ^\n"},
      {"a circle met on the way",
       "a: b\nb: c * 2\nc: b / 2\n",
       "a",
       "t:3:4: error: `b` goes round in a circle: b -> c -> b\n  c: b / 2\n     ^\n"},
      {"a length times a length",
       "a: 2 in\nb: 3 in\nc: a * b\n",
       "c",
       "t:3:6: error: `a` times `b` multiplies a length by a length, expected a plain number on "
       "one "
       "side\n  c: a * b\n       ^\n"},
      {"a word measured",
       "joint: housed\nlong: joint * 2\n",
       "long",
       "t:2:7: error: `joint` stands for the word `housed`, expected a size or a number\n"
       "  long: joint * 2\n        ^\n"},
      {"a word that is nearly a name",
       "long: 5'\ntop: lonk\nside: top / 2\n",
       "side",
       "t:2:6: error: unknown name `lonk`; did you mean `long`?\n  top: lonk\n       ^\n"},
      {"a list measured",
       "sizes: [1, 2]\nlong: 2 * sizes\n",
       "long",
       "t:2:11: error: `sizes` stands for a list, expected a size or a number\n"
       "  long: 2 * sizes\n            ^\n"},
      {"text measured",
       "long: \"5'\"\n",
       "long",
       "t:1:7: error: found the text \"5'\", expected a size; leave the quotes off\n"
       "  long: \"5'\"\n        ^\n"},
      {"quoted text used",
       "a: \"5'\"\nlong: a\n",
       "long",
       "t:2:7: error: `a` stands for the word `5'`, expected a size or a number\n"
       "  long: a\n        ^\n"},
      {"nothing written",
       "long:\n",
       "long",
       "t:1:1: error: found nothing, expected a size\n  long:\n  ^\n"},
      {"behind letters of two bytes",
       "größe: ½ in + ü\n",
       "größe",
       "t:1:15: error: unknown name `ü`\n  größe: ½ in + ü\n                ^\n"}};
  for (const MistakeCase& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(Book(c.text).told(c.name), c.told);
  }
}

TEST(NamesOfADocument, LeaveAnUnknownNameToWhoeverUsesIt) {
  const auto value = Book("long: 5'\n").names.value("lonng");
  ASSERT_FALSE(value.ok());
  EXPECT_EQ(value.error().message, "unknown name `lonng`");
  EXPECT_EQ(value.error().nearest, "long");
  EXPECT_FALSE(value.error().at.has_value());
}

TEST(NamesOfADocument, AreEachLookedAtOnce) {
  // Each name is used twice by the next: without a memory the last would take 2^90 looks.
  std::string text = "n0: 1\n";
  for (int i = 1; i <= 90; ++i) {
    text += fmt::format("n{0}: n{1} / 2 + n{1} / 2\n", i, i - 1);
  }
  EXPECT_EQ(Book(text).names.value("n90").value().number, 1);
}

TEST(NamesOfADocument, EndAfterAHundred) {
  std::string text = "n0: 1\n";
  for (int i = 1; i <= 5000; ++i) {
    text += fmt::format("n{}: n{}\n", i, i - 1);
  }
  const auto value = Book(text).names.value("n5000");
  ASSERT_FALSE(value.ok());
  EXPECT_EQ(value.error().message, "names stand for one another more than 100 deep");
}

}  // namespace
}  // namespace plankwright::document
