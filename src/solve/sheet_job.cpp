// What must be true of a job before anything is searched: numbers that make sense, and a sheet for
// every part.

#include <algorithm>
#include <limits>
#include <string>

#include <fmt/format.h>

#include "solve/sheets.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kMaxSize = 100'000'000'000;     // areas times money stay within 128 bits
constexpr std::int64_t kMaxMoney = 1'000'000'000'000;  // sums over all sheets stay within 64 bits
constexpr std::int64_t kMaxCopies = 100'000'000;
constexpr std::size_t kMaxRows = 100'000;

base::Error bad(std::string message) {
  return {base::ErrorCode::kBadInput, std::move(message), std::nullopt, {}};
}

bool is_size(std::int64_t size) {
  return size > 0 && size <= kMaxSize;
}
bool is_money(std::int64_t money) {
  return money >= 0 && money <= kMaxMoney;
}

void check_kind(const SheetJob& job, std::size_t index, base::Errors& errors) {
  const SheetKind& kind = job.kinds[index];
  const std::int64_t trim = kind.trim.value_or(job.trim);
  if (!is_size(kind.width) || !is_size(kind.height)) {
    errors.push_back(bad(fmt::format("sheet {} is {} x {}", index, kind.width, kind.height)));
  } else if (trim < 0) {
    errors.push_back(bad(fmt::format("sheet {} has a trim of {}", index, trim)));
  } else if (trim >= (std::min(kind.width, kind.height) + 1) / 2) {
    errors.push_back(bad(fmt::format("a trim of {} leaves nothing of sheet {}", trim, index)));
  }
  if (!is_money(kind.price)) {
    errors.push_back(bad(fmt::format("sheet {} has a price of {}", index, kind.price)));
  }
  if (kind.available && *kind.available < 0) {
    errors.push_back(bad(fmt::format("{} sheets of kind {} on hand", *kind.available, index)));
  }
}

void check_parts(const SheetJob& job, base::Errors& errors) {
  std::int64_t copies = 0;
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    const SheetPart& part = job.parts[i];
    if (!is_size(part.width) || !is_size(part.height)) {
      errors.push_back(bad(fmt::format("part {} is {} x {}", i, part.width, part.height)));
    }
    if (part.demand <= 0 || part.demand > kMaxCopies) {
      errors.push_back(bad(fmt::format("part {} is wanted {} times", i, part.demand)));
    } else {
      copies += part.demand;
    }
  }
  if (copies > kMaxCopies) {
    errors.push_back(
        bad(fmt::format("{} parts are more than one order can hold ({})", copies, kMaxCopies)));
  }
}

void check_group(const SheetJob& job,
                 std::size_t index,
                 std::vector<std::int64_t>& used,
                 base::Errors& errors) {
  const SheetGroup& group = job.groups[index];
  if (group.parts.empty() || group.demand <= 0 || group.demand > kMaxCopies) {
    errors.push_back(bad(fmt::format("group {} is empty or wanted {} times", index, group.demand)));
    return;
  }
  for (const int part : group.parts) {
    if (part < 0 || part >= static_cast<int>(job.parts.size())) {
      errors.push_back(bad(fmt::format("group {} names part {}, which is not there", index, part)));
      return;
    }
    used[static_cast<std::size_t>(part)] += group.demand;
  }
}

void check_groups(const SheetJob& job, base::Errors& errors) {
  std::vector<std::int64_t> used(job.parts.size(), 0);
  for (std::size_t i = 0; i < job.groups.size(); ++i) {
    check_group(job, i, used, errors);
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (used[i] > job.parts[i].demand) {
      errors.push_back(bad(fmt::format(
          "the groups need part {} {} times, but {} are wanted", i, used[i], job.parts[i].demand)));
    }
  }
}

void check_money(const SheetJob& job, base::Errors& errors) {
  const CutCosts& costs = job.costs;
  if (!is_money(costs.per_cut) || !is_money(costs.per_million_length) ||
      !is_money(costs.per_setting) || !is_money(costs.per_sheet)) {
    errors.push_back(bad("a cost of cutting is negative or beyond reason"));
  }
  const OffcutRule& rule = job.offcuts;
  if (rule.permille < 0 || rule.permille > 1000 || rule.min_short < 0 || rule.min_long < 0) {
    errors.push_back(bad("an offcut is worth between 0 and 1000 thousandths of its sheet"));
  }
}

