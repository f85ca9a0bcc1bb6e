#pragma once
// The shop book: commissions and all their versions in one SQLite file.

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "store/keeper.h"

namespace plankwright::store {

/// Keeps commissions in one file. What was acknowledged is on the disk (write-ahead log, flushed at
/// each commit); a version once kept is never changed. Other programs may have the same book open.
class Book : public Keeper {
 public:
  /// Opens a book, or makes one when there is no file, and brings an older one up to date. Errors:
  /// the file is no book, is damaged (says what to do), or was made by a newer program.
  static base::Result<std::unique_ptr<Book>> open(const std::filesystem::path& file);

  /// Takes in commissions that the book does not have yet, with the shops they name that lie beside
  /// them. Those it has stay as they are in the book. Returns the ids taken in.
  virtual base::Result<std::vector<std::string>> take_in(
      const std::vector<std::filesystem::path>& files) = 0;

  /// Copies the whole book while it is in use. `into` appears whole, checked, or not at all; an
  /// older copy there is replaced.
  virtual base::Result<std::size_t> back_up(const std::filesystem::path& into) const = 0;
};

}  // namespace plankwright::store
