#pragma once
// Every value of a commission that can be changed where it stands.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "commission/commission.h"
#include "document/node.h"

namespace plankwright::server {

/// One written value.
struct WrittenValue {
  std::string path;  // "piece/stack/1/carcase/thickness": keys and places in lists, from 0
  base::Position at;
  std::string written;  // as in the text, quotes taken off
  std::string kind;     // "length", "expression", "number", "choice" or "text"
  std::optional<measure::Length> length = std::nullopt;  // what a length or expression comes to
  std::string says = {};                                 // the field's sentence in the handbook
  std::vector<std::string> options = {};                 // of a choice: what may stand here
};

/// All single-line values of `root` in the order of the text. `commission` was read from it; its
/// names give expressions their sizes.
std::vector<WrittenValue> written_values(const document::Node& root,
                                         const commission::Commission& commission);

}  // namespace plankwright::server
