#include "papers/calendar_sheets.h"

#include <algorithm>
#include <chrono>

#include <fmt/format.h>

#include "calendar/working_days.h"
#include "papers/hatch.h"
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

constexpr double kRowHeight = 4.4;
constexpr double kAxisHeight = 15;
constexpr double kNameWidth = 62;
constexpr double kLeastBar = 0.6;
constexpr double kHatchPitch = 0.9;
constexpr double kMarkSize = 1.6;
constexpr Colour kClosedDay{0.93, 0.93, 0.93};
constexpr TextStyle kRowText{.letter_height = 1.8};
constexpr TextStyle kDrivingText{.letter_height = 1.8, .weight = Weight::kBold};

int weekday(Date day) {
  return static_cast<int>(std::chrono::weekday{sys_days{day}}.iso_encoding());
}

std::string day_name(Date day) {
  constexpr const char* kNames[] = {
      "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};
  return fmt::format("{} {}", kNames[weekday(day) - 1], long_date(day));
}

std::string clock(const Moment& moment) {
  return fmt::format("{}:{:02}", moment.minute / 60, moment.minute % 60);
}

/// Where a moment stands on the paper: working hours fill the width of their day.
class Scale {
 public:
  Scale(const plan::Plan& plan, double left, double width) : plan_{&plan}, left_{left} {
    const Calendar& calendar = *plan.calendar;
    first_ = sys_days{calendar.starts};
    last_ = sys_days{calendar.finish};
    for (const calendar::Delivery& delivery : calendar.deliveries) {
      first_ = std::min(first_, sys_days{delivery.order_by});
    }
    for (const calendar::DateOdds& odds : calendar.finishes.front().odds) {
      last_ = std::max(last_, sys_days{odds.day});
    }
    day_width_ = width / static_cast<double>((last_ - first_).count() + 1);
  }

  sys_days first() const { return first_; }
  sys_days last() const { return last_; }
  double day_width() const { return day_width_; }
  double at(sys_days day) const {
    return left_ + day_width_ * static_cast<double>((day - first_).count());
  }
  double at(const Moment& moment) const {
    const shop::Workday& day = plan_->shop.workday;
    const double share = (moment.minute - day.starts) / (day.hours * 60);
    return at(sys_days{moment.day}) + day_width_ * std::clamp(share, 0.0, 1.0);
  }

 private:
  const plan::Plan* plan_;
  double left_ = 0;
  double day_width_ = 1;
  sys_days first_, last_;
};

/// The days above the rows, with what must be ordered or settled on them.
class Axis {
 public:
  Axis(const plan::Plan& plan, const Scale& scale) : plan_{plan}, scale_{scale} {}

  void draw(Page& page, const Rectangle& room, double bottom) const {
    const calendar::WorkingDays working{plan_.shop};
    for (sys_days day = scale_.first(); day <= scale_.last(); day += days{1}) {
      const double x = scale_.at(day);
      if (!working.works(Date{day})) {
        page.rectangle({x, room.y, scale_.day_width(), bottom - room.y}, kClosedDay);
      }
      if (weekday(Date{day}) == 1 || day == scale_.first()) {
        page.line({x, room.y}, {x, bottom}, kFaintPen);
      }
      if (weekday(Date{day}) == 1) {
        page.text({x + 0.6, room.y}, week_label(day), kCaptionText);
      }
    }
    marks(page, room);
    page.line({room.x, room.bottom()}, {room.right(), room.bottom()}, kThinPen);
  }

 private:
  static std::string week_label(sys_days day) {
    const Date date{day};
    return fmt::format(
        "{}.{}.", static_cast<unsigned>(date.day()), static_cast<unsigned>(date.month()));
  }

  double middle(Date day) const { return scale_.at(sys_days{day}) + scale_.day_width() / 2; }

  /// A triangle for a day to order by, a square for a freeze date, a circle for finish dates.
  void marks(Page& page, const Rectangle& room) const {
    const Calendar& calendar = *plan_.calendar;
    const double y = room.bottom() - kMarkSize - 1;
    for (const calendar::Delivery& delivery : calendar.deliveries) {
      const double x = middle(delivery.order_by);
      page.area({{{x - kMarkSize, y - kMarkSize}, {x + kMarkSize, y - kMarkSize}, {x, y + 1}}},
                delivery.late ? kAccent : kWhite,
                kThinPen);
    }
    for (const calendar::Freeze& freeze : calendar.freezes) {
      page.rectangle({middle(freeze.day) - kMarkSize / 2, y - 6, kMarkSize, kMarkSize}, kPencil);
    }
    for (const calendar::DateOdds& odds : calendar.finishes.front().odds) {
      page.circle({middle(odds.day), y - 5.2}, kMarkSize / 2, kAccent);
    }
  }

  const plan::Plan& plan_;
  const Scale& scale_;
};

void draw_bar(Page& page, const Scale& scale, const Rectangle& row, const Entry& entry) {
  const double from = scale.at(entry.starts);
  const double to = std::max(scale.at(entry.ends), from + kLeastBar);
  const double free = scale.at(entry.free);
  const Rectangle work{from, row.y + 0.8, to - from, row.height - 1.6};
  page.rectangle(work, entry.drives ? kAccent : kSoftPencil);
  if (free > to) {
    const Rectangle wait{to, work.y, free - to, work.height};
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
}

/// What fits into the column in one line, cut at a letter.
std::string short_name(const std::string& name) {
  constexpr std::size_t kMost = 42;
  std::size_t cut = std::min(kMost, name.size());
  while (cut > 0 && cut < name.size() && (static_cast<unsigned char>(name[cut]) & 0xC0U) == 0x80) {
    --cut;
  }
  return cut < name.size() ? name.substr(0, cut) + "\u2026" : name;
}

/// Work of one name that follows on itself without a wait on one day, as one line: the settings and
/// their order stand on the setting list.
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
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    lines[i].name += counts[i] > 1 ? fmt::format(", {} in a row", counts[i]) : "";
  }
  return lines;
}

