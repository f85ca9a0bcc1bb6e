#pragma once
// The files of the pages as they stand in the program. The table is written by cmake/pages.cmake.

#include <span>
#include <string_view>

namespace plankwright::server {

struct EmbeddedFile {
  std::string_view path;  // "/index.html"
  const char* begin = nullptr;
  const char* end = nullptr;
};

std::span<const EmbeddedFile> embedded_files();

}  // namespace plankwright::server
