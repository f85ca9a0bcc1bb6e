#include "papers/calendar_sheets.h"

#include <algorithm>
#include <chrono>
#include <set>

#include <fmt/format.h>

#include "papers/calendar_bars.h"
#include "papers/page_output.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using calendar::Calendar;
using calendar::Entry;
using calendar::Moment;
using measure::Date;
using std::chrono::days;
using std::chrono::sys_days;

constexpr double kShownCritical = 0.25;  // what drives the date less often is not listed
constexpr std::size_t kMostCritical = 8;

std::string clock(const Moment& moment) {
  return fmt::format("{}:{:02}", moment.minute / 60, moment.minute % 60);
}

const std::string& name_of(const ShownCalendar& shown, std::size_t work) {
  return shown.works[work].commission->name;
}

std::string odds_text(const ShownCalendar& shown, const calendar::Finish& finish) {
  const commission::Commission& commission = *shown.works[finish.work].commission;
  std::vector<std::string> words;
  for (const calendar::DateOdds& odds : finish.odds) {
    words.push_back(
        fmt::format("{} in {:.0f} of 100 cases", long_date(odds.day), 100 * odds.share));
  }
  std::string text = fmt::format("{}Planned for {}. Finished by {}.",
                                 shown.works.size() > 1 ? commission.name + ": " : "",
                                 long_date(finish.planned),
                                 words.empty() ? "then" : listed(words));
  if (commission.wanted && finish.wanted_holds) {
    text += fmt::format(" Wanted on {}: holds in {:.0f} of 100 cases.",
                        long_date(*commission.wanted),
                        100 * *finish.wanted_holds);
  }
  return text;
}

void set_critical(Flow& flow, const ShownCalendar& shown) {
  std::vector<std::string> words;
  for (const calendar::Critical& critical : shown.calendar.critical) {
    if (critical.share >= kShownCritical && words.size() < kMostCritical) {
      words.push_back(fmt::format("{} ({:.0f})", plain(critical.what), 100 * critical.share));
    }
  }
  if (!words.empty()) {
    flow.paragraph("What drives the date, in so many of 100 cases: " + listed(words) + ".",
                   kShopText);
  }
}

void set_held_up(Flow& flow, const ShownCalendar& shown) {
  for (const calendar::HeldUp& held : shown.calendar.held_up) {
    flow.paragraph(fmt::format("{} waits {} for {}, most of all {} (for {}).",
                               name_of(shown, held.work),
                               duration(held.open),
                               name_of(shown, held.by),
                               plain(shown.calendar.entries[held.entry].name),
                               held.what_for),
                   kShopText);
  }
}

void set_weeks_at_hand(Flow& flow, const ShownCalendar& shown) {
  Table table;
  table.columns = {{.header = "week of", .width = ColumnWidth::fixed(34)},
                   {.header = "hours at hand", .width = ColumnWidth::fit(), .numbers = true}};
  for (const calendar::Work& work : shown.works) {
    table.columns.push_back({.header = shown.works.size() > 1 ? work.commission->name : "promised",
                             .width = ColumnWidth::fit(),
                             .numbers = true});
  }
  table.columns.push_back({.header = "filled", .width = ColumnWidth::fit(), .numbers = true});
  for (const calendar::Week& week : shown.calendar.weeks) {
    measure::Minutes promised;
    Row row{{{long_date(week.monday)}, {half_hours(measure::hours(week.at_hand))}}};
    for (const measure::Minutes& minutes : week.promised) {
      promised += minutes;
      row.cells.push_back({half_hours(measure::hours(minutes))});
    }
    row.cells.push_back(
        {week.at_hand.count() > 0 ? fmt::format("{:.0f} %", 100 * (promised / week.at_hand)) : ""});
    table.rows.push_back(std::move(row));
  }
  flow.heading("Hours promised against hours at hand");
  set_table(flow, table);
}

void set_overview(Flow& flow, const ShownCalendar& shown) {
  for (const calendar::Finish& finish : shown.calendar.finishes) {
    flow.paragraph(odds_text(shown, finish), kShopText);
  }
  set_critical(flow, shown);
  set_held_up(flow, shown);
  flow.paragraph(
      "Solid: hands on; hatched: sets, dries or is away. Bold and coloured: drives the finish. "
      "Triangle: last day to order; square: sizes are frozen; dot: finished in 50, 80, 90 of 100 "
      "cases; upright line: wanted. Grey: closed. An arrow at the margin: so many more on days "
      "beyond the strip; they stand in the week sheets.",
      kSmallText);
  flow.gap(2);
  set_strip(flow, shown);
  flow.gap(4);
  const WeekRange range = weeks_with_work(shown);
  for (sys_days monday = range.first; monday <= range.last; monday += days{7}) {
    set_week_bars(flow, shown, monday);
  }
  flow.gap(4);
  set_weeks_at_hand(flow, shown);
}

/// What must be ordered or settled on a day.
std::vector<std::string> due_on(const ShownCalendar& shown, Date from, Date to) {
  const auto whose = [&](std::size_t work) {
    return shown.works.size() > 1 ? fmt::format(" ({})", name_of(shown, work)) : std::string{};
  };
  std::vector<std::string> due;
  for (const calendar::Delivery& delivery : shown.calendar.deliveries) {
    if (from <= delivery.order_by && delivery.order_by < to) {
      due.push_back(fmt::format("\u2610 Order {}{} at the latest {}",
                                plain(delivery.what),
                                whose(delivery.work),
                                day_name(delivery.order_by)));
    }
  }
  for (const calendar::Freeze& freeze : shown.calendar.freezes) {
    if (from <= freeze.day && freeze.day < to) {
      due.push_back(fmt::format("\u2610 {}{}: last change {}; {}",
                                sentence(freeze.what),
                                whose(freeze.work),
                                day_name(freeze.day),
                                freeze.why));
    }
  }
  return due;
}

