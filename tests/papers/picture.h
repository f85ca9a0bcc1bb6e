#pragma once
// Pictures in tests: read back and looked at dot by dot.

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <memory>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <cairo.h>

namespace plankwright::papers {

/// Grey values, 0 black to 255 white.
struct Picture {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> grey;

  std::uint8_t at(int x, int y) const {
    return grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                static_cast<std::size_t>(x)];
  }
  bool row_inked(int y) const {
    for (int x = 0; x < width; ++x) {
      if (at(x, y) < 128) {
        return true;
      }
    }
    return false;
  }
  /// The first row with ink and the one after the last.
  std::pair<int, int> inked_rows() const {
    int top = 0;
    int bottom = height;
    while (top < height && !row_inked(top)) {
      ++top;
    }
    while (bottom > top && !row_inked(bottom - 1)) {
      --bottom;
    }
    return {top, bottom};
  }
};

inline Picture read_png(const std::string& bytes) {
  struct Reader {
    const std::string* bytes;
    std::size_t at = 0;
  } reader{&bytes};
  const auto read = [](void* closure, unsigned char* data, unsigned int length) {
    auto* r = static_cast<Reader*>(closure);
    if (r->at + length > r->bytes->size()) {
      return CAIRO_STATUS_READ_ERROR;
    }
    std::memcpy(data, r->bytes->data() + r->at, length);
    r->at += length;
    return CAIRO_STATUS_SUCCESS;
  };
  const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface{
      cairo_image_surface_create_from_png_stream(read, &reader), cairo_surface_destroy};
  Picture picture{.width = cairo_image_surface_get_width(surface.get()),
                  .height = cairo_image_surface_get_height(surface.get()),
                  .grey = {}};
  const unsigned char* data = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      const unsigned char* dot = data + y * stride + 4 * x;
      picture.grey.push_back(static_cast<std::uint8_t>((dot[0] + dot[1] + dot[2]) / 3));
    }
  }
  return picture;
}

/// A binary PGM picture, as pdftoppm -gray writes it.
inline Picture read_pgm(const std::string& bytes) {
  std::istringstream in{bytes};
  std::string kind;
  int most = 0;
  Picture picture;
  in >> kind >> picture.width >> picture.height >> most;
  in.get();
  const auto start = static_cast<std::size_t>(in.tellg());
  for (std::size_t i = start; i < bytes.size(); ++i) {
    picture.grey.push_back(static_cast<std::uint8_t>(bytes[i]));
  }
  return picture;
}

/// Share of ink (0 none, 1 black) in each of n x n fields of the picture.
inline std::vector<double> ink_by_field(const Picture& p, int n) {
  std::vector<double> ink;
  for (int j = 0; j < n; ++j) {
    for (int i = 0; i < n; ++i) {
      double sum = 0;
      double count = 0;
      for (int y = p.height * j / n; y < p.height * (j + 1) / n; ++y) {
        for (int x = p.width * i / n; x < p.width * (i + 1) / n; ++x) {
          sum += 1 - p.at(x, y) / 255.0;
          count += 1;
        }
      }
      ink.push_back(count > 0 ? sum / count : 0);
    }
  }
  return ink;
}

}  // namespace plankwright::papers
