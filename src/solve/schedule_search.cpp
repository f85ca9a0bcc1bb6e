#include "solve/schedule_search.h"

#include <algorithm>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::size_t kPopulation = 40;
constexpr int kStaleGenerations = 60;
constexpr std::int64_t kStorePenalty = std::int64_t{1} << 32;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

/// A time by which everything can be done one after the other, and calendars have ended.
std::int64_t end_of_all(const ScheduleJob& job) {
  std::int64_t end = 0;
  for (const Activity& activity : job.activities) {
    end += std::ranges::max(activity.modes, {}, &ActivityMode::duration).duration;
    end = std::max(end, activity.release);
  }
  for (const Lag& lag : job.lags) {
    end += lag.least;
  }
  std::int64_t last = 0;
  for (const ScheduleCalendar& calendar : job.calendars) {
    last = std::max(last, calendar.open.empty() ? 0 : calendar.open.back().to);
  }
  for (const ScheduleResource& resource : job.resources) {
    last = std::max(last, resource.steps.empty() ? 0 : resource.steps.back().at);
  }
  return end + last;
}

}  // namespace

ScheduleSearch::ScheduleSearch(const ScheduleJob& job,
                               const ScheduleModel& model,
                               std::uint64_t seed)
    : model_{model}, end_{end_of_all(job)}, random_{seed}, profile_{model}, tail_{tails(model)} {
  mirror_.emplace(mirrored(job, end_));
  mirror_profile_.emplace(*mirror_);
  for (int i = 0; i < model.activities; ++i) {
    // A way dropped on one side only would shift the numbers: then there is no way back.
    if (mirror_->ways[at(i)].size() != model.ways[at(i)].size()) {
      mirror_profile_.reset();
      break;
    }
  }
}

std::vector<int> ScheduleSearch::random_ways() {
  std::vector<int> ways(at(model_.activities), 0);
  for (int i = 0; i < model_.activities; ++i) {
    const auto& all = model_.ways[at(i)];
    ways[at(i)] = random_.below(static_cast<int>(all.size()));
    if (random_.below(3) > 0) {  // the quickest, mostly
      for (std::size_t k = 0; k < all.size(); ++k) {
        if (all[k].span.duration() < all[at(ways[at(i)])].span.duration()) {
          ways[at(i)] = static_cast<int>(k);
        }
      }
    }
  }
  spare_stores(ways);
  return ways;
}

std::int64_t ScheduleSearch::store_excess(const std::vector<int>& ways) const {
  std::vector<std::int64_t> left = model_.stores;
  for (int i = 0; i < model_.activities; ++i) {
    for (const Use& use : model_.ways[at(i)][at(ways[at(i)])].takes) {
      left[at(use.resource)] -= use.amount;
    }
  }
  std::int64_t excess = 0;
  for (const std::int64_t amount : left) {
    excess += std::max<std::int64_t>(0, -amount);
  }
  return excess;
}

/// Changes the way of an activity at random as long as that does not take more beyond the stores.
void ScheduleSearch::spare_stores(std::vector<int>& ways) {
  std::int64_t excess = store_excess(ways);
  for (int tries = 20 * model_.activities; excess > 0 && tries > 0; --tries) {
    const int activity = random_.below(model_.activities);
    const int before = ways[at(activity)];
    ways[at(activity)] = random_.below(static_cast<int>(model_.ways[at(activity)].size()));
    const std::int64_t now = store_excess(ways);
    work_ += model_.activities * 10;
    if (now > excess) {
      ways[at(activity)] = before;
    } else {
      excess = now;
    }
  }
}

/// The best schedule with each activity moved some places up or down the list.
ScheduleSearch::Member ScheduleSearch::near_best() {
  Member member;
  member.ways = best_->way;
  const int reach = 2 + random_.below(std::max(1, model_.activities / 4));
  std::vector<int> list = model_.order;
  std::ranges::stable_sort(list,
                           [&](int a, int b) { return best_->start[at(a)] < best_->start[at(b)]; });
  std::vector<int> key(list.size());
  for (std::size_t i = 0; i < list.size(); ++i) {
    key[at(list[i])] = static_cast<int>(i) + random_.below(reach);
    for (const Link& link : model_.earlier[at(list[i])]) {
      key[at(list[i])] = std::max(key[at(list[i])], key[at(link.other)]);
    }
  }
  std::ranges::stable_sort(list, [&](int a, int b) { return key[at(a)] < key[at(b)]; });
  member.list = std::move(list);
  mutate(member);
  return member;
}

