#pragma once
// The book's tables, and how an older book becomes one of today.

#include <span>
#include <string_view>

namespace plankwright::store {

/// SQL that takes a book from the version before to this one. A released migration is never
/// edited, only followed.
struct Migration {
  int version = 0;
  std::string_view sql;
};

/// All of them, in order; the last is the version of today.
std::span<const Migration> migrations();

/// Marks a file of SQLite as one of our books (PRAGMA application_id): "PWBK".
inline constexpr int kBookMark = 0x5057424B;

}  // namespace plankwright::store
