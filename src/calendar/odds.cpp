// The order of the plan is kept and its durations are drawn: one factor for the whole commission,
// one for each labour standard (a standard that is off is off for the whole job), and now and then
// a piece that is spoiled and made anew. Waits and deliveries are taken as they are. Draws come in
// lots, each with a seed of its own, so that two threads give what one gives.

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <thread>
#include <utility>

#include "calendar/views.h"
#include "solve/random.h"
#include "solve/schedule_replay.h"
#include "solve/work_times.h"

namespace plankwright::calendar {
namespace {

constexpr double kShares[] = {0.5, 0.8, 0.9};
constexpr std::size_t kDriversShown = 5;
constexpr int kLot = 250;               // draws of one seed
constexpr int kWorthASecondThread = 8;  // lots

/// Draws from the standard normal, two at a time, by the polar method of Marsaglia & Bray (1964).
class Normals {
 public:
  explicit Normals(std::uint64_t seed) : random_{seed} {}

  double draw() {
    if (std::exchange(has_other_, false)) {
      return other_;
    }
    double x = 0;
    double y = 0;
    double square = 0;
    do {
      x = 2 * random_.fraction() - 1;
      y = 2 * random_.fraction() - 1;
      square = x * x + y * y;
    } while (square >= 1 || square == 0);
    const double stretch = std::sqrt(-2 * std::log(square) / square);
    other_ = y * stretch;
    has_other_ = true;
    return x * stretch;
  }

  /// Whether something that happens this often happens.
  bool happens(double chance) { return random_.fraction() < chance; }

 private:
  solve::Random random_;
  double other_ = 0;
  bool has_other_ = false;
};

/// What is the same for every draw. Steps of one labour standard (and one spread of it) are of one
/// kind; what can be named as driving the date is numbered as a cause.
struct Setup {
  struct Kind {
    std::string standard;
    double sigma = 0;
  };
  struct DrawnStep {
    std::size_t step = 0;
    std::size_t work = 0;
    std::size_t kind = 0;
    double minutes = 0;
    double fails = 0;
    double again = 0;       // minutes of making a spoiled piece anew
    std::int64_t most = 0;  // what is begun and ended on one day is hurried, or helped with
  };
  std::vector<Kind> kinds;
  std::vector<DrawnStep> drawn;
  std::vector<std::int64_t> planned;
  std::vector<Critical> causes;
  std::vector<std::size_t> cause_of;           // of each step
  std::vector<std::size_t> cause_of_delivery;  // of each step that waits for one alone
  double job_sigma = 0;
  std::size_t works = 0;
};

constexpr std::size_t kNoCause = static_cast<std::size_t>(-1);

class SetupMaker {
 public:
  SetupMaker(const Model& model, const std::vector<Work>& works, const shop::Shop& shop)
      : model_{model}, works_{works} {
    setup_.job_sigma = shop.job_sigma;
    setup_.works = works.size();
  }

  Setup make() {
    for (std::size_t i = 0; i < model_.steps.size(); ++i) {
      const Step& step = model_.steps[i];
      const bench::Operation& operation = operation_of(works_, step);
      setup_.planned.push_back(model_.job.activities[i].modes.front().duration);
      if (step.kind == StepKind::kWork) {
        add_drawn(i, operation);
      }
      setup_.cause_of.push_back(cause(
          step.work, (step.kind == StepKind::kWork ? "" : "waiting after ") + operation.name));
      const auto purchase = purchase_waited_for(model_, works_, step);
      setup_.cause_of_delivery.push_back(
          purchase ? cause(step.work,
                           "delivery of " + works_[step.work].stock->purchases[*purchase].what)
                   : kNoCause);
    }
    return std::move(setup_);
  }

 private:
  void add_drawn(std::size_t i, const bench::Operation& operation) {
    const auto [kind, is_new] =
        kinds_.try_emplace({operation.standard, operation.sigma}, setup_.kinds.size());
    if (is_new) {
      setup_.kinds.push_back({operation.standard, operation.sigma});
    }
    setup_.drawn.push_back(
        {i,
         model_.steps[i].work,
         kind->second,
         static_cast<double>(setup_.planned.back()),
         operation.fails,
         operation.rework.count() / model_.hands_on,
         model_.job.activities[i].may_pause ? solve::kNever : model_.day_minutes});
  }

  std::size_t cause(std::size_t work, const std::string& what) {
    const auto [found, is_new] = causes_.try_emplace({work, what}, setup_.causes.size());
    if (is_new) {
      setup_.causes.push_back({work, what, 0});
    }
    return found->second;
  }

