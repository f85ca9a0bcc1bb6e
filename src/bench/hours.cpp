// Hours are a sum of lognormals that share one job factor: T = J * sum m_i exp(s_i Z_i). Mean and
// variance are exact; the sum is then taken as one lognormal with the same two moments (L. F.
// Fenton, The sum of log-normal probability distributions in scatter transmission systems, 1960).

#include "bench/hours.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

namespace plankwright::bench {
namespace {

constexpr std::size_t kDrivers = 3;

double variance_of(double median, double sigma) {
  const double s2 = sigma * sigma;
  return median * median * std::exp(s2) * (std::exp(s2) - 1);
}

double log_sigma(const Spread& spread) {
  if (spread.median <= 0 || spread.mean <= spread.median) {
    return 0;
  }
  return std::sqrt(2 * std::log(spread.mean / spread.median));
}

template <class Wanted>
Spread spread_where(const std::vector<StandardHours>& all, double job_sigma, const Wanted& wanted) {
  std::vector<double> medians;
  std::vector<double> sigmas;
  for (const StandardHours& one : all) {
    if (wanted(one)) {
      medians.push_back(one.hours);
      sigmas.push_back(one.sigma);
    }
  }
  return spread_of(medians, sigmas, job_sigma);
}

/// The phases that have work, in the order in which the shop lists its standards: from the rough
/// board to the van.
std::vector<std::string> phases_of(const std::vector<StandardHours>& all, const shop::Shop& shop) {
  std::vector<std::string> phases;
  for (const shop::LabourStandard& standard : shop.standards) {
    const bool has_work =
        std::ranges::find(all, standard.phase, &StandardHours::phase) != all.end();
    if (has_work && std::ranges::find(phases, standard.phase) == phases.end()) {
      phases.push_back(standard.phase);
    }
  }
  return phases;
}

std::vector<std::string> drivers_of(const std::vector<StandardHours>& all) {
  const std::vector<double> shares = variance_shares(all);
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](auto a, auto b) { return shares[a] > shares[b]; });
  std::vector<std::string> drivers;
  for (const std::size_t i : order) {
    if (drivers.size() < kDrivers && shares[i] > 0) {
      drivers.push_back(fmt::format("{} ({:.0f} %)", all[i].name, 100 * shares[i]));
    }
  }
  return drivers;
}

}  // namespace

double normal_quantile(double share) {
  constexpr int kHalvings = 80;  // of 80 standard deviations: beyond the last bit of a double
  double low = -40;
  double high = 40;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (low + high) / 2;
    (std::erfc(-middle / std::sqrt(2.0)) / 2 < share ? low : high) = middle;
  }
  return (low + high) / 2;
}

double quantile(const Spread& spread, double share) {
  return spread.median <= 0 ? 0
                            : spread.median * std::exp(log_sigma(spread) * normal_quantile(share));
}

Spread spread_of(const std::vector<double>& medians,
                 const std::vector<double>& sigmas,
                 double job_sigma) {
  Spread spread;
  double mean = 0;
  double variance = 0;
  for (std::size_t i = 0; i < medians.size(); ++i) {
    spread.table += medians[i];
    mean += medians[i] * std::exp(sigmas[i] * sigmas[i] / 2);
    variance += variance_of(medians[i], sigmas[i]);
  }
  if (mean <= 0) {
    return spread;
  }
  const double job2 = job_sigma * job_sigma;
  spread.mean = mean * std::exp(job2 / 2);
  // E[T^2] / E[T]^2, of the job factor and of the sum, multiply: they are independent.
  const double sigma2 = job2 + std::log1p(variance / (mean * mean));
  spread.median = spread.mean * std::exp(-sigma2 / 2);
  spread.p10 = quantile(spread, 0.10);
  spread.p80 = quantile(spread, 0.80);
  spread.p90 = quantile(spread, 0.90);
  return spread;
}

std::vector<StandardHours> hours_by_standard(const std::vector<Operation>& operations,
                                             const shop::Shop& shop) {
  std::vector<StandardHours> all;
  for (const Operation& operation : operations) {
    auto found = std::ranges::find(all, operation.standard, &StandardHours::id);
    if (found == all.end()) {
      const shop::LabourStandard* standard = shop.standard(operation.standard);
      all.push_back({.id = operation.standard,
                     .name = standard != nullptr ? standard->name : operation.name,
                     .phase = operation.phase,
                     .hours = 0,
                     .sigma = operation.sigma});
      found = all.end() - 1;
    }
    found->hours += measure::hours(operation.total());
  }
  return all;
}

std::vector<double> variance_shares(const std::vector<StandardHours>& hours) {
  std::vector<double> shares;
  for (const StandardHours& one : hours) {
    shares.push_back(variance_of(one.hours, one.sigma));
  }
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares) {
    share = sum > 0 ? share / sum : 0;
  }
  return shares;
}

void reckon_hours(Bench& bench, const shop::Shop& shop) {
  const std::vector<StandardHours> all = hours_by_standard(bench.operations, shop);
  const auto is_office = [](const StandardHours& one) { return one.phase == "office"; };
  for (const std::string& phase : phases_of(all, shop)) {
    bench.phases.push_back({phase, spread_where(all, shop.job_sigma, [&](const StandardHours& one) {
                              return one.phase == phase;
                            })});
  }
  bench.bench =
      spread_where(all, shop.job_sigma, [&](const StandardHours& one) { return !is_office(one); });
  bench.office = spread_where(all, shop.job_sigma, is_office);
  bench.total = spread_where(all, shop.job_sigma, [](const StandardHours&) { return true; });
  bench.driven_by = drivers_of(all);
}

}  // namespace plankwright::bench
