#pragma once
// Rough boards, each with its own length, width and faults: which to buy and how to saw the parts
// out of the clear wood.

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <vector>

#include "base/result.h"
#include "solve/sheets.h"

namespace plankwright::solve {

/// What a part may show: no fault on either face; one face without a fault and the other sound; or
/// sound on both, for paint and for what is never seen (NHLA clear-face and sound cuttings, from
/// memory).
enum class Quality : std::uint8_t { kSound, kClearOneFace, kClearBothFaces };

enum class BoardFace : std::uint8_t { kUpper, kLower, kBoth };

/// A fault as the rectangle that holds it, measured like the board. `sound` ones (tight knots,
/// stain) may lie in a sound part; holes, splits, decay and wane may not.
struct BoardDefect {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t length = 0;
  std::int64_t width = 0;
  BoardFace face = BoardFace::kBoth;
  bool sound = false;
};

/// One board, or boards of one usual size when `available` is more than one or (nothing) as many as
/// wanted. All lengths of a job are whole numbers of one unit of the caller's choice (millimetres,
/// sixteenths of an inch), x along the grain and y across it; money is whole minor units, nought
/// for a board in the rack. Boards of one `lot` agree in colour.
struct RoughBoard {
  std::int64_t length = 0;
  std::int64_t width = 0;
  std::int64_t price = 0;
  std::optional<std::int64_t> available = 1;
  int lot = 0;
  std::vector<BoardDefect> defects;
};

/// Equal parts with the grain along their length. `value` is what one copy is worth when not all
/// can be had. Parts of one `lot_group` (not negative) come from boards of one lot.
struct BoardPart {
  std::int64_t length = 0;
  std::int64_t width = 0;
  Quality quality = Quality::kClearOneFace;
  std::int64_t demand = 1;
  std::int64_t value = 0;
  int lot_group = -1;
};

/// Parts sawn from one place in one board in the given order, a kerf between neighbours: end to end
/// so that the grain runs on (drawer fronts), or side by side (the halves of a matched pair). Each
/// of the `demand` runs takes one copy of every part it names out of that part's demand. What must
/// be clear on one face is clear on the same face all through the run. The cuts inside a run do not
/// count as stages.
struct BoardRun {
  std::vector<int> parts;
  Axis along = Axis::kX;
  std::int64_t demand = 1;
};

/// A panel glued up from strips of any width from `narrowest` to `widest`. Every strip loses
/// `joint` to its edges when they are planed, so the strips of a panel add up to `width` plus
/// `joint` for each.
struct BoardPanel {
  std::int64_t length = 0;
  std::int64_t width = 0;
  std::int64_t narrowest = 0;
  std::int64_t widest = 0;
  std::int64_t joint = 0;
  Quality quality = Quality::kClearOneFace;
  std::int64_t demand = 1;
  std::int64_t value = 0;
  int lot_group = -1;
};

/// The order of sawing: rip, crosscut, rip; or crosscut, rip, crosscut; or whichever is better for
/// each board. One more cut may free a single part.
enum class SawOrder : std::uint8_t { kEither, kRipFirst, kCrosscutFirst };

/// Everything cut for the least board money, or the greatest value from the boards given.
enum class BoardGoal : std::uint8_t { kLeastMoney, kGreatestValue };

/// Boards of one thickness class and what is cut from them. `end_trim` goes off both ends,
/// `edge_trim` off both edges before anything else, their kerfs included.
struct BoardJob {
  std::vector<RoughBoard> boards;
  std::vector<BoardPart> parts;
  std::vector<BoardRun> runs;
  std::vector<BoardPanel> panels;
  std::int64_t kerf = 0;
  std::int64_t end_trim = 0;
  std::int64_t edge_trim = 0;
  SawOrder order = SawOrder::kEither;
  BoardGoal goal = BoardGoal::kLeastMoney;
};

/// What a rectangle of a board becomes.
enum class BoardRole : std::uint8_t { kCut, kPart, kStrip, kWaste };

/// A rectangle of a board. A kCut is parted `along` an axis into its children, low end first.
/// Between neighbours lies one kerf, or two that run into each other; before the first and behind
/// the last child nothing is left, or no more than a kerf takes. A kPart is a copy of `part`; a
/// kStrip goes into copy `copy` of panel `panel`. `run` marks the rectangle that holds one run.
/// `face` is the clear one (kBoth: either).
struct BoardNode {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t length = 0;
  std::int64_t width = 0;
  BoardRole role = BoardRole::kWaste;
  Axis along = Axis::kX;
  int part = -1;
  int panel = -1;
  std::int64_t copy = 0;
  int run = -1;
  BoardFace face = BoardFace::kBoth;
  std::vector<BoardNode> children;
};

/// One board that is cut: an index into the job's boards. `root` is the board less its trims.
struct BoardLayout {
  int board = 0;
  BoardNode root;
};

/// An order laid out on boards. `cost` is the money of the boards that are cut; `value` that of the
/// parts and whole panels cut. `bound`: no layout costs less (kLeastMoney), or is worth more
/// (kGreatestValue). `left_out` counts the copies of each part that
/// are not cut, `panels_left_out` the panels: all nought for kLeastMoney.
struct BoardAnswer {
  std::vector<BoardLayout> layouts;
  std::int64_t cost = 0;
  std::int64_t value = 0;
  std::int64_t bound = 0;
  bool proven = false;
  std::vector<std::int64_t> left_out;
  std::vector<std::int64_t> panels_left_out;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
  std::int64_t first_work = 0;
};

/// How things stand while solving; told whenever the layout gets better.
struct BoardProgress {
  std::int64_t cost = 0;
  std::int64_t value = 0;
  std::int64_t work = 0;
};

/// How long to try, in work (about a nanosecond each) and never in seconds, so that the same job
/// gives the same answer on every machine. `bound_share` of the work goes into the bound; nought
/// when nobody asks for it. `stop` may be asked at any time; the best layout so far is returned.
struct BoardLimits {
  std::int64_t work = 200'000'000;
  double bound_share = 0.3;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
  std::function<void(const BoardProgress&)> progress = {};
};

/// A part, run or panel (the others are -1) that no board can hold, and the size by which the board
/// that is nearest misses it. Both nought: the size would do, but the faults leave no such place.
struct BoardMisfit {
  int part = -1;
  int run = -1;
  int panel = -1;
  std::int64_t short_length = 0;
  std::int64_t short_width = 0;
};

/// The first part, run or panel strip that no board can hold, if any.
std::optional<BoardMisfit> find_board_misfit(const BoardJob& job);

/// Every mistake in the numbers of a job: a negative kerf, a demand of nought, a defect outside its
/// board, a panel that no number of strips adds up to. Empty when the job can be solved.
base::Errors check_board_job(const BoardJob& job);

/// Lays the order out, with a bound. kBadInput for what check_board_job finds; for kLeastMoney
/// kDoesNotFit for a misfit or when the boards do not suffice, as far as was found.
/// Sources: ruin and recreate on cut trees after Gardeyn & Wauters (EJOR 2022), with the trees tied
/// to their places because faults do not move; a bound by lines across the boards with multipliers
/// after Held & Karp (1971); small jobs by trying every way of sawing.
base::Result<BoardAnswer> solve_boards(const BoardJob& job, const BoardLimits& limits = {});

}  // namespace plankwright::solve