  const Model& model_;
  const std::vector<Work>& works_;
  Setup setup_;
  std::map<std::pair<std::string, double>, std::size_t> kinds_;
  std::map<std::pair<std::size_t, std::string>, std::size_t> causes_;
};

/// What some draws come to; those of all lots are added up in their order.
struct Tally {
  explicit Tally(const Setup& setup)
      : minutes(setup.kinds.size()),
        products(setup.kinds.size()),
        on_chain(setup.planned.size()),
        caused(setup.causes.size()),
        on_the_way(setup.causes.size()),
        ends(setup.works) {}

  int draws = 0;
  double finish = 0;
  std::vector<double> minutes;                  // of each kind
  std::vector<double> products;                 // of those with the finish
  std::vector<int> on_chain;                    // of each step, draws in which it is
  std::vector<int> caused;                      // of each cause, draws in which it is on the chain
  std::vector<double> on_the_way;               // and its minutes of the chain, all draws together
  std::vector<std::vector<std::int64_t>> ends;  // of each commission

  void add(const Tally& other) {
    const auto add_up = [](auto& to, const auto& from) {
      std::ranges::transform(to, from, to.begin(), std::plus{});
    };
    draws += other.draws;
    finish += other.finish;
    add_up(minutes, other.minutes);
    add_up(products, other.products);
    add_up(on_chain, other.on_chain);
    add_up(caused, other.caused);
    add_up(on_the_way, other.on_the_way);
    for (std::size_t work = 0; work < ends.size(); ++work) {
      ends[work].insert(ends[work].end(), other.ends[work].begin(), other.ends[work].end());
    }
  }
};

/// Draws one lot after the other.
class Drawer {
 public:
  Drawer(const Model& model, const Setup& setup, const solve::ScheduleReplay& replay)
      : model_{model},
        setup_{setup},
        replay_{replay},
        durations_{setup.planned},
        jobs_(setup.works),
        factors_(setup.kinds.size()),
        minutes_(setup.kinds.size()),
        ends_(setup.works),
        last_chain_(setup.causes.size()) {}

  Tally draw_lot(std::uint64_t seed, int count) {
    Tally tally{setup_};
    Normals normals{seed};
    for (int i = 0; i < count; ++i) {
      draw_durations(normals);
      if (const auto finish = replay_.run(durations_)) {
        add(tally, *finish);
      }
    }
    return tally;
  }

 private:
  void draw_durations(Normals& normals) {
    std::ranges::generate(jobs_, [&] { return std::exp(setup_.job_sigma * normals.draw()); });
    for (std::size_t i = 0; i < factors_.size(); ++i) {
      factors_[i] = std::exp(setup_.kinds[i].sigma * normals.draw());
    }
    std::ranges::fill(minutes_, 0.0);
    for (const Setup::DrawnStep& step : setup_.drawn) {
      double taken = step.minutes * jobs_[step.work] * factors_[step.kind];
      taken += step.fails > 0 && normals.happens(step.fails) ? step.again : 0;
      minutes_[step.kind] += taken;
      durations_[step.step] = std::min<std::int64_t>(std::llround(taken), step.most);
    }
  }

  void add(Tally& tally, std::int64_t finish) {
    ++tally.draws;
    tally.finish += static_cast<double>(finish);
    for (std::size_t i = 0; i < minutes_.size(); ++i) {
      tally.minutes[i] += minutes_[i];
      tally.products[i] += minutes_[i] * static_cast<double>(finish);
    }
    std::ranges::fill(ends_, 0);
    std::size_t last = 0;
    for (std::size_t i = 0; i < replay_.finish().size(); ++i) {
      std::int64_t& end = ends_[model_.steps[i].work];
      end = std::max(end, replay_.finish()[i]);
      last = replay_.finish()[i] > replay_.finish()[last] ? i : last;
    }
    for (std::size_t work = 0; work < ends_.size(); ++work) {
      tally.ends[work].push_back(ends_[work]);
    }
    follow_chain(tally, last);
  }

  /// From the last step back to what waited for nothing but the first day or a delivery.
  void follow_chain(Tally& tally, std::size_t last) {
    ++chain_;
    for (int i = static_cast<int>(last); i >= 0;
         i = replay_.waited_for()[static_cast<std::size_t>(i)]) {
      const auto step = static_cast<std::size_t>(i);
      ++tally.on_chain[step];
      count(tally, setup_.cause_of[step], durations_[step]);
      if (replay_.waited_for()[step] < 0 && setup_.cause_of_delivery[step] != kNoCause) {
        count(tally, setup_.cause_of_delivery[step], model_.job.activities[step].release);
      }
    }
  }

  /// A cause counts once a draw, however often it is on the chain.
  void count(Tally& tally, std::size_t cause, std::int64_t minutes) {
    tally.on_the_way[cause] += static_cast<double>(minutes);
    tally.caused[cause] += std::exchange(last_chain_[cause], chain_) == chain_ ? 0 : 1;
  }

