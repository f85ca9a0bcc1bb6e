#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bench/step_text.h"
#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

using piece::Piece;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

Operation only(const Piece& piece,
               const char* standard,
               measure::LengthUnit unit = measure::LengthUnit::kInch) {
  const Bench bench =
      testing::bench_of(piece, testing::inch_shop(), testing::plain_commission(unit));
  return testing::of_standard(bench, standard).front();
}

TEST(Cards, SayWhatToDoWithTheFigures) {
  Piece piece;
  piece.parts = {testing::rail("door stile", 25.0_in, 2.25_in, 0.75_in),
                 testing::rail("door stile", 25.0_in, 2.25_in, 0.75_in),
                 testing::rail("door rail", 11.0_in, 2.25_in, 0.75_in)};
  piece.parts[0].code = piece.parts[1].code = "A11";
  piece.parts[2].code = "A12";
  const Operation rip = only(piece, "rip_final");
  EXPECT_EQ(rip.setting, "2 1/4");
  EXPECT_EQ(
      rip.says,
      "Fence at 2 1/4 in: 2 A11 door stile, 1 A12 door rail. Straight edge against the fence.");
  EXPECT_THAT(rip.from, HasSubstr("operation_rules.csv:"));
  EXPECT_THAT(rip.from, HasSubstr("common practice, no source"));
  EXPECT_THAT(only(piece, "rip_final", measure::LengthUnit::kMillimetre).says,
              HasSubstr("Fence at 57.2 mm"));
  EXPECT_THAT(only(piece, "joint_face_edge").says, HasSubstr("5.1 ft of parts"));
  EXPECT_THAT(only(piece, "joint_face_edge", measure::LengthUnit::kMillimetre).says,
              HasSubstr("1.5 m of parts"));
}

TEST(Cards, LeaveNoFigureOpen) {
  for (const char* example : {"hall_cabinet.yaml", "dining_table.yaml", "study_wall.yaml"}) {
    for (const Operation& operation : testing::work(example).bench.operations) {
      EXPECT_THAT(operation.says, Not(HasSubstr("{"))) << operation.name;
      EXPECT_FALSE(operation.says.empty()) << operation.name;
      EXPECT_LE(operation.cautions.size(), 3U) << operation.name;
      for (const std::string& caution : operation.cautions) {
        EXPECT_THAT(caution, Not(HasSubstr("{"))) << operation.name;
      }
    }
  }
}

TEST(ListParts, StopsAtSixKinds) {
  Piece piece;
  for (int i = 0; i < 9; ++i) {
    piece.parts.push_back(testing::rail("part " + std::to_string(i / 1), 1.0_in, 1.0_in, 1.0_in));
  }
  EXPECT_EQ(list_parts(piece, {0, 1, 2, 3, 4, 5, 6, 7, 8}),
            "1 part 0, 1 part 1, 1 part 2, 1 part 3, 1 part 4, 1 part 5 and 3 more");
}

TEST(FillIn, LeavesUnknownNamesToBeSeen) {
  EXPECT_EQ(fill_in("{a} and {b}, {a}", {{"a", "{a}"}}), "{a} and {b}, {a}");
  EXPECT_EQ(fill_in("{a} {c}", {{"a", "1"}}), "1 {c}");
}

// 12 in is the shortest this shop's planer takes.
TEST(Cautions, NameTheShortPartAtThePlaner) {
  Piece piece;
  piece.parts = {testing::rail("leg", 6.0_in, 1.75_in, 1.75_in)};
  EXPECT_THAT(only(piece, "plane_thickness").cautions,
              Contains(AllOf(HasSubstr("The leg is 6 in long: under 12 in the thickness planer"),
                             HasSubstr("manual"))));
  piece.parts = {testing::rail("rail", 12.0_in, 1.75_in, 1.75_in)};
  EXPECT_THAT(only(piece, "plane_thickness").cautions, Not(Contains(HasSubstr("must not take"))));
}

