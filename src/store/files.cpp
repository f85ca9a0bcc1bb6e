#include "store/files.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <system_error>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <openssl/sha.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/nearest.h"
#include "base/quote.h"

namespace plankwright::store {
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

/// Closes a file of the operating system when it is done with.
class OpenDescriptor {
 public:
  OpenDescriptor(const fs::path& path, int flags, mode_t mode = 0)
      : number_{::open(path.c_str(), flags | O_CLOEXEC, mode)} {}
  ~OpenDescriptor() {
    if (number_ >= 0) {
      ::close(number_);
    }
  }
  OpenDescriptor(const OpenDescriptor&) = delete;
  OpenDescriptor& operator=(const OpenDescriptor&) = delete;
  int number() const { return number_; }
  bool ok() const { return number_ >= 0; }

 private:
  int number_;
};

std::error_code last_error() {
  return {errno, std::generic_category()};
}

mode_t mode_of(const fs::path& path) {
  constexpr mode_t kUsual = 0666;  // what the user's mask leaves of it
  struct stat known {};
  return ::stat(path.c_str(), &known) == 0 ? known.st_mode & 07777U : kUsual;
}

/// A new file with these bytes, on the disk and not only on its way there.
std::error_code write_through(const fs::path& path, std::string_view bytes, mode_t mode) {
  const OpenDescriptor file{path, O_WRONLY | O_CREAT | O_EXCL, mode};
  if (!file.ok()) {
    return last_error();
  }
  while (!bytes.empty()) {
    const ssize_t written = ::write(file.number(), bytes.data(), bytes.size());
    if (written < 0 && errno != EINTR) {
      return last_error();
    }
    bytes.remove_prefix(static_cast<std::size_t>(std::max<ssize_t>(written, 0)));
  }
  return ::fsync(file.number()) == 0 ? std::error_code{} : last_error();
}

/// So that the new name is on the disk too. A file system that cannot do it is none the worse.
void flush_folder(const fs::path& file) {
  const OpenDescriptor folder{file.has_parent_path() ? file.parent_path() : fs::path{"."},
                              O_RDONLY | O_DIRECTORY};
  if (folder.ok()) {
    ::fsync(folder.number());
  }
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
  // A link is followed, so that what it points to is replaced and not the link.
  const fs::path target = fs::is_symlink(path, error) ? fs::weakly_canonical(path, error) : path;
  if (target.has_parent_path()) {
    fs::create_directories(target.parent_path(), error);
    if (error) {
      return cannot("make the folder of", path, error);
    }
  }
  static std::atomic<unsigned> counter{0};
  fs::path fresh = target;
  fresh += fmt::format(".new.{}.{}", ::getpid(), counter++);
  const std::error_code failed = write_through(fresh, bytes, mode_of(target));
  if (!failed) {
    fs::rename(fresh, target, error);
    if (!error) {
      flush_folder(target);
      return bytes.size();
    }
  }
  const base::Error told = cannot("write", path, failed ? failed : error);
  fs::remove(fresh, error);
  return told;
}

std::string hash_of(std::string_view text) {
  std::array<unsigned char, SHA256_DIGEST_LENGTH> digest{};
  SHA256(reinterpret_cast<const unsigned char*>(text.data()), text.size(), digest.data());
  std::string hex;
  for (const unsigned char byte : digest) {
    hex += fmt::format("{:02x}", byte);
  }
  return hex;
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
  const auto day_text = text_of("day_rules.csv");
  if (!wood.ok()) {
    return wood.error();
  }
  for (const auto* text : {&rule_text, &caution_text, &day_text}) {
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
  auto day_rules = calendar::read_day_rules(day_text.value(), "day_rules.csv");
  if (!day_rules.ok()) {
    return day_rules.error();
  }
  return plan::Reference{
      std::move(wood).value(), std::move(read.rules), std::move(day_rules).value()};
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

shop::OpenFile open_within(const fs::path& commission) {
  return [open = open_beside(commission)](const std::string& name) -> base::Result<std::string> {
    const fs::path path{name};
    const bool leads_out =
        path.is_absolute() || std::ranges::find(path, fs::path{".."}) != path.end();
    if (leads_out) {
      return base::Error{
          base::ErrorCode::kBadInput,
          fmt::format("found {}, expected a file beside the commission", base::quote(name))};
    }
    return open(name);
  };
}

}  // namespace plankwright::store
