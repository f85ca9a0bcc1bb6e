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

void write_entry(std::string& out, const Entry& entry, const std::vector<Work>& works) {
  out += fmt::format("  {:>5} to {:<5} {}{}{}",
                     clock(entry.starts),
                     until(entry.ends, entry.starts.day),
                     entry.drives ? "* " : "  ",
                     entry.name,
                     entry.people > 1 ? fmt::format(" ({} people)", entry.people) : "");
  if (works.size() > 1) {
    out += fmt::format(" [{}]", works[entry.work].commission->name);
  }
  if (entry.ends < entry.free) {
    out += fmt::format("; left alone until {}", until(entry.free, entry.starts.day));
  }
  out += "\n";
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
                       delivery.what);
  }
  for (const calendar::Freeze& freeze : calendar.freezes) {
    out += fmt::format(
        "  last day to change {}: {} ({})\n", freeze.what, day_text(freeze.day), freeze.why);
  }
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
  out += "\nWHAT FITS INTO THE WAITS\n";
  for (const calendar::Overlap& overlap : calendar.overlaps) {
    out += fmt::format("  {}\n", overlap.says);
  }
  return out;
}

}  // namespace plankwright::cli
