#pragma once
// One value of a written document changed where it stands; everything else of the text, comments
// and order included, stays as the maker wrote it.

#include <string>

#include "base/result.h"

namespace plankwright::store {

/// One value to be changed.
struct Edit {
  int line = 1;  // of its first character, as errors and values have it
  int column = 1;
  std::string from;  // what stands there now, without quotes
  std::string to;
};

/// The text with that one value changed. A value that would not be read as written without them
/// gets quotes. Refused (kBadInput, at the value) when the text cannot be read, when no single
/// value stands there, when it is another one than `from`, when it runs over several lines, or when
/// the change would touch anything else.
base::Result<std::string> edit_text(const std::string& text,
                                    const std::string& file,
                                    const Edit& edit);

}  // namespace plankwright::store
