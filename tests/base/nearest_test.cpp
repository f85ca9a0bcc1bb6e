#include "base/nearest.h"

#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::base {
namespace {

constexpr std::array<std::string_view, 5> kJoints{
    "butt", "housed", "half_lap", "mortise_and_tenon", "dovetail"};

struct NearestCase {
  std::string_view why, typed, nearest;
};

TEST(NearestWord, FindsWhatWasMeant) {
  const NearestCase cases[] = {
      {"a letter left out", "housd", "housed"},
      {"a letter too many", "buttt", "butt"},
      {"two neighbours swapped count one", "btut", "butt"},
      {"capital letters", "Dovetail", "dovetail"},
      {"a hyphen for the underscore", "half-lap", "half_lap"},
      {"a space for the underscore", "mortise and tenon", "mortise_and_tenon"},
      {"another word altogether", "screwed", ""},
      {"nothing", "", ""},
      {"far too short a likeness", "b", ""}};
  for (const NearestCase& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(nearest_word(c.typed, kJoints), c.nearest);
  }
}

TEST(NearestWord, GivesTiesToTheFirst) {
  const std::vector<std::string> words{"rail_a", "rail_b"};
  EXPECT_EQ(nearest_word("rail_c", words), "rail_a");
}

TEST(NearestWord, DoesNotLookAtParagraphs) {
  const std::string long_word(100, 'a');
  const std::vector<std::string> words{long_word};
  EXPECT_EQ(nearest_word(long_word, words), "");
}

RC_GTEST_PROP(NearestWordProperty, AWordOfTheListIsItsOwnNearest, ()) {
  const auto i = *rc::gen::inRange<std::size_t>(0, kJoints.size());
  RC_ASSERT(nearest_word(kJoints[i], kJoints) == kJoints[i]);
}

TEST(ListWords, JoinsWithCommasAndOr) {
  const std::vector<std::string> none;
  EXPECT_EQ(list_words(none), "");
  EXPECT_EQ(list_words(std::vector<std::string>{"a"}), "a");
  EXPECT_EQ(list_words(std::vector<std::string>{"a", "b"}), "a or b");
  EXPECT_EQ(list_words(std::vector<std::string>{"a", "b", "c"}), "a, b or c");
}

}  // namespace
}  // namespace plankwright::base
