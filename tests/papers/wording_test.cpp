#include "papers/wording.h"

#include <gtest/gtest.h>

#include "planned_example.h"

namespace plankwright::papers {
namespace {

using measure::Minutes;

TEST(Wording, RoundsWorkToFiveMinutesUpwards) {
  const std::pair<double, const char*> cases[] = {{0.4, "5 min"},
                                                  {5, "5 min"},
                                                  {5.1, "10 min"},
                                                  {59, "1 h"},
                                                  {61, "1 h 5 min"},
                                                  {100, "1 h 40 min"},
                                                  {960, "16 h"}};
  for (const auto& [minutes, says] : cases) {
    EXPECT_EQ(duration(Minutes{minutes}), says) << minutes;
  }
}

TEST(Wording, SaysHoursToTheHalf) {
  EXPECT_EQ(half_hours(41.37), "41.5");
  EXPECT_EQ(half_hours(41.2), "41.0");
}

TEST(Wording, ListsAsOneSpeaks) {
  EXPECT_EQ(listed({}), "");
  EXPECT_EQ(listed({"oak"}), "oak");
  EXPECT_EQ(listed({"oak", "ash"}), "oak and ash");
  EXPECT_EQ(listed({"oak", "ash", "elm"}), "oak, ash and elm");
}

TEST(Wording, SetsSignsWhereTheyBelongOnly) {
  const std::pair<const char*, const char*> cases[] = {
      {"case.left door", "case left door"},
      {"3 x 40", "3 \u00d7 40"},
      {"6.8 m2 x 3 coats", "6.8 m\u00b2 \u00d7 3 coats"},
      {"0.024 m3", "0.024 m\u00b3"},
      {"box of 2", "box of 2"},
      {"leg bolt M8 x 100", "leg bolt M8 \u00d7 100"},
      {"1.5 mm. Then stop.", "1.5 mm. Then stop."},
      {"drawer_box_1", "drawer box 1"}};
  for (const auto& [written, set] : cases) {
    EXPECT_EQ(plain(written), set);
  }
}

TEST(Wording, CountsPartsByCodeInTheOrderGiven) {
  plan::Plan plan;
  for (const char* code : {"A1", "A1", "B2", "C3"}) {
    piece::Part part;
    part.code = code;
    plan.piece.parts.push_back(part);
  }
  EXPECT_EQ(codes(plan, {0, 1, 2}), "2 \u00d7 A1, B2");
  EXPECT_EQ(codes(plan, {2, 0}), "B2, A1");
  EXPECT_EQ(codes(plan, {0, 1, 2, 3}), "all parts");
  EXPECT_EQ(codes(plan, {}), "");
}

TEST(Wording, WeighsInTheUnitOfTheShop) {
  plan::Plan plan;
  EXPECT_EQ(weight(plan, measure::Kilograms{74.4}), "74 kg");
  EXPECT_EQ(weight(plan, measure::Kilograms{4.36}), "4.4 kg");
  plan.shop.unit = measure::LengthUnit::kInch;
  EXPECT_EQ(weight(plan, measure::Kilograms{62}), "137 lb");  // one pound is 0.45359237 kg exactly
}

}  // namespace
}  // namespace plankwright::papers
