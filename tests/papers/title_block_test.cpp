#include "papers/title_block.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "papers/paper_tools.h"

namespace plankwright::papers {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsSupersetOf;

SheetInfo info() {
  return {.legal_owner = "Low Bridge Joinery",
          .title = "Hall cabinet",
          .part_title = "Leg, front left",
          .document_type = "part drawing",
          .identification = "2026-014",
          .revision = "B",
          .date = test_info().date,
          .created_by = "T. Amble",
          .approved_by = "R. Winnow",
          .scale = "1 1/2\" = 1'",
          .projection = Projection::kThirdAngle};
}

std::vector<std::string> words_on(const Page& page) {
  std::vector<std::string> words;
  for (const TextMark& mark : texts_of(page)) {
    words.push_back(mark.text);
  }
  return words;
}

TEST(TitleBlock, CarriesTheFieldsOfTheStandard) {
  // The mandatory fields of ISO 7200 and those a drawing needs besides (from memory).
  Paper paper{test_info(), {}};
  SheetSet sheets{paper, kA4};
  sheets.add(info());
  sheets.finish();
  EXPECT_THAT(words_on(paper.pages.front()),
              IsSupersetOf({"Legal owner",
                            "Low Bridge Joinery",
                            "Title",
                            "Hall cabinet",
                            "Leg, front left",
                            "Document type",
                            "part drawing",
                            "Identification number",
                            "2026-014",
                            "Revision",
                            "B",
                            "Date of issue",
                            "2026-03-14",
                            "Created by",
                            "T. Amble",
                            "Approved by",
                            "R. Winnow",
                            "Scale",
                            "1 1/2\" = 1'",
                            "Sheet",
                            "1/1"}));
  EXPECT_EQ(paper.pages.front().bookmark(), "Leg, front left");
}

TEST(TitleBlock, SheetsAreNumberedTogetherWhoeverMakesThem) {
  Paper paper{test_info(), {}};
  SheetSet sheets{paper, kUsLetter};
  sheets.add(info());
  Flow flow = sheets.flow(info());
  for (int i = 0; i < 100; ++i) {
    flow.paragraph("one more line of the list");
  }
  sheets.add_landscape(info());
  sheets.last().scale = "full size";
  sheets.finish();
  ASSERT_GT(paper.pages.size(), 3U);
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    EXPECT_THAT(words_on(paper.pages[i]),
                Contains(fmt::format("{}/{}", i + 1, paper.pages.size())));
  }
  EXPECT_THAT(words_on(paper.pages.back()), Contains("full size"));
  EXPECT_EQ(paper.pages.back().size(), landscape(kUsLetter));
}

// Whatever is written into the fields, nothing runs out of the frame or over its neighbour, and the
// room for the drawing stays clear.
TEST(TitleBlock, LongEntriesStayInTheirFields) {
  SheetInfo wordy = info();
  wordy.legal_owner = "The Low Bridge and Upper Millrace Joinery and Boatbuilding Workshop";
  wordy.title =
      "Hall cabinet with two doors, four graded drawers and an arched rail for the mill house";
  wordy.part_title = "Case side, left, seen from inside with housings and the rabbet for the back";
  wordy.document_type = "part drawing with marking-out from one datum";
  wordy.identification = "2026-014-MILLRACE-HALL-0001";
  wordy.created_by = "Theodora Amble-Featherstonehaugh";
  wordy.approved_by = "Roderick Winnow-Cholmondeley";
  wordy.revision = "B12";
  for (const PageSize size : {kA4, kUsLetter, landscape(kA4), landscape(kUsLetter)}) {
    Paper paper{test_info(), {}};
    SheetSet sheets{paper, size};
    sheets.add(wordy);
    sheets.finish();
    const Page& page = paper.pages.front();
    const auto boxes = text_boxes(page);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      EXPECT_TRUE(page.area().inset(9.9).contains(boxes[i])) << texts_of(page)[i].text;
      EXPECT_FALSE(sheet_area(size).overlaps(boxes[i])) << texts_of(page)[i].text;
      for (std::size_t j = 0; j < i; ++j) {
        EXPECT_FALSE(boxes[i].overlaps(boxes[j]))
            << texts_of(page)[i].text << " over " << texts_of(page)[j].text;
      }
    }
  }
}

TEST(TitleBlock, ExtractsFromTheFileInsideThePage) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler-utils is not installed";
  }
  Paper paper{test_info(), {}};
  SheetSet sheets{paper, kA4};
  sheets.add(info());
  sheets.add_landscape(info());
  sheets.finish();
  const PdfFile file{paper};
  EXPECT_THAT(file.text(), HasSubstr("2026-014"));
  EXPECT_THAT(file.text(), HasSubstr("2/2"));
  const auto words = words_of(file);
  EXPECT_GT(words.size(), 40U);
  constexpr double kMillimetre = 72 / 25.4;
  for (const FoundWord& word : words) {
    const PageSize size = paper.pages[static_cast<std::size_t>(word.page)].size();
    EXPECT_GE(word.left, 20 * kMillimetre) << word.text;
    EXPECT_LE(word.right, (size.width - 10) * kMillimetre) << word.text;
    EXPECT_LE(word.bottom, (size.height - 10) * kMillimetre) << word.text;
  }
}

}  // namespace
}  // namespace plankwright::papers
