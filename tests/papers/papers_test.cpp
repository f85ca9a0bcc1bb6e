// The papers of the three examples as the outside reads them (poppler's tools), and as pages: what
// stands on them and what must not.

#include "papers/papers.h"

#include <algorithm>
#include <cctype>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "paper_tools.h"
#include "papers/client_text.h"
#include "papers/paper_pages.h"
#include "papers/title_block.h"
#include "papers/wording.h"
#include "planned_example.h"

namespace plankwright::papers {
namespace {

using testing::HasSubstr;
using testing::Not;

class ExamplePapers : public testing::TestWithParam<const char*> {
 protected:
  const plan::Plan& plan() const { return example_plan(GetParam()); }
  // Drawn once for all tests.
  const Paper& packet() const {
    static std::map<std::string, Paper> papers;
    const auto found = papers.find(GetParam());
    return found != papers.end()
               ? found->second
               : papers.emplace(GetParam(), shop_packet_pages(plan())).first->second;
  }
  const Paper& quotation_paper() const {
    static std::map<std::string, Paper> papers;
    const auto found = papers.find(GetParam());
    return found != papers.end()
               ? found->second
               : papers.emplace(GetParam(), quotation_pages(plan())).first->second;
  }
};

INSTANTIATE_TEST_SUITE_P(All, ExamplePapers, testing::ValuesIn(kExamples), [](const auto& example) {
  return std::string{example.param};
});

/// Text as it reads when lines are joined, in small letters, with figures' fractions as typed.
std::string read_text(const std::string& bytes, const std::string& name) {
  const std::string path = temporary_file(name);
  std::ofstream{path, std::ios::binary} << bytes;
  const std::string text = output_of("pdftotext -layout " + path + " -");
  std::remove(path.c_str());
  return text;
}

std::string lower(std::string text) {
  std::ranges::transform(
      text, text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

std::set<std::string> texts_on(const Page& page) {
  std::set<std::string> all;
  for (const TextMark& mark : texts_of(page)) {
    all.insert(mark.text);
  }
  return all;
}

/// All text of a paper, one mark a line.
std::string all_text(const Paper& paper) {
  std::string all;
  for (const Page& page : paper.pages) {
    for (const TextMark& mark : texts_of(page)) {
      all += mark.text + "\n";
    }
  }
  return all;
}

TEST_P(ExamplePapers, QuotationTellsTheClientWhatIsBoughtAndNothingOfTheShop) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler's tools are not installed";
  }
  const std::string text = read_text(quotation(plan()), "quotation");
  EXPECT_THAT(text, HasSubstr(plan().commission.client.name));
  EXPECT_THAT(text, HasSubstr(plan().commission.number));
  EXPECT_THAT(text, HasSubstr(money(plan(), plan().price.price)));
  EXPECT_THAT(text, HasSubstr(money(plan(), plan().price.tax)));
  EXPECT_THAT(text, HasSubstr(money(plan(), plan().price.total)));
  EXPECT_THAT(text, HasSubstr(long_date(*valid_until(plan()))));
  for (const price::Payment& payment : plan().price.payments) {
    EXPECT_THAT(text, HasSubstr(money(plan(), payment.with_tax)));
  }
  for (const ClientLine& choice : choices_taken(plan())) {
    EXPECT_THAT(text, HasSubstr(choice.says.substr(0, 20)));
  }
  EXPECT_THAT(text, HasSubstr("Signature"));
  const std::string small = lower(text);
  for (const char* inner :
       {"hour", "margin", "markup", "cost", "overhead", "reserve", "lognormal"}) {
    EXPECT_THAT(small, Not(HasSubstr(inner)));
  }
  EXPECT_THAT(text, Not(HasSubstr(money(plan(), plan().price.cost))));
  for (const stock::Purchase& purchase : plan().stock.purchases) {
    if (!purchase.supplier.empty()) {
      EXPECT_THAT(text, Not(HasSubstr(purchase.supplier)));
    }
  }
}

TEST_P(ExamplePapers, PaymentsAddUpToTheTotal) {
  measure::Money sum;
  for (const price::Payment& payment : plan().price.payments) {
    sum += payment.with_tax;
  }
  EXPECT_EQ(sum, plan().price.total);
}

TEST_P(ExamplePapers, ShopPacketNamesEveryPartAndEveryPurchase) {
  if (!have_pdf_tools()) {
    GTEST_SKIP() << "poppler's tools are not installed";
  }
  const std::string text = read_text(shop_packet(plan()), "packet");
  for (const piece::PartLine& line : piece::part_lines(plan().piece)) {
    EXPECT_THAT(text, testing::ContainsRegex("(^|[^A-Z0-9])" + line.code + "([^0-9]|$)"));
  }
  for (const stock::Purchase& purchase : plan().stock.purchases) {
    EXPECT_THAT(text, HasSubstr(measure::print(*purchase.order_by)));
  }
  EXPECT_THAT(text, HasSubstr("To settle before the first cut"));
}

TEST_P(ExamplePapers, PartsListHasALineForEveryCode) {
  const Paper& paper = packet();
  std::set<std::string> listed_codes;
  for (const Page& page : paper.pages) {
    if (texts_on(page).contains("Cut length")) {
      listed_codes.merge(texts_on(page));
    }
  }
  for (const piece::PartLine& line : piece::part_lines(plan().piece)) {
    EXPECT_TRUE(listed_codes.contains(line.code)) << line.code;
  }
}

TEST_P(ExamplePapers, EveryPieceOnEverySheetIsLabelledWithItsCode) {
  const Paper& paper = packet();
  std::map<std::string, int> labelled;
  for (const Page& page : paper.pages) {
    if (texts_on(page).contains("Sheet layout")) {
      for (const TextMark& mark : texts_of(page)) {
        ++labelled[mark.text.substr(0, mark.text.find(' '))];
      }
    }
  }
  for (const stock::SheetNeed& need : plan().stock.sheets) {
    for (const stock::SheetLayout& layout : need.layouts) {
      for (const stock::SheetPiece& piece : layout.pieces) {
        EXPECT_GT(labelled[plan().piece.parts[piece.part].code], 0);
      }
    }
  }
}

TEST_P(ExamplePapers, EveryStepHasItsCard) {
  const std::string text = all_text(packet());
  for (const bench::Operation& operation : plan().bench.operations) {
    EXPECT_THAT(text, HasSubstr(operation.name + "\n"));
    EXPECT_THAT(text, HasSubstr(operation.says));
    EXPECT_LE(operation.cautions.size(), 3U);
    for (const std::string& caution : operation.cautions) {
      EXPECT_THAT(text, HasSubstr(caution));
    }
  }
}

TEST_P(ExamplePapers, MarkingSheetsHoldEveryFamilyOnFewPages) {
  std::size_t sheets = 0;
  std::string text;
  for (const Page& page : packet().pages) {
    if (texts_on(page).contains("Marking sheet")) {
      ++sheets;
      for (const TextMark& mark : texts_of(page)) {
        text += mark.text + "\n";
      }
    }
  }
  EXPECT_GE(sheets, 1U);
  EXPECT_LE(sheets, 7U);
  for (const bench::MarkedFamily& family : plan().bench.marking.families) {
    EXPECT_THAT(text, HasSubstr(codes(plan(), family.parts)));
  }
  for (const bench::JointSetting& setting : plan().bench.marking.settings) {
    EXPECT_THAT(lower(text), HasSubstr(setting.what));
  }
}

TEST_P(ExamplePapers, SettingListSaysWhatTheOrderComesTo) {
  const std::string text = all_text(packet());
  const bench::SettingOrder& order = plan().bench.order;
  EXPECT_THAT(text, HasSubstr(std::to_string(order.planned.settings) + " settings"));
  EXPECT_THAT(text,
              HasSubstr(order.proven ? "No order takes less" : "No order can take less than"));
}

TEST_P(ExamplePapers, EveryFindingStandsOnTheCoverWorstFirst) {
  const std::string text = all_text(packet());
  std::size_t last = 0;
  for (const checks::Finding& finding : plan().findings.open) {
    const std::size_t at = text.find(finding.title);
    ASSERT_NE(at, std::string::npos) << finding.title;
    EXPECT_GE(at, last);
    last = at;
  }
}

TEST_P(ExamplePapers, EverySheetOfThePacketHasItsTitleBlock) {
  const Paper& paper = packet();
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    const auto texts = texts_on(paper.pages[i]);
    EXPECT_TRUE(texts.contains("Identification number"));
    EXPECT_TRUE(texts.contains(plan().commission.number));
    EXPECT_TRUE(texts.contains(std::to_string(i + 1) + "/" + std::to_string(paper.pages.size())));
  }
}

TEST_P(ExamplePapers, EqualPlansGiveEqualBytes) {
  const plan::Plan again = planned(GetParam());
  EXPECT_EQ(quotation(plan()), quotation(again));
  EXPECT_EQ(shop_packet(plan()), shop_packet(again));
}

TEST_P(ExamplePapers, PageCountsAreSane) {
  EXPECT_LE(quotation_paper().pages.size(), 3U);
  const std::size_t sheets = packet().pages.size();
  EXPECT_GE(sheets, 10U);
  EXPECT_LE(sheets, 60U);
}

TEST_P(ExamplePapers, AreOfThePaperThatTheShopUses) {
  const bool inches = plan().shop.unit == measure::LengthUnit::kInch;
  const PageSize size = inches ? kUsLetter : kA4;
  for (const Page& page : quotation_paper().pages) {
    EXPECT_EQ(page.size(), size);
  }
  for (const Page& page : packet().pages) {
    EXPECT_TRUE(page.size() == size || page.size() == landscape(size));
  }
}

/// Nothing nearer to the edge than a printer reaches.
TEST_P(ExamplePapers, NothingIsCutOff) {
  constexpr double kPrinterMargin = 5;
  for (const Paper* paper : {&quotation_paper(), &packet()}) {
    for (std::size_t i = 0; i < paper->pages.size(); ++i) {
      const Page& page = paper->pages[i];
      for (const TextMark& mark : texts_of(page)) {
        EXPECT_TRUE(page.area().inset(kPrinterMargin).contains(text_box(mark)))
            << "page " << i + 1 << ": " << mark.text;
      }
    }
  }
}

/// What is drawn on a sheet of the packet stays out of its title block.
TEST_P(ExamplePapers, SheetsKeepTheirTitleBlockClear) {
  const Paper& paper = packet();
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    const Page& page = paper.pages[i];
    const Rectangle area = sheet_area(page.size());
    const Rectangle beside = beside_block(page.size());
    std::size_t below = 0;
    for (const TextMark& mark : texts_of(page)) {
      const Rectangle box = text_box(mark);
      below += box.centre().y > area.bottom() + 2 && !beside.overlaps(box) ? 1 : 0;
    }
    // The fields of the block and their captions: twelve captions at most, as many values.
    EXPECT_LE(below, 24U) << "page " << i + 1;
  }
}

