#include "papers/calendar_bars.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include <fmt/format.h>

#include "calendar/working_days.h"
#include "papers/hatch.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using calendar::Calendar;
using calendar::Entry;
using calendar::Moment;
using measure::Date;
using std::chrono::days;
using std::chrono::sys_days;

constexpr double kRowHeight = 4.4;
constexpr double kAxisHeight = 5;
constexpr double kNameWidth = 62;
constexpr double kLeastBar = 0.6;
constexpr double kHatchPitch = 0.9;
constexpr double kMarkSize = 1.6;
constexpr double kMarginOfMarks = 26;  // right of the strip, for what lies beyond it
constexpr double kClosedShare = 0.15;  // of the width of a working day
constexpr int kShownInOneGo = 40;      // letters of a name
constexpr Colour kClosedDay{0.93, 0.93, 0.93};
constexpr TextStyle kRowText{.letter_height = 1.8};
constexpr TextStyle kDrivingText{.letter_height = 1.8, .weight = Weight::kBold};

int weekday(Date day) {
  return static_cast<int>(std::chrono::weekday{sys_days{day}}.iso_encoding());
}

sys_days monday_of(Date day) {
  return sys_days{day} - days{weekday(day) - 1};
}

std::string short_day(sys_days day) {
  const Date date{day};
  return fmt::format(
      "{}.{}.", static_cast<unsigned>(date.day()), static_cast<unsigned>(date.month()));
}

/// Days side by side: those on which the shop works share the width, closed ones are narrow.
/// Working hours fill the width of their day.
class DayColumns {
 public:
  DayColumns(const shop::Shop& shop, sys_days first, int count, double left, double width)
      : shop_{&shop}, first_{first}, left_{left} {
    const calendar::WorkingDays working{shop};
    double shares = 0;
    for (int i = 0; i < count; ++i) {
      works_.push_back(working.works(Date{first + days{i}}));
      shares += works_.back() ? 1 : kClosedShare;
    }
    for (const bool works : works_) {
      begins_.push_back(left);
      left += width * (works ? 1 : kClosedShare) / shares;
    }
    begins_.push_back(left);
  }

  sys_days first() const { return first_; }
  sys_days end() const { return first_ + days{static_cast<int>(works_.size())}; }
  double left() const { return left_; }
  double right() const { return begins_.back(); }
  bool holds(Date day) const { return first_ <= sys_days{day} && sys_days{day} < end(); }
  bool works(sys_days day) const { return works_[index(day)]; }
  double at(sys_days day) const { return begins_[index(day)]; }
  double middle(Date day) const { return (at(sys_days{day}) + at(sys_days{day} + days{1})) / 2; }

  /// Before the first day its left edge, after the last its right one.
  double at(const Moment& moment) const {
    const sys_days day{moment.day};
    if (day < first_ || day >= end()) {
      return day < first_ ? left_ : right();
    }
    const shop::Workday& hours = shop_->workday;
    const double share = (moment.minute - hours.starts) / (hours.hours * 60);
    return at(day) + (at(day + days{1}) - at(day)) * std::clamp(share, 0.0, 1.0);
  }

 private:
  std::size_t index(sys_days day) const { return static_cast<std::size_t>((day - first_).count()); }

  const shop::Shop* shop_;
  sys_days first_;
  double left_ = 0;
  std::vector<bool> works_;
  std::vector<double> begins_;
};

void draw_days(Page& page, const DayColumns& columns, double top, double bottom, bool every_day) {
  for (sys_days day = columns.first(); day < columns.end(); day += days{1}) {
    const double x = columns.at(day);
    if (!columns.works(day)) {
      page.rectangle({x, top, columns.at(day + days{1}) - x, bottom - top}, kClosedDay);
    }
    if (every_day ? columns.works(day) : weekday(Date{day}) == 1) {
      page.line({x, top}, {x, bottom}, kFaintPen);
      page.text(
          {x + 0.6, top},
          every_day ? day_name(Date{day}).substr(0, 3) + " " + short_day(day) : short_day(day),
          kCaptionText);
    }
  }
}

