#include <algorithm>
#include <chrono>
#include <set>

#include <fmt/format.h>

#include "calendar/model.h"

namespace plankwright::calendar {
namespace {

using solve::ScheduleObstacle;
using solve::ScheduleObstacleKind;

constexpr double kWorkOfAFirstAnswer = 2e6;
constexpr int kMostRepairs = 40;
constexpr double kShownWait = 20;  // minutes; a shorter wait is no time for anything else

const bench::Operation& operation_of(const std::vector<Work>& works, const Step& step) {
  return works[step.work].bench->operations[step.operation];
}

std::string names_of(const ScheduleObstacle& obstacle,
                     const Model& model,
                     const std::vector<Work>& works) {
  std::string names;
  for (const int activity : obstacle.activities) {
    const std::string& name =
        operation_of(works, model.steps[static_cast<std::size_t>(activity)]).name;
    if (names.find("`" + name + "`") == std::string::npos) {
      names += fmt::format("{}`{}`", names.empty() ? "" : ", ", name);
    }
  }
  return names;
}

/// An obstacle with the names of the work, and the nearest way out.
base::Error error_of(const ScheduleObstacle& obstacle,
                     const Model& model,
                     const std::vector<Work>& works) {
  const std::string names = names_of(obstacle, model, works);
  switch (obstacle.kind) {
    case ScheduleObstacleKind::kCircle:
      return {base::ErrorCode::kBadInput,
              fmt::format("these wait for each other in a circle: {}; take one of them out of what "
                          "it waits for",
                          names)};
    case ScheduleObstacleKind::kNoTime:
      return {base::ErrorCode::kDoesNotFit,
              fmt::format("{} takes {} min of the day in one go, and a day has {}: divide it, take "
                          "a second person, or write a longer `workday`",
                          names,
                          obstacle.needed,
                          model.day_minutes)};
    case ScheduleObstacleKind::kNeedsMore: {
      const auto resource = static_cast<std::size_t>(std::max(0, obstacle.resource));
      return {base::ErrorCode::kDoesNotFit,
              fmt::format("{} needs {} {}, and the shop has {}",
                          names,
                          obstacle.needed,
                          resource < model.capacities.size() ? model.capacities[resource].name : "",
                          obstacle.available)};
    }
    default:
      return solve::describe(obstacle);
  }
}

/// What sets must begin to set at once: where its place was taken by something else meanwhile, the
/// work before it has to begin after that.
bool add_repairs(Model& model, const solve::ScheduleAnswer& answer) {
  bool found = false;
  for (std::size_t i = 1; i < model.steps.size(); ++i) {
    const bool waits = model.steps[i].kind == StepKind::kWait;
    if (!waits || answer.start[i] <= answer.finish[i - 1]) {
      continue;
    }
    int taken_by = -1;
    for (std::size_t j = 0; j < model.steps.size(); ++j) {
      const bool ends_then = j != i && answer.finish[j] == answer.start[i];
      if (ends_then && model.steps[j].kind == StepKind::kWait) {
        taken_by = static_cast<int>(j);
      }
    }
    if (taken_by >= 0) {
      model.job.lags.push_back({taken_by, static_cast<int>(i) - 1, 0});
      found = true;
    }
  }
  return found;
}

base::Result<solve::ScheduleAnswer> solve_model(Model& model, double work) {
  const solve::ScheduleLimits limits{.work = static_cast<std::int64_t>(work * kWorkOfAFirstAnswer),
                                     .threads = 1};
  auto answer = solve::solve_schedule(model.job, limits);
  const std::size_t lags = model.job.lags.size();
  for (int i = 0; i < kMostRepairs && answer.ok() && add_repairs(model, answer.value()); ++i) {
    auto again = solve::solve_schedule(model.job, limits);
    if (!again.ok()) {
      break;
    }
    const std::int64_t bound = answer.value().bound;
    answer = std::move(again);
    // The bound of the job as it was asked: what was added only mends this answer.
    solve::ScheduleAnswer mended = answer.value();
    mended.bound = bound;
    mended.proven = mended.makespan == bound;
    answer = std::move(mended);
  }
  if (!answer.ok()) {
    model.job.lags.resize(lags);
  }
  return answer;
}

class Writer {
 public:
  Writer(const Model& model,
         const solve::ScheduleAnswer& answer,
         const std::vector<Work>& works,
         const shop::Shop& shop,
         const DayRules& day_rules)
      : model_{model},
        answer_{answer},
        works_{works},
        shop_{shop},
        day_rules_{day_rules},
        days_{shop},
        before_{waited_for(model, answer)} {}

