// Goes by the entries alone: each is cut into the stretches in which it takes people, and what it
// holds is counted at every moment where something begins.

#include "calendar/check_calendar.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>

#include <fmt/format.h>

namespace plankwright::calendar {
namespace {

using measure::Length;

constexpr std::int64_t kMinutesOfDay = 24 * 60;

std::int64_t minute_of(const Moment& moment) {
  return std::chrono::sys_days{moment.day}.time_since_epoch().count() * kMinutesOfDay +
         moment.minute;
}

/// From one minute up to another, so much of something is taken.
struct Taken {
  std::int64_t from = 0;
  std::int64_t to = 0;
  int amount = 1;
};

class Checker {
 public:
  Checker(const Calendar& calendar,
          const std::vector<Work>& works,
          const shop::Shop& shop,
          const DayRules& day_rules)
      : calendar_{calendar}, works_{works}, shop_{shop}, day_rules_{day_rules}, days_{shop} {}

  std::vector<std::string> check() {
    for (const Entry& entry : calendar_.entries) {
      check_hours(entry);
      take(entry);
    }
    for (std::size_t work = 0; work < works_.size(); ++work) {
      for (std::size_t i = 0; i < works_[work].bench->operations.size(); ++i) {
        check_order(work, i);
      }
    }
    check_people();
    check_taken(bench_, shop_.places.bench, "bench places");
    if (shop_.places.finishing > 0) {
      check_taken(finishing_, shop_.places.finishing, "finishing places");
    } else {
      check_dust();
    }
    for (const shop::Machine& machine : shop_.machines) {
      check_taken(machines_[machine.name], machine.count, machine.name);
    }
    for (const shop::ClampSet& set : shop_.clamps) {
      check_clamps(set.reach);
    }
    return std::move(wrong_);
  }

 private:
  const bench::Operation& operation(const Entry& entry) const {
    return works_[entry.work].bench->operations[entry.operation];
  }

  void say(const Entry& entry, std::string_view what) {
    wrong_.push_back(
        fmt::format("{} on {}: {}", entry.name, measure::print(entry.starts.day), what));
  }

  /// The stretches between two moments in which the shop is open.
  std::vector<Taken> open_between(const Moment& from, const Moment& to) const {
    std::vector<Taken> open;
    const auto hours = static_cast<int>(shop_.workday.hours * 60);
    for (auto day = std::chrono::sys_days{from.day}; day <= std::chrono::sys_days{to.day};
         day += std::chrono::days{1}) {
      if (days_.works(Date{day})) {
        const std::int64_t begins = minute_of({Date{day}, shop_.workday.starts});
        const Taken part{std::max(begins, minute_of(from)),
                         std::min(begins + hours, minute_of(to))};
        if (part.from < part.to) {
          open.push_back(part);
        }
      }
    }
    return open;
  }

  /// As often as an operation stands in the calendar (out to the finisher's and back) its hours are
  /// divided.
  double minutes_asked(const Entry& entry) const {
    const auto times = std::ranges::count_if(calendar_.entries, [&](const Entry& other) {
      return other.work == entry.work && other.operation == entry.operation;
    });
    const bench::Operation& o = operation(entry);
    return o.total().count() / o.people / (shop_.workday.hands_on.count() / 100) /
           static_cast<double>(times);
  }

  void check_hours(const Entry& entry) {
    const std::vector<Taken> open = open_between(entry.starts, entry.ends);
    double minutes = 0;
    for (const Taken& part : open) {
      minutes += static_cast<double>(part.to - part.from);
    }
    const double asked = minutes_asked(entry);
    if (asked > 0 && (minutes < asked - 1e-6 || minutes > asked + 1)) {
      say(entry, fmt::format("{:.1f} min of the day, {:.1f} asked for", minutes, asked));
    }
    if (minute_of(entry.free) < minute_of(entry.ends) ||
        minute_of(entry.ends) < minute_of(entry.starts)) {
      say(entry, "ends before it begins");
    }
    if (day_rules_.of(operation(entry).standard).in_one_go && entry.starts.day != entry.ends.day) {
      say(entry, "begun on one day and ended on another");
    }
  }

  void take(const Entry& entry) {
    const DayRule rule = day_rules_.of(operation(entry).standard);
    const std::int64_t from = minute_of(entry.starts);
    for (Taken part : open_between(entry.starts, entry.ends)) {
      part.amount = std::min(entry.people, most_in());
      people_.push_back(part);
      if (!rule.helper) {
        makers_.push_back({part.from, part.to});
      }
    }
    if (rule.holds == Holds::kBench) {
      bench_.push_back({from, minute_of(entry.free)});
    } else if (rule.holds == Holds::kFinishing) {
      finishing_.push_back({from, minute_of(entry.free)});
    }
    if (rule.dust) {
      dust_.push_back({from, minute_of(entry.ends)});
    }
    machines_[operation(entry).machine].push_back({from, minute_of(entry.ends)});
  }

  int clamps_there(Length reach) const {
    int count = 0;
    for (const shop::ClampSet& set : shop_.clamps) {
      count += set.reach >= reach ? set.count : 0;
    }
    return count;
  }

