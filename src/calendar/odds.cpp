// The order of the plan is kept and its durations are drawn: one factor for the whole commission,
// one for each labour standard (a standard that is off is off for the whole job), and now and then
// a piece that is spoiled and made anew. Waits and deliveries are taken as they are.

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>

#include "bench/hours.h"
#include "calendar/model.h"
#include "solve/random.h"
#include "solve/schedule_replay.h"

namespace plankwright::calendar {
namespace {

constexpr double kShares[] = {0.5, 0.8, 0.9};
constexpr std::size_t kDriversShown = 5;

/// The standards that the steps of a job go by, numbered.
struct Kinds {
  std::vector<std::string> standards;
  std::vector<std::size_t> of_step;
};

const bench::Operation& operation_of(const std::vector<Work>& works, const Step& step) {
  return works[step.work].bench->operations[step.operation];
}

Kinds kinds_of(const Model& model, const std::vector<Work>& works) {
  Kinds kinds;
  std::map<std::string, std::size_t> numbers;
  for (const Step& step : model.steps) {
    const std::string& standard = operation_of(works, step).standard;
    const auto [number, is_new] = numbers.try_emplace(standard, kinds.standards.size());
    if (is_new) {
      kinds.standards.push_back(standard);
    }
    kinds.of_step.push_back(number->second);
  }
  return kinds;
}

class Draws {
 public:
  Draws(const Model& model,
        const std::vector<Work>& works,
        const Kinds& kinds,
        double job_sigma,
        std::uint64_t seed)
      : model_{model},
        works_{works},
        kinds_{kinds},
        job_sigma_{job_sigma},
        random_{seed},
        jobs_(works.size()),
        normals_(kinds.standards.size()),
        minutes_(kinds.standards.size()) {
    for (std::size_t i = 0; i < model.steps.size(); ++i) {
      planned_.push_back(model.job.activities[i].modes.front().duration);
    }
    durations_ = planned_;
  }

  /// Durations of every step of one more draw.
  const std::vector<std::int64_t>& draw() {
    std::ranges::generate(jobs_, [&] { return std::exp(job_sigma_ * normal()); });
    std::ranges::generate(normals_, [&] { return normal(); });
    std::ranges::fill(minutes_, 0.0);
    for (std::size_t i = 0; i < durations_.size(); ++i) {
      if (model_.steps[i].kind == StepKind::kWork) {
        const double taken = drawn(i);
        durations_[i] = within_a_day(i, taken);
        minutes_[kinds_.of_step[i]] += taken;
      }
    }
    return durations_;
  }

  /// Minutes of each kind of work in the last draw.
  const std::vector<double>& minutes() const { return minutes_; }

 private:
  double normal() {
    constexpr double kTiny = 1e-12;
    return bench::normal_quantile(std::clamp(random_.fraction(), kTiny, 1 - kTiny));
  }

  double drawn(std::size_t i) {
    const bench::Operation& operation = operation_of(works_, model_.steps[i]);
    const double factor =
        jobs_[model_.steps[i].work] * std::exp(operation.sigma * normals_[kinds_.of_step[i]]);
    const bool spoiled = operation.fails > 0 && random_.fraction() < operation.fails;
    const double again = spoiled ? operation.rework.count() / model_.hands_on : 0;
    return static_cast<double>(planned_[i]) * factor + again;
  }

  /// What is begun and ended on one day is hurried, or helped with, before the day is over.
  std::int64_t within_a_day(std::size_t step, double minutes) const {
    const auto whole = static_cast<std::int64_t>(std::llround(minutes));
    const solve::Activity& activity = model_.job.activities[step];
    return activity.may_pause ? whole : std::min(whole, model_.day_minutes);
  }

  const Model& model_;
  const std::vector<Work>& works_;
  const Kinds& kinds_;
  double job_sigma_;
  solve::Random random_;
  std::vector<double> jobs_;     // one factor a commission
  std::vector<double> normals_;  // one a kind of work
  std::vector<double> minutes_;
  std::vector<std::int64_t> planned_;
  std::vector<std::int64_t> durations_;
};

/// Sums from which the share of each kind of work in the spread of the finish follows.
class Covariances {
 public:
  explicit Covariances(std::size_t kinds) : x_(kinds), xy_(kinds) {}

