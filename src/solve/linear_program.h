#pragma once
// A linear programme that grows by columns and by rows.

#include <cstdint>
#include <memory>
#include <utility>
#include <vector>

namespace plankwright::solve {

/// min c x, rows of the form a x >= b or a x <= b, x >= 0. Solved warm after every change. One
/// object belongs to one thread.
class LinearProgram {
 public:
  LinearProgram();
  ~LinearProgram();
  /// Goes on from the same basis.
  LinearProgram(const LinearProgram& other);
  LinearProgram& operator=(const LinearProgram&) = delete;

  int add_row_at_least(double bound);
  int add_row_at_most(double bound);
  /// Rows that add up the columns listed for each, all at once.
  void add_rows_at_least(double bound, const std::vector<std::vector<int>>& columns);
  /// What stands behind moves up.
  void remove_rows(const std::vector<int>& rows);
  void remove_columns(const std::vector<int>& columns);
  /// `entries` are pairs of row and coefficient.
  int add_column(double cost, const std::vector<std::pair<int, double>>& entries);
  /// Columns that begin in `rows` with ones, all at once.
  void add_columns(const std::vector<double>& costs, const std::vector<std::vector<int>>& rows);
  void set_row_at_least(int row, double bound);
  void set_row_at_most(int row, double bound);
  void set_column_bounds(int column, double lower, double upper);

  /// False when it has no solution or the kernel gave up.
  bool solve();
  double objective() const;
  double value(int column) const;
  /// The price of one more unit of a row's bound.
  double dual(int row) const;
  bool is_basic(int column) const;
  int rows() const;
  int columns() const;
  /// Of all solutions so far.
  std::int64_t pivots() const;

 private:
  struct Kernel;
  std::unique_ptr<Kernel> kernel_;
};

}  // namespace plankwright::solve
