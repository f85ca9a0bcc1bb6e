#pragma once
// Where commissions are kept, whichever way: as files in a folder, or in one book.

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "shop/read_shop.h"

namespace plankwright::store {

/// What is known of a commission without reading it.
struct Entry {
  std::string id;    // letters, digits, `_` and `-`; unique
  std::string file;  // what its errors call it
  std::chrono::system_clock::time_point changed;
  std::string stamp;  // changes when the text may have changed; cheap to ask for
};

/// A text as it is kept. The version is the hash of the text.
struct KeptText {
  std::string text;
  std::string version;
};

/// What became of a text that was to be kept.
struct Saved {
  std::string version;             // of what is kept now
  std::optional<KeptText> theirs;  // changed elsewhere: what stands there; nothing was written
};

/// A past text of a commission.
struct PastVersion {
  int number = 0;  // from 1
  std::string version;
  std::string written;  // ISO 8601, UTC
  std::string why;
};

/// Keeps commissions. Safe to use from several threads at once. Errors have code kIo when the disk
/// failed and kBadInput when there is no such commission (nearest offered).
class Keeper {
 public:
  virtual ~Keeper() = default;

  /// Every commission, in the order of their ids. Throws when a book cannot be read.
  virtual std::vector<Entry> list() const = 0;
  virtual base::Result<Entry> find(const std::string& id) const = 0;
  virtual base::Result<KeptText> read(const std::string& id) const = 0;
  /// Keeps `text` if what is kept now has version `known`. Whole or not at all.
  virtual base::Result<Saved> save(const std::string& id,
                                   const std::string& text,
                                   const std::string& known) = 0;
  /// A new commission under an id made from `name`. Returns the id.
  virtual base::Result<std::string> add(const std::string& name, const std::string& text) = 0;

  /// The steps of the work that are ticked off, by their numbers.
  virtual base::Result<std::vector<int>> ticks(const std::string& id) const = 0;
  virtual base::Result<std::vector<int>> tick(const std::string& id, int step, bool done) = 0;

  /// Opens the shop that a commission names.
  virtual shop::OpenFile opener(const std::string& id) const = 0;
  /// The versions kept, oldest first; of files only the present one.
  virtual base::Result<std::vector<PastVersion>> versions(const std::string& id) const = 0;
  /// The text of one version.
  virtual base::Result<KeptText> read_version(const std::string& id, int number) const = 0;
  /// Keeps the text of an older version once more, as the newest. Returns its number. Of files
  /// there is nothing to go back to.
  virtual base::Result<int> go_back(const std::string& id, int number) = 0;
  virtual bool is_book() const = 0;
};

/// `Miller's oak bench` as `millers_oak_bench`: lower case, `_` for what is neither letter nor
/// digit, at most 60 characters. Never empty.
std::string id_from(std::string_view name);
/// Whether `id` is one.
bool is_id(std::string_view id);

}  // namespace plankwright::store