struct Size {
  std::int64_t width = 0;
  std::int64_t height = 0;
};

Size size_of_run(const SheetJob& job, const SheetGroup& group) {
  Size size;
  for (const int index : group.parts) {
    const SheetPart& part = job.parts[static_cast<std::size_t>(index)];
    if (group.along == Axis::kX) {
      size = {size.width + part.width, std::max(size.height, part.height)};
    } else {
      size = {std::max(size.width, part.width), size.height + part.height};
    }
  }
  const std::int64_t kerfs = job.kerf * (static_cast<std::int64_t>(group.parts.size()) - 1);
  (group.along == Axis::kX ? size.width : size.height) += kerfs;
  return size;
}

bool may_turn(const SheetJob& job, const SheetGroup& group) {
  return std::ranges::all_of(
      group.parts, [&](int part) { return job.parts[static_cast<std::size_t>(part)].may_turn; });
}

// How far the piece misses its nearest kind; nothing when one holds it.
std::optional<Misfit> misfit_of(const SheetJob& job, Size size, bool turns) {
  std::optional<Misfit> nearest;
  std::int64_t least = std::numeric_limits<std::int64_t>::max();
  for (std::size_t k = 0; k < job.kinds.size(); ++k) {
    const SheetKind& kind = job.kinds[k];
    if (kind.available && *kind.available == 0) {
      continue;
    }
    const std::int64_t trim = kind.trim.value_or(job.trim);
    for (int turn = 0; turn < (turns ? 2 : 1); ++turn) {
      const std::int64_t over_x = (turn != 0 ? size.height : size.width) - (kind.width - 2 * trim);
      const std::int64_t over_y = (turn != 0 ? size.width : size.height) - (kind.height - 2 * trim);
      const std::int64_t short_x = std::max<std::int64_t>(0, over_x);
      const std::int64_t short_y = std::max<std::int64_t>(0, over_y);
      if (short_x + short_y == 0) {
        return std::nullopt;
      }
      if (short_x + short_y < least) {
        least = short_x + short_y;
        nearest = Misfit{-1, -1, static_cast<int>(k), short_x, short_y};
      }
    }
  }
  return nearest ? nearest : Misfit{-1, -1, -1, size.width, size.height};
}

}  // namespace

base::Errors check_job(const SheetJob& job) {
  base::Errors errors;
  if (job.kinds.empty() || job.parts.empty()) {
    errors.push_back(bad("a job needs at least one sheet and one part"));
  }
  if (job.kinds.size() > kMaxRows || job.parts.size() > kMaxRows || job.groups.size() > kMaxRows) {
    errors.push_back(bad(fmt::format("more than {} rows of sheets, parts or groups", kMaxRows)));
    return errors;
  }
  if (job.kerf < 0 || job.kerf > kMaxSize) {
    errors.push_back(bad(fmt::format("a kerf of {}", job.kerf)));
  }
  if (job.max_stages < 0) {
    errors.push_back(bad(fmt::format("at most {} stages", job.max_stages)));
  }
  for (std::size_t i = 0; i < job.kinds.size(); ++i) {
    check_kind(job, i, errors);
  }
  check_parts(job, errors);
  check_groups(job, errors);
  check_money(job, errors);
  return errors;
}

std::optional<Misfit> find_misfit(const SheetJob& job) {
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    const SheetPart& part = job.parts[i];
    if (auto misfit = misfit_of(job, {part.width, part.height}, part.may_turn)) {
      misfit->part = static_cast<int>(i);
      return misfit;
    }
  }
  for (std::size_t i = 0; i < job.groups.size(); ++i) {
    const SheetGroup& group = job.groups[i];
    if (auto misfit = misfit_of(job, size_of_run(job, group), may_turn(job, group))) {
      misfit->group = static_cast<int>(i);
      return misfit;
    }
  }
  return std::nullopt;
}

}  // namespace plankwright::solve
