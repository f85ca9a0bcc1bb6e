#pragma once
// The words of an expression: sizes, names and signs, each with the column where it starts.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/exact_number.h"

namespace plankwright::measure {

/// One word. A size that was written with its unit is a length and `number` counts nanometres.
struct Token {
  enum class Kind { kEnd, kNumber, kName, kSign };
  Kind kind = Kind::kEnd;
  std::string text;  // as written, white space at the ends taken off
  int column = 1;    // characters, from 1
  bool is_length = false;
  bool bare_fraction = false;  // `3/4` without whole part and unit: unclear behind a `/`
  ExactNumber number;
};

/// `text` cut into words; the last is always kEnd. The error's `at->column` counts characters.
base::Result<std::vector<Token>> tokens_of(std::string_view text);

/// A plain amount at the start of `text`: `45`, `2.5`, `3/4`, `1 1/2`, `2½`. `rest` is what follows
/// it, leading white space taken off. An error when there is no number.
struct LeadingAmount {
  ExactNumber number;
  std::string rest;
};
base::Result<LeadingAmount> leading_amount(std::string_view text);

}  // namespace plankwright::measure
