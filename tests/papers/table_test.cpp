#include "papers/table.h"

#include <algorithm>
#include <map>
#include <numeric>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "papers/paper_tools.h"

namespace plankwright::papers {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr PageSize kCard{120, 100};

Flow flow_on(Paper& paper) {
  return {paper, kCard, [](Page& page, int) { return page.area().inset(10); }};
}

Table parts_table() {
  Table table;
  table.columns = {
      {"Mark", ColumnWidth::fit()}, {"Part"}, {"Length", ColumnWidth::fit(), Align::kRight, true}};
  table.empty_text = "Nothing to cut.";
  return table;
}

// The texts of all pages that begin with `sign`, with their pages.
std::vector<std::pair<int, std::string>> found(const Paper& paper, std::string_view sign) {
  std::vector<std::pair<int, std::string>> texts;
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    for (const TextMark& mark : texts_of(paper.pages[i])) {
      if (mark.text.starts_with(sign)) {
        texts.emplace_back(static_cast<int>(i), mark.text);
      }
    }
  }
  return texts;
}

// Everything inside the body and nothing over anything else.
void expect_in_order(const Paper& paper) {
  for (const Page& page : paper.pages) {
    const auto boxes = text_boxes(page);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      RC_ASSERT(page.area().inset(9.99).contains(boxes[i]));
      for (std::size_t j = 0; j < i; ++j) {
        RC_ASSERT(!boxes[i].inset(0.01).overlaps(boxes[j].inset(0.01)));
      }
    }
  }
}

rc::Gen<std::string> words(int most) {
  return rc::gen::map(rc::gen::inRange(0, most), [](int count) {
    std::string text;
    for (int i = 0; i < count; ++i) {
      text += i == 0 ? "" : " ";
      text += i % 3 == 0 ? "front" : i % 3 == 1 ? "rail" : "of";
    }
    return text;
  });
}

RC_GTEST_PROP(Table, LosesNoRowAndKeepsTheirOrder, ()) {
  const int count = *rc::gen::inRange(1, 60);
  Table table = parts_table();
  for (int i = 0; i < count; ++i) {
    Row row{{{fmt::format("A{}", i)}, {*words(30)}, {"34 7/8"}}};
    row.cells[1].note = *words(6);
    row.keep_with_next = *rc::gen::inRange(0, 4) == 0;
    table.rows.push_back(row);
  }
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  set_table(flow, table);
  std::vector<std::string> wanted;
  for (int i = 0; i < count; ++i) {
    wanted.push_back(fmt::format("A{}", i));
  }
  std::vector<std::string> marks;
  for (const auto& [page, text] : found(paper, "A")) {
    marks.push_back(text);
  }
  RC_ASSERT(marks == wanted);
  // The header stands on every page, once.
  std::map<int, int> headers;
  for (const auto& [page, text] : found(paper, "Length")) {
    ++headers[page];
  }
  RC_ASSERT(headers.size() == paper.pages.size());
  RC_ASSERT(std::ranges::all_of(headers, [](const auto& h) { return h.second == 1; }));
  expect_in_order(paper);
}

RC_GTEST_PROP(Table, KeepsGroupsTogetherWhereTheyFit, ()) {
  // Groups of a heading and up to five rows: each is lower than a page, so none is parted.
  Table table = parts_table();
  const auto sizes =
      *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 6)));
  for (std::size_t g = 0; g < sizes.size(); ++g) {
    table.rows.push_back({{{fmt::format("group {}", g)}}, Row::Kind::kHeading});
    for (int i = 0; i < sizes[g]; ++i) {
      table.rows.push_back(
          {{{fmt::format("g{}", g)}, {"rail"}, {"1"}}, Row::Kind::kPlain, i + 1 < sizes[g]});
    }
  }
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  set_table(flow, table);
  for (std::size_t g = 0; g < sizes.size(); ++g) {
    const auto heads = found(paper, fmt::format("group {}", g));
    const auto rows = found(paper, fmt::format("g{}", g));
    const auto on_page = std::ranges::find_if(
        heads, [&](const auto& h) { return h.second == fmt::format("group {}", g); });
    RC_ASSERT(on_page != heads.end());
    for (const auto& [page, text] : rows) {
      RC_ASSERT(text != fmt::format("g{}", g) || page == on_page->first);
    }
  }
  expect_in_order(paper);
}

RC_GTEST_PROP(Table, ARowHigherThanAPageIsBrokenBetweenLines, ()) {
  Table table = parts_table();
  const int count = *rc::gen::inRange(100, 700);
  std::string text;
  for (int i = 0; i < count; ++i) {
    text += fmt::format("w{}{}", i, i + 1 < count ? " " : "");
  }
  table.rows = {{{{"first"}, {"short"}, {"1"}}}, {{{"long"}, {text}, {"2"}}}};
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  set_table(flow, table);
  std::string again;
  for (const auto& [page, part] : found(paper, "w")) {
    again += fmt::format("{}{}", again.empty() ? "" : " ", part);
  }
  std::ranges::replace(again, '\n', ' ');
  RC_ASSERT(again == text);
  expect_in_order(paper);
}