void set_bars(Flow& flow, const plan::Plan& plan) {
  const Rectangle body = flow.body();
  const Scale scale{plan, body.x + kNameWidth, body.width - kNameWidth};
  const Axis axis{plan, scale};
  bool begun = false;
  for (const Entry& entry : lines_of(*plan.calendar)) {
    if (!begun || !flow.has_room(kRowHeight)) {
      if (begun) {
        flow.new_page();
      }
      begun = true;
      const double bottom = flow.rest().bottom();
      const Rectangle room = flow.take(kAxisHeight);
      axis.draw(flow.page(), room, bottom);
    }
    const Rectangle row = flow.take(kRowHeight);
    flow.page().text({row.x, row.centre().y},
                     short_name(entry.name),
                     entry.drives ? kDrivingText : kRowText,
                     {.anchor = Anchor::kMiddle});
    flow.page().line({row.x, row.bottom()}, {row.right(), row.bottom()}, kFaintPen);
    draw_bar(flow.page(), scale, row, entry);
  }
}

std::string odds_text(const plan::Plan& plan) {
  const calendar::Finish& finish = plan.calendar->finishes.front();
  std::vector<std::string> words;
  for (const calendar::DateOdds& odds : finish.odds) {
    words.push_back(
        fmt::format("{} in {:.0f} of 100 cases", long_date(odds.day), 100 * odds.share));
  }
  std::string text = fmt::format("Planned for {}. Finished by {}.",
                                 long_date(finish.planned),
                                 words.empty() ? "then" : listed(words));
  if (plan.commission.wanted && finish.wanted_holds) {
    text += fmt::format(" Wanted on {}: holds in {:.0f} of 100 cases.",
                        long_date(*plan.commission.wanted),
                        100 * *finish.wanted_holds);
  }
  return text;
}

void set_overview(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Calendar", "Calendar"), true);
  flow.paragraph(odds_text(plan), kShopText);
  flow.paragraph(
      "Solid: hands on; hatched: sets, dries or is away. Bold and coloured: drives the finish. "
      "Triangle: last day to order; square: sizes are frozen; dot: finished in 50, 80, 90 of 100 "
      "cases. Grey: closed.",
      kSmallText);
  flow.gap(2);
  set_bars(flow, plan);
}

/// What must be ordered or settled on a day.
std::vector<std::string> due_on(const Calendar& calendar, Date from, Date to) {
  std::vector<std::string> due;
  for (const calendar::Delivery& delivery : calendar.deliveries) {
    if (from <= delivery.order_by && delivery.order_by < to) {
      due.push_back(
          fmt::format("\u2610 Order {} by {}", plain(delivery.what), day_name(delivery.order_by)));
    }
  }
  for (const calendar::Freeze& freeze : calendar.freezes) {
    if (from <= freeze.day && freeze.day < to) {
      due.push_back(fmt::format("\u2610 {}: last change {}; {}",
                                sentence(freeze.what),
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

Row entry_row(const Entry& entry) {
  const std::string left_alone =
      entry.ends < entry.free
          ? fmt::format("left alone until {} {}", long_date(entry.free.day), clock(entry.free))
          : "";
  return {{{clock(entry.starts)},
           {until(entry)},
           {plain(entry.name), left_alone, entry.drives},
           {listed(entry.who)},
           {plain(entry.waits_for)},
           {"\u2610"}}};
}

void set_week(Flow& flow, const plan::Plan& plan, sys_days monday) {
  const Calendar& calendar = *plan.calendar;
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
  for (const Entry& entry : lines_of(calendar)) {
    if (entry.starts.day < from || entry.starts.day >= to) {
      continue;
    }
    if (entry.starts.day != last) {
      last = entry.starts.day;
      table.rows.push_back({{{day_name(last)}}, Row::Kind::kHeading});
    }
    table.rows.push_back(entry_row(entry));
  }
  const std::vector<std::string> due = due_on(calendar, from, to);
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

void set_weeks(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  const Scale scale{plan, 0, 1};
  Flow flow = packet.sheets.flow(packet.info("Week by week", "Week sheet"));
  for (const std::string& note : plan.calendar->notes) {
    flow.paragraph(sentence(plain(note)), kShopText);
  }
  const sys_days monday = scale.first() - days{weekday(Date{scale.first()}) - 1};
  for (sys_days week = monday; week <= scale.last(); week += days{7}) {
    set_week(flow, plan, week);
  }
}

}  // namespace

void add_calendar(const Packet& packet) {
  if (packet.plan.calendar) {
    set_overview(packet);
    set_weeks(packet);
  }
}

}  // namespace plankwright::papers