  const Model& model_;
  const Setup& setup_;
  solve::ScheduleReplay replay_;
  std::vector<std::int64_t> durations_;
  std::vector<double> jobs_;     // one factor a commission
  std::vector<double> factors_;  // one a kind of work
  std::vector<double> minutes_;  // of each kind in this draw
  std::vector<std::int64_t> ends_;
  std::vector<int> last_chain_;  // in which each cause was counted last
  int chain_ = 0;
};

Tally draw_all(const Model& model,
               const Setup& setup,
               const solve::ScheduleReplay& replay,
               const CalendarLimits& limits) {
  const int lots = (limits.draws + kLot - 1) / kLot;
  std::vector<Tally> tallies(static_cast<std::size_t>(lots), Tally{setup});
  const auto draw_every_second = [&](int first, int step) {
    Drawer drawer{model, setup, replay};
    for (int lot = first; lot < lots; lot += step) {
      tallies[static_cast<std::size_t>(lot)] =
          drawer.draw_lot(limits.seed * 1'000'003 + static_cast<std::uint64_t>(lot),
                          std::min(kLot, limits.draws - lot * kLot));
    }
  };
  if (lots < kWorthASecondThread) {
    draw_every_second(0, 1);
  } else {
    const std::jthread other{[&] { draw_every_second(1, 2); }};
    draw_every_second(0, 2);
  }
  Tally all{setup};
  for (const Tally& tally : tallies) {
    all.add(tally);
  }
  return all;
}

/// Share of each kind of work in what varies with the finish, the largest first.
std::vector<Driver> drivers_of(const Tally& tally, const Setup& setup, const shop::Shop& shop) {
  std::vector<Driver> all;
  double total = 0;
  for (std::size_t i = 0; i < setup.kinds.size(); ++i) {
    const double product = tally.products[i] - tally.minutes[i] * tally.finish / tally.draws;
    const shop::LabourStandard* standard = shop.standard(setup.kinds[i].standard);
    all.push_back(
        {standard != nullptr ? standard->name : setup.kinds[i].standard, std::max(0.0, product)});
    total += all.back().share;
  }
  for (Driver& driver : all) {
    driver.share = total > 0 ? driver.share / total : 0;
  }
  std::ranges::stable_sort(all, std::greater{}, &Driver::share);
  all.resize(std::min(all.size(), kDriversShown));
  return all;
}

/// What takes most of the chain first.
std::vector<Critical> critical_of(const Tally& tally, const Setup& setup) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < setup.causes.size(); ++i) {
    if (tally.caused[i] > 0) {
      order.push_back(i);
    }
  }
  std::ranges::stable_sort(
      order, std::greater{}, [&](std::size_t i) { return tally.on_the_way[i]; });
  std::vector<Critical> all;
  for (const std::size_t i : order) {
    all.push_back(setup.causes[i]);
    all.back().share = static_cast<double>(tally.caused[i]) / tally.draws;
  }
  return all;
}

void fill_finish(Finish& finish,
                 std::vector<std::int64_t> ends,
                 const Model& model,
                 const Work& work,
                 const WorkingDays& days) {
  std::ranges::sort(ends);
  for (const double share : kShares) {
    const auto rank = static_cast<std::size_t>(std::ceil(share * static_cast<double>(ends.size())));
    finish.odds.push_back({share, model.day_of_end(ends[std::max<std::size_t>(rank, 1) - 1])});
  }
  if (const std::optional<Date> wanted = work.commission->wanted) {
    const auto in_time = std::ranges::count_if(
        ends, [&](std::int64_t end) { return model.day_of_end(end) <= *wanted; });
    finish.wanted_holds = static_cast<double>(in_time) / static_cast<double>(ends.size());
    finish.spare_days = days.between(finish.odds[1].day, *wanted);
  }
}

}  // namespace

void draw_odds(Calendar& calendar,
               const Model& model,
               const Days& days,
               const std::vector<Work>& works,
               const shop::Shop& shop,
               const CalendarLimits& limits) {
  const Setup setup = SetupMaker{model, works, shop}.make();
  const Tally tally = draw_all(model, setup, {model.job, order_of(model, days.start)}, limits);
  calendar.draws = tally.draws;
  if (tally.draws == 0) {
    return;
  }
  calendar.driven_by = drivers_of(tally, setup, shop);
  calendar.critical = critical_of(tally, setup);
  const std::vector<std::size_t> steps = days.entry_steps(model);
  for (std::size_t e = 0; e < steps.size(); ++e) {
    calendar.entries[e].critical = static_cast<double>(tally.on_chain[steps[e]]) / tally.draws;
  }
  const WorkingDays working{shop};
  for (Finish& finish : calendar.finishes) {
    fill_finish(finish, tally.ends[finish.work], model, works[finish.work], working);
  }
}

}  // namespace plankwright::calendar