  Calendar write() {
    Calendar calendar;
    calendar.starts = model_.first_day;
    calendar.notes = model_.notes;
    calendar.finish = day_of_end(answer_.makespan);
    calendar.bound = day_of_end(answer_.bound);
    calendar.proven = calendar.finish == calendar.bound;
    mark_chain();
    for (std::size_t i = 0; i < model_.steps.size(); ++i) {
      if (model_.steps[i].kind == StepKind::kWork) {
        calendar.entries.push_back(entry(i));
      }
    }
    std::ranges::stable_sort(calendar.entries, {}, &Entry::starts);
    for (std::size_t work = 0; work < works_.size(); ++work) {
      Finish& finish = calendar.finishes.emplace_back();
      finish.work = work;
      finish.planned = day_of_end(end_of(work));
    }
    return calendar;
  }

 private:
  Date day_of_end(std::int64_t minute) const {
    return model_.moment(std::max<std::int64_t>(minute, 1) - 1).day;
  }

  std::int64_t end_of(std::size_t work) const {
    std::int64_t end = 0;
    for (std::size_t i = 0; i < model_.steps.size(); ++i) {
      end = model_.steps[i].work == work ? std::max(end, answer_.finish[i]) : end;
    }
    return end;
  }

  void mark_chain() {
    on_chain_.assign(model_.steps.size(), false);
    const auto last = std::ranges::max_element(answer_.finish);
    for (int i = last == answer_.finish.end() ? -1
                                              : static_cast<int>(last - answer_.finish.begin());
         i >= 0 && !on_chain_[static_cast<std::size_t>(i)];
         i = before_[static_cast<std::size_t>(i)]) {
      on_chain_[static_cast<std::size_t>(i)] = true;
    }
  }

  Entry entry(std::size_t i) const {
    const Step& step = model_.steps[i];
    const bench::Operation& operation = operation_of(works_, step);
    Entry entry;
    entry.work = step.work;
    entry.operation = step.operation;
    entry.name = operation.name;
    entry.starts = model_.moment(answer_.start[i]);
    entry.ends = model_.moment(answer_.finish[i]);
    entry.free = model_.moment(free_of(i));
    entry.hands_on = operation.total();
    entry.people = operation.people;
    entry.called_in = operation.people > static_cast<int>(shop_.people.size());
    entry.helper = day_rules_.of(operation.standard).helper;
    entry.waits_for = waits_for(i);
    entry.drives = on_chain_[i];
    return entry;
  }

  std::int64_t free_of(std::size_t i) const {
    const bool follows = i + 1 < model_.steps.size() &&
                         model_.steps[i + 1].kind != StepKind::kWork &&
                         model_.steps[i + 1].work == model_.steps[i].work &&
                         model_.steps[i + 1].operation == model_.steps[i].operation;
    return follows ? answer_.finish[i + 1] : answer_.finish[i];
  }

  std::string waits_for(std::size_t i) const {
    const Step& step = model_.steps[i];
    if (before_[i] >= 0) {
      const Step& earlier = model_.steps[static_cast<std::size_t>(before_[i])];
      return (earlier.kind == StepKind::kWork ? "" : "waiting after ") +
             operation_of(works_, earlier).name;
    }
    int lead = 0;
    std::string what;
    for (const std::size_t purchase : model_.needs[step.work][step.operation]) {
      const stock::Purchase& bought = works_[step.work].stock->purchases[purchase];
      if (bought.lead_days > lead) {
        lead = bought.lead_days;
        what = "delivery of " + bought.what;
      }
    }
    return what;
  }

