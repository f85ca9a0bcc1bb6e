#include "store/database.h"

#include <fmt/format.h>
#include <sqlite3.h>

namespace plankwright::store {
namespace {

constexpr int kPatience = 5000;  // ms for another program to finish writing

[[noreturn]] void fail(sqlite3* database, std::string_view doing) {
  throw DatabaseFault{fmt::format("{} ({})", sqlite3_errmsg(database), doing),
                      sqlite3_extended_errcode(database)};
}

int flags_of(Database::Mode mode) {
  switch (mode) {
    case Database::Mode::kReadWriteCreate:
      return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    case Database::Mode::kReadWrite:
      return SQLITE_OPEN_READWRITE;
    case Database::Mode::kReadOnly:
      break;
  }
  return SQLITE_OPEN_READONLY;
}

}  // namespace

void Statement::Finalize::operator()(sqlite3_stmt* statement) const {
  sqlite3_finalize(statement);
}

Statement::Statement(sqlite3* database, std::string_view sql) : database_{database} {
  sqlite3_stmt* made = nullptr;
  if (sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &made, nullptr) !=
      SQLITE_OK) {
    store::fail(database, sql);
  }
  statement_.reset(made);
}

void Statement::fail() const {
  store::fail(database_, sqlite3_sql(statement_.get()));
}

Statement& Statement::bind(int place, std::string_view text) {
  // A copy is kept (SQLITE_TRANSIENT is an old-style cast), so the text may go away meanwhile.
  if (sqlite3_bind_text64(statement_.get(),
                          place,
                          text.data(),
                          text.size(),
                          reinterpret_cast<sqlite3_destructor_type>(std::intptr_t{-1}),
                          SQLITE_UTF8) != SQLITE_OK) {
    fail();
  }
  return *this;
}

Statement& Statement::bind(int place, std::int64_t number) {
  if (sqlite3_bind_int64(statement_.get(), place, number) != SQLITE_OK) {
    fail();
  }
  return *this;
}

bool Statement::step() {
  const int result = sqlite3_step(statement_.get());
  if (result != SQLITE_ROW && result != SQLITE_DONE) {
    fail();
  }
  return result == SQLITE_ROW;
}

void Statement::run() {
  while (step()) {
  }
}

std::string Statement::text(int column) const {
  const auto* bytes = sqlite3_column_text(statement_.get(), column);
  const int size = sqlite3_column_bytes(statement_.get(), column);
  return bytes == nullptr
             ? std::string{}
             : std::string(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
}

std::int64_t Statement::number(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

void Database::Close::operator()(sqlite3* database) const {
  sqlite3_close_v2(database);
}

Database::Database(const std::filesystem::path& file, Mode mode) {
  sqlite3* opened = nullptr;
  const int result = sqlite3_open_v2(file.c_str(), &opened, flags_of(mode), nullptr);
  handle_.reset(opened);  // even a failed one has to be closed
  if (result != SQLITE_OK) {
    throw DatabaseFault{opened == nullptr ? "out of memory" : sqlite3_errmsg(opened), result};
  }
  sqlite3_busy_timeout(opened, kPatience);
  run("PRAGMA foreign_keys = ON");
}

void Database::run(const std::string& sql) const {
  if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
    fail(handle_.get(), sql);
  }
}

std::string Database::text_of(std::string_view sql) const {
  Statement statement = prepare(sql);
  return statement.step() ? statement.text(0) : "";
}

std::int64_t Database::number_of(std::string_view sql) const {
  Statement statement = prepare(sql);
  return statement.step() ? statement.number(0) : 0;
}

void Database::back_up(const std::filesystem::path& into) const {
  constexpr int kAllPages = -1;
  const Database copy{into, Mode::kReadWriteCreate};
  sqlite3_backup* backup = sqlite3_backup_init(copy.handle_.get(), "main", handle_.get(), "main");
  if (backup == nullptr) {
    fail(copy.handle_.get(), "backup");
  }
  sqlite3_backup_step(backup, kAllPages);
  if (sqlite3_backup_finish(backup) != SQLITE_OK) {
    fail(copy.handle_.get(), "backup");
  }
}

Transaction::Transaction(const Database& database) : database_{database} {
  database_.run("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  if (open_) {
    try {
      database_.run("ROLLBACK");
    } catch (const DatabaseFault&) {
      // The database has taken it back already.
    }
  }
}

void Transaction::keep() {
  database_.run("COMMIT");
  open_ = false;
}

}  // namespace plankwright::store