/// Free activities by the length of what hangs on them, with some chance.
ScheduleSearch::Member ScheduleSearch::random_member() {
  if (around_best_) {
    return near_best();
  }
  Member member;
  member.ways = random_ways();
  std::vector<int> waiting(at(model_.activities), 0);
  std::vector<int> free;
  for (int i = 0; i < model_.activities; ++i) {
    waiting[at(i)] = static_cast<int>(model_.earlier[at(i)].size());
    if (waiting[at(i)] == 0) {
      free.push_back(i);
    }
  }
  while (!free.empty()) {
    std::size_t best = at(random_.below(static_cast<int>(free.size())));
    for (std::size_t k = 0; k < free.size(); ++k) {
      if (random_.below(5) > 0 && tail_[at(free[k])] > tail_[at(free[best])]) {
        best = k;
      }
    }
    member.list.push_back(free[best]);
    free.erase(free.begin() + static_cast<std::ptrdiff_t>(best));
    for (const Link& link : model_.later[at(member.list.back())]) {
      if (--waiting[at(link.other)] == 0) {
        free.push_back(link.other);
      }
    }
  }
  return member;
}

/// The mother's order at the head and the tail, the father's in between.
ScheduleSearch::Member ScheduleSearch::child_of(const Member& mother, const Member& father) {
  Member child;
  const int size = model_.activities;
  int from = random_.below(size + 1);
  int to = random_.below(size + 1);
  if (from > to) {
    std::swap(from, to);
  }
  std::vector<bool> taken(at(size), false);
  child.ways = mother.ways;
  child.list.assign(mother.list.begin(), mother.list.begin() + from);
  for (const int activity : child.list) {
    taken[at(activity)] = true;
  }
  for (const int activity : father.list) {
    if (static_cast<int>(child.list.size()) >= to) {
      break;
    }
    if (!taken[at(activity)]) {
      taken[at(activity)] = true;
      child.list.push_back(activity);
      child.ways[at(activity)] = father.ways[at(activity)];
    }
  }
  for (const int activity : mother.list) {
    if (!taken[at(activity)]) {
      child.list.push_back(activity);
    }
  }
  return child;
}

bool ScheduleSearch::may_swap(int first, int second) const {
  return std::ranges::find(model_.later[at(first)], second, &Link::other) ==
         model_.later[at(first)].end();
}

void ScheduleSearch::mutate(Member& member) {
  for (std::size_t i = 0; i + 1 < member.list.size(); ++i) {
    if (random_.below(20) == 0 && may_swap(member.list[i], member.list[i + 1])) {
      std::swap(member.list[i], member.list[i + 1]);
    }
  }
  bool changed = false;
  for (std::size_t i = 0; i < member.ways.size(); ++i) {
    const int ways = static_cast<int>(model_.ways[i].size());
    if (ways > 1 && random_.below(20) == 0) {
      member.ways[i] = random_.below(ways);
      changed = true;
    }
  }
  if (changed) {
    spare_stores(member.ways);
  }
}

void ScheduleSearch::build(const ScheduleModel& model,
                           const Member& member,
                           std::int64_t not_before) {
  work_ += model.activities *
           (model.packs_until > 0 ? 45 + model.activities / 5 : 150 + 3 * model.activities);
  build_timetable(model,
                  member.list,
                  member.ways,
                  not_before,
                  &model == &model_ ? profile_ : *mirror_profile_,
                  built_);
}

std::int64_t ScheduleSearch::worth_of(const std::vector<int>& ways) const {
  const std::int64_t excess = store_excess(ways);
  return excess > 0 ? kStorePenalty * excess + built_.makespan : built_.makespan + 10 * built_.late;
}

