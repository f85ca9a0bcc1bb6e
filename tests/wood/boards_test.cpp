// Thickness classes, surface measure and grades.

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "wood/board_measure.h"
#include "wood/grades.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::operator""_in;
using testing::reference;

struct ClassCase {
  Length finished;
  std::string id;
};

TEST(ClassFor, IsTheThinnestThatPlanesToSize) {
  const ClassCase cases[] = {{0.75_in, "4/4"},
                             {0.8125_in, "4/4"},
                             {0.875_in, "5/4"},
                             {1.0625_in, "5/4"},
                             {1.26_in, "6/4"},
                             {1.75_in, "8/4"},
                             {3.75_in, "16/4"}};
  for (const ClassCase& c : cases) {
    EXPECT_EQ(class_for(reference().thicknesses, c.finished).value().id, c.id);
  }
  const auto too_thick = class_for(reference().thicknesses, 4_in);
  ASSERT_FALSE(too_thick.ok());
  EXPECT_EQ(too_thick.error().code, base::ErrorCode::kDoesNotFit);
  EXPECT_EQ(too_thick.error().message, "no thickness class planes to 101.6 mm (4.000 in)");
}

TEST(SurfaceMeasure, RoundsAHalfUpAndDropsPartsOfAFoot) {
  EXPECT_EQ(surface_measure(6_in, 9 * 12_in), 5);            // 4.5
  EXPECT_EQ(surface_measure(6_in, 9 * 12_in + 11.9_in), 5);  // 9 ft are counted
  EXPECT_EQ(surface_measure(5.999999_in, 9 * 12_in), 4);     // 4.49
  EXPECT_EQ(surface_measure(Length{}, 96_in), 0);
  EXPECT_EQ(surface_measure(6_in, 11_in), 0);
}

TEST(SurfaceMeasure, StaysWithinHalfAFootOfTheFace) {
  EXPECT_TRUE(rc::check([] {
    const double width = *rc::gen::inRange(8, 200) / 8.0;
    const int feet = *rc::gen::inRange(1, 17);
    const int measured = surface_measure(Length::from_inches(width), feet * 12_in);
    RC_ASSERT(std::abs(measured - width * feet / 12.0) <= 0.5);
  }));
}

TEST(BoardFeet, CountThinBoardsAsOneInch) {
  EXPECT_DOUBLE_EQ(board_feet(12_in, 12_in, 0.5_in), 1.0);
  EXPECT_DOUBLE_EQ(tally_board_feet(12_in, 96_in, 0.75_in), 8.0);
  EXPECT_DOUBLE_EQ(tally_board_feet(12_in, 96_in, 1.25_in), 10.0);
}

Grade grade(const std::string& id) {
  return reference().grades.find(id).value();
}

TEST(GradeNeed, RefusesBoardsUnderTheLeastSize) {
  const auto narrow = grade_need(grade("fas"), 5.75_in, 96_in, false);
  ASSERT_FALSE(narrow.ok());
  EXPECT_EQ(narrow.error().code, base::ErrorCode::kDoesNotFit);
  EXPECT_EQ(narrow.error().message,
            "a board 5.75 in x 8.00 ft is under the least size of Firsts and seconds, 6 in x 8 ft");
  EXPECT_TRUE(grade_need(grade("fas"), 5.75_in, 96_in, true).ok());
  EXPECT_FALSE(grade_need(grade("fas"), 5.25_in, 96_in, true).ok());
  EXPECT_FALSE(grade_need(grade("fas"), 6_in, 95_in, false).ok());
}

TEST(GradeNeed, LeavesLongBoardsToTheirOwnRule) {
  EXPECT_TRUE(grade_need(grade("fas"), 8_in, 16 * 12_in, false).ok());
  EXPECT_EQ(grade_need(grade("fas"), 8_in, 17 * 12_in, false).error().code,
            base::ErrorCode::kOutOfTable);
}

TEST(GradeNeed, AsksMoreOfSmallBoards) {
  // 3 in x 4 ft is 1 square foot: all of it clear for No. 1 common.
  const auto one_foot = grade_need(grade("no_1_common"), 3_in, 48_in, false).value();
  EXPECT_EQ(one_foot.yield, (Yield{.units = 12, .cuttings = 1}));
  EXPECT_FALSE(one_foot.or_one_more.has_value());
}

TEST(GradeNeed, PutsNoLimitOnCuttingsOfTheLowestGrades) {
  const auto need = grade_need(grade("no_3a_common"), 6_in, 120_in, false).value();
  EXPECT_EQ(need.yield, (Yield{.units = 20, .cuttings = std::nullopt}));
}

TEST(Grades, AskLessFromBestToWorst) {
  int better = 12;
  for (const Grade& row : reference().grades.rows()) {
    EXPECT_LE(row.yield_twelfths, better) << row.id;
    EXPECT_FALSE(row.least_cuttings.empty()) << row.id;
    better = row.yield_twelfths;
  }
  EXPECT_NEAR(promised_yield(grade("no_1_common")), 0.667, 0.001);
}

// The extra cutting is never a free gift: it must give more clear wood than the usual way.
TEST(GradeNeed, PaysForTheExtraCutting) {
  EXPECT_TRUE(rc::check([] {
    const auto& rows = reference().grades.rows();
    const Grade& row = rows[*rc::gen::inRange<std::size_t>(0, rows.size())];
    const auto need = grade_need(row,
                                 Length::from_inches(*rc::gen::inRange(3, 20)),
                                 *rc::gen::inRange(4, 17) * 12_in,
                                 *rc::gen::arbitrary<bool>());
    if (!need.ok()) {
      return;
    }
    RC_ASSERT(need.value().yield.units <= 12 * need.value().surface_measure);
    if (const auto& extra = need.value().or_one_more) {
      RC_ASSERT(extra->units > need.value().yield.units);
      RC_ASSERT(*extra->cuttings == *need.value().yield.cuttings + 1);
    }
  }));
}

TEST(ReadGrades, RefusesCuttingsItCannotRead) {
  std::string text = testing::data_text("board_grades.csv").value();
  text.replace(text.find("4x5 3x7"), 7, "4x5 3by7");
  const auto read = read_grades(text, "board_grades.csv");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(base::describe(read.error()),
            "board_grades.csv:7:28: error: expected two numbers with `x` between\n");
}

}  // namespace
}  // namespace plankwright::wood
