#pragma once
// The built pages, as they are handed out.

#include <map>
#include <string>
#include <string_view>

namespace plankwright::server {

/// One file of the pages.
struct PageFile {
  std::string_view bytes;
  std::string packed;  // by gzip; empty when that saves nothing
  std::string type;
  std::string tag;  // of the ETag, quotes included
};

/// All pages, packed once at the start.
class Pages {
 public:
  Pages();
  /// The file under `path`; the front page for a path of the pages themselves ("/", "/c/x/price");
  /// nothing for a file that does not exist.
  const PageFile* find(std::string_view path) const;

 private:
  std::map<std::string, PageFile, std::less<>> files_;
};

/// The media type of a file by the end of its name.
std::string type_of(std::string_view path);

/// `bytes` as a gzip file.
std::string gzip(std::string_view bytes);

}  // namespace plankwright::server
