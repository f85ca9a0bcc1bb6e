#include "wood/species.h"

#include <gtest/gtest.h>

#include "base/csv.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using testing::reference;
using testing::species;

TEST(Species, CarryEveryFigureWithItsMark) {
  const Species oak = species("oak_white");
  EXPECT_EQ(oak.common_name, "Oak, white");
  EXPECT_EQ(oak.botanical_name, "Quercus alba");
  EXPECT_NEAR(oak.density.value.count(), 761.6, 0.01);  // 0.68 x 1.12
  EXPECT_EQ(print(oak.density.from),
            "specific gravity 0.68 at 12 % moisture x 1.12 (WH6, verified)");
  EXPECT_NEAR(oak.stiffness.value.count(), 12'273, 1);  // 1.78e6 psi
  EXPECT_NEAR(oak.hardness->value.count(), 6050, 1);    // 1360 lbf
  EXPECT_EQ(oak.radial_coefficient->value, 0.00180);
  EXPECT_EQ(oak.tangential_shrinkage.value, measure::Percent{10.5});
  EXPECT_EQ(species("oak_northern_red").tangential_shrinkage.from.mark, Mark::kMemory);
}

TEST(Species, LeaveOutWhatNobodyPublished) {
  EXPECT_FALSE(species("sapele").radial_coefficient.has_value());
  EXPECT_FALSE(species("sapele").tangential_coefficient.has_value());
  EXPECT_FALSE(species("sweetgum").note.size() > 0);
  EXPECT_FALSE(species("sassafras").hardness.has_value());
}

TEST(Species, KnowWhichSwellOnlyToALowerMoisture) {
  EXPECT_EQ(species("teak").fibre_saturation.value, measure::Percent{22});
  EXPECT_EQ(species("cherry_black").fibre_saturation.value, measure::Percent{30});
}

// For woods printed both ways the way used for imported woods must give the printed gravity. The
// handbook rounds gravity to 0.01, which alone is up to 2 %; the rest is scatter of the shrinkage.
TEST(Species, DensityFromGreenVolumeAgreesWithThePrintedOne) {
  const auto table = base::read_csv_rows(
      testing::data_text("species.csv").value(), "species.csv", [](const base::CsvRow& row) {
        struct Both {
          std::string id;
          std::optional<double> at_12, green;
          double shrinkage;
        };
        return Both{row.word("id"),
                    row.number_if_any("gravity_at_12pct", 0, 2),
                    row.number_if_any("gravity_green", 0, 2),
                    row.number("shrink_volume_pct", 0, 30)};
      });
  ASSERT_TRUE(table.ok());
  int compared = 0;
  for (const auto& wood : table.value()) {
    if (wood.at_12 && wood.green) {
      // The mass stays, the volume is less by (30 - 12)/30 of the whole shrinkage.
      const double volume = 1.0 - wood.shrinkage / 100.0 * 18.0 / 30.0;
      EXPECT_NEAR(*wood.green / volume, *wood.at_12, 0.05 * *wood.at_12) << wood.id;
      ++compared;
    } else {
      const double volume = 1.0 - wood.shrinkage / 100.0 * 18.0 / 30.0;
      EXPECT_NEAR(specific_gravity(species(wood.id)), *wood.green / volume, 1e-9) << wood.id;
      EXPECT_EQ(species(wood.id).density.from.mark, Mark::kMemory) << wood.id;
    }
  }
  EXPECT_GE(compared, 50);
}

TEST(Species, StandInSensibleBounds) {
  for (const Species& wood : reference().species.rows()) {
    SCOPED_TRACE(wood.id);
    EXPECT_LT(wood.radial_shrinkage.value, wood.tangential_shrinkage.value);
    EXPECT_GT(specific_gravity(wood), 0.25);
    EXPECT_LT(specific_gravity(wood), 1.1);
    if (wood.radial_coefficient && wood.tangential_coefficient) {
      EXPECT_LT(wood.radial_coefficient->value, wood.tangential_coefficient->value);
    }
  }
}

TEST(ReadSpecies, SaysWhereATableIsWrong) {
  std::string text = testing::data_text("species.csv").value();
  text.replace(text.find("Prunus serotina,hardwood"), 24, "Prunus serotina,hardwod");
  const auto read = read_species(text, "species.csv");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.error().message, "`hardwod` is no group, expected hardwood, softwood or imported");
  EXPECT_EQ(read.error().nearest, "hardwood");
  EXPECT_EQ(read.error().at->line, 19);
}

}  // namespace
}  // namespace plankwright::wood