TEST(Cautions, WarnOfTheDustOfTheWoodsThatAreClassedWorst) {
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in)};
  piece.parts[0].show_faces = {{Axis::kY, -1}};
  const auto dust = [&](const char* species) {
    piece.parts[0].species = species;
    return only(piece, "sand_prep").cautions;
  };
  EXPECT_THAT(dust("oak_white"), Contains(HasSubstr("class A1")));
  EXPECT_THAT(dust("beech_american"), Contains(HasSubstr("class A1")));
  EXPECT_THAT(dust("walnut_black"), Contains(HasSubstr("class A2")));
  EXPECT_THAT(dust("cherry_black"), Not(Contains(HasSubstr("class A"))));
}

TEST(Cautions, OfALiftNameTheWeight) {
  Piece piece;
  piece.parts = {testing::rail("top", 2100_mm, 950_mm, 32_mm)};
  piece.parts[0].strips = 7;
  piece.parts[0].mass = measure::Kilograms{48.6};
  EXPECT_THAT(only(piece, "flatten_panel").cautions,
              Contains(HasSubstr("The top weighs 49 kg: two people")));
  piece.parts[0].mass = measure::Kilograms{25};
  EXPECT_THAT(only(piece, "flatten_panel").cautions, Not(Contains(HasSubstr("two people"))));
}

struct FinishCase {
  const char* type;
  const char* applied;
  const char* standard;
  const char* says;  // "" when nothing of it may be said
};

TEST(Cautions, OfAFinishGoByItsType) {
  const FinishCase cases[] = {{"oil_varnish", "wiped", "oil_coat", "catch fire within hours"},
                              {"hard_wax_oil", "wiped", "oil_coat", "catch fire within hours"},
                              {"two_part_polyurethane", "sprayed", "spray_coat", "isocyanates"},
                              {"conversion_varnish", "sprayed", "spray_coat", "The mist burns"},
                              {"water_borne", "sprayed", "spray_coat", ""}};
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in)};
  piece.parts[0].show_faces = {{Axis::kY, -1}};
  commission::Commission commission = testing::plain_commission();
  commission.finish = "tried";
  for (const FinishCase& c : cases) {
    SCOPED_TRACE(c.type);
    shop::Shop shop = testing::inch_shop();
    shop::Finish finish = shop.finishes.front();
    finish.id = "tried";
    finish.type = c.type;
    finish.applied = c.applied;
    shop.finishes = {finish};
    const auto coats = testing::of_standard(testing::bench_of(piece, shop, commission), c.standard);
    ASSERT_EQ(coats.size(), static_cast<std::size_t>(finish.coats));
    if (*c.says != '\0') {
      EXPECT_THAT(coats[0].cautions, Contains(HasSubstr(c.says)));
    } else {
      EXPECT_THAT(coats[0].cautions, Not(Contains(HasSubstr("isocyanates"))));
      EXPECT_THAT(coats[0].cautions, Not(Contains(HasSubstr("burns"))));
    }
  }
}

TEST(Cautions, AreTheThreeWorst) {
  Rules rules = testing::rules();
  rules.cautions = {{"a", 1, {"*"}, When::kAlways, 0, {}, "spoils", "s"},
                    {"b", 2, {"*"}, When::kAlways, 0, {}, "hurts", "s"},
                    {"c", 1, {"*"}, When::kAlways, 0, {}, "spoils too", "s"},
                    {"d", 3, {"*"}, When::kAlways, 0, {}, "maims", "s"}};
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in)};
  const Bench bench =
      plan_bench(piece, stock::Stock{}, testing::inch_shop(), testing::plain_commission(), rules);
  EXPECT_EQ(testing::of_standard(bench, "rip_final")[0].cautions,
            (std::vector<std::string>{"maims", "hurts", "spoils"}));
}

}  // namespace
}  // namespace plankwright::bench
