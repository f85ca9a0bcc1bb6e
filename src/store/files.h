#pragma once
// The rim: where written documents and tables are read from disk and papers are put there.

#include <filesystem>
#include <string>
#include <string_view>

#include "base/result.h"
#include "plan/plan.h"
#include "shop/read_shop.h"

namespace plankwright::store {

/// The whole text of a file. Errors: there is no such file (with the nearest name beside it), it is
/// a folder, it cannot be read, it is larger than a written document may be.
base::Result<std::string> read_file(const std::filesystem::path& path);

/// Writes a file whole or not at all: into a new file beside it, which is flushed to the disk and
/// then takes its place. Keeps who may read it; makes missing folders. Returns the bytes written.
base::Result<std::size_t> write_file(const std::filesystem::path& path, const std::string& bytes);

/// SHA-256 of a text in lower-case hexadecimal: the version of a document, and the name under which
/// what was reckoned from it is kept.
std::string hash_of(std::string_view text);

/// Where the tables and the default shop lie: $PLANKWRIGHT_DATA, else beside the program, else
/// where it was built.
std::filesystem::path data_folder();

/// Opens what a commission names: beside the commission first, then in the data folder.
shop::OpenFile open_beside(const std::filesystem::path& commission);

/// The same for texts that come from elsewhere than this disk: a name that leads out of the folder
/// is refused.
shop::OpenFile open_within(const std::filesystem::path& commission);

/// The reference tables and operation rules of the data folder.
base::Result<plan::Reference> read_reference();

}  // namespace plankwright::store
