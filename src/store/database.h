#pragma once
// SQLite with its handles closed for us. For this room only.

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace plankwright::store {

/// What the database said, with the statement. Thrown within this room; its public functions turn
/// it into an Error.
class DatabaseFault : public std::runtime_error {
 public:
  DatabaseFault(const std::string& message, int code_of_sqlite)
      : std::runtime_error{message}, code{code_of_sqlite} {}
  int code;
};

/// A prepared statement. Bind, then step through its rows.
class Statement {
 public:
  Statement(sqlite3* database, std::string_view sql);

  /// Parameters from 1, in order.
  Statement& bind(int place, std::string_view text);
  Statement& bind(int place, std::int64_t number);
  /// True while there is a row.
  bool step();
  /// For statements without rows.
  void run();

  std::string text(int column) const;
  std::int64_t number(int column) const;

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  [[noreturn]] void fail() const;

  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// An open database. One thread at a time.
class Database {
 public:
  enum class Mode { kReadWriteCreate, kReadWrite, kReadOnly };
  Database(const std::filesystem::path& file, Mode mode);

  Statement prepare(std::string_view sql) const { return {handle_.get(), sql}; }
  /// Several statements without parameters.
  void run(const std::string& sql) const;
  /// The first column of the first row.
  std::string text_of(std::string_view sql) const;
  std::int64_t number_of(std::string_view sql) const;
  /// Copies all of it into a new database while others go on using this one.
  void back_up(const std::filesystem::path& into) const;

 private:
  struct Close {
    void operator()(sqlite3* database) const;
  };
  std::unique_ptr<sqlite3, Close> handle_;
};

/// A writing transaction: taken back unless it is kept.
class Transaction {
 public:
  explicit Transaction(const Database& database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void keep();

 private:
  const Database& database_;
  bool open_ = true;
};

}  // namespace plankwright::store
