#include "measure/money.h"

#include <cassert>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "base/quote.h"

namespace plankwright::measure {
namespace {

__extension__ using Wide = __int128;

/// `1,234,567`.
std::string grouped(std::uint64_t whole) {
  const std::string digits = fmt::format("{}", whole);
  std::string text;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && (digits.size() - i) % 3 == 0) {
      text += ',';
    }
    text += digits[i];
  }
  return text;
}

struct Parts {
  std::string_view sign;
  std::uint64_t major = 0;
  std::uint64_t minor = 0;
};

Parts parts_of(Money amount) {
  const auto bits = static_cast<std::uint64_t>(amount.minor());
  const std::uint64_t size = amount.minor() < 0 ? 0 - bits : bits;
  return {amount.minor() < 0 ? "-" : "", size / 100, size % 100};
}

// Percents as whole millionths, so that 33.3 % of 10.00 is 3.33 and not a hair less.
constexpr std::int64_t kMillionths = 1'000'000;
constexpr std::int64_t kWhole = 100 * kMillionths;

std::int64_t millionths(double percent) {
  constexpr double kMost = 1e6;
  assert(percent >= 0 && percent <= kMost);
  return percent >= 0 && percent <= kMost
             ? static_cast<std::int64_t>(percent * static_cast<double>(kMillionths) + 0.5)
             : 0;
}

std::int64_t part(std::int64_t minor, std::int64_t millionths) {
  return static_cast<std::int64_t>(Wide{minor} * millionths / kWhole);
}

std::int64_t nearest_part(std::int64_t minor, std::int64_t millionths) {
  const Wide twice = Wide{minor} * millionths * 2;
  return static_cast<std::int64_t>((twice + (minor < 0 ? -kWhole : kWhole)) / (2 * Wide{kWhole}));
}

}  // namespace

std::string print(Money amount, const Currency& currency) {
  const Parts parts = parts_of(amount);
  return fmt::format("{}{}.{:02} {}", parts.sign, grouped(parts.major), parts.minor, currency.code);
}

std::string print_whole(Money amount, const Currency& currency) {
  const Parts parts = parts_of(amount);
  return parts.minor == 0 ? fmt::format("{}{} {}", parts.sign, grouped(parts.major), currency.code)
                          : print(amount, currency);
}

Money round_up(Money amount, Money step) {
  if (step.minor() <= 0) {
    return amount;
  }
  const std::int64_t rest = amount.minor() % step.minor();
  if (rest == 0) {
    return amount;
  }
  const std::int64_t down = amount.minor() - rest;
  return Money::from_minor(rest < 0 ? down : down + step.minor());
}

std::vector<Money> split(Money amount, const std::vector<double>& percents) {
  std::vector<std::int64_t> shares;
  std::int64_t all = 0;
  for (const double percent : percents) {
    shares.push_back(millionths(percent));
    all += shares.back();
  }
  // A third written with many digits is cut; the cut of all shares together is still the whole.
  const bool whole = std::abs(all - kWhole) <= static_cast<std::int64_t>(shares.size());
  std::int64_t odd = nearest_part(amount.minor(), whole ? kWhole : all);
  std::vector<Money> result;
  for (const std::int64_t share : shares) {
    result.push_back(Money::from_minor(part(amount.minor(), share)));
    odd -= result.back().minor();
  }
  const std::int64_t unit = odd < 0 ? -1 : 1;
  for (std::size_t i = 0; odd != 0; i = (i + 1) % result.size()) {
    if (shares[i] != 0) {
      result[i] += Money::from_minor(unit);
      odd -= unit;
    }
  }
  return result;
}

base::Result<Money> parse_money(std::string_view text) {
  const base::Error error{
      .message =
          fmt::format("found {}, expected money such as `120` or `1,250.50`", base::quote(text))};
  const bool minus = text.starts_with('-');
  const std::string_view amount = text.substr(minus ? 1 : 0);
  const std::string_view major = amount.substr(0, amount.find('.'));
  std::string_view minor = amount.substr(major.size());
  std::int64_t total = 0;
  std::size_t digits = 0;
  for (std::size_t i = 0; i < major.size(); ++i) {
    const bool comma_place = i > 0 && (major.size() - i) % 4 == 0;
    if (major[i] == ',' && comma_place) {
      continue;
    }
    constexpr std::size_t kMostDigits = 15;
    if (major[i] < '0' || major[i] > '9' || ++digits > kMostDigits) {
      return error;
    }
    total = total * 10 + (major[i] - '0');
  }
  total *= 100;
  const bool has_minor = minor.size() == 2 || minor.size() == 3;
  if (digits == 0 || (!minor.empty() && !has_minor)) {
    return error;
  }
  for (std::size_t i = 1; i < minor.size(); ++i) {
    if (minor[i] < '0' || minor[i] > '9') {
      return error;
    }
    total += (minor[i] - '0') * (i == 1 ? 10 : 1);
  }
  return Money::from_minor(minus ? -total : total);
}

}  // namespace plankwright::measure
