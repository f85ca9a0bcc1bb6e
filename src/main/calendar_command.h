#pragma once
// `plankwright calendar`: one or several commissions in the days of one shop.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "measure/date.h"

namespace plankwright::cli {

struct CalendarAsked {
  std::vector<std::string> files;  // commissions, one or more
  std::string shop_file;           // another shop than the one the first names
  std::string start;               // 2026-03-02; the working day after the last quotation when ""
  std::string ics;                 // files to write, or ""
  std::string pdf;
  bool json = false;  // printed in place of the text
};

/// What is printed, and what is written to the files asked for.
struct CalendarAnswer {
  std::string text;
  std::string ics;
  std::string pdf;
};

/// Plans the commissions and puts all of them into the days of the first one's shop. All errors of
/// the first document that has some.
struct CalendarResult {
  std::optional<CalendarAnswer> answer;
  base::Errors errors;
};
CalendarResult answer_calendar(const CalendarAsked& asked);

}  // namespace plankwright::cli
