#include <array>
#include <set>
#include <span>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "commission/commission.h"
#include "commission/documents.h"
#include "document/fields.h"

namespace plankwright::commission {
namespace {

using measure::operator""_in;
using measure::operator""_mm;
using test::read;
using test::said;

constexpr const char* kHead = "commission: Stool\npiece: {}\n";

// ---- What is read -------------------------------------------------------------------------------

TEST(ReadCommission, TakesFromTheShopWhatIsNotWritten) {
  const ReadCommission stool = read(kHead);
  ASSERT_EQ(said(stool.errors), "");
  const Commission& c = stool.commission;
  const shop::Shop& shop = test::shop_of("shop.yaml");
  EXPECT_EQ(c.file, "my.yaml");
  EXPECT_EQ(c.unit(), shop.unit);
  EXPECT_EQ(c.revision, "A");
  EXPECT_EQ(c.finish, shop.finishes.front().id);
  EXPECT_EQ(c.glue, shop.glues.front().id);
  EXPECT_EQ(c.terms.margin, shop.terms.margin);
  EXPECT_EQ(c.terms.instalments.size(), shop.terms.instalments.size());
  EXPECT_EQ(c.room.humidity_low, Percent{35});
  EXPECT_EQ(c.room.humidity_high, Percent{65});
  EXPECT_FALSE(c.quoted || c.wanted || c.room.ceiling || c.use.knee_height || c.use.shelf_load);
  EXPECT_TRUE(c.way_in.empty());
  EXPECT_TRUE(picks_of(c).empty());
  EXPECT_EQ(combinations(c, 10), std::vector<Picks>{Picks{}});
}

TEST(ReadCommission, ChangesTheTermsItWrites) {
  const ReadCommission stool = read(std::string{kHead} +
                                    "terms:\n"
                                    "  margin: 30 %\n"
                                    "  instalments: [{share: 100 %, event: on delivery}]\n"
                                    "  exclusions: [Nothing]\n");
  ASSERT_EQ(said(stool.errors), "");
  const shop::Terms& terms = stool.commission.terms;
  EXPECT_EQ(terms.margin, Percent{30});
  EXPECT_EQ(terms.tax, Percent{7});
  ASSERT_EQ(terms.instalments.size(), 1U);
  EXPECT_EQ(terms.instalments[0].event, "on delivery");
  EXPECT_THAT(terms.exclusions, testing::ElementsAre("Nothing"));
  EXPECT_EQ(terms.conditions.size(), test::shop_of("shop.yaml").terms.conditions.size());
}

TEST(ReadCommission, ReadsBareNumbersInItsOwnUnit) {
  const auto ceiling = [](const char* units) {
    return read(std::string{kHead} + units + "room: {ceiling: 90}\n").commission.room.ceiling;
  };
  EXPECT_EQ(ceiling(""), 90_in);
  EXPECT_EQ(ceiling("units: inch\n"), 90_in);
  EXPECT_EQ(ceiling("units: mm\n"), 90_mm);
}

constexpr const char* kChoices =
    "names: {seat: 18, wood: oak_4_4}\n"
    "choices:\n"
    "  size:\n"
    "    asks: How high?\n"
    "    pick: high\n"
    "    options:\n"
    "      low: {says: Low, sets: {seat: 14}}\n"
    "      high: {says: High, sets: {seat: 2 * 14}}\n"
    "  coat:\n"
    "    asks: Which finish?\n"
    "    options:\n"
    "      hand: {says: Oiled by hand, sets: {coat_taken: hard_wax_oil, stain: no_stain}}\n"
    "      away: {says: Sprayed, sets: {coat_taken: outside_spray}}\n"
    "finish: coat_taken\n"
    "room: {ceiling: seat + 70}\n";

TEST(Choices, SetTheNamesOfTheirPicks) {
  const ReadCommission stool = read(std::string{kHead} + kChoices);
  ASSERT_EQ(said(stool.errors), "");
  EXPECT_EQ(stool.commission.room.ceiling, 98_in);
  EXPECT_EQ(stool.commission.finish, "hard_wax_oil");  // the first option, none being written
  EXPECT_EQ(stool.commission.names.find("wood")->text, "oak_4_4");
  EXPECT_EQ(picks_of(stool.commission), (Picks{{"coat", "hand"}, {"size", "high"}}));

  const ReadCommission other =
      read(std::string{kHead} + kChoices, {{"coat", "away"}, {"size", "low"}});
  ASSERT_EQ(said(other.errors), "");
  EXPECT_EQ(other.commission.room.ceiling, 84_in);
  EXPECT_EQ(other.commission.finish, "outside_spray");
  EXPECT_EQ(other.commission.names.find("stain"), nullptr);
  ASSERT_EQ(other.commission.choices.size(), 2U);
  EXPECT_EQ(other.commission.choices[0].id, "size");
  EXPECT_EQ(other.commission.choices[0].asks, "How high?");
  EXPECT_EQ(other.commission.choices[0].options[1].says, "High");
}

TEST(Choices, AreCombinedFromTheOwnPicksOn) {
  const Commission c = read(std::string{kHead} + kChoices).commission;
  const std::vector<Picks> expected{{{"size", "high"}, {"coat", "hand"}},
                                    {{"size", "high"}, {"coat", "away"}},
                                    {{"size", "low"}, {"coat", "hand"}},
                                    {{"size", "low"}, {"coat", "away"}}};
  EXPECT_EQ(combinations(c, 100), expected);
  EXPECT_EQ(combinations(c, 3), std::vector<Picks>(expected.begin(), expected.begin() + 3));
  EXPECT_TRUE(combinations(c, 0).empty());
}

RC_GTEST_PROP(Choices, GiveEveryCombinationOnceAndTheOwnFirst, ()) {
  const auto sizes = *rc::gen::container<std::vector<int>>(4, rc::gen::inRange(2, 5));
  std::string text = std::string{kHead} + "choices:\n";
  std::size_t count = 1;
  Picks own;
  for (std::size_t c = 0; c < sizes.size(); ++c) {
    const auto pick = *rc::gen::inRange(0, sizes[c]);
    text += fmt::format("  c{}:\n    asks: x\n    pick: o{}\n    options:\n", c, pick);
    for (int o = 0; o < sizes[c]; ++o) {
      text += fmt::format("      o{0}: {{says: x, sets: {{n{1}: {0}}}}}\n", o, c);
    }
    count *= static_cast<std::size_t>(sizes[c]);
    own[fmt::format("c{}", c)] = fmt::format("o{}", pick);
  }
  const ReadCommission stool = read(text);
  RC_ASSERT(stool.errors.empty());
  const auto all = combinations(stool.commission, 10'000);
  RC_ASSERT(all.size() == count);
  RC_ASSERT(std::set<Picks>(all.begin(), all.end()).size() == count);
  RC_ASSERT(all.front() == own);
}

TEST(ShopNamedBy, ReadsNothingElse) {
  const auto named = [](const char* text) {
    return shop_named_by(document::parse_yaml(text, "my.yaml").root);
  };
  EXPECT_EQ(named("shop: mine.yaml\nunits: cubits\n"), "mine.yaml");
  EXPECT_EQ(named("commission: x\n"), "");
  EXPECT_EQ(named("shop: [a, b]\n"), "");
  EXPECT_EQ(named("- a\n"), "");
}

// ---- Errors -------------------------------------------------------------------------------------

struct WrongText {
  const char* text;   // its first line is line 3
  const char* error;  // the whole of it
};

void expect_errors(std::span<const WrongText> cases) {
  for (const WrongText& c : cases) {
    SCOPED_TRACE(c.text);
    EXPECT_EQ(said(read(std::string{kHead} + c.text + "\n").errors), c.error);
  }
}

TEST(CommissionErrors, OfWhatIsMissing) {
  EXPECT_EQ(said(read("number: 1\n").errors),
            "my.yaml:1:1: error: `commission` is missing: What the piece is called\n"
            "my.yaml:1:1: error: `piece` is missing: The piece itself, built of kits\n");
  EXPECT_EQ(said(read("commission: Stool\npiece: a stool\n").errors),
            "my.yaml:2:8: error: found `a stool`, expected the sizes and kits of the piece\n");
}

TEST(CommissionErrors, OfChoices) {
  expect_errors(std::array<WrongText, 6>{
      {{"choices: {a: {asks: q, options: {one: {says: x}}}}",
        "my.yaml:3:33: error: the choice `a` has one option, expected two options or more\n"},
       {"choices: {a: {asks: q, options: {}}}",
        "my.yaml:3:33: error: the choice `a` has no option, expected two options or more\n"},
       {"choices: {a: {asks: q, pick: tow, options: {one: {says: x}, two: {says: y}}}}",
        "my.yaml:3:30: error: the choice `a` has no option `tow`, expected one or two; did you "
        "mean "
        "`two`?\n"},
       {"choices: {a: {asks: q, options: {one: {says: x}, one: {says: y}, two: {says: z}}}}",
        "my.yaml:3:50: error: `one` is written twice in this map, first in line 3\n"},
       {"choices:\n"
        "  a: {asks: q, options: {one: {says: x, sets: {n: 1}}, two: {says: y, sets: {n: 2}}}}\n"
        "  b: {asks: q, options: {one: {says: x, sets: {n: 1}}, two: {says: y}}}",
        "my.yaml:5:51: error: the choices `a` and `b` both set `n`; each name belongs to one "
        "choice\n"},
       {"choices: {a: {options: {one: {}, two: {says: y}}}}",
        "my.yaml:3:14: error: `asks` is missing: The question\n"
        "my.yaml:3:30: error: `says` is missing: What the client gets, in the client's words\n"}}});
}

TEST(CommissionErrors, OfPicksFromOutside) {
  const std::string text = std::string{kHead} + kChoices;
  EXPECT_EQ(
      said(read(text, {{"size", "hihg"}}).errors),
      "my.yaml:7:11: error: the choice `size` has no option `hihg`, expected low or high; did "
      "you mean `high`?\n");
  EXPECT_EQ(
      said(read(text, {{"siez", "low"}}).errors),
      "my.yaml:5:3: error: picked `low` of the choice `siez`, which is not there; did you mean "
      "`size`?\n");
  EXPECT_EQ(said(read(text, {{"coat", ""}}).errors),
            "my.yaml:12:5: error: the choice `coat` has no option ``, expected hand or away\n");
}

TEST(CommissionErrors, OfNames) {
  expect_errors(std::array<WrongText, 5>{
      {{"names: {2nd: 1}",
        "my.yaml:3:9: error: found `2nd`, expected a name of letters, digits and `_` that begins "
        "with "
        "a letter\n"},
       {"names: {mm: 1}", "my.yaml:3:9: error: `mm` has a meaning already and cannot be a name\n"},
       {"names: [a, b]", "my.yaml:3:8: error: found a list, expected a map of names\n"},
       {"names: {a: b, b: a}\nroom: {ceiling: a}",
        "my.yaml:3:18: error: `a` goes round in a circle: a -> b -> a\n"},
       {"choices: {a: {asks: q, options: {one: {says: x, sets: {rest: 1}}, two: {says: y}}}}",
        "my.yaml:3:56: error: `rest` has a meaning already and cannot be a name\n"}}});
}

TEST(CommissionErrors, OfDatesAndRooms) {
  expect_errors(std::array<WrongText, 8>{
      {{"quoted: 2026-05-02\nwanted: 2026-05-01",
        "my.yaml:4:9: error: wanted on 2026-05-01, before the offer of 2026-05-02\n"},
       {"quoted: 2026-02-30",
        "my.yaml:3:9: error: found `2026-02-30`, a day that does not exist\n"},
       {"room: {humidity_low: 60 %, humidity_high: 40 %}",
        "my.yaml:3:22: error: the driest air (60 %) is damper than the dampest (40 %)\n"},
       {"room: {humidity_high: 140 %}", "my.yaml:3:23: error: found `140 %`, expected 5 to 95 %\n"},
       {"room: {humidity_low: dry}",
        "my.yaml:3:22: error: found `dry`, expected percent such as `35 %`\n"},
       {"room: {temperature: 70 C}", "my.yaml:3:21: error: found `70 C`, expected -20 to 50 C\n"},
       {"way_in: [{kind: corner, name: hall, width: 40}]",
        "my.yaml:3:10: error: a corner needs `beyond`, the width of the corridor after it\n"},
       {"way_in: [{kind: dor, width: 40}]",
        "my.yaml:3:17: error: found `dor`, expected door, corner, stair or lift; did you mean "
        "`door`?\n"}}});
}

TEST(CommissionErrors, OfWhatTheShopDoesNotHave) {
  expect_errors(std::array<WrongText, 4>{
      {{"finish: hard_wax_oyl",
        "my.yaml:3:9: error: there is no finish `hard_wax_oyl`; did you mean `hard_wax_oil`?\n"},
       {"glue: yelow_glue",
        "my.yaml:3:7: error: there is no glue `yelow_glue`; did you mean `yellow_glue`?\n"},
       {"extra_work: [{what: Talks, standard: desing_draw, units: 2}]",
        "my.yaml:3:38: error: there is no labour standard `desing_draw`; did you mean "
        "`design_draw`?\n"},
       {"use: {what: dining_tabel}",
        "my.yaml:3:13: error: found `dining_tabel`, expected hall_cabinet, dining_table, desk, "
        "bookcase, coffee_table, side_table, console_table, nightstand, chest_of_drawers, "
        "wardrobe, "
        "sideboard, kitchen_cabinet, counter, bench, chair, bed, shelf or other; did you mean "
        "`dining_table`?\n"}}});
  shop::Shop bare;
  const document::Parsed parsed =
      document::parse_yaml("commission: x\npiece: {}\nfinish: oil\n", "my.yaml");
  EXPECT_EQ(said(read_commission(parsed.root, "my.yaml", bare).errors),
            "my.yaml:3:9: error: the shop has no finish at all\n");
}

TEST(CommissionErrors, OfCostsAndRisks) {
  expect_errors(std::array<WrongText, 9>{
      {{"extra_costs: [{what: Glass, kind: material, price: 0}]",
        "my.yaml:3:52: error: `Glass` needs a `price` of more than zero\n"},
       {"extra_costs: [{what: Glass, kind: material}]",
        "my.yaml:3:15: error: `Glass` needs a `price` of more than zero\n"},
       {"extra_costs: [{what: Lamp, kind: client_item, price: 20}]",
        "my.yaml:3:54: error: a client_item costs nothing here; leave its `price` off\n"},
       {"extra_costs: [{what: Lamp, kind: clientitem}]",
        "my.yaml:3:34: error: found `clientitem`, expected material, hardware, subcontract, "
        "delivery, "
        "finish, allowance or client_item; did you mean `client_item`?\n"},
       {"extra_work: [{what: Talks, standard: design_draw, units: 0}]",
        "my.yaml:3:58: error: found `0`, expected more than zero\n"},
       {"risks: [{what: It warps, chance: 130 %, minutes: 60 min}]",
        "my.yaml:3:34: error: found `130 %`, expected 0 to 100 %\n"},
       {"risks: [{what: It warps, chance: 10 %}]",
        "my.yaml:3:16: error: a risk needs `minutes` or `material`: what it costs to make good\n"},
       {"dismissed: [{finding: sag.upper}]",
        "my.yaml:3:13: error: `reason` is missing: Why it is accepted\n"},
       {"dismissed: [{finding: sag.upper, reason: ' '}]",
        "my.yaml:3:42: error: a finding is dismissed only with a reason\n"}}});
}

TEST(CommissionErrors, AreInTheOrderOfTheText) {
  EXPECT_EQ(said(read("commission: Stool\n"
                      "units: cubits\n"
                      "room: {humidity_low: 99 %}\n"
                      "choices: {a: {asks: q, options: {one: {says: x}}}}\n"
                      "piece: {}\n"
                      "finnish: oil\n"
                      "terms: {margin: 100 %}\n")
                     .errors),
            "my.yaml:2:8: error: found `cubits`, expected inch or mm\n"
            "my.yaml:3:22: error: found `99 %`, expected 5 to 95 %\n"
            "my.yaml:4:33: error: the choice `a` has one option, expected two options or more\n"
            "my.yaml:6:1: error: unknown `finnish`, expected commission, number, revision, units, "
            "shop, says, client, quoted, wanted, use, room, way_in, choices, names, piece, finish, "
            "glue, terms, extra_work, extra_costs, risks or dismissed; did you mean `finish`?\n"
            "my.yaml:7:17: error: found `100 %`, expected 0 to 95 %\n");
}

// ---- Garbage ------------------------------------------------------------------------------------

TEST(CommissionGarbage, IsAnErrorInEveryField) {
  for (const document::Field& field : commission_fields()) {
    if (field.key == "commission" || field.key == "piece") {
      continue;
    }
    const std::string text = std::string{kHead} + std::string{field.key} + ": [{x: [1]}]\n";
    SCOPED_TRACE(text);
    const ReadCommission stool = read(text);
    ASSERT_FALSE(stool.errors.empty());
    for (const base::Error& error : stool.errors) {
      ASSERT_TRUE(error.at.has_value()) << error.message;
      EXPECT_EQ(error.at->line, 3) << error.message;
    }
  }
}

RC_GTEST_PROP(CommissionGarbage, NeverCrashes, (const std::string& text)) {
  read(text);
  read(std::string{kHead} + text);
}

/// An example with some of its characters changed.
RC_GTEST_PROP(CommissionGarbage, NeverCrashesOnAnExampleThatIsNearlyRight, ()) {
  const auto* file = *rc::gen::element("hall_cabinet.yaml", "dining_table.yaml", "study_wall.yaml");
  std::string text = test::open(file).value();
  const auto changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    text[at] =
        *rc::gen::element('0', '-', ':', '{', '}', '[', ']', ' ', '\n', ',', '%', 'e', '\'', '#');
  }
  const ReadCommission some = read(text);
  for (const base::Error& error : some.errors) {
    RC_ASSERT(!error.message.empty());
    RC_ASSERT(error.at.has_value());
  }
  RC_ASSERT(combinations(some.commission, 50).size() <= 50U);
}

TEST(CommissionFields, ArePublishedAsASchema) {
  const std::string schema = document::json_schema(commission_fields(), "Commission");
  for (const char* word : {"knee_height", "client_item", "bid_quantile", "options", "dismissed"}) {
    EXPECT_THAT(schema, testing::HasSubstr(word));
  }
}

}  // namespace
}  // namespace plankwright::commission
