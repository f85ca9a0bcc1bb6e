#pragma once
// What is done on which day, what sets while something else is cut, and the odds of each finish
// date. Values only.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "bench/bench.h"
#include "bench/rules.h"
#include "calendar/day_rules.h"
#include "calendar/working_days.h"
#include "commission/commission.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/stock.h"

namespace plankwright::calendar {

using measure::Minutes;

/// One commission in the shop: what the stages before the calendar made of it.
struct Work {
  const commission::Commission* commission = nullptr;
  const piece::Piece* piece = nullptr;
  const stock::Stock* stock = nullptr;
  const bench::Bench* bench = nullptr;
};

/// One operation in its place. It is worked on from `starts` to `ends` (over several days when it
/// may stop overnight) and left alone until `free` (clamps, drying, the finisher).
struct Entry {
  std::size_t work = 0;       // which commission
  std::size_t operation = 0;  // of its bench
  std::string name;
  Moment starts, ends, free;
  Minutes hands_on;
  int people = 1;
  bool helper = false;           // a helper can do it
  std::vector<std::string> who;  // by name; more than `people` when they take turns
  bool called_in = false;        // it asks for more people than the shop has
  std::string waits_for;         // what it could not start before, in words
  bool drives = false;           // on the chain that ends at the last finish
  double critical = 0;           // share of the draws in which it is, 0..1
};

/// Something to order. `needed` is the day on which the work first asks for it in a plan that is as
/// late as the wanted date allows, four times in five; without a wanted date in the plan itself.
struct Delivery {
  std::size_t work = 0;
  std::size_t purchase = 0;  // of its stock
  std::string what;
  int lead_days = 0;
  Date needed{};
  Date order_by{};
  bool late = false;  // that day is over before the plan begins
};

/// The last day on which something may still change.
struct Freeze {
  std::size_t work = 0;
  Date day{};
  std::string what;  // "sizes of the openings"
  std::string why;   // "drawer boxes are ordered to size"
};

/// A finish date that holds this often, 0..1.
struct DateOdds {
  double share = 0;
  Date day{};
};

/// How much of the spread of the finish comes from one kind of work, 0..1.
struct Driver {
  std::string what;
  double share = 0;
};

/// What drives the date: how often such work is on the chain that ends at the last finish. A wait
/// is listed by itself, and so is a delivery the chain begins with.
struct Critical {
  std::size_t work = 0;
  std::string what;
  double share = 0;  // of the draws, 0..1
};

/// When one commission is finished.
struct Finish {
  std::size_t work = 0;
  Date planned{};
  std::vector<DateOdds> odds;          // 50, 80 and 90 %
  std::optional<double> wanted_holds;  // chance of the wanted date
  int spare_days = 0;  // working days by which all may begin later, four times in five
};

/// Work that is done while something waits.
struct Fit {
  std::string name;
  int times = 0;    // entries of this name
  Minutes minutes;  // of them that fall into the wait
};

/// What fits into a wait.
struct Overlap {
  std::size_t entry = 0;  // that leaves the time
  Minutes open;           // of it within working hours
  std::vector<Fit> fits;
  std::string says;  // "While the panels set (45 min): cut to width, 2 times (20 min)"
};

/// One commission held up by another: what it has ready waits for people, a machine or a place.
struct HeldUp {
  std::size_t work = 0;
  std::size_t by = 0;     // the other commission
  std::size_t entry = 0;  // that waits longest
  std::string what_for;   // what it waits for: "makers", "table saw"
  int times = 0;
  Minutes open;  // of working time in which something of it waits
};

/// A week of the shop: hours promised against hours at hand, both hands on.
struct Week {
  Date monday{};
  Minutes at_hand;                // of all who are in, from the first day of the calendar on
  std::vector<Minutes> promised;  // to each commission
};

struct Calendar {
  Date starts{};
  std::vector<Entry> entries;  // by time
  std::vector<Finish> finishes;
  Date finish{};  // of the last
  Date bound{};   // no plan can be finished before this day
  bool proven = false;
  int draws = 0;
  std::vector<Driver> driven_by;
  std::vector<Critical> critical;    // what takes most of the way first
  std::vector<HeldUp> held_up;       // longest first
  std::vector<Week> weeks;           // from the first to the last with work
  std::vector<Delivery> deliveries;  // by the day to order
  std::vector<Freeze> freezes;
  std::vector<Overlap> overlaps;
  std::vector<std::string> notes;  // what does not go as asked, and the nearest way out
};

struct CalendarLimits {
  double work = 1.0;       // of the search; 1.0 is what a first answer takes
  int draws = 1000;        // of the odds
  std::uint64_t seed = 1;  // of the draws
};

struct Planned {
  std::optional<Calendar> calendar;
  base::Errors errors;
};

/// Places every operation of all commissions in the days of one shop from `start` on: as few
/// working days after the wanted dates as was found, then the last finish soonest, then each.
/// Errors, with names and the nearest way out: works that wait for each other, work that no day is
/// long enough for, a shop that is never open. Deterministic.
Planned plan_calendar(const std::vector<Work>& works,
                      const shop::Shop& shop,
                      const bench::Rules& rules,
                      const DayRules& day_rules,
                      Date start,
                      const CalendarLimits& limits = {});

/// The first day on which all of these may be worked on: the working day after the last quotation.
/// Nothing when none has a quotation, or the shop is never open.
std::optional<Date> first_day(const std::vector<Work>& works, const shop::Shop& shop);

}  // namespace plankwright::calendar
