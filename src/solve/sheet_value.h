#pragma once
// The most valuable parts that a few equal sheets give: what to cut when the sheets on hand do not
// suffice, or what to fill an offcut with.

#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "base/result.h"
#include "solve/sheets.h"

namespace plankwright::solve {

/// A part that may be cut, and what one copy is worth. No `most` means as often as one likes.
struct ValuedPart {
  std::int64_t width = 0;
  std::int64_t height = 0;
  std::int64_t value = 0;
  std::optional<std::int64_t> most = std::nullopt;
  bool may_turn = false;
};

/// `sheets` equal sheets; trim and kerf as in SheetJob.
struct ValueJob {
  std::int64_t width = 0;
  std::int64_t height = 0;
  std::int64_t sheets = 1;
  std::vector<ValuedPart> parts;
  std::int64_t kerf = 0;
  std::int64_t trim = 0;
};

/// The layouts found, what their parts are worth together, and the most any layouts could be worth.
struct ValueAnswer {
  std::vector<SheetLayout> layouts;  // `cost` is nought
  std::int64_t value = 0;
  std::int64_t bound = 0;
  bool proven = false;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
};

/// As SheetLimits; `progress` is told value and bound.
struct ValueLimits {
  std::int64_t work = 2'000'000'000;
  int threads = 2;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
  std::function<void(std::int64_t value, std::int64_t bound)> progress = {};
};

/// Cuts the greatest value. Parts larger than the sheet are left out silently: nothing promised
/// them. kBadInput for sizes, values or counts that make no sense. Exact without limits on parts,
/// by dynamic programming; with limits the bound is the Lagrangian one and, on one sheet, an
/// enumeration of partial layouts below it closes the gap (Christofides & Hadjiconstantinou 1995;
/// Velasco & Uchoa 2019).
base::Result<ValueAnswer> solve_sheet_value(const ValueJob& job, const ValueLimits& limits = {});

/// Everything wrong with an answer, in words; empty when it is sound.
std::vector<std::string> check_sheet_value(const ValueJob& job, const ValueAnswer& answer);

}  // namespace plankwright::solve
