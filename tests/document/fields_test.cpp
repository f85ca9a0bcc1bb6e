#include "document/fields.h"

#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "document/show.h"

namespace plankwright::document {
namespace {

using measure::Length;
using measure::LengthUnit;

constexpr std::string_view kJoints[] = {"butt", "housed", "half_lap"};

constexpr Field kLeg[] = {
    {.key = "side", .kind = FieldKind::kLength, .says = "Thickness of a leg.", .required = true},
    {.key = "taper",
     .kind = FieldKind::kLength,
     .says = "Taken off at the foot.",
     .fallback = "0"}};

constexpr Field kTable[] = {
    {.key = "title", .kind = FieldKind::kText, .says = "What the piece is called."},
    {.key = "long",
     .kind = FieldKind::kLength,
     .says = "Length of the top.",
     .range = FieldRange::kPositive},
    {.key = "overhang", .kind = FieldKind::kLength, .says = "", .fallback = "3/4 in"},
    {.key = "gap", .kind = FieldKind::kLength, .says = "", .range = FieldRange::kNotNegative},
    {.key = "factor", .kind = FieldKind::kNumber, .says = "", .fallback = "1 1/2"},
    {.key = "count", .kind = FieldKind::kCount, .says = ""},
    {.key = "margin", .kind = FieldKind::kPercent, .says = "", .fallback = "15 %"},
    {.key = "price", .kind = FieldKind::kMoney, .says = "", .range = FieldRange::kNotNegative},
    {.key = "set_up", .kind = FieldKind::kMinutes, .says = "", .fallback = "1 h 5 min"},
    {.key = "heated_to", .kind = FieldKind::kCelsius, .says = ""},
    {.key = "carries", .kind = FieldKind::kKilograms, .says = ""},
    {.key = "load", .kind = FieldKind::kLineLoad, .says = ""},
    {.key = "due", .kind = FieldKind::kDate, .says = ""},
    {.key = "painted", .kind = FieldKind::kYesNo, .says = "", .fallback = "no"},
    {.key = "joint", .kind = FieldKind::kWord, .says = "", .fallback = "butt", .words = kJoints},
    {.key = "stock", .kind = FieldKind::kIdentifier, .says = ""},
    {.key = "sizes", .kind = FieldKind::kLengths, .says = "", .fallback = "[1 in, 2 in]"},
    {.key = "stocks", .kind = FieldKind::kIdentifiers, .says = ""},
    {.key = "shares", .kind = FieldKind::kPercents, .says = "", .fallback = "[40 %, 60 %]"},
    {.key = "leg", .kind = FieldKind::kMap, .says = "", .inner = kLeg},
    {.key = "legs", .kind = FieldKind::kMaps, .says = "", .inner = kLeg},
    {.key = "parts", .kind = FieldKind::kNamedMaps, .says = "", .inner = kLeg},
    {.key = "extra", .kind = FieldKind::kAny, .says = ""}};

/// A document read by the table above. Its entry `names`, when there, gives the names.
struct Reading {
  std::string text;
  Parsed parsed;
  Names names{LengthUnit::kInch};
  base::Errors errors;
  Node map;
  std::optional<Fields> fields;

  explicit Reading(std::string_view written, FieldTable table = kTable)
      : text{written}, parsed{parse_yaml(written, "t")}, map{parsed.root} {
    std::erase_if(map.entries, [&](const Node::Entry& entry) {
      for (const Node::Entry& name : entry.key == "names" ? entry.value.entries : map.entries) {
        if (entry.key == "names") {
          names.set(name.key, name.value);
        }
      }
      return entry.key == "names";
    });
    fields.emplace(map, table, names, errors);
  }
  Reading(const Reading&) = delete;
  Reading& operator=(const Reading&) = delete;

