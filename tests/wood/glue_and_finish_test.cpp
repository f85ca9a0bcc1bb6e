// Glues, clamps, finishes, body measures and proportions as tables.

#include <limits>

#include <gtest/gtest.h>

#include "wood/adhesives.h"
#include "wood/finishes.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::Minutes;
using measure::Newtons;
using measure::Percent;
using measure::operator""_mm;
using measure::operator""_in;
using testing::reference;

TEST(Adhesives, CarryEachFigureWithItsOwnMark) {
  const Adhesive yellow = reference().adhesives.find("pva_yellow").value();
  EXPECT_EQ(yellow.open->value, Minutes{5});
  EXPECT_EQ(yellow.open->from.mark, Mark::kVerified);
  EXPECT_EQ(yellow.closed->from.mark, Mark::kPractice);
  EXPECT_EQ(yellow.clamp->value, Minutes{30});
  EXPECT_EQ(yellow.least_temperature->value, measure::Celsius{10});
  EXPECT_FALSE(reference().adhesives.find("cyanoacrylate").value().open.has_value());
}

TEST(Adhesives, HoldLongerThanTheyStayOpen) {
  for (const Adhesive& glue : reference().adhesives.rows()) {
    if (glue.clamp && glue.cure) {
      EXPECT_LE(glue.clamp->value, glue.cure->value) << glue.id;
    }
    if (glue.open && glue.clamp && glue.id != "contact") {
      EXPECT_LE(glue.open->value, glue.clamp->value) << glue.id;
    }
  }
}

TEST(PressureFor, FollowsTheDensityOfTheWood) {
  const auto& table = reference().clamp_pressures;
  EXPECT_EQ(pressure_for(table, testing::species("pine_eastern_white").density.value).value().id,
            "light");
  EXPECT_EQ(pressure_for(table, testing::species("maple_sugar").density.value).value().id, "dense");
  EXPECT_FALSE(pressure_for(table, measure::KilogramsPerCubicMetre{5000}).ok());
}

TEST(Clamps, AreRoundedUp) {
  EXPECT_EQ(clamps_for_force(Newtons{1000}, Newtons{500}).value(), 2);
  EXPECT_EQ(clamps_for_force(Newtons{1001}, Newtons{500}).value(), 3);
  EXPECT_EQ(clamps_for_force(Newtons{0}, Newtons{500}).value(), 0);
  EXPECT_FALSE(clamps_for_force(Newtons{1000}, Newtons{0}).ok());
  EXPECT_EQ(clamps_for_force(Newtons{1e9}, Newtons{1}).error().code, base::ErrorCode::kDoesNotFit);
  EXPECT_FALSE(
      clamps_for_force(Newtons{std::numeric_limits<double>::quiet_NaN()}, Newtons{1}).ok());
}

TEST(Clamps, StandAsCloseAsTheirPressureSpreads) {
  EXPECT_EQ(clamps_for_spread(600_mm, 100_mm).value(), 4);  // every 200 mm, both ends
  EXPECT_EQ(clamps_for_spread(601_mm, 100_mm).value(), 5);
  EXPECT_EQ(clamps_for_spread(50_mm, 100_mm).value(), 2);
  EXPECT_FALSE(clamps_for_spread(600_mm, Length{}).ok());
}

TEST(Finishes, WarnOfRagsThatCatchFire) {
  const auto warns = [](const char* id) {
    return reference().finishes.find(id).value().rags_can_catch_fire();
  };
  EXPECT_TRUE(warns("drying_oil"));
  EXPECT_TRUE(warns("oil_varnish"));
  EXPECT_TRUE(warns("hard_wax_oil"));
  EXPECT_TRUE(warns("polyurethane_varnish"));
  EXPECT_TRUE(warns("wiping_stain_oil"));
  EXPECT_FALSE(warns("water_borne"));
  EXPECT_FALSE(warns("shellac"));
}

TEST(Finishes, ReadTheirRanges) {
  const FinishType varnish = reference().finishes.find("conversion_varnish").value();
  EXPECT_EQ(varnish.coats.least, 2);
  EXPECT_EQ(varnish.coats.most, 3);
  EXPECT_EQ(varnish.recoat.most, Minutes{120});
  EXPECT_EQ(*varnish.recoat_within, Minutes{24 * 60});
  EXPECT_EQ(*varnish.pot_life, Minutes{8 * 60});
  EXPECT_EQ(varnish.cure->least, Minutes{7 * 24 * 60});
  EXPECT_FALSE(reference().finishes.find("paste_wax").value().cure.has_value());
}

// Our own study wall: 27 m2, two coats, 10 m2 a litre, 60 % arrives.
TEST(LitresNeeded, AnswerForTheStudyWall) {
  const auto litres =
      litres_needed(measure::SquareMillimetres{27e6}, 2, SquareMetresPerLitre{10}, Percent{60});
  EXPECT_NEAR(litres.value().count(), 9.0, 1e-9);
  EXPECT_FALSE(
      litres_needed(measure::SquareMillimetres{1}, 1, SquareMetresPerLitre{10}, Percent{0}).ok());
  EXPECT_FALSE(
      litres_needed(measure::SquareMillimetres{1}, 1, SquareMetresPerLitre{10}, Percent{101}).ok());
  EXPECT_FALSE(
      litres_needed(measure::SquareMillimetres{1}, 1, SquareMetresPerLitre{0}, Percent{50}).ok());
}

TEST(UsualSizes, MeasureHowFarASizeIsOut) {
  const UsualSize height = reference().usual_sizes.find("dining_table_height").value();
  EXPECT_EQ(outside_by(height, 29_in), Length{});
  EXPECT_EQ(outside_by(height, 27_in), Length{} - 1_in);
  EXPECT_EQ(outside_by(height, 30.5_in), 0.5_in);
  const UsualSize knees = reference().usual_sizes.find("desk_knee_height").value();
  EXPECT_EQ(outside_by(knees, 5000_mm), Length{});
  EXPECT_EQ(outside_by(knees, 618_mm), Length{} - 2_mm);
}

TEST(UsualSizes, RefuseBoundsThatRunBackwards) {
  const std::string header = "id,what,least,most,unit,mark,src,note\n";
  EXPECT_EQ(base::describe(read_usual_sizes(header + "a,x,3,2,in,practice,,\n", "e.csv").error()),
            "e.csv:2:5: error: the least is over the most\n");
  EXPECT_EQ(base::describe(read_usual_sizes(header + "a,x,,,in,practice,,\n", "e.csv").error()),
            "e.csv:2:5: error: a row needs a least or a most\n");
  EXPECT_EQ(base::describe(read_usual_sizes(header + "a,x,1,,cm,practice,,\n", "e.csv").error()),
            "e.csv:2:8: error: `cm` is no unit of length here, expected in or mm\n");
}

}  // namespace
}  // namespace plankwright::wood
