// A thin coat over the COIN-OR simplex code: after new columns the primal simplex goes on from the
// last basis, after changed bounds or new rows the dual does. Pivoting is deterministic.

#include "solve/linear_program.h"

#include <limits>

#include <ClpSimplex.hpp>

namespace plankwright::solve {

namespace {

/// Rows or columns of ones as the simplex code takes them.
struct Lines {
  explicit Lines(const std::vector<std::vector<int>>& lines) {
    for (const std::vector<int>& line : lines) {
      all.insert(all.end(), line.begin(), line.end());
      starts.push_back(static_cast<int>(all.size()));
    }
    ones.assign(all.size(), 1);
  }
  std::vector<int> starts = {0};
  std::vector<int> all;
  std::vector<double> ones;
};

}  // namespace

struct LinearProgram::Kernel {
  ClpSimplex simplex;
  bool bounds_changed = false;
  std::int64_t pivots = 0;
};

LinearProgram::LinearProgram() : kernel_{std::make_unique<Kernel>()} {
  kernel_->simplex.setLogLevel(0);
  kernel_->simplex.setOptimizationDirection(1);
}

LinearProgram::~LinearProgram() = default;

LinearProgram::LinearProgram(const LinearProgram& other)
    : kernel_{std::make_unique<Kernel>(*other.kernel_)} {}

int LinearProgram::add_row_at_least(double bound) {
  kernel_->simplex.addRow(0, nullptr, nullptr, bound, COIN_DBL_MAX);
  return kernel_->simplex.numberRows() - 1;
}

int LinearProgram::add_row_at_most(double bound) {
  kernel_->simplex.addRow(0, nullptr, nullptr, -COIN_DBL_MAX, bound);
  return kernel_->simplex.numberRows() - 1;
}

int LinearProgram::add_column(double cost, const std::vector<std::pair<int, double>>& entries) {
  std::vector<int> rows;
  std::vector<double> values;
  for (const auto& [row, value] : entries) {
    rows.push_back(row);
    values.push_back(value);
  }
  kernel_->simplex.addColumn(
      static_cast<int>(rows.size()), rows.data(), values.data(), 0, COIN_DBL_MAX, cost);
  return kernel_->simplex.numberColumns() - 1;
}

void LinearProgram::add_rows_at_least(double bound, const std::vector<std::vector<int>>& columns) {
  const Lines lines{columns};
  const std::vector<double> lower(columns.size(), bound);
  const std::vector<double> upper(columns.size(), COIN_DBL_MAX);
  kernel_->simplex.addRows(static_cast<int>(columns.size()),
                           lower.data(),
                           upper.data(),
                           lines.starts.data(),
                           lines.all.data(),
                           lines.ones.data());
  kernel_->bounds_changed = true;
}

void LinearProgram::add_columns(const std::vector<double>& costs,
                                const std::vector<std::vector<int>>& rows) {
  const Lines lines{rows};
  const std::vector<double> lower(costs.size(), 0);
  const std::vector<double> upper(costs.size(), COIN_DBL_MAX);
  kernel_->simplex.addColumns(static_cast<int>(costs.size()),
                              lower.data(),
                              upper.data(),
                              costs.data(),
                              lines.starts.data(),
                              lines.all.data(),
                              lines.ones.data());
}

bool LinearProgram::is_basic(int column) const {
  return kernel_->simplex.getColumnStatus(column) == ClpSimplex::basic;
}

void LinearProgram::remove_rows(const std::vector<int>& rows) {
  kernel_->simplex.deleteRows(static_cast<int>(rows.size()), rows.data());
  kernel_->bounds_changed = true;
}

void LinearProgram::remove_columns(const std::vector<int>& columns) {
  kernel_->simplex.deleteColumns(static_cast<int>(columns.size()), columns.data());
  kernel_->bounds_changed = true;
}

void LinearProgram::set_row_at_least(int row, double bound) {
  kernel_->simplex.setRowLower(row, bound);
  kernel_->bounds_changed = true;
}

void LinearProgram::set_row_at_most(int row, double bound) {
  kernel_->simplex.setRowUpper(row, bound);
  kernel_->bounds_changed = true;
}

void LinearProgram::set_column_bounds(int column, double lower, double upper) {
  kernel_->simplex.setColumnBounds(column, lower, upper);
  kernel_->bounds_changed = true;
}

bool LinearProgram::solve() {
  ClpSimplex& simplex = kernel_->simplex;
  if (kernel_->bounds_changed) {
    simplex.dual();
  } else {
    simplex.primal(1);
  }
  kernel_->bounds_changed = false;
  kernel_->pivots += simplex.numberIterations();
  return simplex.status() == 0;
}

double LinearProgram::objective() const {
  return kernel_->simplex.objectiveValue();
}

double LinearProgram::value(int column) const {
  return kernel_->simplex.getColSolution()[column];
}

double LinearProgram::dual(int row) const {
  return kernel_->simplex.getRowPrice()[row];
}

int LinearProgram::rows() const {
  return kernel_->simplex.numberRows();
}

std::int64_t LinearProgram::pivots() const {
  return kernel_->pivots;
}

int LinearProgram::columns() const {
  return kernel_->simplex.numberColumns();
}

}  // namespace plankwright::solve
