// The shops that come with the project hold what its examples ask for, at prices that make their
// sums. Prices, people and suppliers are invented; quantities are those the examples were reckoned
// with by hand.

#include <array>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "document/fields.h"
#include "shop/hardware_kinds.h"
#include "shop/read_shop.h"
#include "shop/shop_files.h"

namespace plankwright::shop {
namespace {

using measure::operator""_in;
using measure::operator""_mm;
using test::files;
using test::said;

Shop shop_of(const std::string& file) {
  ReadShop read = read_shop(files()(file).value(), file, files());
  EXPECT_EQ(said(read.errors), "") << file;
  return std::move(read.shop);
}

struct ShopCase {
  const char* file;
  const char* currency;
  double hour;
  double margin;
  double tax;
  std::vector<double> instalments;
};

TEST(ShopsOfTheProject, ChargeWhatTheyAreMeantTo) {
  const ShopCase cases[] = {{"shop.yaml", "USD", 62, 20, 7, {50, 50}},
                            {"shop_metric.yaml", "EUR", 58, 20, 7, {50, 50}},
                            {"rope_walk_shop.yaml", "GBP", 54, 22, 20, {40, 40, 20}},
                            {"signal_house_shop.yaml", "EUR", 62, 22, 5, {40, 50, 10}}};
  for (const ShopCase& c : cases) {
    SCOPED_TRACE(c.file);
    const Shop shop = shop_of(c.file);
    EXPECT_EQ(shop.currency.code, c.currency);
    EXPECT_EQ(shop.hour.cost, Money::from_major(c.hour));
    EXPECT_EQ(shop.terms.margin, Percent{c.margin});
    EXPECT_EQ(shop.terms.tax, Percent{c.tax});
    EXPECT_EQ(shop.terms.round_to, Money::from_major(50));
    std::vector<double> shares;
    for (const Instalment& instalment : shop.terms.instalments) {
      shares.push_back(instalment.share.count());
    }
    EXPECT_EQ(shares, c.instalments);
    EXPECT_FALSE(shop.terms.exclusions.empty());
    EXPECT_FALSE(shop.terms.conditions.empty());
    EXPECT_EQ(shop.standards.size(), 64U);
    for (const Finish& finish : shop.finishes) {
      EXPECT_FALSE(finish.care.empty()) << finish.id;
    }
  }
}

double price(const Shop& shop, const char* id) {
  if (const SolidStock* solid = shop.solid(id)) {
    return solid->price.major();
  }
  if (const SheetStock* sheet = shop.sheet(id)) {
    return sheet->price.major();
  }
  if (const Hardware* fitting = shop.fitting(id)) {
    return fitting->price.major();
  }
  ADD_FAILURE() << id;
  return 0;
}

double packs(const Shop& shop, const char* id, int pieces) {
  const Hardware* fitting = shop.fitting(id);
  return fitting == nullptr
             ? 0
             : std::ceil(static_cast<double>(pieces) / fitting->pack) * fitting->price.major();
}

TEST(DefaultShop, SellsWhatTheHallCabinetIsMadeOf) {
  const Shop shop = shop_of("shop.yaml");
  const double timber = 17 * price(shop, "cherry_5_4") + 42 * price(shop, "cherry_4_4") +
                        2 * price(shop, "cherry_8_4") + 12.5 * price(shop, "maple_4_4");
  EXPECT_NEAR(timber, 590, 1);
  const double sheets = 0.5 * price(shop, "cherry_ply_3_4") + price(shop, "cherry_ply_1_4") +
                        0.5 * price(shop, "maple_ply_1_4");
  EXPECT_NEAR(sheets, 161, 1);
  EXPECT_EQ(shop.sheet("cherry_ply_3_4")->smallest_share, 0.5);
  const double hardware = packs(shop, "slide_concealed_15", 4) +
                          packs(shop, "butt_hinge_2_1_2", 4) + packs(shop, "knob_turned", 6) +
                          packs(shop, "catch_touch", 2) + packs(shop, "shelf_pin_brass", 8) +
                          packs(shop, "top_clip", 10) + packs(shop, "glide_felt", 4);
  EXPECT_NEAR(hardware, 267, 1);
  EXPECT_EQ(price(shop, "slide_concealed_15"), 34);
  const Hardware* box = shop.fitting("drawer_box_bought");
  EXPECT_EQ((box->price * 4 + box->freight), Money::from_major(307));
  EXPECT_EQ(box->lead_days, 12);
  EXPECT_EQ(shop.finish("outside_spray")->runs, 2);
  EXPECT_EQ(shop.finish("outside_spray")->lead_days, 5);
}

TEST(DefaultShop, KnowsTheLimitsOfItsMachines) {
  const Shop shop = shop_of("shop.yaml");
  EXPECT_EQ(shop.machine("planer")->widest, 16_in);
  EXPECT_EQ(shop.machine("planer")->shortest, 12_in);
  EXPECT_EQ(shop.machine("jointer")->widest, 8_in);
  EXPECT_EQ(shop.machine("table_saw")->widest, 50_in);
  EXPECT_EQ(shop.machine("table_saw")->kerf, 0.125_in);
  EXPECT_EQ(shop.allowances.rough_length, 1_in);
  EXPECT_EQ(shop.allowances.rough_width, 0.25_in);
  EXPECT_EQ(shop.allowances.glued_width, 0.25_in);
  // 1000 lbf are 4448 N (NIST SP 811, appendix B.8).
  EXPECT_NEAR(shop.clamps.at(1).force.count(), 4448.2, 0.1);
  const Shop metric = shop_of("shop_metric.yaml");
  EXPECT_EQ(metric.machine("planer")->widest, 406_mm);
  EXPECT_EQ(metric.machine("planer")->shortest, 300_mm);
  EXPECT_EQ(metric.allowances.rough_length, 25_mm);
  EXPECT_EQ(metric.allowances.rough_width, 6_mm);
}

TEST(RopeWalkShop, SellsWhatTheDiningTableIsMadeOf) {
  const Shop shop = shop_of("rope_walk_shop.yaml");
  for (const char* id : {"oak_5_4", "oak_6_4", "oak_8_4", "oak_6_4_quarter", "oak_16_4"}) {
    EXPECT_EQ(shop.solid(id)->sold_by, SoldBy::kCubicMetre) << id;
  }
  const double timber = 0.115 * price(shop, "oak_6_4") + 0.038 * price(shop, "oak_8_4") +
                        0.035 * price(shop, "oak_5_4");
  EXPECT_NEAR(timber, 312, 1);
  EXPECT_NEAR(price(shop, "oak_6_4_quarter") / price(shop, "oak_6_4"), 1.35, 0.001);
  EXPECT_EQ(shop.solid("oak_6_4_quarter")->cut_kind, "quarter_sawn");
  const double fittings = packs(shop, "leg_bolt_m8", 4) + packs(shop, "insert_m8", 8) +
                          packs(shop, "screw_4_30", 14) + packs(shop, "glide_felt", 4);
  EXPECT_NEAR(fittings, 38, 1);
  // 6.7 m2 three times over.
  const Finish* oil = shop.finish("hard_wax_oil");
  EXPECT_NEAR(
      6.7 * oil->coats / oil->square_metres_per_litre * oil->price_per_litre.major(), 64, 3);
  EXPECT_NEAR(26.2 * shop.consumables_per_hour.major(), 40, 2);
  // What the table is made of comes out of the boards: top 32, leg boards 40, rails 27.
  EXPECT_GE(shop.solid("oak_6_4")->surfaced_thickness, 32_mm);
  EXPECT_GE(shop.solid("oak_8_4")->surfaced_thickness, 40_mm);
  EXPECT_GE(shop.solid("oak_16_4")->surfaced_thickness, 80_mm);
  EXPECT_GE(shop.solid("oak_5_4")->surfaced_thickness, 27_mm);
  EXPECT_GE(shop.solid("oak_6_4")->board_length, 2150_mm);
  EXPECT_EQ(shop.machine("automatic_router"), nullptr);
}

TEST(SignalHouseShop, SellsWhatTheStudyWallIsMadeOf) {
  const Shop shop = shop_of("signal_house_shop.yaml");
  EXPECT_EQ(7 * price(shop, "oak_board_18"), 896);
  EXPECT_EQ(3 * price(shop, "oak_board_6"), 126);
  EXPECT_EQ(price(shop, "oak_board_18_finished") - price(shop, "oak_board_18"), 38);
  // Ten board feet are 0.0236 m3 (10 x 144 cubic inches, an inch being 25.4 mm).
  EXPECT_NEAR(0.0236 * price(shop, "oak_5_4"), 115, 3);
  EXPECT_NEAR(50 * shop.band("band_oak")->price_per_metre.major(), 41, 0.01);
  EXPECT_EQ(shop.band("band_oak")->roll, 50'000_mm);
  EXPECT_NEAR(packs(shop, "cup_hinge_110", 12), 50, 1);
  EXPECT_NEAR(packs(shop, "pull_bar_oak", 6), 54, 0.01);
  EXPECT_NEAR(packs(shop, "shelf_pin_steel", 48), 13, 0.01);
  EXPECT_NEAR(packs(shop, "plinth_block", 8) + packs(shop, "wall_fixing", 10) +
                  packs(shop, "connector_screw", 12),
              40,
              0.01);
  // 27 m2 twice over at 10 m2 a litre, of which 60 % arrive, are 9 litres.
  const Finish* spray = shop.finish("water_borne_sprayed");
  const double litres =
      27.0 * spray->coats / spray->square_metres_per_litre / (spray->transfer.count() / 100);
  EXPECT_NEAR(litres, 9, 0.01);
  EXPECT_NEAR(litres * spray->price_per_litre.major(), 140, 1);
  EXPECT_NEAR(51.3 * shop.consumables_per_hour.major(), 60, 2);
  EXPECT_EQ(shop.delivery_trip, Money::from_major(50));
  EXPECT_EQ(shop.allowances.sheet_kerf, 4_mm);
  EXPECT_EQ(shop.allowances.sheet_trim, 10_mm);
  EXPECT_EQ(shop.fitting("cup_hinge_110")->sizes.at("bore"), 35_mm);
  EXPECT_EQ(shop.finish("touch_up_only")->coats, 0);
}

TEST(DefaultShop, HasEveryIdTheExamplesName) {
  const Shop shop = shop_of("shop.yaml");
  for (const char* id : {"cherry_4_4",
                         "cherry_5_4",
                         "cherry_8_4",
                         "maple_4_4",
                         "oak_5_4",
                         "oak_6_4",
                         "oak_6_4_quarter",
                         "oak_8_4",
                         "oak_16_4",
                         "cherry_ply_3_4",
                         "cherry_ply_1_4",
                         "maple_ply_1_4",
                         "oak_board_18",
                         "oak_board_18_finished",
                         "oak_board_25",
                         "oak_board_6"}) {
    EXPECT_TRUE(shop.solid(id) != nullptr || shop.sheet(id) != nullptr) << id;
  }
  for (const char* id : {"slide_concealed_15",
                         "butt_hinge_2_1_2",
                         "knob_turned",
                         "catch_touch",
                         "shelf_pin_brass",
                         "drawer_box_bought",
                         "top_clip",
                         "glide_felt",
                         "leg_bolt_m8",
                         "insert_m8",
                         "screw_4_30",
                         "plinth_block",
                         "cup_hinge_110",
                         "pull_bar_oak",
                         "shelf_pin_steel",
                         "connector_screw",
                         "wall_fixing"}) {
    EXPECT_NE(shop.fitting(id), nullptr) << id;
  }
  for (const char* id : {"oil_varnish_wiped",
                         "outside_spray",
                         "hard_wax_oil",
                         "two_component_sprayed",
                         "water_borne_sprayed",
                         "touch_up_only"}) {
    EXPECT_NE(shop.finish(id), nullptr) << id;
  }
  EXPECT_NE(shop.band("band_oak"), nullptr);
  EXPECT_NE(shop.glue("yellow_glue"), nullptr);
  EXPECT_NE(shop.glue("white_glue"), nullptr);
}

// A two-component coat holds isocyanates: it is sprayed outside, by those who are set up for it.
TEST(DefaultShop, LeavesTwoComponentCoatsToOthers) {
  const Shop shop = shop_of("shop.yaml");
  for (const Finish& finish : shop.finishes) {
    if (finish.type == "two_part_polyurethane") {
      EXPECT_EQ(finish.applied, "outside") << finish.id;
    }
    // Rags of oil can catch fire by themselves, and the client gets to oil the piece again.
    const auto* type = shop.finish_types.get(finish.type);
    ASSERT_NE(type, nullptr) << finish.id;
    if (type->rags_can_catch_fire()) {
      EXPECT_THAT(finish.care, testing::HasSubstr("catch fire")) << finish.id;
    }
  }
}

TEST(Lookups, FindByIdAndListForOffers) {
  const Shop shop = shop_of("shop.yaml");
  EXPECT_EQ(shop.solid("oak_board_18"), nullptr);
  EXPECT_EQ(shop.fitting(""), nullptr);
  EXPECT_EQ(shop.stock_ids().size(), shop.solids.size() + shop.sheets.size() + shop.bars.size());
  EXPECT_EQ(shop.fitting_ids().size(), shop.hardware.size());
  EXPECT_THAT(shop.fitting_ids("top_clip"), testing::ElementsAre("top_clip"));
  for (const std::string& id : shop.fitting_ids("slide_pair")) {
    const Hardware* slide = shop.fitting(id);
    EXPECT_GE(slide->sizes.at("length"), slide->sizes.at("travel")) << id;
    EXPECT_GT(slide->sizes.at("width_less"), Length{}) << id;
  }
}

TEST(ShopFields, ArePublishedAsASchema) {
  const std::string schema = document::json_schema(shop_fields(), "Shop");
  for (const char* word : {"based_on", "width_less", "bid_quantile", "quarter_sawn", "touch_up"}) {
    EXPECT_THAT(schema, testing::HasSubstr(word));
  }
}

}  // namespace
}  // namespace plankwright::shop
