#include "base/quote.h"

#include <string>

#include <gtest/gtest.h>

namespace plankwright::base {
namespace {

TEST(Quote, PutsWordsBetweenBackTicks) {
  EXPECT_EQ(quote("34 7/8"), "`34 7/8`");
  EXPECT_EQ(quote(""), "``");
}

TEST(Quote, KeepsAMessageOnOneLine) {
  EXPECT_EQ(quote("two\r\nlines"), "`two  lines`");
}

TEST(Quote, CutsLongTextButNoCharacter) {
  EXPECT_EQ(quote(std::string(61, 'x')), "`" + std::string(60, 'x') + "...`");
  EXPECT_EQ(quote(std::string(60, 'x')), "`" + std::string(60, 'x') + "`");
  EXPECT_EQ(quote(std::string(59, 'x') + "éé"), "`" + std::string(59, 'x') + "...`");
}

}  // namespace
}  // namespace plankwright::base
