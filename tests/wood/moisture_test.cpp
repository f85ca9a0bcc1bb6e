#include "wood/moisture.h"

#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace plankwright::wood {
namespace {

using measure::Celsius;
using measure::Percent;

struct OutsideCase {
  double temperature, humidity;
  std::string message;
};

TEST(EquilibriumMoisture, RefusesWhatTheTableDoesNotHold) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const OutsideCase cases[] = {
      {20,
       4.9,
       "4.9 % relative humidity is outside the table of equilibrium moisture, which runs "
       "from 5 to 95 %"},
      {20,
       95.1,
       "95.1 % relative humidity is outside the table of equilibrium moisture, which runs "
       "from 5 to 95 %"},
      {-1.2,
       50,
       "-1.2 C is outside the table of equilibrium moisture, which runs from -1.1 to "
       "93.3 C"},
      {93.4,
       50,
       "93.4 C is outside the table of equilibrium moisture, which runs from -1.1 to "
       "93.3 C"},
      {nan,
       50,
       "nan C is outside the table of equilibrium moisture, which runs from -1.1 to 93.3 C"},
  };
  for (const OutsideCase& c : cases) {
    const auto moisture = equilibrium_moisture(Celsius{c.temperature}, Percent{c.humidity});
    ASSERT_FALSE(moisture.ok());
    EXPECT_EQ(moisture.error().code, base::ErrorCode::kOutOfTable);
    EXPECT_EQ(moisture.error().message, c.message);
  }
  EXPECT_FALSE(equilibrium_moisture(Celsius{20}, Percent{nan}).ok());
  EXPECT_TRUE(equilibrium_moisture(Celsius{20}, Percent{5}).ok());
  EXPECT_TRUE(equilibrium_moisture(Celsius{20}, Percent{95}).ok());
}

TEST(EquilibriumMoisture, RisesWithHumidityAndFallsWithHeat) {
  EXPECT_TRUE(rc::check([] {
    const double t = *rc::gen::inRange(-10, 920) / 10.0;
    const double h = *rc::gen::inRange(50, 940) / 10.0;
    const double here = equilibrium_moisture(Celsius{t}, Percent{h}).value().count();
    RC_ASSERT(equilibrium_moisture(Celsius{t}, Percent{h + 1}).value().count() > here);
    // Above about 10 C only: below it the equation, like the table, is flat.
    if (t > 10) {
      RC_ASSERT(equilibrium_moisture(Celsius{t + 1}, Percent{h}).value().count() < here);
    }
  }));
}

}  // namespace
}  // namespace plankwright::wood