  /// Clamps of a reach and more, from the first one on to the last one off. A glue-up that asks for
  /// more than there are borrows them.
  void check_clamps(Length reach) {
    std::vector<Taken> on;
    for (const Entry& entry : calendar_.entries) {
      for (const bench::StageCard& card : works_[entry.work].bench->glue_ups) {
        if (card.operation != entry.operation) {
          continue;
        }
        Taken taken{minute_of(entry.starts), minute_of(entry.free), 0};
        for (const bench::ClampLine& line : card.clamps) {
          taken.amount += line.reach >= reach ? line.count : 0;
        }
        taken.amount = std::min(taken.amount, clamps_there(reach));
        on.push_back(taken);
        if (static_cast<double>(taken.to - minute_of(entry.ends)) < card.clamps_off.count()) {
          say(entry, "out of the clamps too soon");
        }
      }
    }
    check_taken(on, clamps_there(reach), "long clamps");
  }

  /// The most people who are ever in on one day of the week; more are called in from outside.
  int most_in() const {
    int most = 1;
    Date day = calendar_.starts;
    for (int i = 0; i < 7; ++i) {
      most = std::max(most, in_on(day, false));
      day = days_.add(day, 1).value_or(day);
    }
    return most;
  }

  int in_on(Date day, bool makers) const {
    return static_cast<int>(std::ranges::count_if(shop_.people, [&](const shop::Person& person) {
      return days_.is_in(person, day) && (!makers || person.role == "maker");
    }));
  }

  /// First begin and last free of an operation.
  std::optional<std::pair<std::int64_t, std::int64_t>> span(std::size_t work,
                                                            std::size_t index) const {
    std::optional<std::pair<std::int64_t, std::int64_t>> found;
    for (const Entry& entry : calendar_.entries) {
      if (entry.work == work && entry.operation == index) {
        const std::int64_t from = minute_of(entry.starts);
        const std::int64_t to = minute_of(entry.free);
        found = found ? std::pair{std::min(found->first, from), std::max(found->second, to)}
                      : std::pair{from, to};
      }
    }
    return found;
  }

  void check_order(std::size_t work, std::size_t index) {
    const bench::Operation& later = works_[work].bench->operations[index];
    const auto own = span(work, index);
    if (!own) {
      wrong_.push_back(fmt::format("{} stands nowhere", later.name));
      return;
    }
    for (const std::size_t before : later.after) {
      const bench::Operation& earlier = works_[work].bench->operations[before];
      const double rest = day_rules_.of(earlier.standard).rest.count();
      const auto other = span(work, before);
      if (other && static_cast<double>(own->first) < static_cast<double>(other->second) + rest) {
        wrong_.push_back(fmt::format("{} begins before {} is done", later.name, earlier.name));
      }
    }
  }

  static int most_at(const std::vector<Taken>& all, std::int64_t minute) {
    int amount = 0;
    for (const Taken& taken : all) {
      amount += taken.from <= minute && minute < taken.to ? taken.amount : 0;
    }
    return amount;
  }

  static Date day_of(std::int64_t minute) {
    return Date{std::chrono::sys_days{std::chrono::days{minute / kMinutesOfDay}}};
  }

  void check_taken(const std::vector<Taken>& all, int capacity, std::string_view what) {
    for (const Taken& taken : all) {
      const int amount = most_at(all, taken.from);
      if (taken.from < taken.to && amount > capacity) {
        wrong_.push_back(fmt::format("{} {} asked for on {}, there are {}",
                                     amount,
                                     what,
                                     measure::print(day_of(taken.from)),
                                     capacity));
      }
    }
  }

  void check_people() {
    for (const auto& [all, makers] : {std::pair{&people_, false}, std::pair{&makers_, true}}) {
      for (const Taken& taken : *all) {
        const Date day = day_of(taken.from);
        if (most_at(*all, taken.from) > in_on(day, makers)) {
          wrong_.push_back(fmt::format("{} {} asked for on {}, {} in",
                                       most_at(*all, taken.from),
                                       makers ? "makers" : "people",
                                       measure::print(day),
                                       in_on(day, makers)));
        }
      }
    }
  }

  void check_dust() {
    for (const Taken& wet : finishing_) {
      for (const Taken& dust : dust_) {
        if (wet.from < dust.to && dust.from < wet.to) {
          wrong_.push_back(
              fmt::format("dust beside a wet coat on {}", measure::print(day_of(dust.from))));
        }
      }
    }
  }

  const Calendar& calendar_;
  const std::vector<Work>& works_;
  const shop::Shop& shop_;
  const DayRules& day_rules_;
  WorkingDays days_;
  std::vector<std::string> wrong_;
  std::vector<Taken> people_, makers_, bench_, finishing_, dust_;
  std::map<std::string, std::vector<Taken>> machines_;
};

}  // namespace

std::vector<std::string> check_calendar(const Calendar& calendar,
                                        const std::vector<Work>& works,
                                        const shop::Shop& shop,
                                        const DayRules& day_rules) {
  return Checker{calendar, works, shop, day_rules}.check();
}

}  // namespace plankwright::calendar
