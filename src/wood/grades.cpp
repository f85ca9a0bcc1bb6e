#include "wood/grades.h"

#include <algorithm>
#include <charconv>
#include <functional>

#include <fmt/format.h>

#include "wood/board_measure.h"

namespace plankwright::wood {
namespace {

using base::CsvRow;
using base::Error;
using base::ErrorCode;
using measure::Length;

constexpr Length kOneInch = Length::from_nm(25'400'000);
constexpr Length kOneFoot = 12 * kOneInch;

/// Two numbers with a sign between, such as `4x5` or `2:11`.
std::optional<std::pair<double, double>> parse_pair(std::string_view text, char between) {
  const std::size_t at = text.find(between);
  if (at == std::string_view::npos) {
    return std::nullopt;
  }
  std::pair<double, double> pair;
  const auto read = [](std::string_view part, double& number) {
    const auto [end, wrong] = std::from_chars(part.data(), part.data() + part.size(), number);
    return wrong == std::errc{} && end == part.data() + part.size() && number > 0 && number < 100;
  };
  if (!read(text.substr(0, at), pair.first) || !read(text.substr(at + 1), pair.second)) {
    return std::nullopt;
  }
  return pair;
}

/// The pairs of a cell, with blanks between them.
void for_each_pair(const CsvRow& row,
                   std::string_view column,
                   char between,
                   const std::function<void(double, double)>& take) {
  std::string_view rest = row.text(column);
  while (!rest.empty()) {
    const std::string_view word = rest.substr(0, rest.find(' '));
    rest.remove_prefix(std::min(rest.size(), word.size() + 1));
    if (const auto pair = parse_pair(word, between)) {
      take(pair->first, pair->second);
    } else {
      row.complain(column, fmt::format("expected two numbers with `{}` between", between));
    }
  }
}

int whole(const CsvRow& row, std::string_view column, int most) {
  return static_cast<int>(row.number_if_any(column, 0, most).value_or(0));
}

Grade read_grade(const CsvRow& row) {
  Grade grade;
  grade.name = row.word("name");
  grade.least_width = Length::from_inches(row.number("least_width_in", 1, 24));
  grade.least_length = Length::from_inches(12.0 * row.number("least_length_ft", 1, 16));
  for_each_pair(row, "least_cuttings", 'x', [&](double inches, double feet) {
    grade.least_cuttings.push_back({Length::from_inches(inches), Length::from_inches(12.0 * feet)});
  });
  grade.yield_twelfths = static_cast<int>(row.number("yield_twelfths", 1, 12));
  grade.cuttings_plus = whole(row, "cuttings_plus", 10);
  grade.cuttings_divisor = whole(row, "cuttings_divisor", 10);
  grade.cuttings_most = whole(row, "cuttings_most", 20);
  grade.extra_from = whole(row, "extra_from", 20);
  grade.extra_to = whole(row, "extra_to", 20);
  grade.extra_twelfths = whole(row, "extra_twelfths", 12);
  for_each_pair(row, "small_boards", ':', [&](double feet, double twelfths) {
    grade.small_boards.push_back({static_cast<int>(feet), static_cast<int>(twelfths)});
  });
  grade.graded_on = row.word("graded_on");
  grade.note = row.text("note");
  grade.from = read_provenance(row);
  return grade;
}

std::optional<int> cuttings_allowed(const Grade& grade, int feet) {
  if (grade.cuttings_divisor == 0) {
    return std::nullopt;
  }
  return std::min((feet + grade.cuttings_plus) / grade.cuttings_divisor, grade.cuttings_most);
}

}  // namespace

base::Result<GradeTable> read_grades(std::string_view csv_text, const std::string& file) {
  return read_table<Grade>("grade", csv_text, file, read_grade);
}

base::Result<GradeNeed> grade_need(const Grade& grade,
                                   Length width,
                                   Length length,
                                   bool kiln_dried) {
  const Length least_width = grade.least_width - (kiln_dried ? kOneInch / 2 : Length{});
  if (width < least_width || length < grade.least_length) {
    return Error{.code = ErrorCode::kDoesNotFit,
                 .message = fmt::format("a board {:.2f} in x {:.2f} ft is under the least size of "
                                        "{}, {:g} in x {:g} ft",
                                        width.inches(),
                                        length.feet(),
                                        grade.name,
                                        least_width.inches(),
                                        grade.least_length.feet())};
  }
  if (length >= 17 * kOneFoot) {
    return Error{.code = ErrorCode::kOutOfTable,
                 .message = "boards over 16 ft are graded by a rule of their own"};
  }
  GradeNeed need;
  need.surface_measure = surface_measure(width, length);
  const int feet = need.surface_measure;
  for (const Grade::SmallBoard& small : grade.small_boards) {
    if (small.surface_measure == feet) {
      need.yield = {.units = feet * small.twelfths, .cuttings = 1};
      return need;
    }
  }
  need.yield = {.units = feet * grade.yield_twelfths, .cuttings = cuttings_allowed(grade, feet)};
  if (need.yield.cuttings && feet >= grade.extra_from && feet <= grade.extra_to) {
    need.or_one_more =
        Yield{.units = feet * grade.extra_twelfths, .cuttings = *need.yield.cuttings + 1};
  }
  return need;
}

double promised_yield(const Grade& grade) {
  return grade.yield_twelfths / 12.0;
}

}  // namespace plankwright::wood