TEST(Table, WithoutRowsItSaysSo) {
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  set_table(flow, parts_table());
  EXPECT_EQ(found(paper, "Nothing to cut.").size(), 1U);
  EXPECT_EQ(found(paper, "Mark").size(), 1U);
  EXPECT_EQ(paper.pages.size(), 1U);
}

TEST(Table, TotalStaysWithTheRowBeforeIt) {
  for (int rows = 1; rows < 40; ++rows) {
    Table table = parts_table();
    for (int i = 0; i < rows; ++i) {
      table.rows.push_back({{{"A"}, {"rail"}, {fmt::format("{}", i)}}});
    }
    table.rows.push_back({{{""}, {"together"}, {"40"}}, Row::Kind::kTotal});
    Paper paper{test_info(), {}};
    Flow flow = flow_on(paper);
    set_table(flow, table);
    EXPECT_EQ(found(paper, "together").front().first, found(paper, "A").back().first) << rows;
  }
}

TEST(Table, FiguresAreNeverBrokenButSetSmaller) {
  Table table;
  table.columns = {{"Setting", ColumnWidth::fixed(30), Align::kRight, true, kSawFigures},
                   {"Parts"}};
  table.rows = {{{{"1234.5"}, {"case side"}}}};
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  set_table(flow, table);
  const auto texts = texts_of(paper.pages.front());
  const auto figure =
      std::ranges::find_if(texts, [](const TextMark& t) { return t.text == "1234.5"; });
  ASSERT_NE(figure, texts.end());
  EXPECT_LT(figure->style.letter_height, kSawFigures.letter_height);
  EXPECT_EQ(text_size(figure->text, figure->style, figure->place.width).lines, 1);
}

TEST(Table, ColumnWidthsFillTheRoomAndFitTheirText) {
  Table table = parts_table();
  table.rows = {{{{"A1"}, {"rail"}, {"34 7/8"}}}};
  const auto widths = column_widths(table, 100);
  EXPECT_NEAR(std::accumulate(widths.begin(), widths.end(), 0.0), 100, 1e-9);
  TextStyle numbers = table.style;
  numbers.tabular = true;
  EXPECT_GT(widths[2], text_size("34 7/8", numbers).width);
  table.columns = {
      {"", ColumnWidth::fixed(20)}, {"", ColumnWidth::share(1)}, {"", ColumnWidth::share(3)}};
  EXPECT_THAT(column_widths(table, 100), ElementsAre(20, 20, 60));
}

TEST(Table, ComesOutWholeInTheFile) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler-utils is not installed";
  }
  Table table = parts_table();
  for (int i = 0; i < 50; ++i) {
    table.rows.push_back({{{fmt::format("A{:02}", i)}, {"rail"}, {fmt::format("{} 7/8", i)}}});
  }
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  set_table(flow, table);
  EXPECT_GT(paper.pages.size(), 2U);
  const PdfFile file{paper};
  const std::string text = file.text();
  for (int i = 0; i < 50; ++i) {
    EXPECT_THAT(text, HasSubstr(fmt::format("A{:02}", i)));
    EXPECT_THAT(text, HasSubstr(fmt::format("{} 7/8", i)));
  }
}

TEST(Flow, ParagraphsRunOnFromPageToPage) {
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  std::string text;
  for (int i = 0; i < 600; ++i) {
    text += fmt::format("w{} ", i);
  }
  flow.paragraph(text);
  std::string again;
  for (const auto& [page, line] : found(paper, "w")) {
    again += fmt::format("{} ", line);
  }
  EXPECT_EQ(again, text);
  EXPECT_GT(paper.pages.size(), 2U);
}

TEST(Flow, AHeadingIsNotLeftAtTheFootOfAPage) {
  for (int lines = 1; lines < 40; ++lines) {
    Paper paper{test_info(), {}};
    Flow flow = flow_on(paper);
    for (int i = 0; i < lines; ++i) {
      flow.paragraph("line");
    }
    flow.heading("Heading");
    flow.paragraph("text below");
    EXPECT_EQ(found(paper, "Heading").front().first, found(paper, "text below").front().first);
  }
}

TEST(Flow, TakesWhatIsHigherThanAPageOnAPageOfItsOwn) {
  Paper paper{test_info(), {}};
  Flow flow = flow_on(paper);
  flow.take(10);
  EXPECT_EQ(flow.take(500).y, 10);
  EXPECT_EQ(paper.pages.size(), 2U);
  flow.take(5);
  EXPECT_EQ(paper.pages.size(), 3U);
}

}  // namespace
}  // namespace plankwright::papers