std::string until(const Entry& entry) {
  return entry.ends.day == entry.starts.day
             ? clock(entry.ends)
             : fmt::format("{} {}", long_date(entry.ends.day), clock(entry.ends));
}

Row entry_row(const ShownCalendar& shown, const Entry& entry) {
  const std::string left_alone =
      entry.ends < entry.free
          ? fmt::format("left alone until {} {}", long_date(entry.free.day), clock(entry.free))
          : "";
  const std::string name =
      shown.works.size() > 1 ? fmt::format("{}: {}", name_of(shown, entry.work), plain(entry.name))
                             : plain(entry.name);
  return {{{clock(entry.starts)},
           {until(entry)},
           {name, left_alone, entry.drives},
           {listed(entry.who)},
           {plain(entry.waits_for)},
           {"\u2610"}}};
}

void set_week(Flow& flow, const ShownCalendar& shown, sys_days monday) {
  const Date from{monday};
  const Date to{monday + days{7}};
  Table table;
  table.columns = {{.header = "from", .width = ColumnWidth::fixed(13), .numbers = true},
                   {.header = "to", .width = ColumnWidth::fixed(26)},
                   {.header = "work"},
                   {.header = "who", .width = ColumnWidth::fixed(24)},
                   {.header = "not before", .width = ColumnWidth::fixed(42)},
                   {.header = "", .width = ColumnWidth::fixed(7)}};
  Date last{};
  for (const Entry& entry : lines_of(shown.calendar)) {
    if (entry.starts.day < from || entry.starts.day >= to) {
      continue;
    }
    if (entry.starts.day != last) {
      last = entry.starts.day;
      table.rows.push_back({{{day_name(last)}}, Row::Kind::kHeading});
    }
    table.rows.push_back(entry_row(shown, entry));
  }
  const std::vector<std::string> due = due_on(shown, from, to);
  if (table.rows.empty() && due.empty()) {
    return;
  }
  flow.heading(fmt::format("Week of {}", day_name(from)), kHeadingText, 30);
  for (const std::string& line : due) {
    flow.paragraph(line, kShopStrong);
  }
  if (!table.rows.empty()) {
    set_table(flow, table);
  }
  flow.gap(4);
}

void set_overlaps(Flow& flow, const Calendar& calendar) {
  if (calendar.overlaps.empty()) {
    return;
  }
  flow.heading("What fits into the waits");
  for (const calendar::Overlap& overlap : calendar.overlaps) {
    const Entry& waits = calendar.entries[overlap.entry];
    flow.paragraph(
        fmt::format("{} {}: {}", day_name(waits.ends.day), clock(waits.ends), plain(overlap.says)),
        kShopText);
  }
}

void set_weeks(Flow& flow, const ShownCalendar& shown) {
  for (const std::string& note : shown.calendar.notes) {
    flow.paragraph(sentence(plain(note)), kShopText);
  }
  const WeekRange range = weeks_with_anything(shown);
  for (sys_days monday = range.first; monday <= range.last; monday += days{7}) {
    set_week(flow, shown, monday);
  }
  set_overlaps(flow, shown.calendar);
}

/// What the title blocks of a calendar of several commissions say.
SheetInfo info_of(const ShownCalendar& shown, const std::string& part_title) {
  std::vector<std::string> names;
  std::vector<std::string> numbers;
  for (const calendar::Work& work : shown.works) {
    names.push_back(work.commission->name);
    numbers.push_back(work.commission->number);
  }
  std::erase(numbers, "");
  return {.legal_owner = shown.shop.name,
          .title = listed(names),
          .part_title = part_title,
          .document_type = "Calendar",
          .identification = fmt::format("{}", fmt::join(numbers, ", ")),
          .revision = "",
          .date = shown.calendar.starts,
          .created_by = shown.shop.owner,
          .approved_by = "",
          .scale = ""};
}

}  // namespace

void add_calendar(const Packet& packet) {
  if (!packet.plan.calendar) {
    return;
  }
  const std::vector<calendar::Work> works = plan::works_of({&packet.plan});
  const ShownCalendar shown{*packet.plan.calendar, works, packet.plan.shop};
  Flow bars = packet.sheets.flow(packet.info("Calendar", "Calendar"), true);
  set_overview(bars, shown);
  Flow weeks = packet.sheets.flow(packet.info("Week by week", "Week sheet"));
  set_weeks(weeks, shown);
}

std::string calendar_papers(const Calendar& calendar,
                            const std::vector<calendar::Work>& works,
                            const shop::Shop& shop) {
  const ShownCalendar shown{calendar, works, shop};
  Paper paper{
      .info = {.title = "Calendar", .author = shop.name, .subject = "", .date = calendar.starts},
      .pages = {}};
  SheetSet sheets{paper, page_size(shop)};
  Flow bars = sheets.flow(info_of(shown, "Calendar"), true);
  set_overview(bars, shown);
  Flow weeks = sheets.flow(info_of(shown, "Week by week"));
  set_weeks(weeks, shown);
  sheets.finish();
  return to_pdf(paper);
}

}  // namespace plankwright::papers
