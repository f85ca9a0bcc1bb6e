#include "papers/page_output.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "papers/paper_tools.h"
#include "papers/picture.h"

namespace plankwright::papers {
namespace {

using testing::HasSubstr;
using testing::Not;

// Something of everything, on two sizes of paper.
Paper sample() {
  Paper paper{test_info(), {}};
  Page& page = paper.pages.emplace_back(kA4);
  page.set_bookmark("Settings");
  page.text({20, 20}, "Shelf 34 7/8+ long, No. 3", kBodyText);
  page.text({20, 30}, "57 3/16", kSawFigures);
  page.text({30, 120}, "reads from the right", kHeadingText, {.turn = 90});
  page.text({190, 70},
            "\u00d8 8 \u00d7 40 \u20ac \u2300 M\u00fcller",
            kBodyText,
            {.align = Align::kRight});
  page.line({20, 150}, {120, 150}, kOutlinePen);
  page.polyline({{20, 160}, {60, 170}, {120, 160}}, kHiddenPen);
  page.rectangle({130, 150, 40, 30}, kShade, kFramePen);
  page.circle({150, 220}, 20, kAccent);
  page.arc({80, 220}, 20, 0, 90, kAccentPen);
  page.clip({20, 250, 20, 10});
  page.rectangle({0, 240, 200, 30}, kPencil);
  page.unclip();
  paper.pages.emplace_back(landscape(kUsLetter)).text({15, 15}, "second page", kBodyText);
  return paper;
}

TEST(PageOutput, EqualPapersGiveEqualBytes) {
  const std::string first = to_pdf(sample());
  EXPECT_EQ(first, to_pdf(sample()));
  EXPECT_EQ(first.substr(0, 5), "%PDF-");
  EXPECT_EQ(to_png(sample().pages.front(), 60), to_png(sample().pages.front(), 60));
}

TEST(PageOutput, TextIsTextAndFontsTravelWithTheFile) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler-utils is not installed";
  }
  const PdfFile file{sample()};
  const std::string text = file.text();
  EXPECT_THAT(text, HasSubstr("Shelf 34 7/8+ long, No. 3"));
  EXPECT_THAT(text, HasSubstr("57 3/16"));
  EXPECT_THAT(text, HasSubstr("\u00d8 8 \u00d7 40 \u20ac"));
  EXPECT_THAT(text, HasSubstr("M\u00fcller"));
  EXPECT_THAT(text, HasSubstr("second page"));

  std::istringstream fonts{file.fonts()};
  std::string line;
  std::getline(fonts, line);
  std::getline(fonts, line);
  int count = 0;
  while (std::getline(fonts, line)) {
    ++count;
    EXPECT_THAT(line, HasSubstr("yes yes")) << "embedded and cut down to the letters used";
  }
  EXPECT_GT(count, 0);
  if (check_font().warning.empty()) {
    EXPECT_THAT(file.fonts(), HasSubstr("Inter"));
  }
}

TEST(PageOutput, SaysWhatItIsAndHowLarge) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler-utils is not installed";
  }
  const PdfFile file{sample()};
  const std::string info = output_of("TZ=UTC pdfinfo -l 2 " + file.name());
  EXPECT_THAT(info, HasSubstr("Hall cabinet"));
  EXPECT_THAT(info, HasSubstr("Low Bridge Joinery"));
  EXPECT_THAT(info, HasSubstr("Mar 14"));
  EXPECT_THAT(info, HasSubstr("2026"));
  EXPECT_THAT(info, HasSubstr("Page    1 size:  595.276 x 841.89 pts (A4)"));
  EXPECT_THAT(info, HasSubstr("Page    2 size:  792 x 612 pts"));
}

TEST(PageOutput, TextStandsWhereItsBoxSays) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler-utils is not installed";
  }
  Paper paper{test_info(), {}};
  Page& page = paper.pages.emplace_back(kA4);
  const Rectangle box = page.text({100, 50}, "dovetail", kTitleText, {.align = Align::kCentre});
  const auto words = words_of(PdfFile{paper});
  ASSERT_EQ(words.size(), 1U);
  EXPECT_EQ(words[0].text, "dovetail");
  constexpr double kMillimetre = 72 / 25.4;
  EXPECT_NEAR(words[0].left / kMillimetre, box.x, 0.2);
  EXPECT_NEAR(words[0].right / kMillimetre, box.right(), 0.4);
  EXPECT_LT(words[0].top / kMillimetre, box.y + 0.01);  // poppler's box is the whole line
}

TEST(PageOutput, PictureAndPdfShowTheSame) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler-utils is not installed";
  }
  const Paper paper = sample();
  const PdfFile file{paper};
  constexpr int kDots = 75;
  const Picture own = read_png(to_png(paper.pages.front(), kDots));
  const Picture theirs = read_pgm(
      output_of("pdftoppm -f 1 -l 1 -gray -r " + std::to_string(kDots) + " " + file.name()));
  ASSERT_NEAR(own.width, theirs.width, 1);
  ASSERT_NEAR(own.height, theirs.height, 1);
  const auto a = ink_by_field(own, 24);
  const auto b = ink_by_field(theirs, 24);
  double most = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_NEAR(a[i], b[i], 0.04) << "field " << i;
    most = std::max(most, a[i]);
  }
  EXPECT_GT(most, 0.3);  // there is something to compare
}

TEST(PageOutput, TurnedTextBoxHoldsTheInk) {
  for (const double turn : {0.0, 30.0, 90.0, 180.0, -45.0}) {
    Page page{{100, 100}};
    const Rectangle box = page.text({50, 50}, "Hinge 3/8", kTitleText, {.turn = turn});
    const Picture picture = read_png(to_png(page, 127));  // 5 dots a mm
    int inside = 0;
    int outside = 0;
    for (int y = 0; y < picture.height; ++y) {
      for (int x = 0; x < picture.width; ++x) {
        const bool held = box.inset(-0.4).contains({x / 5.0, y / 5.0, 0, 0});
        (held ? inside : outside) += picture.at(x, y) < 128 ? 1 : 0;
      }
    }
    EXPECT_EQ(outside, 0) << turn;
    EXPECT_GT(inside, 500) << turn;
  }
}

TEST(PageOutput, NothingPrintsOutsideAClip) {
  Page page{{50, 50}};
  page.clip({10, 10, 10, 10});
  page.rectangle({0, 0, 50, 50}, kPencil);
  page.unclip();
  page.rectangle({40, 40, 5, 5}, kPencil);
  const Picture picture = read_png(to_png(page, 25.4));
  EXPECT_GT(picture.at(5, 5), 200);
  EXPECT_LT(picture.at(15, 15), 100);
  EXPECT_LT(picture.at(42, 42), 100);
}

}  // namespace
}  // namespace plankwright::papers
