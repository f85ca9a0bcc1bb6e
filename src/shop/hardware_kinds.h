#pragma once
// The kinds of fittings and the sizes that must be known of each before anything is built round it.

#include <span>
#include <string_view>

#include "document/fields.h"

namespace plankwright::shop {

/// One kind of fitting. A size that is needed must be entered from the maker's own sheet; the
/// others of the list may be.
struct HardwareKind {
  std::string_view word;  // "slide_pair"
  std::string_view says;
  std::span<const std::string_view> needed_sizes = {};
};

/// All kinds, in the order of the handbook.
std::span<const HardwareKind> hardware_kinds();

/// The kind with this word, or nullptr.
const HardwareKind* hardware_kind(std::string_view word);

/// Their words, for the table of fields.
std::span<const std::string_view> hardware_kind_words();

/// Every size a fitting may have, with what it means.
document::FieldTable hardware_size_fields();

}  // namespace plankwright::shop
