#pragma once
// Hours and how sure they are: helpers of spread_of and quantile (bench.h).

#include <string>
#include <vector>

#include "bench/bench.h"
#include "shop/shop.h"

namespace plankwright::bench {

/// Hours of one labour standard over a whole job. A standard that is off is off for the whole job,
/// so that cutting its work into more settings makes the job no surer.
struct StandardHours {
  std::string id;
  std::string name;
  std::string phase;
  double hours = 0;
  double sigma = 0;
};

/// In the order in which the operations first use them.
std::vector<StandardHours> hours_by_standard(const std::vector<Operation>& operations,
                                             const shop::Shop& shop);

/// Share of each in the variance of the sum, its own spread alone.
std::vector<double> variance_shares(const std::vector<StandardHours>& hours);

/// Fills phases, bench, office, total and driven_by from the operations.
void reckon_hours(Bench& bench, const shop::Shop& shop);

/// z with P(Z <= z) = share for a standard normal Z; `share` in (0, 1).
double normal_quantile(double share);

}  // namespace plankwright::bench
