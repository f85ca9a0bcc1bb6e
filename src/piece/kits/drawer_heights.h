#pragma once
// How high each drawer of a bank is: the rule that divides what there is.

#include <vector>

#include "base/result.h"
#include "measure/length.h"

namespace plankwright::piece {

enum class Grading { kEqual, kArithmetic, kGeometric };

/// How the openings of a bank follow each other from the top down.
struct HeightRule {
  Grading grading = Grading::kEqual;
  int count = 1;
  measure::Length step = {};  // kArithmetic: how much higher each opening is than the one above
  double ratio = 1;           // kGeometric: how many times as high
};

/// Heights of the openings from the top down, which add up to `available` exactly: each is cut down
/// to whole multiples of `mark`, and the lowest takes what is left over. Error kDoesNotFit when the
/// highest or the lowest would have no height.
base::Result<std::vector<measure::Length>> graded_heights(const HeightRule& rule,
                                                          measure::Length available,
                                                          measure::Length mark);

}  // namespace plankwright::piece
