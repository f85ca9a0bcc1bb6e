#pragma once
// Sheet goods: which sheets to open and how to saw them, edge to edge, so that the order costs
// least.

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <vector>

#include "base/result.h"

namespace plankwright::solve {

/// The direction in which pieces lie side by side. A saw cut between two neighbours along x runs
/// parallel to y, and the other way about.
enum class Axis : std::uint8_t { kX, kY };

/// Sheets of one size that can be bought or stand in the rack. All lengths of a job are whole
/// numbers of one unit of the caller's choice (micrometres, say); money is whole minor units. An
/// offcut on hand is a kind with `available` = 1 and the price it could be kept or sold for. No
/// `available` means as many as wanted. `trim` is what is sawn off all round before anything else,
/// its own kerf included; without it the job's trim counts.
struct SheetKind {
  std::int64_t width = 0;
  std::int64_t height = 0;
  std::int64_t price = 0;
  std::optional<std::int64_t> available = std::nullopt;
  std::optional<std::int64_t> trim = std::nullopt;
};

/// Equal parts. `may_turn` is true when the grain lets width and height change places.
struct SheetPart {
  std::int64_t width = 0;
  std::int64_t height = 0;
  std::int64_t demand = 1;
  bool may_turn = false;
};

/// Parts sawn from one run in the given order so that the grain flows across them: side by side
/// `along` an axis with one kerf between neighbours, first part at the low end. Each of the
/// `demand` runs takes one copy of every part it names out of that part's demand. A run turns as a
/// whole, and only when all of its parts may turn. The cuts inside a run do not count as stages.
struct SheetGroup {
  std::vector<int> parts;
  Axis along = Axis::kX;
  std::int64_t demand = 1;
};

/// Labour at the saw in money: for each cut, for each million units of cut length, for each fence
/// setting and for each sheet handled. A setting is a distinct fence distance in one direction on
/// one sheet. The trim cuts are part of `per_sheet`.
struct CutCosts {
  std::int64_t per_cut = 0;
  std::int64_t per_million_length = 0;
  std::int64_t per_setting = 0;
  std::int64_t per_sheet = 0;
};

/// Which left-over rectangles are worth keeping and for how much: both sides at least `min_short`,
/// one at least `min_long`, worth `permille` thousandths of the sheet's price per sheet area.
struct OffcutRule {
  std::int64_t min_short = 0;
  std::int64_t min_long = 0;
  std::int64_t permille = 0;
};

/// `max_stages` limits how often the saw may change direction on a sheet (0: as often as needed).
/// With `trimming_cut_free` one more cut may free a single part from its strip after the last
/// stage. `first_cut` fixes the axis along which the first cuts part the sheet.
struct SheetJob {
  std::vector<SheetKind> kinds;
  std::vector<SheetPart> parts;
  std::vector<SheetGroup> groups;
  std::int64_t kerf = 0;
  std::int64_t trim = 0;
  int max_stages = 0;
  bool trimming_cut_free = true;
  std::optional<Axis> first_cut = std::nullopt;
  CutCosts costs;
  OffcutRule offcuts;
};

/// What a rectangle of the sheet becomes.
enum class CutRole : std::uint8_t { kCut, kPart, kWaste, kOffcut };

/// A rectangle of a sheet, measured from the corner of the untrimmed sheet. A kCut is parted
/// `along` an axis into its children, low end first, with a kerf between neighbours; whatever lies
/// behind the last child is no wider than a kerf. A kPart is one copy of `part`, `turned` or not.
/// `group` marks the rectangle that holds one run of that group.
struct CutNode {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t width = 0;
  std::int64_t height = 0;
  CutRole role = CutRole::kWaste;
  Axis along = Axis::kX;
  int part = -1;
  bool turned = false;
  int group = -1;
  std::vector<CutNode> children;
};

/// `count` sheets of one kind that are all cut alike. `root` is the trimmed sheet. `cost` is what
/// one of them costs: price, labour, less the offcuts kept.
struct SheetLayout {
  int kind = 0;
  std::int64_t count = 1;
  CutNode root;
  std::int64_t cost = 0;
};

enum class Stopped : std::uint8_t { kProven, kWorkLimit, kCancelled };

/// An order laid out. `cost` is money for everything, `bound` is money no layout can go below,
/// `proven` that they meet. `sheets` were used, `sheets_bound` is the fewest any layout could use.
/// `work` is what was spent (about a nanosecond each), `first_work` what the first layout took.
struct SheetAnswer {
  std::vector<SheetLayout> layouts;
  std::int64_t cost = 0;
  std::int64_t bound = 0;
  std::int64_t sheets = 0;
  std::int64_t sheets_bound = 0;
  bool proven = false;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
  std::int64_t first_work = 0;
};

/// How things stand while solving; told whenever the cost falls or the bound rises, for the first
/// time after a few milliseconds of work or at the end.
struct SheetProgress {
  std::int64_t cost = 0;
  std::int64_t bound = 0;
  std::int64_t sheets = 0;
  std::int64_t work = 0;
};

/// How long to try, in work and never in seconds, so that the same job gives the same answer on
/// every machine and for one thread or two. `stop` may be asked at any time; the best layout so far
/// is returned. `progress` is called from the thread that called solve_sheets.
struct SheetLimits {
  std::int64_t work = 2'000'000'000;
  int threads = 2;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
  std::function<void(const SheetProgress&)> progress = {};
};

/// The part (or the run of `group`) that fits no sheet, the kind it misses by least, and how much
/// that sheet is short in width and height, turned if that is nearer.
struct Misfit {
  int part = -1;
  int group = -1;
  int kind = -1;
  std::int64_t short_width = 0;
  std::int64_t short_height = 0;
};

/// The first part or run that no kind can hold, if any. Asks nothing of the rest of the job.
std::optional<Misfit> find_misfit(const SheetJob& job);

/// Every mistake in the numbers of a job: a negative kerf, a demand of nought, a group that names
/// more parts than are wanted, sizes beyond 64-bit areas. Empty when the job can be solved.
base::Errors check_job(const SheetJob& job);

/// Lays the order out at least money, with a proven bound. kBadInput for what check_job finds,
/// kDoesNotFit for a misfit or when the sheets on hand do not suffice.
/// Sources: ruin and recreate on cut trees after Gardeyn & Wauters (EJOR 2022); column generation
/// after Gilmore & Gomory (1965) with the bound of Farley (1990).
base::Result<SheetAnswer> solve_sheets(const SheetJob& job, const SheetLimits& limits = {});

}  // namespace plankwright::solve
