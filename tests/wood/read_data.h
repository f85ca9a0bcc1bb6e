#pragma once
// The data folder as the tests see it.

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "base/result.h"
#include "wood/reference.h"

namespace plankwright::wood::testing {

inline base::Result<std::string> data_text(const std::string& name) {
  std::ifstream file{PLANKWRIGHT_SOURCE_DIR "/data/" + name};
  if (!file) {
    return base::Error{.code = base::ErrorCode::kIo, .message = "cannot read data/" + name};
  }
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// The shipped tables, read once. Throws when one of them is wrong, which fails the test that asks.
inline const Reference& reference() {
  static const Reference kReference = [] {
    const auto read = read_reference(data_text);
    if (!read.ok()) {
      throw std::runtime_error(base::describe(read.error()));
    }
    return read.value();
  }();
  return kReference;
}

inline Species species(const std::string& id) {
  return reference().species.find(id).value();
}

}  // namespace plankwright::wood::testing