  const Model& model_;
  const solve::ScheduleAnswer& answer_;
  const std::vector<Work>& works_;
  const shop::Shop& shop_;
  const DayRules& day_rules_;
  WorkingDays days_;
  std::vector<int> before_;
  std::vector<bool> on_chain_;
};

/// The first entry that needs a purchase.
const Entry* first_need(const Calendar& calendar,
                        const Model& model,
                        std::size_t work,
                        std::size_t purchase) {
  for (const Entry& entry : calendar.entries) {
    const auto& needs = model.needs[work][entry.operation];
    if (entry.work == work && std::ranges::find(needs, purchase) != needs.end()) {
      return &entry;
    }
  }
  return nullptr;
}

void add_delivery(Calendar& calendar,
                  const Model& model,
                  const Work& work,
                  const Finish& finish,
                  std::size_t purchase,
                  const shop::Shop& shop) {
  const WorkingDays days{shop};
  const Entry* need = first_need(calendar, model, finish.work, purchase);
  if (need == nullptr) {  // no work is known to ask for it: it should be here from the start
    const auto first = std::ranges::find(calendar.entries, finish.work, &Entry::work);
    need = first != calendar.entries.end() ? &*first : nullptr;
  }
  if (need == nullptr) {
    return;
  }
  const stock::Purchase& bought = work.stock->purchases[purchase];
  const int later = std::max(0, finish.spare_days);
  const std::optional<Date> needed = days.add(need->starts.day, later);
  const std::optional<Date> by =
      needed ? order_by(days, *needed, bought.lead_days, shop.order_slack) : std::nullopt;
  if (!by) {
    return;
  }
  Delivery delivery{.work = finish.work,
                    .purchase = purchase,
                    .what = bought.what,
                    .lead_days = bought.lead_days,
                    .needed = *needed,
                    .order_by = *by,
                    .late = *by < calendar.starts};
  if (delivery.late) {  // ordered at once it comes without slack, as the plan reckons
    delivery.order_by = calendar.starts;
  }
  calendar.deliveries.push_back(std::move(delivery));
}

void add_deliveries(Calendar& calendar,
                    const Model& model,
                    const std::vector<Work>& works,
                    const shop::Shop& shop) {
  for (const Finish& finish : calendar.finishes) {
    for (std::size_t i = 0; i < works[finish.work].stock->purchases.size(); ++i) {
      add_delivery(calendar, model, works[finish.work], finish, i, shop);
    }
  }
  std::ranges::stable_sort(calendar.deliveries, {}, &Delivery::order_by);
}

/// Drawers follow the measured openings, whether they are ordered or made.
void add_freezes(Calendar& calendar, const std::vector<Work>& works, const shop::Shop& shop) {
  const WorkingDays days{shop};
  for (const Delivery& delivery : calendar.deliveries) {
    const stock::Purchase& bought = works[delivery.work].stock->purchases[delivery.purchase];
    const shop::Hardware* fitting = shop.fitting(bought.stock);
    if (fitting != nullptr && fitting->kind == "drawer_box") {
      calendar.freezes.push_back({delivery.work,
                                  delivery.order_by,
                                  "sizes of the openings for drawers",
                                  fitting->name + " are ordered to size"});
    }
  }
  for (const Finish& finish : calendar.finishes) {
    const auto made = std::ranges::find_if(calendar.entries, [&](const Entry& entry) {
      return entry.work == finish.work &&
             works[entry.work].bench->operations[entry.operation].standard == "drawer_parts";
    });
    if (made != calendar.entries.end()) {
      const auto day = days.add(made->starts.day, std::max(0, finish.spare_days));
      calendar.freezes.push_back({finish.work,
                                  day.value_or(made->starts.day),
                                  "sizes of the openings for drawers",
                                  "the parts of the drawers are cut"});
    }
  }
}

/// Minutes of working days between two moments.
double open_between(const shop::Shop& shop, const WorkingDays& days, Moment from, Moment to) {
  const int begins = shop.workday.starts;
  const int ends = begins + static_cast<int>(shop.workday.hours * 60);
  double open = 0;
  for (Date day = from.day; day <= to.day;
       day = Date{std::chrono::sys_days{day} + std::chrono::days{1}}) {
    if (days.works(day)) {
      const int first = day == from.day ? std::max(begins, from.minute) : begins;
      const int last = day == to.day ? std::min(ends, to.minute) : ends;
      open += std::max(0, last - first);
    }
  }
  return open;
}

void add_overlaps(Calendar& calendar, const shop::Shop& shop) {
  const WorkingDays days{shop};
  for (std::size_t i = 0; i < calendar.entries.size(); ++i) {
    const Entry& waits = calendar.entries[i];
    const double open = open_between(shop, days, waits.ends, waits.free);
    if (open < kShownWait) {
      continue;
    }
    std::string fits;
    double used = 0;
    for (const Entry& other : calendar.entries) {
      const Moment from = std::max(waits.ends, other.starts);
      const Moment to = std::min(waits.free, other.ends);
      if (from < to && open_between(shop, days, from, to) > 0) {
        used += open_between(shop, days, from, to);
        fits += fmt::format("{}{}", fits.empty() ? "" : "; ", other.name);
      }
    }
    calendar.overlaps.push_back(
        {i,
         Minutes{open},
         fmt::format("While this waits after {} ({:.0f} min of the day): {}",
                     waits.name,
                     open,
                     fits.empty() ? "nothing of this work; take something else" : fits)});
  }
}

void add_notes(Calendar& calendar, const std::vector<Work>& works, const shop::Shop& shop) {
  std::set<std::string> called;
  for (const Entry& entry : calendar.entries) {
    if (entry.called_in && called.insert(entry.name).second) {
      calendar.notes.push_back(fmt::format("{} on {} asks for {} people: call somebody in",
                                           entry.name,
                                           measure::print(entry.starts.day),
                                           entry.people));
    }
  }
  for (const Finish& finish : calendar.finishes) {
    const std::optional<Date> wanted = works[finish.work].commission->wanted;
    if (wanted && finish.spare_days < 0) {
      calendar.notes.push_back(
          fmt::format("{} is wanted on {} and holds {} four times in five: promise that day, or "
                      "take off {} working days",
                      works[finish.work].commission->name,
                      measure::print(*wanted),
                      measure::print(finish.odds[1].day),
                      -finish.spare_days));
    }
  }
  for (const Delivery& delivery : calendar.deliveries) {
    if (delivery.late) {
      calendar.notes.push_back(fmt::format(
          "{} takes {} working days and {} more in hand: there is no such time left before {}; "
          "order it on the first day, or find it elsewhere",
          delivery.what,
          delivery.lead_days,
          shop.order_slack,
          measure::print(delivery.needed)));
    }
  }
}

}  // namespace

std::optional<Date> first_day(const commission::Commission& commission, const shop::Shop& shop) {
  const WorkingDays days{shop};
  return commission.quoted ? days.add(*commission.quoted, 1) : std::nullopt;
}

Planned plan_calendar(const std::vector<Work>& works,
                      const shop::Shop& shop,
                      const bench::Rules& rules,
                      const DayRules& day_rules,
                      Date start,
                      const CalendarLimits& limits) {
  Planned planned;
  base::Result<Model> made = model_of(works, shop, rules, day_rules, start);
  if (!made.ok()) {
    planned.errors.push_back(made.error());
    return planned;
  }
  Model model = std::move(made).value();
  for (const ScheduleObstacle& obstacle : solve::find_schedule_obstacles(model.job)) {
    planned.errors.push_back(error_of(obstacle, model, works));
  }
  if (!planned.errors.empty()) {
    return planned;
  }
  const auto answer = solve_model(model, limits.work);
  if (!answer.ok()) {
    planned.errors.push_back(answer.error());
    return planned;
  }
  Calendar calendar = Writer{model, answer.value(), works, shop, day_rules}.write();
  draw_odds(calendar, model, answer.value(), works, shop, limits);
  name_people(calendar, shop);
  add_deliveries(calendar, model, works, shop);
  add_freezes(calendar, works, shop);
  add_overlaps(calendar, shop);
  add_notes(calendar, works, shop);
  planned.calendar = std::move(calendar);
  return planned;
}

}  // namespace plankwright::calendar
