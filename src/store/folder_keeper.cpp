#include "store/folder_keeper.h"

#include <algorithm>
#include <map>
#include <mutex>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/nearest.h"
#include "store/files.h"

namespace plankwright::store {
namespace {

namespace fs = std::filesystem;

bool is_document(const fs::path& path) {
  return path.extension() == ".yaml" || path.extension() == ".yml";
}

bool has_key(std::string_view text, std::string_view key) {
  for (std::size_t at = text.find(key); at != std::string_view::npos; at = text.find(key, at + 1)) {
    const std::size_t end = at + key.size();
    if ((at == 0 || text[at - 1] == '\n') && end < text.size() && text[end] == ':') {
      return true;
    }
  }
  return false;
}

/// Whether a file is a commission, remembered until the file changes: a folder is looked through
/// once a second.
bool is_commission(const fs::path& path) {
  struct Known {
    fs::file_time_type written;
    std::uintmax_t size = 0;
    bool is_one = false;
  };
  static std::mutex mutex;
  static std::map<fs::path, Known> known;
  std::error_code error;
  Known now{fs::last_write_time(path, error), fs::file_size(path, error)};
  const std::lock_guard lock{mutex};
  const auto found = known.find(path);
  if (found != known.end() && found->second.written == now.written &&
      found->second.size == now.size) {
    return found->second.is_one;
  }
  const auto text = read_file(path);
  now.is_one = !text.ok() || looks_like_commission(text.value());
  known[path] = now;
  return now.is_one;
}

/// The commissions of a folder, in the order of their names.
std::vector<fs::path> documents_of(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator{folder, ignored}) {
    if (entry.is_regular_file(ignored) && is_document(entry.path()) &&
        is_commission(entry.path())) {
      files.push_back(entry.path());
    }
  }
  std::ranges::sort(files);
  return files;
}

/// When a file was changed, and what tells it from its next state.
Entry entry_of(const std::string& id, const fs::path& path) {
  std::error_code error;
  const fs::file_time_type written = fs::last_write_time(path, error);
  const std::uintmax_t size = fs::file_size(path, error);
  Entry entry{id, path.string(), {}, {}};
  if (!error) {
    entry.changed = std::chrono::time_point_cast<std::chrono::system_clock::duration>(
        std::chrono::file_clock::to_sys(written));
    entry.stamp = fmt::format("{}.{}", written.time_since_epoch().count(), size);
  }
  return entry;
}

std::vector<int> ticks_in(const std::string& json) {
  const nlohmann::json read = nlohmann::json::parse(json, nullptr, false);
  std::vector<int> steps;
  if (read.is_object() && read.contains("done") && read["done"].is_array()) {
    for (const auto& step : read["done"]) {
      if (step.is_number_integer()) {
        steps.push_back(step.get<int>());
      }
    }
  }
  return steps;
}

class FolderKeeper final : public Keeper {
 public:
  explicit FolderKeeper(std::vector<fs::path> places) : places_{std::move(places)} {}

  std::vector<Entry> list() const override {
    std::vector<Entry> entries;
    for (const auto& [id, path] : files()) {
      entries.push_back(entry_of(id, path));
    }
    return entries;
  }

  base::Result<Entry> find(const std::string& id) const override {
    const auto path = path_of(id);
    if (!path.ok()) {
      return path.error();
    }
    return entry_of(id, path.value());
  }

  base::Result<KeptText> read(const std::string& id) const override {
    const auto path = path_of(id);
    if (!path.ok()) {
      return path.error();
    }
    auto text = read_file(path.value());
    if (!text.ok()) {
      return text.error();
    }
    std::string version = hash_of(text.value());
    return KeptText{std::move(text).value(), std::move(version)};
  }

  base::Result<Saved> save(const std::string& id,
                           const std::string& text,
                           const std::string& known) override {
    const std::lock_guard lock{writing_};
    auto now = read(id);
    if (!now.ok()) {
      return now.error();
    }
    if (now.value().version != known) {
      const std::string version = now.value().version;
      return Saved{version, std::move(now).value()};
    }
    const auto written = write_file(path_of(id).value(), text);
    if (!written.ok()) {
      return written.error();
    }
    return Saved{hash_of(text), std::nullopt};
  }

  base::Result<std::string> add(const std::string& name, const std::string& text) override {
    const std::lock_guard lock{writing_};
    const auto known = files();
    const fs::path folder = home();
    const std::string stem = id_from(name);
    std::string id = stem;
    std::error_code ignored;
    for (int n = 2; known.contains(id) || fs::exists(folder / (id + ".yaml"), ignored); ++n) {
      id = fmt::format("{}_{}", stem, n);
    }
    const auto written = write_file(folder / (id + ".yaml"), text);
    if (!written.ok()) {
      return written.error();
    }
    if (std::error_code error; !fs::is_directory(places_.front(), error)) {
      added_.push_back(folder / (id + ".yaml"));
    }
    return id;
  }

