// Runs the solvers over files of open instances and prints how good the answers are: one JSON line
// an instance to standard output, a summary to standard error.

#include <fmt/format.h>

#include "board_kind.h"
#include "layout_kinds.h"
#include "order_kinds.h"

namespace tool = plankwright::bench_tool;

int main(int count, char** words) {
  const std::string kind = count > 1 ? words[1] : "";
  const auto options = tool::read_options({words + (count > 1 ? 2 : 1), words + count});
  if (!options.ok()) {
    fmt::print(stderr, "{}\n", options.error().message);
    return 2;
  }
  if (!options.value().files.empty()) {
    if (kind == "boards") {
      return tool::run_board_kind(options.value());
    }
    if (tool::is_layout_kind(kind)) {
      return tool::run_layout_kind(kind, options.value());
    }
    if (tool::is_order_kind(kind)) {
      return tool::run_order_kind(kind, options.value());
    }
  }
  fmt::print(stderr,
             "solve_instances KIND FILE... {}\n"
             "KIND is sheets, sheet_value, sheets_value, bars, boards, order, staging or "
             "schedule\n",
             tool::kOptionsHelp);
  return 2;
}
