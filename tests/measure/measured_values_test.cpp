#include <gtest/gtest.h>

#include "measure/expression.h"

namespace plankwright::measure {
namespace {

using Parse = base::Result<double> (*)(std::string_view);

struct GoodCase {
  Parse parse;
  std::string_view text;
  double value;
};

TEST(MeasuredValues, AreReadWithTheirUnit) {
  const GoodCase cases[] = {{parse_minutes, "45 min", 45},
                            {parse_minutes, "2 h", 120},
                            {parse_minutes, "1 h 30 min", 90},
                            {parse_minutes, "1h30min", 90},
                            {parse_minutes, "1 hour 5 minutes", 65},
                            {parse_minutes, "1 1/2 h", 90},
                            {parse_minutes, "1½ h", 90},
                            {parse_minutes, "2.5 min", 2.5},
                            {parse_minutes, "  12  min ", 12},
                            {parse_percent, "35 %", 35},
                            {parse_percent, "35%", 35},
                            {parse_percent, "-5 %", -5},
                            {parse_percent, "12.5 %", 12.5},
                            {parse_celsius, "20 C", 20},
                            {parse_celsius, "-4.5 °C", -4.5},
                            {parse_kilograms, "30 kg", 30},
                            {parse_kilograms, "250 g", 0.25},
                            {parse_line_load, "0.5 N/mm", 0.5},
                            {parse_line_load, "500 N/m", 0.5},
                            {parse_line_load, "2 kN/m", 2}};
  for (const GoodCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto value = c.parse(c.text);
    ASSERT_TRUE(value.ok());
    EXPECT_NEAR(value.value(), c.value, 1e-12);
  }
}

// NIST Special Publication 811 (2008), appendix B.8: pound 4.535 924 E-01 kg; pound-force per foot
// 1.459 390 E+01 N/m; kilogram-force 9.806 65 E+00 N; B.6: t/C = (t/F - 32)/1.8.
TEST(MeasuredValues, AreConvertedAsNistPublishes) {
  EXPECT_NEAR(parse_kilograms("1 lb").value(), 0.4535924, 5e-8);
  EXPECT_NEAR(parse_line_load("1 lb/ft").value(), 14.59390 / 1000, 5e-9);
  EXPECT_NEAR(parse_line_load("30 kg/m").value(), 30 * 9.80665 / 1000, 1e-12);
  EXPECT_NEAR(parse_celsius("68 F").value(), 20, 1e-12);
  EXPECT_NEAR(parse_celsius("-40 °F").value(), -40, 1e-12);
  EXPECT_NEAR(parse_celsius("212 F").value(), 100, 1e-12);
}

struct BadCase {
  Parse parse;
  std::string_view text;
  std::string_view message;
};

TEST(MeasuredValues, SayWhatWasExpected) {
  const BadCase cases[] = {
      {parse_minutes,
       "45 mim",
       "found `45 mim`, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_minutes, "45", "found `45`, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_minutes, "", "found nothing, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_minutes,
       "30 min 1 h",
       "found `30 min 1 h`, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_minutes,
       "1 h 30 min 20 s",
       "found `1 h 30 min 20 s`, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_minutes,
       "-5 min",
       "found `-5 min`, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_minutes,
       "1 h 1/0 min",
       "found `1 h 1/0 min`, expected minutes such as `45 min` or `1 h 30 min`"},
      {parse_percent, "35", "found `35`, expected percent such as `35 %`"},
      {parse_percent, "% 35", "found `% 35`, expected percent such as `35 %`"},
      {parse_percent, "--5 %", "found `--5 %`, expected percent such as `35 %`"},
      {parse_celsius, "20 K", "found `20 K`, expected a temperature such as `20 C` or `68 F`"},
      {parse_kilograms,
       "30 stone",
       "found `30 stone`, expected a weight such as `30 kg` or `60 lb`"},
      {parse_kilograms,
       "30 kg kg",
       "found `30 kg kg`, expected a weight such as `30 kg` or `60 lb`"},
      {parse_line_load, "30 kg", "found `30 kg`, expected a load such as `30 kg/m` or `20 lb/ft`"},
      {parse_line_load,
       "9999999999999999999 kg/m",
       "found `9999999999999999999 kg/m`, expected a load such as `30 kg/m` or `20 lb/ft`"}};
  for (const BadCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto value = c.parse(c.text);
    ASSERT_FALSE(value.ok());
    EXPECT_EQ(value.error().message, c.message);
  }
}

}  // namespace
}  // namespace plankwright::measure
