#pragma once
// A folder of the test's own, gone when the test is over.

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include <stdlib.h>

namespace plankwright::store {

class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "plankwright_XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) {
      throw std::runtime_error{"no folder for the test"};
    }
    path_ = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
  /// Writes a file as another program would.
  void put(const std::string& name, const std::string& text) const {
    std::ofstream{path_ / name, std::ios::binary} << text;
  }
  std::size_t count() const {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator{path_}, {}));
  }

 private:
  std::filesystem::path path_;
};

}  // namespace plankwright::store
