// One person's hands-on minute takes 1 / hands_on minutes of the day. People are two resources,
// makers and everybody, so that a helper does only what a helper can do. What sets or dries is an
// activity of its own that runs day and night and holds its place.

#include "calendar/model.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "bench/clamps.h"
#include "measure/expression.h"

namespace plankwright::calendar {
namespace {

using bench::Operation;
using solve::Activity;
using solve::ScheduleResource;

constexpr std::int64_t kMinutesOfDay = 24 * 60;
constexpr std::int64_t kAllTheAir = 100;  // a wet coat leaves none of it to dust
constexpr int kSpareDays = 120;
constexpr int kMakers = 0;
constexpr int kPeople = 1;
constexpr int kBench = 2;
constexpr int kFinishing = 3;  // or the air of the room, where there is no place apart

std::int64_t minutes_of(double minutes) {
  return static_cast<std::int64_t>(std::ceil(minutes - 1e-9));
}

class Builder {
 public:
  Builder(const std::vector<Work>& works,
          const shop::Shop& shop,
          const bench::Rules& rules,
          const DayRules& day_rules)
      : works_{works}, shop_{shop}, rules_{rules}, day_rules_{day_rules}, days_{shop} {}

  base::Result<Model> build(Date start) {
    const std::optional<Date> first = days_.on_or_after(start);
    if (!first) {
      return base::Error{base::ErrorCode::kDoesNotFit,
                         fmt::format("the shop has no working day after {}; write fewer days under "
                                     "`closed`, or more under `workday: days`",
                                     measure::print(start))};
    }
    model_.first_day = *first;
    model_.hands_on = shop_.workday.hands_on.count() / 100;
    model_.day_minutes = static_cast<std::int64_t>(shop_.workday.hours * 60);
    add_days();
    if (most_makers_ == 0) {
      return base::Error{base::ErrorCode::kDoesNotFit,
                         "no maker is in on any working day; write one under `people`"};
    }
    add_places();
    for (std::size_t work = 0; work < works_.size(); ++work) {
      add_work(work);
    }
    return std::move(model_);
  }