  const Fields* operator->() const { return &*fields; }
  std::string told() const { return show(errors, text); }
};

TEST(FieldsOfAMap, GiveEachValueInItsKind) {
  const Reading read(
      "title: Hall table\nlong: 5' 2\ngap: 0\nfactor: 3/4\ncount: 2 + 2\nmargin: 35 %\n"
      "price: 1,250.50\nset_up: 45 min\nheated_to: 68 F\ncarries: 30 kg\nload: 2 N/mm\n"
      "due: 2026-03-14\npainted: yes\njoint: half_lap\nstock: ash_4_4\nsizes: [3/4, 10 mm]\n"
      "stocks: [ash, oak_8_4]\nshares: 100 %\nleg: {side: 2}\nlegs:\n- side: 3\n- {side: 4, taper: "
      "1}\n"
      "parts:\n  left: {side: 5}\nextra: [1]\n");
  EXPECT_EQ(read->text("title"), "Hall table");
  EXPECT_EQ(read->length("long"), Length::from_inches(62));
  EXPECT_EQ(read->length("gap"), Length{});
  EXPECT_EQ(read->number("factor"), 0.75);
  EXPECT_EQ(read->count("count"), 4);
  EXPECT_EQ(read->percent("margin").count(), 35);
  EXPECT_EQ(read->money("price").minor(), 1'250'50);
  EXPECT_EQ(read->minutes("set_up").count(), 45);
  EXPECT_NEAR(read->celsius("heated_to").count(), 20, 1e-12);
  EXPECT_EQ(read->kilograms("carries").count(), 30);
  EXPECT_EQ(read->line_load("load").count(), 2);
  EXPECT_EQ(measure::print(*read->date("due")), "2026-03-14");
  EXPECT_TRUE(read->yes("painted"));
  EXPECT_EQ(read->word("joint"), "half_lap");
  EXPECT_EQ(read->identifier("stock"), "ash_4_4");
  EXPECT_EQ(read->lengths("sizes"),
            (std::vector<Length>{Length::from_inches(0.75), Length::from_mm(10)}));
  EXPECT_EQ(read->identifiers("stocks"), (std::vector<std::string>{"ash", "oak_8_4"}));
  EXPECT_EQ(read->percents("shares"), (std::vector<double>{100}));
  EXPECT_EQ(read->map("leg").length("side"), Length::from_inches(2));
  const auto legs = read->maps("legs");
  ASSERT_EQ(legs.size(), 2U);
  EXPECT_EQ(legs[0].length("taper"), Length{});
  EXPECT_EQ(legs[1].length("taper"), Length::from_inches(1));
  EXPECT_EQ(show_place(legs[1].at("taper")), "22:20");
  const auto parts = read->named_maps("parts");
  ASSERT_EQ(parts.size(), 1U);
  EXPECT_EQ(parts[0].first, "left");
  EXPECT_EQ(parts[0].second.length("side"), Length::from_inches(5));
  EXPECT_EQ(show(*read->node("extra")), "[1]");
  EXPECT_EQ(read.told(), "");
}

TEST(FieldsOfAMap, FallBackToWhatTheTableSays) {
  const Reading read("title:\n");
  EXPECT_EQ(read->length("overhang"), Length::from_inches(0.75));
  EXPECT_EQ(read->optional_length("overhang"), Length::from_inches(0.75));
  EXPECT_EQ(read->length("long"), Length{});
  EXPECT_EQ(read->optional_length("long"), std::nullopt);
  EXPECT_EQ(read->number("factor"), 1.5);
  EXPECT_EQ(read->count("count"), 0);
  EXPECT_EQ(read->percent("margin").count(), 15);
  EXPECT_EQ(read->minutes("set_up").count(), 65);
  EXPECT_EQ(read->date("due"), std::nullopt);
  EXPECT_FALSE(read->yes("painted"));
  EXPECT_EQ(read->word("joint"), "butt");
  EXPECT_EQ(read->identifier("stock"), "");
  EXPECT_EQ(read->lengths("sizes"),
            (std::vector<Length>{Length::from_inches(1), Length::from_inches(2)}));
  EXPECT_EQ(read->percents("shares"), (std::vector<double>{40, 60}));
  EXPECT_TRUE(read->identifiers("stocks").empty());
  EXPECT_TRUE(read->maps("legs").empty());
  EXPECT_TRUE(read->named_maps("parts").empty());
  EXPECT_EQ(read->text("title"), "");
  EXPECT_FALSE(read->has("long"));
  EXPECT_TRUE(read->has("title"));
  EXPECT_EQ(show_place(read->at("long")), "1:1");
  EXPECT_EQ(read.told(), "");
}

TEST(FieldsOfAMap, MissNothingInAMapThatIsNotWritten) {
  const Reading read("long: 2\n");
  const Fields leg = read->map("leg");
  EXPECT_EQ(leg.length("side"), Length{});
  EXPECT_EQ(leg.length("taper"), Length{});
  EXPECT_FALSE(leg.has("side"));
  EXPECT_EQ(leg.at().file, "t");
  EXPECT_EQ(read.told(), "");
}

TEST(FieldsOfAMap, TakeNamesForValues) {
  const Reading read(
      "names: {wood: ash_4_4, how: housed, colour: yes, cost: 12.50, time: 10 min, rows: [1, 2], "
      "twice: how,\n"
      "  day: 2026-03-14, share: 20 %, size: 3/4, oak: 2 in, legs: 4, part: 1/49}\n"
      "stock: wood\njoint: twice\npainted: colour\nprice: cost\nset_up: time\nsizes: rows\ndue: "
      "day\n"
      "margin: share\nlong: size * 2\nstocks: [wood, oak, size, legs]\ncount: part * 49\n");
  EXPECT_EQ(read->identifier("stock"), "ash_4_4");
  EXPECT_EQ(read->word("joint"), "housed");
  EXPECT_TRUE(read->yes("painted"));
  EXPECT_EQ(read->money("price").minor(), 12'50);
  EXPECT_EQ(read->minutes("set_up").count(), 10);
  EXPECT_EQ(read->lengths("sizes").size(), 2U);
  EXPECT_TRUE(read->date("due").has_value());
  EXPECT_EQ(read->percent("margin").count(), 20);
  EXPECT_EQ(read->length("long"), Length::from_inches(1.5));
  EXPECT_EQ(read->count("count"), 1);
  // A word that is also the name of a size is the word itself.
  EXPECT_EQ(read->identifiers("stocks"),
            (std::vector<std::string>{"ash_4_4", "oak", "size", "legs"}));
  EXPECT_EQ(read.told(), "");
}

struct MistakeCase {
  std::string_view why, text;
  void (*ask)(const Fields&);
  std::string_view told;
};

template <class Answer>
void drop(const Answer& /*answer*/) {}

TEST(FieldsOfAMap, TellWhatWasFoundAndExpected) {
  const MistakeCase cases[] = {
      {"a length of two parts",
       "long: 3 4\n",
       [](const Fields& f) { drop(f.length("long")); },
       "t:1:9: error: found `4`, expected a sign such as `+` or the end\n  long: 3 4\n          "
       "^\n"},
      {"a length that is a list",
       "long: [1]\n",
       [](const Fields& f) { drop(f.length("long")); },
       "t:1:7: error: found a list, expected a size such as `34 7/8` or `60 cm`\n  long: [1]\n     "
       "   ^\n"},
      {"a length with nothing",
       "long:\n",
       [](const Fields& f) { drop(f.length("long")); },
       "t:1:1: error: found nothing, expected a size such as `34 7/8` or `60 cm`\n  long:\n  ^\n"},
      {"a length of nothing",
       "long: 2 - 2\n",
       [](const Fields& f) { drop(f.length("long")); },
       "t:1:7: error: found `2 - 2`, expected more than zero\n  long: 2 - 2\n        ^\n"},
      {"a length below nothing",
       "gap: -1/2\n",
       [](const Fields& f) { drop(f.length("gap")); },
       "t:1:6: error: found `-1/2`, expected zero or more\n  gap: -1/2\n       ^\n"},
      {"a length too long",
       "long: 40000\n",
       [](const Fields& f) { drop(f.length("long")); },
       "t:1:7: error: the result is longer than 1 km\n  long: 40000\n        ^\n"},
      {"a number that is a length",
       "factor: 2 in\n",
       [](const Fields& f) { drop(f.number("factor")); },
       "t:1:9: error: found the length `2 in`, expected a plain number\n  factor: 2 in\n          "
       "^\n"},
      {"half a count",
       "count: 5/2\n",
       [](const Fields& f) { drop(f.count("count")); },
       "t:1:8: error: found `5/2`, expected a whole number\n  count: 5/2\n         ^\n"},
      {"a count too large",
       "count: 9999999999\n",
       [](const Fields& f) { drop(f.count("count")); },
       "t:1:8: error: found `9999999999`, expected a whole number\n  count: 9999999999\n         "
       "^\n"},
      {"percent",
       "margin: 35\n",
       [](const Fields& f) { drop(f.percent("margin")); },
       "t:1:9: error: found `35`, expected percent such as `35 %`\n  margin: 35\n          ^\n"},
      {"money",
       "price: 3 EUR\n",
       [](const Fields& f) { drop(f.money("price")); },
       "t:1:8: error: found `3 EUR`, expected money such as `120` or `1,250.50`\n  price: 3 EUR\n  "
       "       ^\n"},
      {"money below nothing",
       "price: -3\n",
       [](const Fields& f) { drop(f.money("price")); },
       "t:1:8: error: found `-3`, expected zero or more\n  price: -3\n         ^\n"},
      {"minutes",
       "set_up: 45 mim\n",
       [](const Fields& f) { drop(f.minutes("set_up")); },
       "t:1:9: error: found `45 mim`, expected minutes such as `45 min` or `1 h 30 min`\n"
       "  set_up: 45 mim\n          ^\n"},
      {"minutes that are a map",
       "set_up: {a: 1}\n",
       [](const Fields& f) { drop(f.minutes("set_up")); },
       "t:1:9: error: found a map, expected minutes such as `45 min` or `1 h 30 min`\n"
       "  set_up: {a: 1}\n          ^\n"},
      {"a day",
       "due: 2026-02-30\n",
       [](const Fields& f) { drop(f.date("due")); },
       "t:1:6: error: found `2026-02-30`, a day that does not exist\n  due: 2026-02-30\n       "
       "^\n"},
      {"yes or no",
       "painted: ye\n",
       [](const Fields& f) { drop(f.yes("painted")); },
       "t:1:10: error: found `ye`, expected yes or no; did you mean `yes`?\n  painted: ye\n        "
       "   ^\n"},
      {"a word",
       "joint: housd\n",
       [](const Fields& f) { drop(f.word("joint")); },
       "t:1:8: error: found `housd`, expected butt, housed or half_lap; did you mean `housed`?\n"
       "  joint: housd\n         ^\n"},
      {"a word by way of a name",
       "names: {how: glued}\njoint: how\n",
       [](const Fields& f) { drop(f.word("joint")); },
       "t:1:14: error: found `glued`, expected butt, housed or half_lap\n  names: {how: glued}\n   "
       "            ^\n"},
      {"an identifier",
       "stock: ash 4/4\n",
       [](const Fields& f) { drop(f.identifier("stock")); },
       "t:1:8: error: found `ash 4/4`, expected one word of letters, digits and `_`\n"
       "  stock: ash 4/4\n         ^\n"},
      {"one of several lengths",
       "sizes: [1, x2, 3]\n",
       [](const Fields& f) { drop(f.lengths("sizes")); },
       "t:1:12: error: unknown name `x2`\n  sizes: [1, x2, 3]\n             ^\n"},
      {"text that is a map",
       "title: {a: 1}\n",
       [](const Fields& f) { drop(f.text("title")); },
       "t:1:8: error: found a map, expected text\n  title: {a: 1}\n         ^\n"},
      {"a map that is a word",
       "leg: turned\n",
       [](const Fields& f) { drop(f.map("leg")); },
       "t:1:6: error: found `turned`, expected a map of side or taper\n  leg: turned\n       ^\n"},
      {"a key mistyped inside",
       "leg: {sid: 2}\n",
       [](const Fields& f) { drop(f.map("leg")); },
       "t:1:7: error: unknown `sid`, expected side or taper; did you mean `side`?\n"
       "  leg: {sid: 2}\n        ^\n"
       "t:1:6: error: `side` is missing: Thickness of a leg\n  leg: {sid: 2}\n       ^\n"},
      {"a map that holds nothing",
       "leg:\n",
       [](const Fields& f) { drop(f.map("leg")); },
       "t:1:1: error: `side` is missing: Thickness of a leg\n  leg:\n  ^\n"},
      {"maps that are one",
       "legs: {side: 2}\n",
       [](const Fields& f) { drop(f.maps("legs")); },
       "t:1:7: error: found a map, expected a list whose lines begin with `-`\n  legs: {side: 2}\n "
       "       ^\n"},
      {"one of the maps",
       "legs:\n- 2\n",
       [](const Fields& f) { drop(f.maps("legs")); },
       "t:2:3: error: found `2`, expected a map of side or taper\n  - 2\n    ^\n"},
      {"named maps without names",
       "parts: [1]\n",
       [](const Fields& f) { drop(f.named_maps("parts")); },
       "t:1:8: error: found a list, expected a map of names\n  parts: [1]\n         ^\n"},
      {"a name of two words",
       "parts:\n  left leg: {side: 1}\n",
       [](const Fields& f) { drop(f.named_maps("parts")); },
       "t:2:3: error: found `left leg`, expected a name of letters, digits and `_`\n"
       "    left leg: {side: 1}\n    ^\n"},
      {"the caller's own",
       "long: 2\n",
       [](const Fields& f) { f.complain("long", "too short", "3"); },
       "t:1:7: error: too short; did you mean `3`?\n  long: 2\n        ^\n"}};
  for (const MistakeCase& c : cases) {
    SCOPED_TRACE(c.why);
    const Reading read(c.text);
    EXPECT_EQ(read.told(), "");
    c.ask(*read.fields);
    c.ask(*read.fields);  // told once all the same
    EXPECT_EQ(read.told(), c.told);
  }
}

TEST(FieldsOfAMap, RefuseADocumentThatIsNoMap) {
  EXPECT_EQ(Reading("- 1\n", kLeg).told(),
            "t:1:1: error: found a list, expected a map of side or taper\n  - 1\n  ^\n");
  EXPECT_EQ(Reading("", kLeg).told(), "t:1:1: error: `side` is missing: Thickness of a leg\n");
}

TEST(FieldsOfAMap, NameTheNearestKey) {
  EXPECT_EQ(Reading("side: 1\ntapper: 2\n", kLeg).told(),
            "t:2:1: error: unknown `tapper`, expected side or taper; did you mean `taper`?\n"
            "  tapper: 2\n  ^\n");
}

TEST(FieldsOfAMap, BlameAWrongNameOnceHoweverOftenItIsUsed) {
  const Reading read("names: {a: 2 +}\nlong: a\ngap: a * 2\noverhang: a\n");
  drop(read->length("long"));
  drop(read->length("gap"));
  EXPECT_EQ(read->length("overhang"), Length::from_inches(0.75));
  EXPECT_EQ(read.told(),
            "t:1:15: error: found the end, expected a size or a name\n"
            "  names: {a: 2 +}\n                ^\n");
}

TEST(FieldsOfAMap, FindFiveMistakesInOneRun) {
  const Reading read(
      "long: 5' 2 1/2\n"
      "lenght: 4\n"
      "overhang: 3/4 inn\n"
      "gap: 2 in * 3 in\n"
      "joint: haused\n"
      "leg: {taper: 1}\n"
      "long: 6'\n");
  drop(read->length("long"));
  drop(read->length("overhang"));
  drop(read->length("gap"));
  drop(read->word("joint"));
  drop(read->map("leg"));
  EXPECT_TRUE(read.parsed.readable);
  const std::string source = read.text;
  EXPECT_EQ(
      show(read.parsed.errors, source),
      "t:7:1: error: `long` is written twice in this map, first in line 1\n  long: 6'\n  ^\n");
  const std::string told = read.told();
  for (const std::string_view expected :
       {"t:2:1: error: unknown `lenght`, expected title, long,",
        "t:3:15: error: found `inn` behind a number, expected in, ft, mm, cm or m, or a sign such "
        "as `*`\n"
        "  overhang: 3/4 inn\n                ^\n",
        "t:4:11: error: `2 in` times `3 in` multiplies a length by a length, expected a plain "
        "number on "
        "one side\n  gap: 2 in * 3 in\n            ^\n",
        "t:5:8: error: found `haused`, expected butt, housed or half_lap; did you mean `housed`?\n"
        "  joint: haused\n         ^\n",
        "t:6:6: error: `side` is missing: Thickness of a leg\n  leg: {taper: 1}\n       ^\n"}) {
    EXPECT_NE(told.find(expected), std::string::npos) << expected << "\nin\n" << told;
  }
  EXPECT_EQ(read.errors.size(), 5U);
}

TEST(FieldsOfAMap, EndTheirListOfMistakes) {
  std::string text;
  for (int i = 0; i < 300; ++i) {
    text += fmt::format("k{}: 1\n", i);
  }
  EXPECT_EQ(Reading(text, kTable).errors.size(), 100U);
}

TEST(FieldsOfAMap, AreReadAsTheTableSays) {
  const Reading read("long: 2\n");
  EXPECT_THROW(drop(read->length("nowhere")), std::logic_error);
  EXPECT_THROW(drop(read->number("long")), std::logic_error);
}

}  // namespace
}  // namespace plankwright::document
