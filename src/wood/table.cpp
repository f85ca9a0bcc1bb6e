#include "wood/table.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/nearest.h"

namespace plankwright::wood {

base::Error no_such_row(std::string_view what,
                        std::string_view id,
                        const std::vector<std::string>& ids) {
  std::string offer = base::nearest_word(id, ids);
  if (offer.empty() && !id.empty()) {
    const auto holds = [&](const std::string& known) {
      return known.find(id) != std::string::npos;
    };
    const auto it = std::ranges::find_if(ids, holds);
    offer = it == ids.end() ? std::string{} : *it;
  }
  return base::Error{.code = base::ErrorCode::kOutOfTable,
                     .message = fmt::format("there is no {} `{}`", what, id),
                     .at = std::nullopt,
                     .nearest = std::move(offer)};
}

Bounds read_bounds(const base::CsvRow& row) {
  constexpr double kMost = 1e5;
  const Bounds bounds{row.number_if_any("least", 0, kMost), row.number_if_any("most", 0, kMost)};
  if (!bounds.least && !bounds.most) {
    row.complain("least", "a row needs a least or a most");
  } else if (bounds.least && bounds.most && *bounds.least > *bounds.most) {
    row.complain("least", "the least is over the most");
  }
  return bounds;
}

}  // namespace plankwright::wood
