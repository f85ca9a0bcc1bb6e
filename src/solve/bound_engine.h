#pragma once
// Search that learns from dead ends: whole-number variables with bounds, rules that tighten them
// and say why, and clauses over bounds learnt from every contradiction. After Ohrimenko, Stuckey &
// Codish (lazy clause generation, Constraints 14, 2009), without ever making the literals.

#include <cstdint>
#include <functional>
#include <memory>
#include <unordered_map>
#include <vector>

#include "solve/random.h"

namespace plankwright::solve {

/// "The view is at least so much". View 2v is variable v itself, view 2v + 1 its negative, so that
/// an upper bound is a lower bound of the other view.
struct Atom {
  int view = 0;
  std::int32_t least = 0;
  friend bool operator==(const Atom&, const Atom&) = default;
};

inline Atom at_least(int variable, std::int64_t least) {
  return {2 * variable, static_cast<std::int32_t>(least)};
}
inline Atom at_most(int variable, std::int64_t most) {
  return {2 * variable + 1, static_cast<std::int32_t>(-most)};
}
inline Atom opposite(Atom atom) {
  return {atom.view ^ 1, 1 - atom.least};
}

class BoundEngine;

/// A rule of the problem. `propagate` posts what follows from the bounds; false after a
/// contradiction.
class Rule {
 public:
  virtual ~Rule() = default;
  virtual bool propagate(BoundEngine& engine) = 0;
};

enum class Verdict : std::uint8_t { kSolved, kImpossible, kNotUnderAssumption, kLimit };

class BoundEngine {
 public:
  explicit BoundEngine(std::uint64_t seed) : random_{seed} {}

  int add_variable(std::int64_t low, std::int64_t high);
  /// Lighter rules are asked before heavier ones. `views` are those whose rise concerns the rule.
  void add_rule(std::unique_ptr<Rule> rule, const std::vector<int>& views, bool heavy);
  /// At least one of the atoms holds. Only before the first search.
  void add_clause(const std::vector<Atom>& atoms);

  std::int64_t low(int variable) const { return low_[static_cast<std::size_t>(2 * variable)]; }
  std::int64_t high(int variable) const {
    return -static_cast<std::int64_t>(low_[static_cast<std::size_t>(2 * variable + 1)]);
  }
  bool holds(Atom atom) const { return low_[static_cast<std::size_t>(atom.view)] >= atom.least; }
  bool fails(Atom atom) const { return holds(opposite(atom)); }
  int level() const { return static_cast<int>(levels_.size()); }

  /// Makes an atom hold because all of `reasons` do; false when it fails already.
  bool post(Atom atom, const std::vector<Atom>& reasons);
  /// All of `reasons` hold together and must not.
  bool contradict(const std::vector<Atom>& reasons);

  /// Something to branch on when nothing learnt suggests better; an atom that holds when all is
  /// decided.
  std::function<Atom()> decide;

  /// Searches for values under one assumption until found, refuted, or `work` is used up. The
  /// engine stays at the solution until the next search; what was learnt is kept.
  Verdict search(Atom assumption, std::int64_t work, std::int64_t conflicts);
  /// Branch towards these values of the variables; empty to forget them.
  void prefer(std::vector<std::int64_t> values) { preferred_ = std::move(values); }
  /// Makes an atom hold for good; false when nothing is possible any more.
  bool settle(Atom atom);

  std::int64_t work() const { return work_; }
  void charge(std::int64_t work) { work_ += work; }
  std::int64_t conflicts() const { return conflicts_; }

 private:
  static constexpr int kNone = -1;

  struct Step {
    Atom atom;
    std::int32_t before = 0;  // the view's bound until then
    int previous = kNone;     // the step that set that bound
    int level = 0;
    int clause = kNone;  // the reason: a clause, or atoms of arena_
    int first = 0;
    int count = 0;
  };
  struct Clause {
    std::vector<Atom> atoms;
    double activity = 0;
    int levels = 0;
    bool learnt = false;
  };
  struct Watch {
    std::int32_t threshold = 0;  // the clause is concerned when the view rises to this
    int clause = 0;
    Atom other;  // if it holds, the clause is content
  };
  struct Guess {
    Atom atom;  // of an even view
    double activity = 0;
    int place = kNone;  // in the heap
  };

  void raise(Atom atom, int clause, const std::vector<Atom>& reasons);
  bool propagate();
  bool visit_clauses(const Step& step);
  bool visit_clause(std::vector<Watch>& watches, std::size_t& kept, Watch watch, int view);
  void watch(int clause, std::size_t position);
  void new_level();
  void cancel(int level);

  int step_of(Atom atom) const;
  void reasons_of(int step, std::vector<Atom>& reasons) const;
  bool learn();
  void mark(Atom atom, int level);
  void drop_implied(Atom first);
  bool follows(Atom atom, int limit, int depth);
  bool is_implied(int step, int limit, int depth);
  void add_learnt(std::vector<Atom> atoms);
  void forget_clauses();

  void bump(Atom atom);
  void push_guess(int guess);
  void sift_up(int place);
  void sift_down(int place);
  int pop_guess();
  Atom next_decision();

  Random random_;
  std::vector<std::int32_t> low_;
  std::vector<int> last_step_;
  std::vector<Step> steps_;
  std::vector<Atom> arena_;
  std::vector<int> levels_;  // number of steps at the start of each level
  std::size_t seen_steps_ = 0;

  std::vector<std::unique_ptr<Rule>> rules_;
  std::vector<bool> heavy_;
  std::vector<std::vector<int>> concerned_;  // rules of each view
  std::vector<bool> queued_;
  std::vector<int> light_queue_;
  std::vector<int> heavy_queue_;

  std::vector<Clause> clauses_;
  std::vector<std::vector<Watch>> watches_;
  std::size_t learnt_ = 0;
  std::size_t learnt_limit_ = 4000;
  double clause_step_ = 1;

  std::vector<Atom> conflict_;
  std::vector<std::int32_t> needed_;  // of each marked step of the current level
  std::vector<std::uint8_t> marked_;  // of each step
  std::vector<std::int32_t> wanted_;  // of each view, among the learnt atoms of lower levels
  std::vector<std::uint8_t> has_want_;
  std::vector<int> want_step_;
  std::vector<int> wants_;
  int open_marks_ = 0;
  std::vector<std::int8_t> implied_;  // memory of is_implied
  std::vector<int> implied_steps_;

  std::vector<Guess> guesses_;
  std::unordered_map<std::uint64_t, int> guess_of_;
  std::vector<int> heap_;
  std::vector<std::vector<int>> taken_;  // guesses of a variable that are out of the heap
  double guess_step_ = 1;
  std::vector<std::int64_t> preferred_;
  std::vector<std::int32_t> latest_;  // the bound each variable had when last undone

  std::int64_t work_ = 0;
  std::int64_t conflicts_ = 0;
  bool impossible_ = false;
};

}  // namespace plankwright::solve
