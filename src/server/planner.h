#pragma once
// Plans for many requests at once: each text is planned once, however many ask.

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <future>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "commission/commission.h"
#include "plan/plan.h"
#include "shop/read_shop.h"

namespace plankwright::server {

/// What is to be planned.
struct PlanOrder {
  std::string text;
  std::string file;  // what errors call it
  shop::OpenFile open;
  commission::Picks picks = {};
  bool quick = false;  // without comparing choices and trying other widths
};

using SharedPlan = std::shared_ptr<const plan::Planned>;

/// Plans, and remembers the last plans by what they were made from: the text, the picks and the
/// texts of every shop that was opened. Safe from several threads; at most two plan at a time,
/// since a plan keeps a processor busy, and the same order waits for the plan that is being made.
class Planner {
 public:
  explicit Planner(plan::Reference reference, std::size_t most_kept = 32)
      : reference_{std::move(reference)}, most_kept_{most_kept} {}

  SharedPlan plan(const PlanOrder& order);
  /// A plan that is there already, or nothing.
  SharedPlan known(const PlanOrder& order);
  const plan::Reference& reference() const { return reference_; }

  /// Waits for a free place to work, and frees it when let go.
  class Bench {
   public:
    explicit Bench(Planner& planner);
    ~Bench();
    Bench(const Bench&) = delete;
    Bench& operator=(const Bench&) = delete;

   private:
    Planner& planner_;
  };

 private:
  /// A document a plan was made from, by name and hash.
  struct Source {
    std::string name;
    std::string hash;
  };
  struct Kept {
    std::string key;
    std::vector<Source> sources;
    SharedPlan plan;
  };

  SharedPlan find(const std::string& key, const shop::OpenFile& open);
  void keep(Kept kept);
  Kept make(const std::string& key, const PlanOrder& order) const;

  plan::Reference reference_;
  std::size_t most_kept_;
  std::mutex mutex_;
  std::list<Kept> kept_;  // the last used first
  std::list<std::pair<std::string, std::shared_future<SharedPlan>>> being_made_;
  std::mutex bench_mutex_;
  std::condition_variable bench_free_;
  int at_work_ = 0;
};

}  // namespace plankwright::server