void draw_wait(Page& page, const Rectangle& wait) {
  for (const auto& [a, b] : hatch_lines({{{wait.x, wait.y},
                                          {wait.right(), wait.y},
                                          {wait.right(), wait.bottom()},
                                          {wait.x, wait.bottom()}}},
                                        45,
                                        kHatchPitch)) {
    page.line(a, b, kFaintPen);
  }
  page.rectangle(wait, std::nullopt, kFaintPen);
}

void draw_bar(Page& page, const DayColumns& columns, const Rectangle& row, const Entry& entry) {
  const double from = columns.at(entry.starts);
  const bool in_sight = sys_days{entry.ends.day} >= columns.first();
  const double to =
      in_sight ? std::min(std::max(columns.at(entry.ends), from + kLeastBar), columns.right())
               : from;
  const double free = columns.at(entry.free);
  const Rectangle work{from, row.y + 0.8, to - from, row.height - 1.6};
  if (in_sight) {
    page.rectangle(work, entry.drives ? kAccent : kSoftPencil);
  }
  if (free > to) {
    draw_wait(page, {to, work.y, free - to, work.height});
  }
}

/// What fits into the column in one line, cut at a letter.
std::string short_name(const std::string& name) {
  std::size_t cut = std::min<std::size_t>(kShownInOneGo, name.size());
  while (cut > 0 && cut < name.size() && (static_cast<unsigned char>(name[cut]) & 0xC0U) == 0x80) {
    --cut;
  }
  return cut < name.size() ? name.substr(0, cut) + "\u2026" : name;
}

bool falls_into(const Entry& entry, sys_days monday) {
  return sys_days{entry.starts.day} < monday + days{7} && sys_days{entry.free.day} >= monday;
}

/// A bar, or the name of the commission whose bars follow.
struct BarRow {
  std::string name;
  std::optional<Entry> entry;
};

std::vector<BarRow> rows_of(const ShownCalendar& shown, sys_days monday) {
  std::vector<BarRow> rows;
  const std::vector<Entry> lines = lines_of(shown.calendar);
  for (std::size_t work = 0; work < shown.works.size(); ++work) {
    bool named = shown.works.size() == 1;
    for (const Entry& entry : lines) {
      if (entry.work == work && falls_into(entry, monday)) {
        if (!std::exchange(named, true)) {
          rows.push_back({shown.works[work].commission->name, std::nullopt});
        }
        rows.push_back({entry.name, entry});
      }
    }
  }
  return rows;
}

void draw_row(Flow& flow, const DayColumns& columns, const BarRow& bar) {
  const Rectangle row = flow.take(kRowHeight);
  const bool drives = bar.entry && bar.entry->drives;
  flow.page().text({row.x, row.centre().y},
                   short_name(bar.name),
                   drives      ? kDrivingText
                   : bar.entry ? kRowText
                               : kCaptionText,
                   {.anchor = Anchor::kMiddle});
  if (bar.entry) {
    flow.page().line({row.x, row.bottom()}, {row.right(), row.bottom()}, kFaintPen);
    draw_bar(flow.page(), columns, row, *bar.entry);
  }
}

/// The days over the next rows, on a new page when there is no room for some of them. How many rows
/// they are drawn for.
std::size_t begin_days(Flow& flow, const DayColumns& columns, std::size_t rows) {
  constexpr std::size_t kFewRows = 4;
  const auto height = [](std::size_t count) { return static_cast<double>(count) * kRowHeight; };
  if (!flow.has_room(kAxisHeight + height(std::min(rows, kFewRows)))) {
    flow.new_page();
  }
  const Rectangle axis = flow.take(kAxisHeight);
  const auto fit = static_cast<std::size_t>(flow.rest().height / kRowHeight);
  const std::size_t shown = std::min(rows, fit);
  draw_days(flow.page(), columns, axis.y, axis.bottom() + height(shown), true);
  return shown;
}

/// A row of marks in the strip, and those that lie beyond it, told at the margin.
class MarkRow {
 public:
  MarkRow(Page& page, const DayColumns& columns, const Rectangle& row)
      : page_{page}, columns_{columns}, row_{row} {}

