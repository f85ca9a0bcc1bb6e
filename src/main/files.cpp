#include "main/files.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <system_error>
#include <vector>

#include <fmt/format.h>
#include <unistd.h>

#include "base/nearest.h"

namespace plankwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargestFile = 4U << 20U;  // a written document is a few kilobytes

std::string nearest_file(const fs::path& path) {
  std::vector<std::string> names;
  std::error_code ignored;
  const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path{"."};
  for (const auto& entry : fs::directory_iterator{folder, ignored}) {
    if (entry.is_regular_file(ignored)) {
      names.push_back(entry.path().filename().string());
    }
  }
  return base::nearest_word(path.filename().string(), std::span<const std::string>{names});
}

base::Error cannot(const std::string& what, const fs::path& path, const std::error_code& why) {
  return {base::ErrorCode::kIo,
          fmt::format("cannot {} {}: {}", what, path.string(), why.message())};
}

}  // namespace

base::Result<std::string> read_file(const fs::path& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status)) {
    return base::Error{base::ErrorCode::kIo,
                       fmt::format("there is no file {}", path.string()),
                       std::nullopt,
                       nearest_file(path)};
  }
  if (fs::is_directory(status)) {
    return base::Error{base::ErrorCode::kIo,
                       fmt::format("{} is a folder, expected a document", path.string())};
  }
  if (fs::is_regular_file(status) && fs::file_size(path, error) > kLargestFile) {
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("{} holds {} MB; a written document has 4 MB at most",
                                   path.string(),
                                   fs::file_size(path, error) >> 20U)};
  }
  std::ifstream in{path, std::ios::binary};
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) {
    return base::Error{base::ErrorCode::kIo, fmt::format("cannot read {}", path.string())};
  }
  return std::move(text).str();
}

base::Result<std::size_t> write_file(const fs::path& path, const std::string& bytes) {
  std::error_code error;
  if (path.has_parent_path()) {
    fs::create_directories(path.parent_path(), error);
    if (error) {
      return cannot("make the folder of", path, error);
    }
  }
  fs::path fresh = path;
  fresh += fmt::format(".new.{}", ::getpid());
  {
    std::ofstream out{fresh, std::ios::binary};
    out << bytes;
    out.close();
    if (!out) {
      fs::remove(fresh, error);
      return base::Error{base::ErrorCode::kIo, fmt::format("cannot write {}", path.string())};
    }
  }
  fs::rename(fresh, path, error);
  if (error) {
    const base::Error failed = cannot("write", path, error);
    fs::remove(fresh, error);
    return failed;
  }
  return bytes.size();
}

fs::path data_folder() {
  if (const char* named =
          std::getenv("PLANKWRIGHT_DATA")) {  // NOLINT(concurrency-mt-unsafe): read once, at start
    return named;
  }
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  for (const fs::path& beside :
       {program.parent_path() / "data", program.parent_path() / "../share/plankwright/data"}) {
    if (!error && fs::exists(beside, error)) {
      return beside;
    }
  }
  return PLANKWRIGHT_DATA_FOLDER;
}

base::Result<plan::Reference> read_reference() {
  const auto text_of = [folder = data_folder()](const std::string& name) {
    return read_file(folder / name);
  };
  auto wood = wood::read_reference(text_of);
  const auto rule_text = text_of("operation_rules.csv");
  const auto caution_text = text_of("cautions.csv");
  if (!wood.ok()) {
    return wood.error();
  }
  for (const auto* text : {&rule_text, &caution_text}) {
    if (!text->ok()) {
      return text->error();
    }
  }
  bench::ReadRules read = bench::read_rules(rule_text.value(), "operation_rules.csv");
  const base::Errors wrong = bench::read_cautions(caution_text.value(), "cautions.csv", read.rules);
  read.errors.insert(read.errors.end(), wrong.begin(), wrong.end());
  if (!read.errors.empty()) {
    return read.errors.front();
  }
  return plan::Reference{std::move(wood).value(), std::move(read.rules)};
}

shop::OpenFile open_beside(const fs::path& commission) {
  return [folder = commission.parent_path(),
          data = data_folder()](const std::string& name) -> base::Result<std::string> {
    std::error_code ignored;
    for (const fs::path& place : {folder / name, data / name}) {
      if (fs::exists(place, ignored)) {
        return read_file(place);
      }
    }
    return read_file(folder / name);
  };
}

}  // namespace plankwright::cli