  void add(const std::vector<double>& minutes, double finish) {
    ++count_;
    finish_ += finish;
    for (std::size_t i = 0; i < minutes.size(); ++i) {
      x_[i] += minutes[i];
      xy_[i] += minutes[i] * finish;
    }
  }

  /// Shares of what varies with the finish, the largest first.
  std::vector<Driver> drivers(const Kinds& kinds, const shop::Shop& shop) const {
    std::vector<Driver> all;
    double total = 0;
    for (std::size_t i = 0; i < x_.size(); ++i) {
      const double covariance = std::max(0.0, (xy_[i] - x_[i] * finish_ / count_) / count_);
      const shop::LabourStandard* found = shop.standard(kinds.standards[i]);
      all.push_back({found != nullptr ? found->name : kinds.standards[i], covariance});
      total += covariance;
    }
    for (Driver& driver : all) {
      driver.share = total > 0 ? driver.share / total : 0;
    }
    std::ranges::stable_sort(all, std::greater{}, &Driver::share);
    all.resize(std::min(all.size(), kDriversShown));
    return all;
  }

 private:
  std::vector<double> x_;
  std::vector<double> xy_;
  double finish_ = 0;
  double count_ = 0;
};

std::int64_t last_finish(const Model& model,
                         const std::vector<std::int64_t>& finish,
                         std::size_t work) {
  std::int64_t last = 0;
  for (std::size_t i = 0; i < finish.size(); ++i) {
    last = model.steps[i].work == work ? std::max(last, finish[i]) : last;
  }
  return last;
}

Date day_of_end(const Model& model, std::int64_t minute) {
  return model.moment(std::max<std::int64_t>(minute, 1) - 1).day;
}

void fill_finish(Finish& finish,
                 std::vector<std::int64_t>& ends,
                 const Model& model,
                 const Work& work,
                 const WorkingDays& days) {
  std::ranges::sort(ends);
  for (const double share : kShares) {
    const auto rank = static_cast<std::size_t>(std::ceil(share * static_cast<double>(ends.size())));
    finish.odds.push_back({share, day_of_end(model, ends[std::max<std::size_t>(rank, 1) - 1])});
  }
  if (const std::optional<Date> wanted = work.commission->wanted) {
    const auto in_time = std::ranges::count_if(
        ends, [&](std::int64_t end) { return day_of_end(model, end) <= *wanted; });
    finish.wanted_holds = static_cast<double>(in_time) / static_cast<double>(ends.size());
    finish.spare_days = days.between(finish.odds[1].day, *wanted);
  }
}

}  // namespace

void draw_odds(Calendar& calendar,
               const Model& model,
               const solve::ScheduleAnswer& answer,
               const std::vector<Work>& works,
               const shop::Shop& shop,
               const CalendarLimits& limits) {
  const Kinds kinds = kinds_of(model, works);
  solve::ScheduleReplay replay{model.job, answer};
  Draws draws{model, works, kinds, shop.job_sigma, limits.seed};
  Covariances spread{kinds.standards.size()};
  std::vector<std::vector<std::int64_t>> ends(works.size());
  for (int i = 0; i < limits.draws; ++i) {
    const std::optional<std::int64_t> end = replay.run(draws.draw());
    if (!end) {
      continue;
    }
    ++calendar.draws;
    spread.add(draws.minutes(), static_cast<double>(*end));
    for (std::size_t work = 0; work < works.size(); ++work) {
      ends[work].push_back(last_finish(model, replay.finish(), work));
    }
  }
  if (calendar.draws == 0) {
    return;
  }
  calendar.driven_by = spread.drivers(kinds, shop);
  const WorkingDays days{shop};
  for (Finish& finish : calendar.finishes) {
    fill_finish(finish, ends[finish.work], model, works[finish.work], days);
  }
}

}  // namespace plankwright::calendar
