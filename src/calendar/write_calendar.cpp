// The steps as entries, by time, and what they waited for.

#include <algorithm>
#include <map>

#include "calendar/views.h"

namespace plankwright::calendar {
namespace {

class Writer {
 public:
  Writer(const Model& model,
         const Days& days,
         const std::vector<Work>& works,
         const shop::Shop& shop,
         const DayRules& day_rules)
      : model_{model},
        days_{days},
        works_{works},
        shop_{shop},
        day_rules_{day_rules},
        working_{shop},
        steps_{days.entry_steps(model)} {}

  Calendar write() {
    Calendar calendar;
    calendar.starts = model_.first_day;
    calendar.notes = model_.notes;
    calendar.bound = model_.day_of_end(days_.bound);
    mark_chain();
    for (const std::size_t i : steps_) {
      calendar.entries.push_back(entry(i));
    }
    for (std::size_t work = 0; work < works_.size(); ++work) {
      Finish& finish = calendar.finishes.emplace_back();
      finish.work = work;
      finish.planned = model_.day_of_end(days_.end_of(model_, work));
      calendar.finish = std::max(calendar.finish, finish.planned);
    }
    calendar.proven = calendar.finish == calendar.bound;
    calendar.held_up = held_up();
    return calendar;
  }

 private:
  void mark_chain() {
    on_chain_.assign(model_.steps.size(), false);
    const auto last = std::ranges::max_element(days_.finish);
    auto i = last == days_.finish.end() ? -1 : static_cast<int>(last - days_.finish.begin());
    while (i >= 0) {
      on_chain_[static_cast<std::size_t>(i)] = true;
      i = days_.waited_for[static_cast<std::size_t>(i)];
    }
  }

  Entry entry(std::size_t i) const {
    const Step& step = model_.steps[i];
    const bench::Operation& operation = operation_of(works_, step);
    Entry entry;
    entry.work = step.work;
    entry.operation = step.operation;
    entry.name = operation.name;
    entry.starts = model_.moment(days_.start[i]);
    entry.ends = model_.moment(days_.finish[i]);
    entry.free = model_.moment(free_of(i));
    entry.hands_on = operation.total() * (goes_out_and_back(step) ? 0.5 : 1.0);
    entry.people = operation.people;
    entry.called_in = operation.people > static_cast<int>(shop_.people.size());
    entry.helper = day_rules_.of(operation.standard).helper;
    entry.waits_for = waits_for(i);
    entry.drives = on_chain_[i];
    return entry;
  }

  /// Taken to the finisher and fetched, half of the hours each.
  bool goes_out_and_back(const Step& step) const {
    const int first = model_.first_step[step.work][step.operation];
    const int last = model_.last_step[step.work][step.operation];
    return first != last && model_.steps[static_cast<std::size_t>(last)].kind == StepKind::kWork;
  }

  std::int64_t free_of(std::size_t i) const {
    const bool follows = i + 1 < model_.steps.size() &&
                         model_.steps[i + 1].kind != StepKind::kWork &&
                         model_.steps[i + 1].work == model_.steps[i].work &&
                         model_.steps[i + 1].operation == model_.steps[i].operation;
    return follows ? days_.finish[i + 1] : days_.finish[i];
  }

  std::string waits_for(std::size_t i) const {
    const Step& step = model_.steps[i];
    if (days_.waited_for[i] >= 0) {
      const Step& earlier = model_.steps[static_cast<std::size_t>(days_.waited_for[i])];
      const std::string& name = operation_of(works_, earlier).name;
      const std::string whose =
          earlier.work != step.work ? " of " + works_[earlier.work].commission->name : "";
      return (earlier.kind == StepKind::kWork ? "" : "waiting after ") + name + whose;
    }
    const auto purchase = purchase_waited_for(model_, works_, step);
    return purchase ? "delivery of " + works_[step.work].stock->purchases[*purchase].what : "";
  }

  /// When what precedes a step is done and what it needs is there.
  std::int64_t ready(std::size_t i) const {
    std::int64_t ready = model_.job.activities[i].release;
    for (const solve::Lag& lag : model_.job.lags) {
      if (static_cast<std::size_t>(lag.second) == i) {
        ready = std::max(ready, days_.finish[static_cast<std::size_t>(lag.first)] + lag.least);
      }
    }
    return ready;
  }

  /// From one moment to another.
  using Stretch = std::pair<Moment, Moment>;

  /// Working time within any of the stretches.
  Minutes open_within(std::vector<Stretch> stretches) const {
    std::ranges::sort(stretches);
    Minutes open;
    Moment until{};
    for (const auto& [from, to] : stretches) {
      if (to > until) {
        open += working_.open_between(std::max(from, until), to);
        until = to;
      }
    }
    return open;
  }

  std::vector<HeldUp> held_up() const {
    std::map<std::pair<std::size_t, std::size_t>, HeldUp> found;
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Stretch>> waits;
    for (std::size_t e = 0; e < steps_.size(); ++e) {
      const std::size_t i = steps_[e];
      const std::size_t work = model_.steps[i].work;
      const int by = days_.waited_for[i];
      if (by < 0 || model_.steps[static_cast<std::size_t>(by)].work == work) {
        continue;
      }
      const std::pair key{work, model_.steps[static_cast<std::size_t>(by)].work};
      const Stretch wait{model_.moment(ready(i)), model_.moment(days_.start[i])};
      const Minutes open = open_within({wait});
      HeldUp& held = found[key];
      held.work = key.first;
      held.by = key.second;
      ++held.times;
      if (open >= held.open) {  // for now, of the longest
        held.open = open;
        held.entry = e;
        held.what_for = model_.resources[static_cast<std::size_t>(days_.waited_on[i])];
      }
      waits[key].push_back(wait);
    }
    std::vector<HeldUp> all;
    for (auto& [key, held] : found) {
      held.open = open_within(waits[key]);
      all.push_back(std::move(held));
    }
    std::ranges::stable_sort(all, std::greater{}, &HeldUp::open);
    return all;
  }

  const Model& model_;
  const Days& days_;
  const std::vector<Work>& works_;
  const shop::Shop& shop_;
  const DayRules& day_rules_;
  WorkingDays working_;
  std::vector<std::size_t> steps_;  // of the entries
  std::vector<bool> on_chain_;
};

}  // namespace

Calendar write_calendar(const Model& model,
                        const Days& days,
                        const std::vector<Work>& works,
                        const shop::Shop& shop,
                        const DayRules& day_rules) {
  return Writer{model, days, works, shop, day_rules}.write();
}

}  // namespace plankwright::calendar
