#include "papers/page_text.h"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "papers/page_output.h"
#include "papers/picture.h"

namespace plankwright::papers {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(PageText, FontIsTheOneThePapersAreDrawnFor) {
  const FontReport report = check_font();
  EXPECT_EQ(report.wanted, "Inter");
  EXPECT_EQ(report.warning.empty(), report.found == report.wanted) << report.warning;
}

struct FractionCase {
  const char* text;
  std::vector<FractionPlace> found;
};

TEST(PageText, FindsFractionsOfARuleAndNothingElse) {
  const FractionCase cases[] = {
      {"34 7/8", {{0, 3, 6}}},
      {"34 7/8+", {{0, 3, 6}}},
      {"5' 2-1/2\"", {{0, 5, 8}}},
      {"at 12' 1/2\"", {{3, 7, 10}}},
      {"3/4", {{0, 0, 3}}},
      {"side 3/4 x 16 1/2 x 27 1/8", {{5, 5, 8}, {11, 14, 17}, {20, 23, 26}}},
      {"63/64-", {{0, 0, 5}}},
      {"cherry 4/4", {}},  // a thickness class
      {"8/4 oak", {}},
      {"sheet 3/12", {}},  // not a division of a rule
      {"12/03/2026", {}},
      {"1/2/2026", {}},
      {"and/or", {}},
      {"1/2.5", {}},
      {"2.1/2", {}},
      {"a1/2", {}},
      {"1/2in", {}},
      {"/2", {}},
      {"7/", {}},
      {"17/16", {}},
      {"99999999999999999999/2", {}},
  };
  for (const FractionCase& c : cases) {
    EXPECT_EQ(fractions_in(c.text), c.found) << c.text;
  }
}

TEST(PageText, LetterHeightIsTheHeightOfFigures) {
  // The ink of a 1 set 25 mm high, measured on the picture at 254 dots an inch: 10 dots a mm.
  Page page{{60, 60}};
  page.text({20, 20}, "1", kSawFigures);
  const Picture picture = read_png(to_png(page, 254));
  const auto [top, bottom] = picture.inked_rows();
  EXPECT_NEAR(bottom - top, 250, 3);
  EXPECT_NEAR(top, 200, 3);
}

TEST(PageText, SizeGrowsWithTextAndLines) {
  const TextSize one = text_size("stile", kBodyText);
  const TextSize two = text_size("stile\nstile", kBodyText);
  EXPECT_EQ(one.lines, 1);
  EXPECT_EQ(two.lines, 2);
  EXPECT_NEAR(two.width, one.width, 1e-9);
  EXPECT_NEAR(two.height - one.height, kBodyText.letter_height * kBodyText.line_pitch, 1e-9);
  TextStyle twice = kBodyText;
  twice.letter_height *= 2;
  twice.line_pitch = kBodyText.line_pitch;
  EXPECT_NEAR(text_size("mm", twice).width, 2 * text_size("mm", kBodyText).width, 0.3);
}

TEST(PageText, TabularFiguresAreAllEquallyWide) {
  const double ones = text_size("1111", kNumberText).width;
  EXPECT_NEAR(text_size("8888", kNumberText).width, ones, 1e-3);
  EXPECT_NEAR(text_size("4092", kNumberText).width, ones, 1e-3);
}

TEST(PageText, BreaksBetweenWords) {
  EXPECT_THAT(broken_lines("one two", kBodyText, text_size("one tw", kBodyText).width),
              ElementsAre("one", "two"));
  EXPECT_THAT(broken_lines("one two", kBodyText, 100), ElementsAre("one two"));
  EXPECT_THAT(broken_lines("one\ntwo", kBodyText, 100), ElementsAre("one", "two"));
  EXPECT_THAT(broken_lines("", kBodyText, 100), ElementsAre(""));
}

// A size is never parted from its fraction by the end of a line: 34 would be read for 34 7/8.
RC_GTEST_PROP(PageText, NeverBreaksASize, ()) {
  const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "a", "rail", "34 7/8", "5' 2-1/2\"", "of", "between", "1 3/64+"));
  const double width = *rc::gen::inRange(18, 70);
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : " ") + word;
  }
  std::string again;
  for (const std::string& line : broken_lines(text, kBodyText, width)) {
    RC_ASSERT(line.empty() || (!line.ends_with("34") && !line.ends_with("5'")));
    RC_ASSERT(!line.starts_with("7/8") && !line.starts_with("2-") && !line.starts_with("3/64"));
    RC_ASSERT(text_size(line, kBodyText).width <= width + 0.01);
    again += (again.empty() ? "" : " ") + line;
  }
  RC_ASSERT(again == text);
}

}  // namespace
}  // namespace plankwright::papers