  base::Result<std::vector<int>> ticks(const std::string& id) const override {
    const auto path = path_of(id);
    if (!path.ok()) {
      return path.error();
    }
    std::error_code ignored;
    const fs::path file = ticks_file(path.value());
    if (!fs::exists(file, ignored)) {
      return std::vector<int>{};
    }
    const auto text = read_file(file);
    if (!text.ok()) {
      return text.error();
    }
    return ticks_in(text.value());
  }

  base::Result<std::vector<int>> tick(const std::string& id, int step, bool done) override {
    const std::lock_guard lock{writing_};
    auto known = ticks(id);
    if (!known.ok()) {
      return known.error();
    }
    std::vector<int> steps = std::move(known).value();
    std::erase(steps, step);
    if (done) {
      steps.insert(std::ranges::upper_bound(steps, step), step);
    }
    const auto written =
        write_file(ticks_file(path_of(id).value()), nlohmann::json{{"done", steps}}.dump() + "\n");
    if (!written.ok()) {
      return written.error();
    }
    return steps;
  }

  shop::OpenFile opener(const std::string& id) const override {
    const auto path = path_of(id);
    return open_within(path.ok() ? path.value() : home() / "commission.yaml");
  }

  base::Result<std::vector<PastVersion>> versions(const std::string& id) const override {
    const auto now = read(id);
    if (!now.ok()) {
      return now.error();
    }
    return std::vector<PastVersion>{{1, now.value().version, "", "as the file stands"}};
  }

  base::Result<KeptText> read_version(const std::string& id, int number) const override {
    if (number != 1) {
      return base::Error{base::ErrorCode::kBadInput,
                         "a file has one version only; a book keeps all of them"};
    }
    return read(id);
  }

  base::Result<int> go_back(const std::string& id, int number) override {
    const auto text = read_version(id, number);
    if (!text.ok()) {
      return text.error();
    }
    return number;
  }

  bool is_book() const override { return false; }

 private:
  std::map<std::string, fs::path> files() const {
    std::vector<fs::path> all = commission_files(places_);
    {
      const std::lock_guard lock{listing_};
      all.insert(all.end(), added_.begin(), added_.end());
    }
    std::map<std::string, fs::path> by_id;
    for (const fs::path& path : all) {
      const std::string stem = id_from(path.stem().string());
      std::string id = stem;
      for (int n = 2; by_id.contains(id) && by_id[id] != path; ++n) {
        id = fmt::format("{}_{}", stem, n);
      }
      by_id[id] = path;
    }
    return by_id;
  }

  base::Result<fs::path> path_of(const std::string& id) const {
    const auto known = files();
    if (const auto found = known.find(id); found != known.end()) {
      return found->second;
    }
    std::vector<std::string> ids;
    for (const auto& [other, path] : known) {
      ids.push_back(other);
    }
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("there is no commission `{}`", id),
                       std::nullopt,
                       base::nearest_word(id, std::span<const std::string>{ids})};
  }

  fs::path home() const {
    std::error_code ignored;
    return fs::is_directory(places_.front(), ignored) ? places_.front()
                                                      : places_.front().parent_path();
  }

  static fs::path ticks_file(const fs::path& commission) {
    fs::path file = commission;
    return file.replace_extension(".ticks.json");
  }

  std::vector<fs::path> places_;
  std::vector<fs::path> added_;  // when only files were named
  mutable std::mutex listing_;
  std::mutex writing_;  // one writer at a time among those of this program
};

}  // namespace

bool looks_like_commission(std::string_view text) {
  return has_key(text, "commission") || has_key(text, "piece") ||
         !(has_key(text, "shop") || has_key(text, "based_on") || has_key(text, "pattern"));
}

std::vector<fs::path> commission_files(const std::vector<fs::path>& places) {
  std::vector<fs::path> files;
  std::error_code ignored;
  for (const fs::path& place : places) {
    if (fs::is_directory(place, ignored)) {
      const std::vector<fs::path> inside = documents_of(place);
      files.insert(files.end(), inside.begin(), inside.end());
    } else {
      files.push_back(place);
    }
  }
  return files;
}

base::Result<std::unique_ptr<Keeper>> keep_folder(const std::vector<fs::path>& places) {
  for (const fs::path& place : places) {
    std::error_code error;
    if (!fs::exists(place, error)) {
      return base::Error{base::ErrorCode::kIo,
                         fmt::format("there is no file or folder {}", place.string())};
    }
  }
  if (places.empty()) {
    return base::Error{base::ErrorCode::kBadInput, "no file or folder was named"};
  }
  return std::unique_ptr<Keeper>{std::make_unique<FolderKeeper>(places)};
}

}  // namespace plankwright::store
