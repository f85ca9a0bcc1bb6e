#pragma once
// Choices of a commission and the names their options set. Internal to this room.

#include "commission/commission.h"
#include "document/fields.h"

namespace plankwright::commission {

/// Reads the choices; `picked` is what `picks` or else the document says. Complains of a choice
/// with fewer than two options, of a pick that is no option, of a name that two choices set.
std::vector<Choice> read_choices(const document::Fields& from,
                                 const Picks& picks,
                                 base::Errors& errors);

/// The names of a map, `names:` or `sets:` of an option, each with its value. Complains of what
/// cannot be a name.
std::vector<std::pair<std::string, document::Node>> read_names(const document::Node& map,
                                                               base::Errors& errors);

}  // namespace plankwright::commission