  template <class Draw>
  void mark(Date day, const Draw& draw) {
    if (columns_.holds(day)) {
      draw(PagePoint{columns_.middle(day), row_.centre().y});
    } else {
      (sys_days{day} < columns_.first() ? before_ : after_).push_back(day);
    }
  }

  void tell_the_rest() {
    tell(before_, columns_.left() - 1, -1);
    tell(after_, columns_.right() + 1, 1);
  }

 private:
  void tell(const std::vector<Date>& beyond, double x, int way) {
    if (beyond.empty()) {
      return;
    }
    const double y = row_.centre().y;
    page_.area({{{x + way * 2.4, y}, {x, y - 1.1}, {x, y + 1.1}}}, kPencil);
    const auto [first, last] = std::ranges::minmax(beyond);
    const std::string when =
        first == last ? short_day(sys_days{first})
                      : short_day(sys_days{first}) + " \u2013 " + short_day(sys_days{last});
    page_.text({x + way * 3.2, y},
               fmt::format("{}: {}", beyond.size(), when),
               kCaptionText,
               {.align = way > 0 ? Align::kLeft : Align::kRight, .anchor = Anchor::kMiddle});
  }

  Page& page_;
  const DayColumns& columns_;
  Rectangle row_;
  std::vector<Date> before_, after_;
};

/// First begin and last time free of a commission.
std::pair<Moment, Moment> span_of(const Calendar& calendar, std::size_t work) {
  std::optional<std::pair<Moment, Moment>> span;
  for (const Entry& entry : calendar.entries) {
    if (entry.work == work) {
      span =
          span ? std::pair{std::min(span->first, entry.starts), std::max(span->second, entry.free)}
               : std::pair{entry.starts, entry.free};
    }
  }
  return span.value_or(std::pair{Moment{calendar.starts, 0}, Moment{calendar.starts, 0}});
}

class Strip {
 public:
  Strip(Flow& flow, const ShownCalendar& shown, const DayColumns& columns)
      : flow_{flow}, shown_{shown}, columns_{columns} {}

  void draw() {
    for (const calendar::Finish& finish : shown_.calendar.finishes) {
      draw_commission(finish);
    }
    MarkRow orders = mark_row("order by");
    for (const calendar::Delivery& delivery : shown_.calendar.deliveries) {
      orders.mark(delivery.order_by, [&](PagePoint p) {
        flow_.page().area({{{p.x - kMarkSize, p.y - kMarkSize},
                            {p.x + kMarkSize, p.y - kMarkSize},
                            {p.x, p.y + kMarkSize}}},
                          delivery.late ? kAccent : kWhite,
                          kThinPen);
      });
    }
    orders.tell_the_rest();
    MarkRow freezes = mark_row("last change");
    for (const calendar::Freeze& freeze : shown_.calendar.freezes) {
      freezes.mark(freeze.day, [&](PagePoint p) {
        flow_.page().rectangle({p.x - kMarkSize / 2, p.y - kMarkSize / 2, kMarkSize, kMarkSize},
                               kPencil);
      });
    }
    freezes.tell_the_rest();
  }

 private:
  void draw_commission(const calendar::Finish& finish) {
    const Rectangle row = flow_.take(kRowHeight);
    name(row, shown_.works[finish.work].commission->name);
    const auto [from, to] = span_of(shown_.calendar, finish.work);
    const double x = columns_.at(from);
    flow_.page().rectangle({x, row.y + 1.4, std::max(kLeastBar, columns_.at(to) - x), 1.6},
                           kSoftPencil);
    for (const calendar::DateOdds& odds : finish.odds) {
      flow_.page().circle({columns_.middle(odds.day), row.y + 2.2}, kMarkSize / 2, kAccent);
    }
    if (const std::optional<Date> wanted = shown_.works[finish.work].commission->wanted) {
      MarkRow wished{flow_.page(), columns_, row};
      wished.mark(*wanted, [&](PagePoint p) {
        flow_.page().line({p.x, row.y}, {p.x, row.bottom()}, kAccentPen);
      });
      wished.tell_the_rest();
    }
  }

