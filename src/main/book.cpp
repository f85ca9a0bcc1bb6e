#include "main/book.h"

#include <filesystem>
#include <memory>

#include <fmt/format.h>

#include "store/book.h"

namespace plankwright::cli {
namespace {

constexpr int kFine = 0;
constexpr int kOurFault = 1;
constexpr int kBadInput = 2;

int complain(const base::Error& error) {
  fmt::print(stderr, "{}", base::describe(error));
  return error.code == base::ErrorCode::kIo ? kOurFault : kBadInput;
}

/// A book that is there; a mistyped name must not make a new one.
base::Result<std::unique_ptr<store::Book>> existing(const std::string& file) {
  std::error_code error;
  if (!std::filesystem::exists(file, error)) {
    return base::Error{base::ErrorCode::kBadInput, fmt::format("there is no book {}", file)};
  }
  return store::Book::open(file);
}

template <class Work>
int with_book(const BookAsked& asked, Work work) {
  const auto book = existing(asked.book);
  return book.ok() ? work(*book.value()) : complain(book.error());
}

}  // namespace

int book_backup(const BookAsked& asked) {
  return with_book(asked, [&](const store::Book& book) {
    const auto size = book.back_up(asked.into);
    if (!size.ok()) {
      return complain(size.error());
    }
    fmt::print("  {} ({} kB), checked\n", asked.into, (size.value() + 512) / 1024);
    return kFine;
  });
}

int book_versions(const BookAsked& asked) {
  return with_book(asked, [&](const store::Book& book) {
    if (asked.id.empty()) {
      for (const store::Entry& entry : book.list()) {
        fmt::print("  {:<40} {} versions\n", entry.id, entry.stamp);
      }
      return kFine;
    }
    const auto versions = book.versions(asked.id);
    if (!versions.ok()) {
      return complain(versions.error());
    }
    for (const store::PastVersion& version : versions.value()) {
      fmt::print("  {:>4}  {}  {:.12}  {}\n",
                 version.number,
                 version.written,
                 version.version,
                 version.why);
    }
    return kFine;
  });
}

int book_text(const BookAsked& asked) {
  return with_book(asked, [&](const store::Book& book) {
    const auto text =
        asked.version == 0 ? book.read(asked.id) : book.read_version(asked.id, asked.version);
    if (!text.ok()) {
      return complain(text.error());
    }
    fmt::print("{}", text.value().text);
    return kFine;
  });
}

int book_undo(const BookAsked& asked) {
  return with_book(asked, [&](store::Book& book) {
    const auto made = book.go_back(asked.id, asked.version);
    if (!made.ok()) {
      return complain(made.error());
    }
    fmt::print("  {} is again as in version {}, kept as version {}\n",
               asked.id,
               asked.version,
               made.value());
    return kFine;
  });
}

}  // namespace plankwright::cli
