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
    const auto holds = [&](const std::string& known) { return known.find(id) != known.npos; };
    const auto it = std::ranges::find_if(ids, holds);
    offer = it == ids.end() ? std::string{} : *it;
  }
  return base::Error{.code = base::ErrorCode::kOutOfTable,
                     .message = fmt::format("there is no {} `{}`", what, id),
                     .at = std::nullopt,
                     .nearest = std::move(offer)};
}

}  // namespace plankwright::wood
