#include <fmt/format.h>
#include <gtest/gtest.h>

#include "piece/kits/kits.h"
#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

/// Every field of the table has its line in the page, with the sentence that editors show.
void expect_fields(const std::string& page, document::FieldTable table, const std::string& before) {
  for (const document::Field& field : table) {
    SCOPED_TRACE(fmt::format("{}{}", before, field.key));
    EXPECT_NE(page.find(fmt::format("| `{}{}` |", before, field.key)), std::string::npos);
    EXPECT_NE(page.find(fmt::format("| {} |", field.says)), std::string::npos);
    expect_fields(page, field.inner, fmt::format("{}.", field.key));
  }
}

TEST(Handbook, KnowsEveryFieldOfEveryKit) {
  for (const Kit& kit : all_kits()) {
    SCOPED_TRACE(std::string{kit.word});
    expect_fields(source_text(fmt::format("docs/kits/{}.md", kit.word)), kit.fields, "");
  }
}

}  // namespace
}  // namespace plankwright::piece::test
