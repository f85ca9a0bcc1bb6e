#pragma once
// Commissions kept as files, which any editor may change meanwhile.

#include <filesystem>
#include <memory>
#include <vector>

#include "store/keeper.h"

namespace plankwright::store {

/// Keeps the commissions of `places`: files, and folders whose .yaml and .yml files are commissions
/// unless they are shops. Folders are looked through again each time, so that new files are seen.
/// New commissions go into the first folder, or beside the first file. Ticks stand beside the file
/// as ID.ticks.json. Error when a place is neither a file nor a folder.
base::Result<std::unique_ptr<Keeper>> keep_folder(const std::vector<std::filesystem::path>& places);

/// Whether a document is a commission rather than a shop: by its keys at the left margin. A text
/// without any such key counts as one, so that a broken file is shown and not passed over.
bool looks_like_commission(std::string_view text);

/// The commissions among `places`, in order; as keep_folder.
std::vector<std::filesystem::path> commission_files(
    const std::vector<std::filesystem::path>& places);

}  // namespace plankwright::store
