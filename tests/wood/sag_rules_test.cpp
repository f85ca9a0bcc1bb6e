#include "wood/sag_rules.h"

#include <gtest/gtest.h>

#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::operator""_mm;
using measure::operator""_in;
using testing::reference;

TEST(AllowedSag, TakesTheTighterOfRatioAndMost) {
  const SagLimit kitchen = reference().sag_limits.find("kitchen_shelf").value();
  EXPECT_EQ(allowed_sag(kitchen, 24_in), 0.125_in);  // 1/16 in per foot
  EXPECT_EQ(allowed_sag(kitchen, 96_in), 6.4_mm);    // 1/4 in at most
  const SagLimit target = reference().sag_limits.find("shelf_target").value();
  EXPECT_NEAR(allowed_sag(target, 823_mm).mm(), 1.37, 0.005);
}

TEST(Creep, IsAlwaysMoreThanOne) {
  for (const Creep& row : reference().creep.rows()) {
    EXPECT_GE(row.factor, 1.5) << row.id;
  }
  EXPECT_EQ(reference().creep.find("ec5_fibreboard").value().factor, 3.25);
}

TEST(LineLoad, SpreadsAreasAndHoldsTheMost) {
  const Load kitchen = reference().loads.find("kitchen_shelf").value();
  EXPECT_NEAR(kitchen.area.count(), 718e-6, 0.5e-6);  // the source prints 718 Pa too
  EXPECT_NEAR(line_load(kitchen, 300_mm, 800_mm).count(), 718e-6 * 300, 1e-4);
  const Load books = reference().loads.find("books").value();
  EXPECT_NEAR(line_load(books, 300_mm, 800_mm).count(), 20 * 4.4482216 / 304.8, 1e-9);
  // 50 lb/ft2 on 12 in x 36 in is 150 lb; on 24 in x 36 in it would be 300 and is held at 200.
  const Load library = reference().loads.find("library_shelf").value();
  EXPECT_NEAR(line_load(library, 12_in, 36_in).count() * 914.4, 150 * 4.4482216, 0.01);
  EXPECT_NEAR(line_load(library, 24_in, 36_in).count() * 914.4, 200 * 4.4482216, 0.01);
  const Load person = reference().loads.find("person_on_edge").value();
  EXPECT_EQ(line_load(person, 300_mm, 800_mm).count(), 0);
  EXPECT_NEAR(person.point.count(), 1334, 1);
  EXPECT_EQ(reference().loads.find("desk_top").value().point, measure::Newtons{1000});
}

TEST(ReadLoads, RefusesAUnitItDoesNotKnow) {
  const auto loads = read_loads(
      "id,what,value,unit,at_most_lb,mark,src,note\na,books,20,lb/f,,practice,,\n", "loads.csv");
  ASSERT_FALSE(loads.ok());
  EXPECT_EQ(
      base::describe(loads.error()),
      "loads.csv:2:12: error: `lb/f` is no unit of load, expected lb/ft2, lb/ft, lb or N; did "
      "you mean `lb/ft`?\n");
}

}  // namespace
}  // namespace plankwright::wood