  void name(const Rectangle& row, const std::string& text) {
    flow_.page().text(
        {row.x, row.centre().y}, short_name(text), kRowText, {.anchor = Anchor::kMiddle});
    flow_.page().line({row.x, row.bottom()}, {row.right(), row.bottom()}, kFaintPen);
  }

  MarkRow mark_row(const std::string& text) {
    const Rectangle row = flow_.take(kRowHeight);
    name(row, text);
    return {flow_.page(), columns_, row};
  }

  Flow& flow_;
  const ShownCalendar& shown_;
  const DayColumns& columns_;
};

}  // namespace

std::string day_name(Date day) {
  constexpr const char* kNames[] = {
      "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  return fmt::format("{} {}", kNames[weekday(day) - 1], long_date(day));
}

WeekRange weeks_with_work(const ShownCalendar& shown) {
  Date last = shown.calendar.finish;
  for (const Entry& entry : shown.calendar.entries) {
    last = std::max(last, entry.free.day);
  }
  for (const calendar::Finish& finish : shown.calendar.finishes) {
    for (const calendar::DateOdds& odds : finish.odds) {
      last = std::max(last, odds.day);
    }
  }
  return {monday_of(shown.calendar.starts), monday_of(last)};
}

WeekRange weeks_with_anything(const ShownCalendar& shown) {
  WeekRange range = weeks_with_work(shown);
  const auto take = [&](Date day) {
    range.first = std::min(range.first, monday_of(day));
    range.last = std::max(range.last, monday_of(day));
  };
  for (const calendar::Delivery& delivery : shown.calendar.deliveries) {
    take(delivery.order_by);
  }
  for (const calendar::Freeze& freeze : shown.calendar.freezes) {
    take(freeze.day);
  }
  return range;
}

std::vector<Entry> lines_of(const Calendar& calendar) {
  std::vector<Entry> lines;
  std::vector<int> counts;
  for (const Entry& entry : calendar.entries) {
    const bool goes_on = !lines.empty() && lines.back().name == entry.name &&
                         lines.back().who == entry.who && lines.back().work == entry.work &&
                         lines.back().starts.day == entry.ends.day &&
                         !(lines.back().ends < lines.back().free);
    if (!goes_on) {
      lines.push_back(entry);
      counts.push_back(1);
      continue;
    }
    ++counts.back();
    lines.back().ends = entry.ends;
    lines.back().free = entry.free;
    lines.back().drives = lines.back().drives || entry.drives;
    lines.back().critical = std::max(lines.back().critical, entry.critical);
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    lines[i].name += counts[i] > 1 ? fmt::format(", {} in a row", counts[i]) : "";
  }
  return lines;
}

void set_strip(Flow& flow, const ShownCalendar& shown) {
  const std::size_t rows = shown.works.size() + 2;
  if (!flow.has_room(kAxisHeight + static_cast<double>(rows) * kRowHeight)) {
    flow.new_page();
  }
  const Rectangle axis = flow.take(kAxisHeight);
  const WeekRange range = weeks_with_work(shown);
  const DayColumns columns{shown.shop,
                           range.first,
                           static_cast<int>((range.last - range.first).count()) + 7,
                           axis.x + kNameWidth,
                           axis.width - kNameWidth - kMarginOfMarks};
  draw_days(
      flow.page(), columns, axis.y, axis.bottom() + static_cast<double>(rows) * kRowHeight, false);
  Strip{flow, shown, columns}.draw();
}

void set_week_bars(Flow& flow, const ShownCalendar& shown, sys_days monday) {
  const std::vector<BarRow> rows = rows_of(shown, monday);
  const Rectangle body = flow.body();
  const DayColumns columns{shown.shop, monday, 7, body.x + kNameWidth, body.width - kNameWidth};
  std::size_t left_on_page = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::size_t needed = rows[i].entry ? 1 : 2;  // a heading stays with its first bar
    if (left_on_page < needed) {
      left_on_page = begin_days(flow, columns, rows.size() - i);
    }
    draw_row(flow, columns, rows[i]);
    --left_on_page;
  }
  flow.gap(rows.empty() ? 0 : 3);
}

}  // namespace plankwright::papers
