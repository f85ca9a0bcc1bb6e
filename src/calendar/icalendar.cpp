#include "calendar/icalendar.h"

#include <chrono>
#include <map>

#include <fmt/format.h>

namespace plankwright::calendar {
namespace {

constexpr std::size_t kOctets = 75;

std::string day_text(Date day) {
  return fmt::format("{:04}{:02}{:02}",
                     static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

std::string moment_text(const Moment& moment) {
  return fmt::format(
      "{}T{:02}{:02}00", day_text(moment.day), moment.minute / 60, moment.minute % 60);
}

Date next_day(Date day) {
  return Date{std::chrono::sys_days{day} + std::chrono::days{1}};
}

/// Letters, digits and hyphens only, so that a UID needs no escaping.
std::string plain(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool keep = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (keep) {
      out += c;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  return out;
}

class Writer {
 public:
  Writer(const Calendar& calendar, const std::vector<Work>& works, Date stamp)
      : calendar_{calendar}, works_{works}, stamp_{day_text(stamp) + "T000000Z"} {}

  std::string write() {
    line("BEGIN", "VCALENDAR");
    line("VERSION", "2.0");
    line("PRODID", "-//Plankwright//Calendar//EN");
    line("CALSCALE", "GREGORIAN");
    for (const Entry& entry : calendar_.entries) {
      add(entry);
    }
    for (const Delivery& delivery : calendar_.deliveries) {
      all_day(delivery.work, "order", delivery.order_by, "Order by: " + delivery.what);
    }
    for (const Freeze& freeze : calendar_.freezes) {
      all_day(freeze.work,
              "freeze",
              freeze.day,
              fmt::format("Last day to change: {} ({})", freeze.what, freeze.why));
    }
    line("END", "VCALENDAR");
    return std::move(out_);
  }

 private:
  void line(const std::string& name, const std::string& value) {
    out_ += folded(name + ":" + value);
  }

  const commission::Commission& commission(std::size_t work) const {
    return *works_[work].commission;
  }

  void begin(std::size_t work, const std::string& kind, const std::string& summary) {
    const commission::Commission& of = commission(work);
    const std::string id =
        plain(of.number.empty() ? of.name : of.number) + "-" + kind + "-" + plain(summary);
    const int again = seen_[id]++;
    line("BEGIN", "VEVENT");
    line("UID", fmt::format("{}{}@plankwright", id, again > 0 ? fmt::format("-{}", again) : ""));
    line("DTSTAMP", stamp_);
    line("SUMMARY", escaped(summary));
  }

  void add(const Entry& entry) {
    begin(entry.work, "work", entry.name);
    line("DTSTART", moment_text(entry.starts));
    line("DTEND", moment_text(entry.ends));
    line("DESCRIPTION",
         escaped(fmt::format("{}, {:.0f} min hands on{}",
                             commission(entry.work).name,
                             entry.hands_on.count(),
                             entry.people > 1 ? fmt::format(", {} people", entry.people) : "")));
    line("END", "VEVENT");
    if (entry.ends < entry.free) {
      begin(entry.work, "wait", "Left alone after " + entry.name);
      line("DTSTART", moment_text(entry.ends));
      line("DTEND", moment_text(entry.free));
      line("TRANSP", "TRANSPARENT");
      line("END", "VEVENT");
    }
  }

  void all_day(std::size_t work, const std::string& kind, Date day, const std::string& summary) {
    begin(work, kind, summary);
    line("DTSTART;VALUE=DATE", day_text(day));
    line("DTEND;VALUE=DATE", day_text(next_day(day)));
    line("TRANSP", "TRANSPARENT");
    line("END", "VEVENT");
  }

  const Calendar& calendar_;
  const std::vector<Work>& works_;
  std::string stamp_;
  std::string out_;
  std::map<std::string, int> seen_;
};

bool continues_a_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

}  // namespace

std::string folded(const std::string& line) {
  std::string out;
  std::size_t room = kOctets;
  for (std::size_t at = 0; at < line.size();) {
    std::size_t end = std::min(line.size(), at + room);
    while (end < line.size() && end > at + 1 && continues_a_character(line[end])) {
      --end;
    }
    out += (at == 0 ? "" : "\r\n ") + line.substr(at, end - at);
    at = end;
    room = kOctets - 1;  // the space that begins a continued line counts
  }
  return out + "\r\n";
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c != '\r') {
      out += c;
    }
  }
  return out;
}

std::string icalendar(const Calendar& calendar, const std::vector<Work>& works, Date stamp) {
  return Writer{calendar, works, stamp}.write();
}

}  // namespace plankwright::calendar
