#pragma once
// Bars, mouldings and edge banding: which stock lengths to open and what to cut from each.

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "base/result.h"
#include "solve/sheets.h"

namespace plankwright::solve {

/// Bars of one length. Lengths are whole numbers of the caller's unit, money is minor units. A rest
/// on hand is a kind with `available` = 1 and the price it could be kept for; no `available` means
/// as many as wanted. `trim` is sawn off each end before anything else, its kerf included; without
/// it the job's trim counts.
struct BarKind {
  std::int64_t length = 0;
  std::int64_t price = 0;
  std::optional<std::int64_t> available = std::nullopt;
  std::optional<std::int64_t> trim = std::nullopt;
};

struct BarPart {
  std::int64_t length = 0;
  std::int64_t demand = 1;
};

/// A rest at least `min_length` long is worth keeping, at `permille` thousandths of its bar's price
/// for its share of the bar's length.
struct RestRule {
  std::int64_t min_length = 0;
  std::int64_t permille = 0;
};

struct BarJob {
  std::vector<BarKind> kinds;
  std::vector<BarPart> parts;
  std::int64_t kerf = 0;
  std::int64_t trim = 0;
  RestRule rests;
};

/// `count` bars of a kind cut alike: the parts in cutting order, one kerf between neighbours and
/// one before the `rest`, which is nought when the last part ends the bar. `cost` is the price of
/// one, less its rest if that is kept.
struct BarLayout {
  int kind = 0;
  std::int64_t count = 1;
  std::vector<int> parts;
  std::int64_t rest = 0;
  std::int64_t cost = 0;
};

/// As SheetAnswer, for bars.
struct BarAnswer {
  std::vector<BarLayout> layouts;
  std::int64_t cost = 0;
  std::int64_t bound = 0;
  std::int64_t bars = 0;
  std::int64_t bars_bound = 0;
  bool proven = false;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
  std::int64_t first_work = 0;
};

struct BarProgress {
  std::int64_t cost = 0;
  std::int64_t bound = 0;
  std::int64_t bars = 0;
  std::int64_t work = 0;
};

/// As SheetLimits.
struct BarLimits {
  std::int64_t work = 2'000'000'000;
  int threads = 2;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
  std::function<void(const BarProgress&)> progress = {};
};

/// Every mistake in the numbers of a job; empty when it can be solved.
base::Errors check_bar_job(const BarJob& job);

/// Cuts the order from bars at least money, with a proven bound. kBadInput for what check_bar_job
/// finds, kDoesNotFit when a part is longer than every bar (by how much is said) or the bars on
/// hand do not suffice. Sources: Gilmore & Gomory (1961, 1963), Farley (1990); dives after Belov &
/// Scheithauer (2006).
base::Result<BarAnswer> solve_bars(const BarJob& job, const BarLimits& limits = {});

/// Everything wrong with an answer, in words; empty when it is sound. Shares no code with the
/// solver.
std::vector<std::string> check_bars(const BarJob& job, const BarAnswer& answer);

}  // namespace plankwright::solve
