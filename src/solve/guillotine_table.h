#pragma once
// The most valuable way to saw every rectangle at once, parts taken as often as one likes.

#include <cstdint>
#include <vector>

#include "solve/sheet_problem.h"

namespace plankwright::solve {

/// F(X, Y), the greatest value of parts sawn edge to edge from a rectangle, for all sizes that are
/// sums of part sizes. Values are whole numbers, so a bound drawn from them is arithmetic. On a
/// `grid` above one all sizes are rounded down to multiples of it, sheets too: a relaxation, since
/// the sum of the rounded parts is no more than the rounded sum. Sources: Gilmore & Gomory (1966);
/// Herz (1972) and Christofides & Whitlock (1977) for the points.
class GuillotineTable {
 public:
  /// `demand` limits the sums only. The grid must be no larger than the smallest part size.
  GuillotineTable(const PackProblem& problem,
                  const std::vector<std::int64_t>& demand,
                  std::int32_t grid);

  std::int64_t cells() const { return static_cast<std::int64_t>(x_.size() * y_.size()); }
  std::int32_t grid() const { return grid_; }

  /// Fills the table. `values` by type, not negative; F must stay below 2^31 everywhere. `per_cut`
  /// and `per_length` (for each unit of cut) are taken off for every cut between parts.
  void fill(const std::vector<std::int32_t>& values, double per_cut = 0, double per_length = 0);

  /// F of a whole sheet of a kind.
  std::int64_t value(int kind) const;
  /// A pattern of that value; sizes are not set, and parts may lie in it too often.
  PackNode pattern(int kind) const;
  /// F of the rectangle (in units of the problem).
  std::int64_t value_of(std::int32_t width, std::int32_t height) const;
  /// The points, ascending, and F at them; the index of the last point not above a length.
  const std::vector<std::int32_t>& x_points() const { return x_; }
  const std::vector<std::int32_t>& y_points() const { return y_; }
  std::int32_t at_points(int x, int y) const { return cell(x, y); }
  std::int32_t floor_x(std::int32_t length) const { return floor_x_[at(length / grid_)]; }
  std::int32_t floor_y(std::int32_t length) const { return floor_y_[at(length / grid_)]; }
  /// The points of a row (of a column) whose rectangles are worth more than any smaller one and
  /// than any way of splitting them along the row (column): the pieces all others are made of.
  const std::vector<std::int32_t>& row_firsts(int y) const { return row_firsts_[at(y)]; }
  const std::vector<std::int32_t>& column_firsts(int x) const { return column_firsts_[at(x)]; }
  /// Work of all fills so far, in about nanoseconds.
  std::int64_t work() const { return work_; }

 private:
  struct Spot {
    std::int32_t x = 0;  // indices of points
    std::int32_t y = 0;
    std::int32_t value = 0;
    int type = -1;
    bool turned = false;
  };

  static std::size_t at(std::int64_t index) { return static_cast<std::size_t>(index); }
  std::int32_t& cell(int x, int y) { return rows_[at(y) * x_.size() + at(x)]; }
  std::int32_t cell(int x, int y) const { return rows_[at(y) * x_.size() + at(x)]; }
  void place_parts(const std::vector<std::int32_t>& values);
  void fill_row(int y);
  PackNode trace(int x, int y) const;
  bool split(int x, int y, bool along_x, std::int32_t value, PackNode& node) const;

  const PackProblem& problem_;
  std::int32_t grid_ = 1;
  std::vector<std::int32_t> x_, y_;              // points, ascending, the first is nought
  std::vector<std::int32_t> floor_x_, floor_y_;  // by length: index of the last point not above it
  std::vector<std::int32_t> rows_;               // F, x fastest
  std::vector<std::int32_t> columns_;            // F again, y fastest
  std::vector<std::int32_t> cut_x_, cut_y_;      // taken off for a cut: by y point, by x point
  std::vector<Spot> spots_;
  std::vector<std::vector<std::int32_t>> row_firsts_, column_firsts_;
  std::int64_t work_ = 0;
};

/// Gives a pattern without sizes its sizes, the shape PackNode promises, and room on the kind:
/// parts are dropped, smallest first, as long as it is too large. With `left` (by type) no type is
/// used more often than that, and what is used is taken off.
PackNode settle(const PackProblem& problem,
                int kind,
                const PackNode& loose,
                std::vector<std::int64_t>* left = nullptr);

}  // namespace plankwright::solve