void ScheduleSearch::keep(const std::vector<int>& ways) {
  if (built_.makespan < kNever && built_.late == 0 && store_excess(ways) == 0 &&
      (!best_ || built_.makespan < best_->makespan)) {
    best_ = built_;
    stale_ = 0;
  }
}

void ScheduleSearch::sort_by_start(std::vector<int>& list) const {
  std::ranges::stable_sort(list,
                           [&](int a, int b) { return built_.start[at(a)] < built_.start[at(b)]; });
}

/// As late as possible before the makespan, then as early as possible again. False when the way
/// back does not work out.
bool ScheduleSearch::there_and_back(Member& member) {
  if (!mirror_profile_ || built_.makespan >= kNever) {
    return false;
  }
  Member backward = member;
  std::ranges::reverse(backward.list);
  std::ranges::stable_sort(
      backward.list, [&](int a, int b) { return built_.finish[at(a)] > built_.finish[at(b)]; });
  build(*mirror_, backward, end_ - built_.makespan);
  if (built_.makespan >= kNever || built_.late > 0) {
    return false;
  }
  std::ranges::reverse(backward.list);
  std::ranges::stable_sort(
      backward.list, [&](int a, int b) { return built_.finish[at(a)] > built_.finish[at(b)]; });
  member.list = backward.list;
  build(model_, member, 0);
  return true;
}

void ScheduleSearch::evaluate(Member& member) {
  build(model_, member, 0);
  member.worth = built_.makespan >= kNever ? kNever : worth_of(member.ways);
  if (member.worth >= kNever) {
    return;
  }
  keep(member.ways);
  sort_by_start(member.list);
  Member moved = member;
  if (there_and_back(moved) && built_.makespan < kNever) {
    moved.worth = worth_of(moved.ways);
    keep(moved.ways);
    sort_by_start(moved.list);
    if (moved.worth <= member.worth) {
      member = std::move(moved);
    }
  }
}

void ScheduleSearch::learn(const Timetable& timetable) {
  Member member{model_.order, timetable.way, 0};
  std::ranges::stable_sort(
      member.list, [&](int a, int b) { return timetable.start[at(a)] < timetable.start[at(b)]; });
  evaluate(member);
  members_.insert(members_.begin(), std::move(member));
}

void ScheduleSearch::next_generation() {
  if (++stale_ > kStaleGenerations) {  // start afresh, or around the best; that is kept anyway
    stale_ = 0;
    around_best_ = best_ && !around_best_;
    members_.clear();
    return;
  }
  const auto pick = [&]() -> const Member& {
    const Member& one = members_[at(random_.below(static_cast<int>(members_.size())))];
    const Member& other = members_[at(random_.below(static_cast<int>(members_.size())))];
    return one.worth <= other.worth ? one : other;
  };
  std::vector<Member> children;
  while (children.size() < kPopulation) {
    Member child = child_of(pick(), pick());
    mutate(child);
    evaluate(child);
    children.push_back(std::move(child));
  }
  std::ranges::move(children, std::back_inserter(members_));
  std::ranges::stable_sort(members_, {}, &Member::worth);
  const auto same = [](const Member& a, const Member& b) {
    return a.worth == b.worth && a.list == b.list && a.ways == b.ways;
  };
  members_.erase(std::unique(members_.begin(), members_.end(), same), members_.end());
  members_.resize(std::min(members_.size(), kPopulation));
}

void ScheduleSearch::run(std::int64_t work, std::int64_t goal, const std::function<bool()>& stop) {
  const std::int64_t last = work_ + work;
  const auto over = [&] { return work_ >= last || (best_ && best_->makespan <= goal) || stop(); };
  if (model_.activities == 0) {
    best_ = Timetable{};
  }
  while (!over()) {
    while (members_.size() < kPopulation && !over()) {
      Member member = random_member();
      evaluate(member);
      members_.push_back(std::move(member));
    }
    if (!over()) {
      next_generation();
    }
  }
}

}  // namespace plankwright::solve