TEST_P(ExamplePapers, NoTextCoversAnother) {
  constexpr double kTouching = 0.35;
  for (const Paper* paper : {&quotation_paper(), &packet()}) {
    for (std::size_t n = 0; n < paper->pages.size(); ++n) {
      const auto marks = texts_of(paper->pages[n]);
      for (std::size_t i = 0; i < marks.size(); ++i) {
        for (std::size_t j = i + 1; j < marks.size(); ++j) {
          EXPECT_FALSE(
              text_box(marks[i]).inset(kTouching).overlaps(text_box(marks[j]).inset(kTouching)))
              << paper->info.title << ", page " << n + 1 << ": '" << marks[i].text << "' and '"
              << marks[j].text << "'";
        }
      }
    }
  }
}

TEST(Papers, SayWhatToDoAboutAPieceThatTips) {
  const std::vector<std::string> cautions = client_cautions(example_plan("hall_cabinet"));
  ASSERT_FALSE(cautions.empty());
  EXPECT_THAT(cautions.front(), HasSubstr("anchored to the wall"));
  EXPECT_THAT(cautions.front(), HasSubstr("your local codes"));
}

TEST(Papers, TellTheClientWhatWasAskedForAndCannotBe) {
  const std::vector<std::string> cautions = client_cautions(example_plan("dining_table"));
  ASSERT_FALSE(cautions.empty());
  EXPECT_THAT(cautions.front(), HasSubstr("618 mm"));
  EXPECT_THAT(cautions.front(), HasSubstr("650 mm"));
}

TEST(Papers, LeaveNothingBlankWhereThereIsNothing) {
  const plan::Plan& table = example_plan("dining_table");
  EXPECT_THAT(all_text(shop_packet_pages(table)), HasSubstr("No sheets in this piece."));
  plan::Plan empty;
  const std::string text = all_text(shop_packet_pages(empty));
  for (const char* says : {"No parts in this piece.",
                           "No sheets in this piece.",
                           "No solid wood in this piece.",
                           "No hardware in this piece.",
                           "Nothing is bought for this piece.",
                           "No machine needs a setting for this piece.",
                           "Nothing to carry."}) {
    EXPECT_THAT(text, HasSubstr(says));
  }
}

TEST(Papers, ShowPlainlyWhenNoDayIsSet) {
  plan::Plan plan = example_plan("dining_table");
  plan.commission.quoted = std::nullopt;
  plan.commission.wanted = std::nullopt;
  const std::string text = all_text(quotation_pages(plan));
  EXPECT_THAT(text, Not(HasSubstr("1970")));
  EXPECT_THAT(text, Not(HasSubstr("Valid until")));
  EXPECT_THAT(all_text(shop_packet_pages(plan)), Not(HasSubstr("1970")));
}

}  // namespace
}  // namespace plankwright::papers
