#pragma once
// An expression as a tree of terms, between reading and evaluating it.

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/exact_number.h"
#include "measure/expression.h"

namespace plankwright::measure {

/// One node of a parsed expression.
struct Expression::Term {
  enum class Kind {
    kNumber,
    kName,
    kNegative,
    kSum,
    kDifference,
    kProduct,
    kQuotient,
    kComparison,
    kCall
  };
  Kind kind = Kind::kNumber;
  int column = 1;        // of the literal, the name or the sign
  int first_column = 1;  // of the leftmost word
  std::string text;      // the literal, the name, the comparison or the function
  ExactNumber number;    // of a literal
  bool is_length = false;
  std::vector<std::shared_ptr<const Term>> parts;
};

/// `text` as a tree; the error's column counts characters from 1.
base::Result<std::shared_ptr<const Expression::Term>> parse_term(std::string_view text);

/// A mistake at a character of the expression.
base::Error fault(int column, std::string message, std::string nearest = {});

}  // namespace plankwright::measure
