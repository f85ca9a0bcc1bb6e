#include "main/calendar_text.h"

#include <chrono>

#include <fmt/format.h>

namespace plankwright::cli {
namespace {

using calendar::Calendar;
using calendar::Date;
using calendar::Entry;
using calendar::Moment;
using calendar::Work;

constexpr double kShownCritical = 0.25;  // what drives the date less often is not listed
constexpr std::size_t kMostCritical = 8;

std::string day_text(Date day) {
  constexpr const char* kDays[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
  const std::chrono::weekday weekday{std::chrono::sys_days{day}};
  return fmt::format("{} {}", kDays[weekday.iso_encoding() - 1], measure::print(day));
}

std::string clock(const Moment& moment) {
  return fmt::format("{}:{:02}", moment.minute / 60, moment.minute % 60);
}

/// The time, with its day when it is not `day`.
std::string until(const Moment& moment, Date day) {
  return moment.day == day ? clock(moment) : day_text(moment.day) + " " + clock(moment);
}

void write_finish(std::string& out, const calendar::Finish& finish, const Work& work) {
  out += fmt::format("  {}: finished {} if all goes as the tables say;",
                     work.commission->name,
                     day_text(finish.planned));
  for (const calendar::DateOdds& odds : finish.odds) {
    out += fmt::format(" {:.0f} % {};", 100 * odds.share, measure::print(odds.day));
  }
  out += "\n";
  if (work.commission->wanted && finish.wanted_holds) {
    out += fmt::format("    wanted {}: holds with {:.0f} %, {} working days in hand\n",
                       day_text(*work.commission->wanted),
                       100 * *finish.wanted_holds,
                       finish.spare_days);
  }
}

/// Whose it is, where there are several.
std::string whose(const std::vector<Work>& works, std::size_t work) {
  return works.size() > 1 ? fmt::format(" [{}]", works[work].commission->name) : "";
}

void write_entry(std::string& out, const Entry& entry, const std::vector<Work>& works) {
  out += fmt::format("  {:>5} to {:<5} {}{}{}",
                     clock(entry.starts),
                     until(entry.ends, entry.starts.day),
                     entry.drives ? "* " : "  ",
                     entry.name,
                     entry.people > 1 ? fmt::format(" ({} people)", entry.people) : "");
  out += whose(works, entry.work);
  if (entry.ends < entry.free) {
    out += fmt::format("; left alone until {}", until(entry.free, entry.starts.day));
  }
  out += "\n";
}

void write_critical(std::string& out, const Calendar& calendar, const std::vector<Work>& works) {
  std::size_t shown = 0;
  for (const calendar::Critical& critical : calendar.critical) {
    if (critical.share >= kShownCritical && shown++ < kMostCritical) {
      out += fmt::format("  drives the date in {:.0f} % of the trials: {}{}\n",
                         100 * critical.share,
                         critical.what,
                         whose(works, critical.work));
    }
  }
}

void write_held_up(std::string& out, const Calendar& calendar, const std::vector<Work>& works) {
  for (const calendar::HeldUp& held : calendar.held_up) {
    out += fmt::format("  {} waits {:.1f} h for {}, most of all {} (for {})\n",
                       works[held.work].commission->name,
                       measure::hours(held.open),
                       works[held.by].commission->name,
                       calendar.entries[held.entry].name,
                       held.what_for);
  }
}

void write_weeks(std::string& out, const Calendar& calendar, const std::vector<Work>& works) {
  out += "\nHOURS PROMISED AGAINST HOURS AT HAND\n";
  for (const calendar::Week& week : calendar.weeks) {
    measure::Minutes promised;
    std::string each;
    for (std::size_t work = 0; work < works.size(); ++work) {
      promised += week.promised[work];
      each += fmt::format("{}{:.1f} {}",
                          each.empty() ? "" : ", ",
                          measure::hours(week.promised[work]),
                          works[work].commission->name);
    }
    out += fmt::format(
        "  week of {}: {:5.1f} of {:5.1f} h{}{}\n",
        measure::print(week.monday),
        measure::hours(promised),
        measure::hours(week.at_hand),
        week.at_hand.count() > 0 ? fmt::format(" ({:.0f} %)", 100 * (promised / week.at_hand)) : "",
        works.size() > 1 ? ": " + each : "");
  }
}

}  // namespace

std::string calendar_summary(const Calendar& calendar, const std::vector<Work>& works) {
  std::string out = fmt::format(
      "\nWHEN (begun {}; odds from {} trials)\n", day_text(calendar.starts), calendar.draws);
  for (const calendar::Finish& finish : calendar.finishes) {
    write_finish(out, finish, works[finish.work]);
  }
  out += calendar.proven
             ? "    no plan is finished on an earlier day (proven)\n"
             : fmt::format("    no plan is finished before {} (bound)\n", day_text(calendar.bound));
  for (const calendar::Delivery& delivery : calendar.deliveries) {
    out += fmt::format("  order by {}{} {}\n",
                       day_text(delivery.order_by),
                       delivery.late ? " AT ONCE:" : ":",
                       delivery.what + whose(works, delivery.work));
  }
  for (const calendar::Freeze& freeze : calendar.freezes) {
    out += fmt::format("  last day to change {}: {} ({})\n",
                       freeze.what,
                       day_text(freeze.day),
                       freeze.why + whose(works, freeze.work));
  }
  write_critical(out, calendar, works);
  write_held_up(out, calendar, works);
  for (const calendar::Driver& driver : calendar.driven_by) {
    if (driver.share >= 0.05) {
      out += fmt::format("  {:.0f} % of the spread: {}\n", 100 * driver.share, driver.what);
    }
  }
  for (const std::string& note : calendar.notes) {
    out += fmt::format("  note: {}\n", note);
  }
  return out;
}

std::string calendar_text(const Calendar& calendar, const std::vector<Work>& works) {
  std::string out = calendar_summary(calendar, works);
  out += "\nDAY BY DAY (* drives the date)\n";
  std::optional<Date> day;
  for (const Entry& entry : calendar.entries) {
    if (day != entry.starts.day) {
      day = entry.starts.day;
      out += fmt::format("{}\n", day_text(*day));
    }
    write_entry(out, entry, works);
  }
  write_weeks(out, calendar, works);
  out += "\nWHAT FITS INTO THE WAITS\n";
  for (const calendar::Overlap& overlap : calendar.overlaps) {
    out += fmt::format("  {}\n", overlap.says);
  }
  return out;
}

}  // namespace plankwright::cli
