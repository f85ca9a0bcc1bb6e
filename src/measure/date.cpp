#include "measure/date.h"

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

#include "base/quote.h"

namespace plankwright::measure {
namespace {

bool is_weekend(std::chrono::sys_days day) {
  const std::chrono::weekday weekday{day};
  return weekday == std::chrono::Saturday || weekday == std::chrono::Sunday;
}

bool looks_like_a_date(std::string_view text) {
  constexpr std::string_view kShape = "dddd-dd-dd";
  return std::ranges::equal(text, kShape, [](char c, char shape) {
    return shape == 'd' ? c >= '0' && c <= '9' : c == shape;
  });
}

int number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) {
    value = value * 10 + (c - '0');
  }
  return value;
}

}  // namespace

base::Result<Date> parse_date(std::string_view text) {
  if (!looks_like_a_date(text)) {
    return base::Error{
        .message = fmt::format("found {}, expected a day such as `2026-03-14`", base::quote(text))};
  }
  const Date date{std::chrono::year{number(text.substr(0, 4))},
                  std::chrono::month{static_cast<unsigned>(number(text.substr(5, 2)))},
                  std::chrono::day{static_cast<unsigned>(number(text.substr(8, 2)))}};
  if (!date.ok()) {
    return base::Error{.message =
                           fmt::format("found {}, a day that does not exist", base::quote(text))};
  }
  return date;
}

std::string print(Date date) {
  return fmt::format("{:04}-{:02}-{:02}",
                     static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

Date working_days_before(Date date, int days) {
  const std::chrono::days step{days < 0 ? 1 : -1};
  std::chrono::sys_days day{date};
  std::int64_t left = std::abs(std::int64_t{days});
  const auto next_working_day = [&] {
    do {
      day += step;
    } while (is_weekend(day));
    --left;
  };
  if (left > 0) {
    next_working_day();
  }
  day += step * (left / 5 * 7);
  left %= 5;
  while (left > 0) {
    next_working_day();
  }
  return Date{day};
}

}  // namespace plankwright::measure
