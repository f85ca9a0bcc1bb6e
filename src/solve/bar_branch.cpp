#include "solve/bar_branch.h"

#include <algorithm>
#include <limits>
#include <map>

namespace plankwright::solve {
namespace {

__extension__ using Int128 = __int128;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

class Branching {
 public:
  Branching(const BarProblem& problem, std::int64_t to_beat, std::int64_t most_work)
      : problem_{problem}, least_{to_beat}, most_work_{most_work}, wanted_{problem.demand} {
    for (const BarProblem::Kind& kind : problem.kinds) {
      stock_.push_back(kind.available);
    }
  }

  BarBranching run() {
    open_bar();
    found_.complete = found_.work <= most_work_;
    return std::move(found_);
  }

 private:
  // No bars cost less than the parts' length at the price of the cheapest kind by length.
  std::int64_t least_for_rest() const {
    Int128 length = 0;
    for (std::size_t t = 0; t < wanted_.size(); ++t) {
      length += static_cast<Int128>(wanted_[t]) * problem_.lengths[t];
    }
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (std::size_t k = 0; k < stock_.size(); ++k) {
      const BarProblem::Kind& kind = problem_.kinds[k];
      if (stock_[k] > 0) {
        const Int128 price = (length * kind.price + kind.capacity - 1) / kind.capacity;
        least = std::min(least, static_cast<std::int64_t>(price));
      }
    }
    return least;
  }

  // The same rest reached before for no more money leads nowhere new.
  bool is_new() {
    std::vector<std::int64_t> state = wanted_;
    for (std::size_t k = 0; k < stock_.size(); ++k) {
      if (problem_.kinds[k].is_limited()) {
        state.push_back(stock_[k]);
      }
    }
    const auto [entry, added] = reached_.emplace(std::move(state), price_);
    if (!added && entry->second <= price_) {
      return false;
    }
    entry->second = price_;
    return true;
  }

  void open_bar() {
    found_.work += 300 + 20 * static_cast<std::int64_t>(wanted_.size());
    if (found_.work > most_work_) {
      return;
    }
    const auto longest = std::ranges::find_if(wanted_, [](std::int64_t w) { return w > 0; });
    if (longest == wanted_.end()) {
      if (price_ < least_) {
        least_ = price_;
        found_.bars = open_;
      }
      return;
    }
    const std::int64_t rest = least_for_rest();
    if (rest >= least_ - price_ || !is_new()) {
      return;
    }
    const auto type = static_cast<std::size_t>(longest - wanted_.begin());
    for (int k = 0; k < static_cast<int>(stock_.size()); ++k) {
      const BarProblem::Kind& kind = problem_.kinds[at(k)];
      if (stock_[at(k)] > 0 && kind.capacity >= problem_.lengths[type]) {
        open_with(k, type);
      }
    }
  }

  void open_with(int k, std::size_t type) {
    const BarProblem::Kind& kind = problem_.kinds[at(k)];
    stock_[at(k)] -= kind.is_limited() ? 1 : 0;
    price_ += kind.price;
    open_.push_back({k, 1, std::vector<std::int64_t>(wanted_.size(), 0)});
    take(type, 1);
    fill(type, kind.capacity - problem_.lengths[type]);
    take(type, -1);
    open_.pop_back();
    price_ -= kind.price;
    stock_[at(k)] += kind.is_limited() ? 1 : 0;
  }

  void take(std::size_t type, std::int64_t count) {
    open_.back().counts[type] += count;
    wanted_[type] -= count;
  }

  bool is_full(std::int64_t room) const {
    for (std::size_t t = 0; t < wanted_.size(); ++t) {
      if (wanted_[t] > 0 && problem_.lengths[t] <= room) {
        return false;
      }
    }
    return true;
  }

  // Types are longest first; the fullest count of each is tried first.
  void fill(std::size_t type, std::int64_t room) {
    found_.work += 50;
    if (found_.work > most_work_) {
      return;
    }
    if (type == wanted_.size()) {
      if (is_full(room)) {
        open_bar();
      }
      return;
    }
    const std::int64_t most = std::min(wanted_[type], room / problem_.lengths[type]);
    take(type, most);
    for (std::int64_t count = most;; --count) {
      fill(type + 1, room - count * problem_.lengths[type]);
      if (count == 0) {
        break;
      }
      take(type, -1);
    }
  }

  const BarProblem& problem_;
  std::int64_t least_;
  std::int64_t most_work_;
  std::vector<std::int64_t> wanted_;
  std::vector<std::int64_t> stock_;
  std::int64_t price_ = 0;
  std::vector<BarPattern> open_;
  std::map<std::vector<std::int64_t>, std::int64_t> reached_;
  BarBranching found_;
};

}  // namespace

BarBranching branch_bars(const BarProblem& problem, std::int64_t to_beat, std::int64_t most_work) {
  return Branching{problem, to_beat, most_work}.run();
}

}  // namespace plankwright::solve
