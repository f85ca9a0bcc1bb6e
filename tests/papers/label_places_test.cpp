#include "papers/label_places.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "paper_tools.h"

namespace plankwright::papers {
namespace {

TEST(LabelPlaces, RingsKeepClearOfTextsAndOfEachOther) {
  LabelPlaces places;
  const Rectangle text{0, 8, 20, 6};
  places.block(text);
  std::vector<Rectangle> rings;
  for (int i = 0; i < 4; ++i) {
    const PagePoint at = places.on_line({10, 0}, {10, 100}, 2);
    EXPECT_DOUBLE_EQ(at.x, 10);
    rings.push_back({at.x - 2, at.y - 2, 4, 4});
  }
  for (std::size_t i = 0; i < rings.size(); ++i) {
    EXPECT_FALSE(rings[i].overlaps(text));
    for (std::size_t j = i + 1; j < rings.size(); ++j) {
      EXPECT_FALSE(rings[i].overlaps(rings[j]));
    }
  }
}

TEST(LabelPlaces, ARingGoesOnItsLineEvenWhenItMustCoverSomething) {
  LabelPlaces places;
  places.block({-10, -10, 200, 200});
  const PagePoint at = places.on_line({5, 5}, {5, 8}, 2);
  EXPECT_DOUBLE_EQ(at.x, 5);
  EXPECT_GE(at.y, 5);
  EXPECT_LE(at.y, 8);
}

RC_GTEST_PROP(PartLabels, StandInTheirOutlineWhenItHasRoomForTheCode, ()) {
  const double width = *rc::gen::inRange(80, 2500) / 10.0;
  const double height = *rc::gen::inRange(80, 1200) / 10.0;
  Page page{kA4};
  const Rectangle outline{10, 10, width, height};
  label_part(page, outline, "B17", "1560 \u00d7 299.4", "upper fixed shelf");
  const auto marks = texts_of(page);
  RC_ASSERT(!marks.empty());
  RC_ASSERT(marks.front().text.starts_with("B17"));
  for (const TextMark& mark : marks) {
    RC_ASSERT(outline.contains(text_box(mark)));
  }
}

TEST(PartLabels, SayLessWhereThereIsLessRoom) {
  const auto texts = [](double width, double height) {
    Page page{kA4};
    label_part(page, {0, 0, width, height}, "B17", "824 \u00d7 90", "shelf");
    return texts_of(page).size();
  };
  EXPECT_EQ(texts(80, 30), 3U);  // code, size, name
  EXPECT_EQ(texts(80, 8.5), 2U);
  EXPECT_EQ(texts(80, 5), 1U);
}

TEST(PartLabels, TurnInUprightStrips) {
  Page page{kA4};
  label_part(page, {0, 0, 9, 80}, "B17", "824 \u00d7 90", "shelf");
  EXPECT_DOUBLE_EQ(texts_of(page).front().place.turn, 90);
}

}  // namespace
}  // namespace plankwright::papers
