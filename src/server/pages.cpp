#include "server/pages.h"

#include <stdexcept>
#include <utility>

#include <zlib.h>

#include "server/pages_table.h"
#include "store/files.h"

namespace plankwright::server {
namespace {

constexpr std::pair<std::string_view, std::string_view> kTypes[] = {
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".ico", "image/x-icon"},
    {".json", "application/json"},
    {".webmanifest", "application/manifest+json"},
    {".txt", "text/plain; charset=utf-8"},
    {".woff2", "font/woff2"}};

PageFile page_file(const EmbeddedFile& file) {
  PageFile page;
  page.bytes = {file.begin, static_cast<std::size_t>(file.end - file.begin)};
  page.packed = gzip(page.bytes);
  if (page.packed.size() >= page.bytes.size()) {
    page.packed.clear();
  }
  page.type = type_of(file.path);
  page.tag = '"' + store::hash_of(page.bytes).substr(0, 32) + '"';
  return page;
}

}  // namespace

std::string type_of(std::string_view path) {
  for (const auto& [end, type] : kTypes) {
    if (path.ends_with(end)) {
      return std::string{type};
    }
  }
  return "application/octet-stream";
}

std::string gzip(std::string_view bytes) {
  constexpr int kGzipWindow = 15 + 16;  // 16 asks for the gzip frame
  constexpr int kMemory = 8;
  z_stream stream{};
  if (deflateInit2(
          &stream, Z_BEST_COMPRESSION, Z_DEFLATED, kGzipWindow, kMemory, Z_DEFAULT_STRATEGY) !=
      Z_OK) {
    throw std::runtime_error{"cannot start packing a page"};
  }
  std::string packed(deflateBound(&stream, bytes.size()), '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  const int done = deflate(&stream, Z_FINISH);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  if (done != Z_STREAM_END) {
    throw std::runtime_error{"cannot pack a page"};
  }
  return packed;
}

Pages::Pages() {
  for (const EmbeddedFile& file : embedded_files()) {
    files_.emplace(file.path, page_file(file));
  }
}

const PageFile* Pages::find(std::string_view path) const {
  if (const auto found = files_.find(path); found != files_.end()) {
    return &found->second;
  }
  // Paths without an ending in their last part are pages, which the front page shows.
  const std::string_view last = path.substr(path.rfind('/') + 1);
  if (path.starts_with("/assets/") || path.starts_with("/api/") ||
      last.find('.') != std::string_view::npos) {
    return nullptr;
  }
  const auto front = files_.find("/index.html");
  return front == files_.end() ? nullptr : &front->second;
}

}  // namespace plankwright::server
