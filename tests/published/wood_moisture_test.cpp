// Equilibrium moisture against the printed table and published spot values.

#include <cmath>

#include <gtest/gtest.h>

#include "base/csv.h"
#include "wood/moisture.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Celsius;
using measure::Percent;

struct Cell {
  double fahrenheit, humidity, printed;
};

std::vector<Cell> printed_cells() {
  const auto table = base::read_csv(testing::data_text("emc.csv").value(), "emc.csv").value();
  std::vector<Cell> cells;
  for (const auto& row : table.rows) {
    for (std::size_t i = 1; i + 2 < row.size(); ++i) {
      cells.push_back({.fahrenheit = std::stod(row[0].text),
                       .humidity = std::stod(table.columns[i].text.substr(3)),
                       .printed = std::stod(row[i].text)});
    }
  }
  return cells;
}

double computed(double fahrenheit, double humidity) {
  return equilibrium_moisture(Celsius{(fahrenheit - 32) / 1.8}, Percent{humidity}).value().count();
}

// WH5, verified: Wood Handbook FPL-GTR-190 table 4-2, 18 temperatures x 19 humidities.
TEST(PublishedMoisture, EveryPrintedCell) {
  const auto cells = printed_cells();
  ASSERT_EQ(cells.size(), 342U);
  double sum = 0;
  for (const Cell& cell : cells) {
    const double off = computed(cell.fahrenheit, cell.humidity) - cell.printed;
    EXPECT_LT(std::abs(off), 0.1) << cell.fahrenheit << " F, " << cell.humidity << " %";
    sum += std::abs(off);
  }
  // FPJ, verified: the equation's author claims an average deviation under 0.13 % moisture.
  EXPECT_LT(sum / 342, 0.13);
}

// LIQ, verified: the equation gives 8.4 % at 140 F and 55 %.
TEST(PublishedMoisture, SpotValue) {
  EXPECT_NEAR(computed(140, 55), 8.4, 0.05);
}

}  // namespace
}  // namespace plankwright::wood
