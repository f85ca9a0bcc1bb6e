#pragma once
// Grades of hardwood boards: how much clear wood a board of a grade is sure to hold.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/length.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// The least size of a cutting: both must be reached.
struct CuttingSize {
  measure::Length width;
  measure::Length length;
};

/// One grade. Yields are in twelfths of the surface measure; a cutting unit is 12 square inches.
struct Grade {
  std::string id;               // "no_1_common"
  std::string name;             // "No. 1 common"
  measure::Length least_width;  // of the board
  measure::Length least_length;
  std::vector<CuttingSize> least_cuttings;  // one of them
  int yield_twelfths = 0;
  /// Cuttings allowed: (surface measure + plus) / divisor, cut down, at most `cuttings_most`.
  /// Divisor zero: any number.
  int cuttings_plus = 0;
  int cuttings_divisor = 0;
  int cuttings_most = 0;
  /// From `extra_from` to `extra_to` square feet one more cutting is allowed for a higher yield.
  int extra_from = 0;
  int extra_to = 0;
  int extra_twelfths = 0;
  struct SmallBoard {
    int surface_measure = 0;
    int twelfths = 0;
  };
  std::vector<SmallBoard> small_boards;  // these must give more, in one cutting
  std::string graded_on;                 // "poorer face"
  std::string note;
  Provenance from;
};

using GradeTable = Table<Grade>;

/// Reads data/board_grades.csv, best first. Errors with place.
base::Result<GradeTable> read_grades(std::string_view csv_text, const std::string& file);

/// One way for a board to make its grade: so many cutting units in at most so many cuttings.
struct Yield {
  int units = 0;
  std::optional<int> cuttings;  // none: any number
  friend bool operator==(const Yield&, const Yield&) = default;
};

/// What a board must give.
struct GradeNeed {
  int surface_measure = 0;
  Yield yield;
  std::optional<Yield> or_one_more;  // the way with the extra cutting
};

/// What a board of this size must give to make `grade`. A kiln-dried board may be 1/2 in under the
/// least width (NH2, verified). Error kDoesNotFit when the board is too small for the grade;
/// kOutOfTable above 16 ft, where another rule allows more cuttings.
/// Source: NHLA rules in the texts named by the grade's row (verified).
base::Result<GradeNeed> grade_need(const Grade& grade,
                                   measure::Length width,
                                   measure::Length length,
                                   bool kiln_dried);

/// Share of the surface measure that the grade promises as clear cuttings, 0.67 for No. 1 common.
double promised_yield(const Grade& grade);

}  // namespace plankwright::wood
