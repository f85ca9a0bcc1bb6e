#pragma once
// Operations written by hand, in a shop whose day is easy to reckon with.

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "calendar/calendar.h"

namespace plankwright::calendar::testing {

using std::chrono::sys_days;

inline Date day(const std::string& text) {
  return measure::parse_date(text).value();
}

inline std::string text_of(const std::string& name) {
  std::ifstream file{PLANKWRIGHT_SOURCE_DIR "/data/" + name};
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline const DayRules& day_rules() {
  static const DayRules kRules = read_day_rules(text_of("day_rules.csv"), "day_rules.csv").value();
  return kRules;
}

/// One maker, a saw, days from eight to four of which all is hands on.
inline shop::Shop plain_shop() {
  shop::Shop shop;
  shop::Person maker;
  maker.name = "Aud";
  maker.role = "maker";
  shop.people = {maker};
  shop.workday.hands_on = measure::Percent{100};
  shop::Machine saw;
  saw.id = saw.name = "saw";
  shop.machines = {saw};
  shop.job_sigma = 0;
  shop.order_slack = 2;
  return shop;
}

inline shop::Person person(const std::string& name, const std::string& role) {
  shop::Person person;
  person.name = name;
  person.role = role;
  return person;
}

inline bench::Operation operation(const std::string& name,
                                  double minutes,
                                  std::vector<std::size_t> after = {},
                                  const std::string& standard = "any") {
  bench::Operation made;
  made.name = name;
  made.standard = standard;
  made.phase = "milling";
  made.work = Minutes{minutes};
  made.after = std::move(after);
  return made;
}

/// A commission of hand-written operations, and what it owns.
struct Job {
  commission::Commission commission;
  piece::Piece piece;
  stock::Stock stock;
  bench::Bench bench;
  Work work() const { return {&commission, &piece, &stock, &bench}; }
};

inline Job job_of(std::vector<bench::Operation> operations) {
  Job job;
  job.commission.name = "A stool";
  job.bench.operations = std::move(operations);
  return job;
}

inline Planned plan(const Job& job,
                    const shop::Shop& shop,
                    const std::string& start = "2026-03-02",
                    int draws = 10) {
  return plan_calendar({job.work()}, shop, {}, day_rules(), day(start), {.draws = draws});
}

inline const Entry& entry_of(const Calendar& calendar, const std::string& name) {
  for (const Entry& entry : calendar.entries) {
    if (entry.name == name) {
      return entry;
    }
  }
  throw std::runtime_error("nobody does " + name);
}

inline std::string when(const Moment& moment) {
  std::ostringstream text;
  text << measure::print(moment.day) << ' ' << moment.minute / 60 << ':' << moment.minute % 60 / 10
       << moment.minute % 10;
  return text.str();
}

}  // namespace plankwright::calendar::testing
