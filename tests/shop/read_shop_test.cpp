#include "shop/read_shop.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "document/fields.h"
#include "shop/shop_files.h"

namespace plankwright::shop {
namespace {

using measure::operator""_mm;
using test::files;
using test::read;
using test::said;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr const char* kOn = "based_on: bench.yaml\n";

// ---- Reading and merging ------------------------------------------------------------------------

TEST(ReadShop, ReadsAShopThatStandsOnItsOwn) {
  const ReadShop shop = read(test::kBench);
  ASSERT_EQ(said(shop.errors), "");
  EXPECT_EQ(shop.shop.name, "Test bench");
  EXPECT_EQ(shop.shop.currency.code, "EUR");
  EXPECT_EQ(shop.shop.unit, measure::LengthUnit::kMillimetre);
  EXPECT_EQ(shop.shop.hour.cost, Money::from_major(50));  // (20 000 + 5000) / 500
}

TEST(ReadShop, ChangesOnlyWhatIsWritten) {
  const ReadShop mine = read(
      "based_on: bench.yaml\n"
      "shop: Mine\n"
      "solids:\n"
      "  oak_5_4: {price: 12.50}\n"
      "  ash_4_4: {name: ash, species: ash_white, quarters: 4, surfaced: 20, price: 7, "
      "board_width: 140, "
      "board_length: 2400}\n"
      "machines: {planer: {widest: 310}}\n"
      "standards: {rip: {per_unit: 30 min}}\n"
      "allowances: {rough_width: 8}\n"
      "terms: {margin: 25 %}\n");
  ASSERT_EQ(said(mine.errors), "");
  const Shop& shop = mine.shop;
  EXPECT_EQ(shop.name, "Mine");
  ASSERT_EQ(shop.solids.size(), 2U);
  EXPECT_EQ(shop.solids[0].id, "oak_5_4");
  EXPECT_EQ(shop.solids[0].price, Money::from_major(12.50));
  EXPECT_EQ(shop.solids[0].surfaced_thickness, 27_mm);
  EXPECT_EQ(shop.solids[1].rough_thickness, 25.4_mm);
  EXPECT_EQ(shop.machine("planer")->widest, 310_mm);
  EXPECT_EQ(shop.machine("planer")->shortest, 300_mm);
  EXPECT_EQ(shop.standard("rip")->per_unit, Minutes{30});
  EXPECT_EQ(shop.standard("rip")->setup, Minutes{4});
  EXPECT_EQ(shop.standard("rip")->source, "the shop's own figure");
  EXPECT_EQ(shop.standard("glue_up")->source, "a test");
  EXPECT_EQ(shop.allowances.rough_width, 8_mm);
  EXPECT_EQ(shop.allowances.rough_length, 25_mm);
  EXPECT_EQ(shop.terms.margin, Percent{25});
  EXPECT_EQ(shop.terms.instalments.size(), 1U);
}

TEST(ReadShop, MergesTheRowsOfAnotherTableOfStandardsById) {
  const ReadShop mine = read(std::string{kOn} + "tables: {labour_standards: mine.csv}\n",
                             {{"mine.csv",
                               "id,name,phase,setup_min,setup_per,per_unit_min,unit,sigma,machine,"
                               "unattended_min,people,note,"
                               "source\nrip,Rip,milling,9,setting,2,piece,0.2,,0,1,,my clock\n"
                               "carve,Carve,surface,0,job,90,square_foot,0.4,,0,1,,my clock\n"}});
  ASSERT_EQ(said(mine.errors), "");
  ASSERT_EQ(mine.shop.standards.size(), 3U);
  EXPECT_EQ(mine.shop.standard("rip")->setup, Minutes{9});
  EXPECT_EQ(mine.shop.standard("glue_up")->setup, Minutes{12});
  EXPECT_EQ(mine.shop.standard("carve")->per_unit, Minutes{90});
}

TEST(ReadShop, ReplacesListsThatHaveNoIds) {
  const ReadShop mine = read(std::string{kOn} +
                             "people: [{name: B, role: helper, wage: 10, paid_hours: 500}]\n"
                             "overheads: []\n");
  ASSERT_EQ(said(mine.errors), "");
  EXPECT_EQ(mine.shop.people.size(), 1U);
  EXPECT_TRUE(mine.shop.overheads.empty());
  EXPECT_EQ(mine.shop.hour.cost, Money::from_major(20));  // 5000 / 250
}

TEST(ReadShop, LeavesOutWhatTheShopDoesNotHave) {
  const ReadShop mine = read(std::string{kOn} + "without: [planer, ply_18, oil]\n");
  ASSERT_EQ(said(mine.errors), "");
  EXPECT_EQ(mine.shop.machine("planer"), nullptr);
  EXPECT_NE(mine.shop.machine("saw"), nullptr);
  EXPECT_EQ(mine.shop.sheet("ply_18"), nullptr);
  EXPECT_EQ(mine.shop.finish("oil"), nullptr);
}

TEST(ReadShop, ReadsBareNumbersInItsOwnUnitAndKeepsTheOthersSizes) {
  const ReadShop mine = read(std::string{kOn} + "units: inch\nmachines: {planer: {widest: 12}}\n");
  ASSERT_EQ(said(mine.errors), "");
  EXPECT_EQ(mine.shop.unit, measure::LengthUnit::kInch);
  EXPECT_EQ(mine.shop.machine("planer")->widest, 304.8_mm);
  EXPECT_EQ(mine.shop.machine("planer")->shortest, 300_mm);
}

TEST(ReadShop, ExchangesTheMoneyOfTheOtherShop) {
  const ReadShop mine = read(std::string{kOn} +
                             "currency: GBP\nexchange: 0.8\n"
                             "bands: {band: {price_per_metre: 1}}\nterms: {round_to: 50}\n");
  ASSERT_EQ(said(mine.errors), "");
  EXPECT_EQ(mine.shop.solid("oak_5_4")->price, Money::from_major(8));
  EXPECT_EQ(mine.shop.sheet("ply_18")->price, Money::from_major(64));
  EXPECT_EQ(mine.shop.fitting("knob")->price, Money::from_major(4));
  EXPECT_EQ(mine.shop.finish("oil")->price_per_litre, Money::from_major(24));
  EXPECT_EQ(mine.shop.glue("glue")->price_per_litre, Money::from_major(7.20));
  EXPECT_EQ(mine.shop.band("band")->price_per_metre, Money::from_major(1));  // written here
  EXPECT_EQ(mine.shop.hour.cost, Money::from_major(40));
  EXPECT_EQ(mine.shop.terms.round_to, Money::from_major(50));
}

TEST(ReadShop, DoesNotExchangeWhatAPriceIsRoundedTo) {
  const ReadShop mine = read("based_on: middle.yaml\ncurrency: GBP\nexchange: 0.8\n",
                             {{"middle.yaml", std::string{kOn} + "terms: {round_to: 50}\n"}});
  ASSERT_EQ(said(mine.errors), "");
  EXPECT_EQ(mine.shop.terms.round_to, Money::from_major(50));
}

// ---- Errors -------------------------------------------------------------------------------------

struct WrongText {
  const char* text;   // below `based_on: bench.yaml`, so its first line is line 2
  const char* error;  // the whole of it
};

void expect_errors(std::span<const WrongText> cases) {
  for (const WrongText& c : cases) {
    SCOPED_TRACE(c.text);
    EXPECT_EQ(said(read(std::string{kOn} + c.text + "\n").errors), c.error);
  }
}

TEST(ReadShopErrors, OfMoney) {
  expect_errors(std::array<WrongText, 9>{
      {{"solids: {oak_5_4: {price: 0}}",
        "my.yaml:2:27: error: found `0`, expected more than zero\n"},
       {"solids: {oak_5_4: {price: -4}}",
        "my.yaml:2:27: error: found `-4`, expected more than zero\n"},
       {"solids: {oak_5_4: {price: dear}}",
        "my.yaml:2:27: error: found `dear`, expected money such as `120` or `1,250.50`\n"},
       {"hardware: {knob: {price: 0}}",
        "my.yaml:2:26: error: found `0`, expected more than zero, or `client_item: yes`\n"},
       {"glues: {glue: {price_per_litre: 0.00}}",
        "my.yaml:2:33: error: found `0.00`, expected more than zero\n"},
       {"sheets: {ply_18: {price: 2000000000}}",
        "my.yaml:2:26: error: found `2000000000`, expected at most 1000000000\n"},
       {"solids: {oak_5_4: {sold_by: cubic_metre}}",
        "my.yaml:2:29: error: `oak_5_4` is now sold by another unit, so its `price` must be "
        "written "
        "too\n"},
       {"currency: GBP",
        "my.yaml:2:11: error: the prices of bench.yaml are in EUR; write `exchange`, how many GBP "
        "one "
        "EUR is\n"},
       {"delivery_trip: 0", "my.yaml:2:16: error: found `0`, expected more than zero\n"}}});
}

TEST(ReadShopErrors, OfCurrencies) {
  expect_errors(std::array<WrongText, 2>{
      {{"currency: euro",
        "my.yaml:2:11: error: found `euro`, expected three capitals such as EUR, GBP or USD\n"},
       {"currency: JPY",
        "my.yaml:2:11: error: found `JPY`, expected a currency with a hundred cents\n"}}});
  EXPECT_EQ(said(read(std::string{test::kBench} + "exchange: 2\n").errors),
            "my.yaml:25:11: error: `exchange` is for a shop that is based on another\n");
}

TEST(ReadShopErrors, OfWordsThatNameNothing) {
  expect_errors(std::array<WrongText, 9>{
      {{"solids: {oak_5_4: {species: oak_whit}}",
        "my.yaml:2:29: error: there is no wood `oak_whit`; did you mean `oak_white`?\n"},
       {"sheets: {ply_18: {panel: birch_plywod}}",
        "my.yaml:2:26: error: there is no kind of sheet `birch_plywod`; did you mean "
        "`birch_plywood`?\n"},
       {"sheets: {ply_18: {face_species: cherry}}",
        "my.yaml:2:33: error: there is no wood `cherry`; did you mean `cherry_black`?\n"},
       {"finishes: {oil: {type: driing_oil}}",
        "my.yaml:2:24: error: there is no kind of finish `driing_oil`; did you mean "
        "`drying_oil`?\n"},
       {"glues: {glue: {type: pva_wite}}",
        "my.yaml:2:22: error: there is no kind of glue `pva_wite`; did you mean `pva_white`?\n"},
       {"standards: {rip: {machine: planner}}",
        "my.yaml:2:28: error: there is no machine `planner`; did you mean `planer`?\n"},
       {"without: [plainer]",
        "my.yaml:2:10: error: `plainer` is not in this shop, so it cannot be left out; did you "
        "mean "
        "`planer`?\n"},
       {"hardware: {knob: {kind: puli}}",
        "my.yaml:2:25: error: found `puli`, expected slide_pair, butt_hinge, cup_hinge, pull, "
        "catch, "
        "shelf_pin, top_clip, button_screw, leg_bolt, insert, glide, leveller, screw, connector, "
        "wall_fixing, anchor, drawer_box or other; did you mean `pull`?\n"},
       {"hardwear: {}",
        "my.yaml:2:1: error: unknown `hardwear`, expected shop, based_on, owner, "
        "address, currency, exchange, units, tables, people, overheads, utilisation, "
        "workday, closed, places, order_slack, machines, clamps, standards, solids, sheets, bars, "
        "bands, "
        "hardware, "
        "finishes, glues, rack, allowances, terms, climate, job_spread, "
        "consumables_per_hour, delivery_trip or without; did you mean "
        "`hardware`?\n"}}});
}

TEST(ReadShopErrors, OfSizesAndCounts) {
  expect_errors(std::array<WrongText, 11>{
      {{"machines: {planer: {widest: -1}}",
        "my.yaml:2:29: error: found `-1`, expected more than zero\n"},
       {"machines: {planer: {longest: 200}}",
        "my.yaml:2:30: error: the longest piece of `planer` is shorter than its shortest\n"},
       {"solids: {oak_5_4: {surfaced: 40}}",
        "my.yaml:2:30: error: `oak_5_4` cannot be thicker surfaced (40 mm) than rough (31.8 "
        "mm)\n"},
       {"solids: {oak_5_4: {buy_factor: 0.5}}",
        "my.yaml:2:32: error: found `0.5`, expected 1 to 5\n"},
       {"sheets: {ply_18: {smallest_share: 2}}",
        "my.yaml:2:35: error: found `2`, expected 0.1 to 1\n"},
       {"glues: {}\nbands: {band: {lead_days: 4000}}",
        "my.yaml:3:27: error: found `4000`, expected 0 to 1000\n"},
       {"hardware: {knob: {pack: 0}}", "my.yaml:2:25: error: found `0`, expected more than zero\n"},
       {"allowances: {sheet_kerf: 0}", "my.yaml:2:26: error: found `0`, expected more than zero\n"},
       {"people: [{name: B, role: maker, wage: 20, paid_hours: 9000}]",
        "my.yaml:2:55: error: found `9000`, expected 1 to 8784\n"},
       {"climate: {humidity: 100 %}", "my.yaml:2:21: error: found `100 %`, expected 5 to 95 %\n"},
       {"climate: {temperature: 200 F}",
        "my.yaml:2:24: error: found `200 F`, expected -20 to 50 C\n"}}});
}

TEST(ReadShopErrors, OfTerms) {
  expect_errors(std::array<WrongText, 6>{
      {{"terms: {instalments: [{share: 40 %, event: on order}, {share: 50 %, event: later}]}",
        "my.yaml:2:22: error: the instalments add up to 90 %, not to 100 %\n"},
       {"terms: {instalments: []}",
        "my.yaml:2:22: error: the instalments add up to 0 %, not to 100 %\n"},
       {"terms: {margin: 100 %}", "my.yaml:2:17: error: found `100 %`, expected 0 to 95 %\n"},
       {"terms: {tax: 120 %}", "my.yaml:2:14: error: found `120 %`, expected 0 to 100 %\n"},
       {"terms: {bid_quantile: 20 %}", "my.yaml:2:23: error: found `20 %`, expected 50 to 99 %\n"},
       {"terms: {exclusions: [{a: b}]}",
        "my.yaml:2:21: error: found a map in line 2, expected text\n"}}});
}

TEST(ReadShopErrors, OfEntriesThatAreIncomplete) {
  expect_errors(std::array<WrongText, 5>{
      {{"glues: {new_glue: {name: new}}",
        "my.yaml:2:19: error: `new_glue`, which is new here, needs `type`, which is not written\n"
        "my.yaml:2:19: error: `new_glue`, which is new here, needs `price_per_litre`, which is not "
        "written\n"},
       {"hardware: {slide: {name: slide, kind: slide_pair, price: 30, sizes: {length: 400, travel: "
        "380, "
        "width_less: 16}}}",
        "my.yaml:2:69: error: `slide` is a slide_pair and needs the size `height_less`, which is "
        "not "
        "written\n"},
       {"hardware: {knob: {sizes: {spaceing: 3}}}",
        "my.yaml:2:27: error: unknown `spaceing`, expected width_less, height_less, length, "
        "travel, "
        "width, thickness, bore, bore_depth, edge, overlay, spacing, projection, hole, depth, "
        "slot, "
        "reach, diameter, height, adjust, side, bottom or height_step; did you mean `spacing`?\n"},
       {"finishes: {spray: {name: s, type: shellac, applied: outside}}",
        "my.yaml:2:19: error: `spray` is outside and needs `price_per_square_metre`\n"},
       {"finishes: {spray: {name: s, type: shellac, applied: sprayed}}",
        "my.yaml:2:19: error: `spray` is sprayed and needs `price_per_litre`\n"
        "my.yaml:2:19: error: `spray` is sprayed and needs `square_metres_per_litre`\n"}}});
}

TEST(ReadShopErrors, AreAllReportedInOneRun) {
  const ReadShop mine = read(std::string{kOn} +
                             "utilisation: 0 %\n"
                             "solids: {oak_5_4: {price: 0, species: oak}}\n"
                             "terms: {margin: 200 %}\n");
  EXPECT_EQ(said(mine.errors),
            "my.yaml:2:14: error: found `0 %`, expected more than zero\n"
            "my.yaml:3:27: error: found `0`, expected more than zero\n"
            "my.yaml:3:39: error: there is no wood `oak`; did you mean `oak_northern_red`?\n"
            "my.yaml:4:17: error: found `200 %`, expected 0 to 95 %\n");
}

TEST(ReadShopErrors, OfAShopThatStandsOnNothing) {
  EXPECT_EQ(
      said(read("owner: Aud\n", {{"labour_standards.csv", std::string{test::kTwoStandards}}})
               .errors),
      "my.yaml:1:1: error: a shop that is not based on another needs `shop`, which is not "
      "written\n"
      "my.yaml:1:1: error: a shop that is not based on another needs `currency`, which is not "
      "written\n"
      "my.yaml:1:1: error: a shop that is not based on another needs `units`, which is not "
      "written\n"
      "my.yaml:1:1: error: a shop that is not based on another needs `people`, which is not "
      "written\n"
      "my.yaml:1:1: error: a shop that is not based on another needs `utilisation`, which is not "
      "written\n"
      "my.yaml:1:1: error: a shop that is not based on another needs `allowances`, which is not "
      "written\n"
      "my.yaml:1:1: error: a shop that is not based on another needs `terms`, which is not "
      "written\n");
}

TEST(ReadShopErrors, OfOtherFiles) {
  for (const char* nothing : {"''", "[bench.yaml]", "{a: b}", ""}) {
    const ReadShop mine = read(std::string{"based_on: "} + nothing + "\n");
    ASSERT_EQ(mine.errors.size(), 1U) << nothing;
    EXPECT_THAT(mine.errors[0].message, HasSubstr("expected the file of another shop")) << nothing;
  }
  EXPECT_EQ(said(read("based_on: nowhere.yaml\nsolids: {x: {}}\n").errors),
            "my.yaml:1:11: error: there is no file nowhere.yaml\n");
  EXPECT_EQ(
      said(read("based_on: other.yaml\n", {{"other.yaml", "based_on: my.yaml\n"}}).errors),
      "other.yaml:1:11: error: shops are based on each other in a circle: my.yaml -> other.yaml "
      "-> my.yaml\n");
  EXPECT_EQ(said(read("based_on: my.yaml\n").errors),
            "my.yaml:1:11: error: shops are based on each other in a circle: my.yaml -> my.yaml\n");
  EXPECT_EQ(said(read("based_on: other.yaml\nclimate: {humidity: 1 %}\n",
                      {{"other.yaml", std::string{kOn} + "climate: {humidity: 99 %}\n"}})
                     .errors),
            "other.yaml:2:21: error: found `99 %`, expected 5 to 95 %\n"
            "my.yaml:2:21: error: found `1 %`, expected 5 to 95 %\n");
  EXPECT_EQ(said(read(std::string{kOn} + "tables: {species: woods.csv}\n").errors),
            "my.yaml:2:19: error: there is no file woods.csv\n");
  EXPECT_EQ(
      said(read(std::string{kOn} + "tables: {panels: p.csv}\n", {{"p.csv", "id,name\n"}}).errors),
      "");
}

// ---- Garbage ------------------------------------------------------------------------------------

/// A value that no field can mean is complained of in every field, at its line.
TEST(ReadShopGarbage, IsAnErrorInEveryField) {
  for (const document::Field& field : shop_fields()) {
    if (field.key == "based_on" || field.kind == document::FieldKind::kText) {
      continue;
    }
    const std::string text = std::string{kOn} + std::string{field.key} + ": [{x: [1]}]\n";
    SCOPED_TRACE(text);
    const ReadShop mine = read(text);
    ASSERT_FALSE(mine.errors.empty());
    for (const base::Error& error : mine.errors) {
      ASSERT_TRUE(error.at.has_value()) << error.message;
      EXPECT_EQ(error.at->file, "my.yaml") << error.message;
      EXPECT_EQ(error.at->line, 2) << error.message;
    }
  }
}

RC_GTEST_PROP(ReadShopGarbage, NeverCrashes, (const std::string& text)) {
  read(text);
  read(std::string{kOn} + text);
}

/// The default shop with some of its characters changed.
RC_GTEST_PROP(ReadShopGarbage, NeverCrashesOnAShopThatIsNearlyRight, ()) {
  static const std::string kShop = files()("shop.yaml").value();
  std::string text = kShop;
  const auto changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    text[at] =
        *rc::gen::element('0', '-', ':', '{', '}', '[', ']', ' ', '\n', ',', '%', 'e', '\'', '#');
  }
  const ReadShop shop = read_shop(text, "shop.yaml", files());
  for (const base::Error& error : shop.errors) {
    RC_ASSERT(!error.message.empty());
  }
  RC_ASSERT(!shop.errors.empty() || shop.shop.hour.cost > Money{});
}

}  // namespace
}  // namespace plankwright::shop
