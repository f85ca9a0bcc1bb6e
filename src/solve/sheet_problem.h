#pragma once
// A sheet job as the search sees it: small whole numbers, kerf and trim dealt with, equal parts
// merged.

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "solve/sheets.h"

namespace plankwright::solve {

__extension__ using Int128 = __int128;

/// Pieces that are equal for the search. Sizes are inflated by one kerf, as are the sheets: n
/// pieces in a row need n - 1 kerfs exactly when n inflated pieces fit the inflated sheet.
struct PackType {
  std::int32_t width = 0;
  std::int32_t height = 0;
  std::int64_t demand = 0;
  bool may_turn = false;
  double value = 0;  // what leaving one copy out costs; its area unless somebody says otherwise
};

/// A sheet without its trim, inflated by one kerf. `price` holds the handling of the sheet as well.
struct PackKind {
  std::int32_t width = 0;
  std::int32_t height = 0;
  std::int64_t price = 0;
  std::int64_t available = std::numeric_limits<std::int64_t>::max();
  bool is_limited() const { return available != std::numeric_limits<std::int64_t>::max(); }
};

/// Where a type came from: this many copies of a part, or of a group's run. `turned` says that the
/// type's width is the part's height.
struct PackSource {
  int part = -1;
  int group = -1;
  std::int64_t copies = 0;
};

struct PackProblem {
  std::vector<PackType> types;
  std::vector<std::vector<PackSource>> sources;  // by type
  std::vector<PackKind> kinds;                   // as in the job, in its order
  int max_stages = 0;
  bool trimming_cut_free = true;
  std::optional<Axis> first_cut = std::nullopt;
  std::int32_t kerf = 0;
  std::int64_t unit = 1;  // job units in one unit here
};

/// A rectangle of a cut pattern, in inflated sizes: a type, or a cut into children whose directions
/// alternate; what the children leave is waste at the high end.
struct PackNode {
  std::int32_t width = 0;
  std::int32_t height = 0;
  Axis along = Axis::kX;
  int type = -1;
  bool turned = false;
  std::vector<PackNode> children;
};

/// `count` sheets of a kind cut alike. A root without children is an empty sheet.
struct PackSheet {
  int kind = 0;
  std::int64_t count = 1;
  PackNode root;
};

/// The problem behind a job that check_job and find_misfit have passed.
PackProblem make_problem(const SheetJob& job);

/// How often each type lies in a pattern.
std::vector<std::int64_t> count_types(const PackNode& root, std::size_t types);

/// Counts, cuts, settings, offcuts and money of one finished layout are filled in from the pattern;
/// parts are handed out to the patterns in order.
std::vector<SheetLayout> make_layouts(const SheetJob& job,
                                      const PackProblem& problem,
                                      const std::vector<PackSheet>& sheets);

/// What one sheet with this tree costs, as SheetLayout::cost says.
std::int64_t cost_of_sheet(const SheetJob& job, int kind, const CutNode& root);

}  // namespace plankwright::solve
