// Board measure and grades against published examples and rules.

#include <gtest/gtest.h>

#include "wood/board_measure.h"
#include "wood/grades.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::operator""_in;
using testing::reference;

constexpr Length kFoot = 12_in;

TEST(PublishedBoards, SurfaceMeasure) {
  EXPECT_EQ(surface_measure(6.4375_in, 10 * kFoot + 9_in), 5);  // NH3, verified: 5.36 is 5
  EXPECT_EQ(surface_measure(7_in, 8 * kFoot), 5);               // NH4, verified: 4.67 is 5
  EXPECT_EQ(surface_measure(8.5_in, 11 * kFoot), 8);            // rule arithmetic: 7.79 is 8
}

TEST(PublishedBoards, BoardFeet) {
  EXPECT_NEAR(board_feet(7_in, 8 * kFoot, 2_in), 9.3, 0.05);         // NH4, verified
  EXPECT_NEAR(board_feet(6_in, 2 * kFoot, 1_in), 1.0, 1e-9);         // LS2, verified
  EXPECT_NEAR(board_feet(12_in, 12_in, 2_in), 2.0, 1e-9);            // LS2, verified
  EXPECT_NEAR(board_feet(6_in, 72_in, 1.25_in), 540.0 / 144, 1e-9);  // LS3, verified
  // common arithmetic, no source: 4/4 x 5 1/2 x 96 is 3.67; one board foot is 2359.737 cm3
  EXPECT_NEAR(board_feet(5.5_in, 96_in, 1_in), 3.67, 0.005);
  EXPECT_NEAR(measure::board_feet(measure::CubicMillimetres{2359.737e3}), 1.0, 1e-6);
}

// NHLA, from memory: board feet on a tally are surface measure times nominal thickness.
TEST(PublishedBoards, Tally) {
  EXPECT_EQ(tally_board_feet(8.5_in, 11 * kFoot, 2_in), 16);
  const int tally[] = {4, 5, 5, 6, 7, 4, 8, 6, 5, 5};
  double feet = 0;
  for (const int surface : tally) {
    feet += tally_board_feet(surface * 1_in, 12 * kFoot, 1_in);
  }
  EXPECT_EQ(feet, 55);
}

struct GradeCase {
  std::string grade;
  int surface;
  Yield yield;
  std::optional<Yield> extra;
};

// NH1 and NH2, verified rules; the figures are worked out from them by hand.
TEST(PublishedBoards, GradeRules) {
  const GradeCase cases[] = {
      {"fas", 12, {120, 3}, Yield{132, 4}},
      {"fas", 16, {160, 4}, std::nullopt},
      {"fas", 5, {50, 1}, std::nullopt},
      {"fas", 6, {60, 1}, Yield{66, 2}},
      {"fas_one_face", 15, {150, 3}, Yield{165, 4}},
      {"selects", 8, {80, 2}, std::nullopt},
      {"selects", 2, {22, 1}, std::nullopt},
      {"no_1_common", 8, {64, 3}, Yield{72, 4}},
      {"no_1_common", 1, {12, 1}, std::nullopt},
      {"no_1_common", 2, {18, 1}, std::nullopt},
      {"no_1_common", 16, {128, 5}, std::nullopt},
      {"no_2a_common", 7, {42, 3}, Yield{56, 4}},
      {"no_2a_common", 1, {8, 1}, std::nullopt},
      {"no_2a_common", 16, {96, 7}, std::nullopt},
      {"no_2b_common", 7, {42, 3}, Yield{56, 4}},
      {"no_3a_common", 6, {24, std::nullopt}, std::nullopt},
      {"no_3b_common", 6, {18, std::nullopt}, std::nullopt},
  };
  for (const GradeCase& c : cases) {
    SCOPED_TRACE(c.grade + " " + std::to_string(c.surface));
    Grade grade = reference().grades.find(c.grade).value();
    grade.least_width = {};  // the rule for yields alone; least sizes are tested below
    const auto need = grade_need(grade, c.surface * 1_in, 12 * kFoot, false).value();
    EXPECT_EQ(need.surface_measure, c.surface);
    EXPECT_EQ(need.yield, c.yield);
    EXPECT_EQ(need.or_one_more, c.extra);
  }
}

struct LeastCase {
  std::string grade;
  double width_inches, length_feet;
  std::size_t cuttings;
};

// NH1 and NH2, verified.
TEST(PublishedBoards, LeastSizes) {
  const LeastCase cases[] = {{"fas", 6, 8, 2},
                             {"fas_one_face", 6, 8, 2},
                             {"selects", 4, 6, 2},
                             {"no_1_common", 3, 4, 2},
                             {"no_2a_common", 3, 4, 1},
                             {"no_3a_common", 3, 4, 1},
                             {"no_3b_common", 3, 4, 1}};
  for (const LeastCase& c : cases) {
    SCOPED_TRACE(c.grade);
    const Grade grade = reference().grades.find(c.grade).value();
    const Length width = Length::from_inches(c.width_inches);
    const Length length = Length::from_inches(12 * c.length_feet);
    EXPECT_TRUE(grade_need(grade, width, length, false).ok());
    EXPECT_FALSE(grade_need(grade, width - 0.25_in, length, false).ok());
    EXPECT_FALSE(grade_need(grade, width, length - 1_in, false).ok());
    EXPECT_EQ(grade.least_cuttings.size(), c.cuttings);
  }
  const Grade fas = reference().grades.find("fas").value();
  EXPECT_EQ(fas.least_cuttings[0].width, 4_in);
  EXPECT_EQ(fas.least_cuttings[0].length, 5 * kFoot);
  // NH1, verified: 36 square inches for No. 3B.
  const CuttingSize least = reference().grades.find("no_3b_common").value().least_cuttings[0];
  EXPECT_NEAR(least.width.inches() * least.length.inches(), 36, 1e-9);
}

// LS2, verified: a mill surfaces 4/4, 5/4 and 6/4 to 13/16, 1 1/16 and 1 5/16 in.
TEST(PublishedBoards, SurfacedThickness) {
  const auto surfaced = [](const char* id) {
    return reference().thicknesses.find(id).value().surfaced;
  };
  EXPECT_EQ(surfaced("4/4"), 0.8125_in);
  EXPECT_EQ(surfaced("5/4"), 1.0625_in);
  EXPECT_EQ(surfaced("6/4"), 1.3125_in);
}

}  // namespace
}  // namespace plankwright::wood
