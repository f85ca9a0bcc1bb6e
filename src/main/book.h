#pragma once
// plankwright book: what can be done with a shop book besides showing it.

#include <string>

namespace plankwright::cli {

struct BookAsked {
  std::string book;
  std::string into;  // of a backup
  std::string id;    // of a commission
  int version = 0;   // 0: the newest
};

// Each prints what it did or what is wrong and returns the exit status.
int book_backup(const BookAsked& asked);
int book_versions(const BookAsked& asked);
int book_text(const BookAsked& asked);
int book_undo(const BookAsked& asked);

}  // namespace plankwright::cli
