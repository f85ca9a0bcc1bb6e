// Every stretch of work within one day gets people who are in and free. The plan keeps makers and
// people in all within what there is, so somebody is always free; only a maker may stand at work
// that a helper could do while a helper is idle, and then the two change places.

#include <algorithm>
#include <chrono>

#include "calendar/model.h"

namespace plankwright::calendar {
namespace {

/// What one person does on one day until then.
struct Busy {
  std::size_t person = 0;
  std::size_t entry = 0;
  int until = 0;
};

class Day {
 public:
  Day(Calendar& calendar, const shop::Shop& shop, const WorkingDays& days, Date date)
      : calendar_{calendar}, shop_{shop}, days_{days}, date_{date} {}

  void name(std::size_t index, int starts, int ends) {
    std::erase_if(busy_, [&](const Busy& b) { return b.until <= starts; });
    const Entry& entry = calendar_.entries[index];
    for (int i = 0; i < entry.people; ++i) {
      const bool needs_maker = i == 0 && !entry.helper;
      std::optional<std::size_t> person = free_person(needs_maker);
      if (!person && needs_maker) {
        person = maker_freed();
      }
      if (person) {
        busy_.push_back({*person, index, ends});
        add_name(index, *person);
      }
    }
  }

 private:
  bool is_maker(std::size_t person) const { return shop_.people[person].role == "maker"; }

  /// A helper before a maker, but a maker where one is needed.
  std::optional<std::size_t> free_person(bool needs_maker) const {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < shop_.people.size(); ++i) {
      const bool free = days_.is_in(shop_.people[i], date_) &&
                        std::ranges::find(busy_, i, &Busy::person) == busy_.end() &&
                        (is_maker(i) || !needs_maker);
      if (free && (!found || (is_maker(*found) && !is_maker(i)))) {
        found = i;
      }
    }
    return found;
  }

  /// A maker at work that an idle helper can take over.
  std::optional<std::size_t> maker_freed() {
    const std::optional<std::size_t> helper = free_person(false);
    const auto at = std::ranges::find_if(busy_, [&](const Busy& b) {
      return is_maker(b.person) && calendar_.entries[b.entry].helper;
    });
    if (!helper || at == busy_.end()) {
      return std::nullopt;
    }
    const std::size_t maker = at->person;
    at->person = *helper;
    add_name(at->entry, *helper);
    return maker;
  }

  void add_name(std::size_t index, std::size_t person) {
    std::vector<std::string>& who = calendar_.entries[index].who;
    const std::string& name = shop_.people[person].name;
    if (std::ranges::find(who, name) == who.end()) {
      who.push_back(name);
    }
  }

  Calendar& calendar_;
  const shop::Shop& shop_;
  const WorkingDays& days_;
  Date date_;
  std::vector<Busy> busy_;
};

}  // namespace

void name_people(Calendar& calendar, const shop::Shop& shop) {
  const WorkingDays days{shop};
  Date last = calendar.starts;
  for (const Entry& entry : calendar.entries) {
    last = std::max(last, entry.ends.day);
  }
  const int opens = shop.workday.starts;
  const int closes = opens + static_cast<int>(shop.workday.hours * 60);
  for (auto date = std::chrono::sys_days{calendar.starts}; date <= std::chrono::sys_days{last};
       date += std::chrono::days{1}) {
    Day day{calendar, shop, days, Date{date}};
    std::vector<std::pair<int, std::size_t>> begun;  // by time, then in the order of the entries
    for (std::size_t i = 0; i < calendar.entries.size(); ++i) {
      const Entry& entry = calendar.entries[i];
      if (entry.starts.day <= Date{date} && Date{date} <= entry.ends.day) {
        begun.emplace_back(entry.starts.day == Date{date} ? entry.starts.minute : opens, i);
      }
    }
    std::ranges::sort(begun);
    for (const auto& [starts, i] : begun) {
      const Entry& entry = calendar.entries[i];
      const int ends = entry.ends.day == Date{date} ? entry.ends.minute : closes;
      if (starts < ends) {
        day.name(i, starts, ends);
      }
    }
  }
}

}  // namespace plankwright::calendar