 private:
  /// Far enough for everything done twice by one person, one thing after the other.
  int days_ahead() const {
    double minutes = 0;
    int lead = 0;
    for (const Work& work : works_) {
      for (const Operation& operation : work.bench->operations) {
        minutes += operation.total().count() / model_.hands_on + operation.unattended.count();
        minutes += day_rules_.of(operation.standard).rest.count();
      }
      for (const bench::StageCard& card : work.bench->glue_ups) {
        minutes += card.clamps_off.count();
      }
      for (const stock::Purchase& purchase : work.stock->purchases) {
        lead = std::max(lead, purchase.lead_days);
      }
    }
    const double days = 3 * minutes / static_cast<double>(model_.day_minutes);
    return kSpareDays + 2 * lead + static_cast<int>(std::min(days, 20'000.0));
  }

  void add_days() {
    const int ahead = days_ahead();
    ScheduleResource makers;
    ScheduleResource people;
    std::optional<Date> day = model_.first_day;
    for (int i = 0; i < ahead && day; ++i, day = days_.add(*day, 1)) {
      const std::int64_t from = minute_of(*day) + shop_.workday.starts;
      open_.open.push_back({from, from + model_.day_minutes});
      open_days_.push_back(*day);
      int in_makers = 0;
      int in_all = 0;
      for (const shop::Person& person : shop_.people) {
        const bool in = days_.is_in(person, *day);
        in_all += in ? 1 : 0;
        in_makers += in && person.role == "maker" ? 1 : 0;
      }
      set(makers, minute_of(*day), in_makers);
      set(people, minute_of(*day), in_all);
      most_makers_ = std::max(most_makers_, in_makers);
      most_people_ = std::max(most_people_, in_all);
    }
    model_.job.calendars.push_back(open_);
    add_capacity(std::move(makers), "makers");
    add_capacity(std::move(people), "people");
  }

  static void set(ScheduleResource& resource, std::int64_t at, std::int64_t capacity) {
    const std::int64_t before =
        resource.steps.empty() ? resource.capacity : resource.steps.back().capacity;
    if (at == 0) {
      resource.capacity = capacity;
    } else if (before != capacity) {
      resource.steps.push_back({at, capacity});
    }
  }

  std::int64_t minute_of(Date day) const {
    return (std::chrono::sys_days{day} - std::chrono::sys_days{model_.first_day}).count() *
           kMinutesOfDay;
  }

  int add_capacity(ScheduleResource resource, std::string name) {
    model_.job.resources.push_back(std::move(resource));
    model_.resources.push_back(std::move(name));
    return static_cast<int>(model_.job.resources.size()) - 1;
  }

  int add_place(std::int64_t capacity, std::string name, bool held_in_pauses = true) {
    ScheduleResource resource;
    resource.capacity = capacity;
    resource.held_in_pauses = held_in_pauses;
    return add_capacity(std::move(resource), std::move(name));
  }

  void add_places() {
    add_place(shop_.places.bench, "bench places");
    if (shop_.places.finishing > 0) {
      add_place(shop_.places.finishing, "finishing places");
    } else {
      add_place(kAllTheAir, "air free of dust", false);
    }
    for (const shop::Machine& machine : shop_.machines) {
      if (!machines_.contains(machine.name)) {
        machines_[machine.name] = add_place(machine.count, machine.name);
      }
    }
    add_clamps();
  }

  /// A clamp that reaches farther does for a shorter one, so what is counted is all clamps of a
  /// reach or more.
  void add_clamps() {
    room_.clamps = shop_.clamps;
    std::ranges::sort(room_.clamps, {}, &shop::ClampSet::reach);
    for (std::size_t i = 0; i < room_.clamps.size(); ++i) {
      const int place =
          add_place(bench::clamps_from(room_.clamps, i),
                    fmt::format("clamps of {}{} or more",
                                measure::print(room_.clamps[i].reach, shop_.unit),
                                shop_.unit == measure::LengthUnit::kInch ? " in" : " mm"));
      first_clamps_ = i == 0 ? place : first_clamps_;
    }
  }

  int add_step(StepKind kind, std::size_t work, std::size_t operation, Activity activity) {
    model_.job.activities.push_back(std::move(activity));
    model_.steps.push_back({kind, work, operation});
    return static_cast<int>(model_.steps.size()) - 1;
  }

  void add_work(std::size_t work) {
    const std::vector<Operation>& operations = works_[work].bench->operations;
    model_.needs.push_back(needs_of(works_[work], shop_, rules_));
    model_.first_step.emplace_back();
    model_.last_step.emplace_back();
    for (std::size_t i = 0; i < operations.size(); ++i) {
      add_operation(work, i);
    }
    for (std::size_t i = 0; i < operations.size(); ++i) {
      for (const std::size_t earlier : operations[i].after) {
        model_.job.lags.push_back(
            {model_.last_step[work][earlier],
             model_.first_step[work][i],
             minutes_of(day_rules_.of(operations[earlier].standard).rest.count())});
      }
    }
  }

  /// The card of a glue-up; null for all other work.
  const bench::StageCard* card_of(std::size_t work, std::size_t index) const {
    const auto& cards = works_[work].bench->glue_ups;
    const auto card = std::ranges::find(cards, index, &bench::StageCard::operation);
    return card != cards.end() ? &*card : nullptr;
  }

  /// Where there are too few clamps all there are are taken: more are borrowed, and the card of the
  /// glue-up says so.
  void hold_clamps(solve::ActivityMode& mode, const bench::StageCard& card) const {
    const std::vector<std::int64_t> uses = bench::clamps_used(card.clamps, room_);
    for (std::size_t i = 0; i < uses.size(); ++i) {
      const auto resource = static_cast<std::size_t>(first_clamps_) + i;
      mode.uses[resource] = std::min(uses[i], model_.job.resources[resource].capacity);
    }
  }

  void add_operation(std::size_t work, std::size_t index) {
    const Operation& operation = works_[work].bench->operations[index];
    const bench::StageCard* card = card_of(work, index);
    const Minutes left_alone =
        card != nullptr ? std::max(operation.unattended, card->clamps_off) : operation.unattended;
    const DayRule rule = day_rules_.of(operation.standard);
    const shop::Finish* finish = shop_.finish(works_[work].commission->finish);
    const bool to_finisher =
        operation.standard == "sub_run" && finish != nullptr && finish->applied == "outside";
    Activity hands = hands_on(operation, rule, to_finisher ? 0.5 : 1.0);
    hands.release = release_of(work, index);
    if (card != nullptr) {
      hold_clamps(hands.modes.front(), *card);
      for (const std::string& warning : card->warnings) {
        note(fmt::format("{}: {}", card->name, warning));
      }
    }
    if (to_finisher && finish->taken_in) {
      hands.calendar = slots(*finish->taken_in);
    }
    const int first = add_step(StepKind::kWork, work, index, hands);
    int last = first;
    if (to_finisher) {
      last = add_trip(work, index, *finish, first, hands);
    } else if (left_alone.count() > 0) {
      Activity waits = wait(left_alone, rule);
      if (card != nullptr) {
        hold_clamps(waits.modes.front(), *card);
      }
      last = add_step(StepKind::kWait, work, index, std::move(waits));
      model_.job.lags.push_back({first, last, 0});
    }
    model_.first_step[work].push_back(first);
    model_.last_step[work].push_back(last);
  }

  /// Out, away in working days, and back.
  int add_trip(
      std::size_t work, std::size_t index, const shop::Finish& finish, int out, Activity back) {
    Activity away;
    away.calendar = 0;
    away.may_pause = true;
    away.modes.emplace_back().duration = finish.lead_days * model_.day_minutes;
    const int stay = add_step(StepKind::kAway, work, index, std::move(away));
    back.calendar = 0;
    back.release = 0;
    const int home = add_step(StepKind::kWork, work, index, std::move(back));
    model_.job.lags.push_back({out, stay, 0});
    model_.job.lags.push_back({stay, home, 0});
    return home;
  }

  Activity hands_on(const Operation& operation, const DayRule& rule, double share) {
    const int people = std::clamp(operation.people, 1, most_people_);
    Activity activity;
    activity.calendar = 0;
    activity.may_pause = !rule.in_one_go;
    solve::ActivityMode mode;
    mode.duration =
        minutes_of(share * operation.total().count() / operation.people / model_.hands_on);
    mode.uses.resize(model_.job.resources.size());
    mode.uses[kMakers] = rule.helper ? 0 : 1;
    mode.uses[kPeople] = people;
    hold(mode, rule);
    if (rule.dust && shop_.places.finishing == 0) {
      mode.uses[kFinishing] += 1;
    }
    if (const auto machine = machines_.find(operation.machine); machine != machines_.end()) {
      mode.uses[static_cast<std::size_t>(machine->second)] += 1;
    } else if (!operation.machine.empty()) {
      note(
          fmt::format("{} needs `{}`, which this shop does not have: add it under `machines`, or "
                      "have it done outside",
                      operation.name,
                      operation.machine));
    }
    activity.modes.push_back(std::move(mode));
    return activity;
  }

  void hold(solve::ActivityMode& mode, const DayRule& rule) const {
    if (rule.holds == Holds::kBench) {
      mode.uses[kBench] = 1;
    } else if (rule.holds == Holds::kFinishing) {
      mode.uses[kFinishing] = shop_.places.finishing > 0 ? 1 : kAllTheAir;
    }
  }

  Activity wait(Minutes left_alone, const DayRule& rule) const {
    solve::ActivityMode mode;
    mode.duration = minutes_of(left_alone.count());
    mode.uses.resize(model_.job.resources.size());
    hold(mode, rule);
    Activity activity;
    activity.modes.push_back(std::move(mode));
    return activity;
  }

  /// The morning on which all that it needs has come, ordered on the first day.
  std::int64_t release_of(std::size_t work, std::size_t operation) const {
    std::int64_t release = 0;
    for (const std::size_t purchase : model_.needs[work][operation]) {
      const int lead = works_[work].stock->purchases[purchase].lead_days;
      if (const std::optional<Date> here = days_.add(model_.first_day, lead)) {
        release = std::max(release, minute_of(*here));
      }
    }
    return release;
  }

  int slots(const shop::Weekdays& taken_in) {
    solve::ScheduleCalendar calendar;
    for (std::size_t i = 0; i < open_days_.size(); ++i) {
      const std::chrono::weekday day{std::chrono::sys_days{open_days_[i]}};
      if (taken_in[day.iso_encoding() - 1]) {
        calendar.open.push_back(open_.open[i]);
      }
    }
    if (calendar.open.empty()) {
      note("the finisher takes nothing in on any day this shop works; any day is taken");
      return 0;
    }
    model_.job.calendars.push_back(std::move(calendar));
    return static_cast<int>(model_.job.calendars.size()) - 1;
  }

  void note(std::string text) {
    if (std::ranges::find(model_.notes, text) == model_.notes.end()) {
      model_.notes.push_back(std::move(text));
    }
  }

  const std::vector<Work>& works_;
  const shop::Shop& shop_;
  const bench::Rules& rules_;
  const DayRules& day_rules_;
  WorkingDays days_;
  Model model_;
  solve::ScheduleCalendar open_;
  std::vector<Date> open_days_;
  std::map<std::string, int> machines_;
  bench::StageRoom room_;
  int first_clamps_ = 0;
  int most_makers_ = 0;
  int most_people_ = 1;
};

}  // namespace

Moment Model::moment(std::int64_t minute) const {
  return {Date{std::chrono::sys_days{first_day} + std::chrono::days{minute / kMinutesOfDay}},
          static_cast<int>(minute % kMinutesOfDay)};
}

Date Model::day_of_end(std::int64_t minute) const {
  return moment(std::max<std::int64_t>(minute, 1) - 1).day;
}

const bench::Operation& operation_of(const std::vector<Work>& works, const Step& step) {
  return works[step.work].bench->operations[step.operation];
}

std::optional<std::size_t> purchase_waited_for(const Model& model,
                                               const std::vector<Work>& works,
                                               const Step& step) {
  std::optional<std::size_t> longest;
  int lead = 0;
  for (const std::size_t purchase : model.needs[step.work][step.operation]) {
    const stock::Purchase& bought = works[step.work].stock->purchases[purchase];
    if (bought.lead_days > lead) {
      lead = bought.lead_days;
      longest = purchase;
    }
  }
  return longest;
}

base::Result<Model> model_of(const std::vector<Work>& works,
                             const shop::Shop& shop,
                             const bench::Rules& rules,
                             const DayRules& day_rules,
                             Date start) {
  return Builder{works, shop, rules, day_rules}.build(start);
}

}  // namespace plankwright::calendar
