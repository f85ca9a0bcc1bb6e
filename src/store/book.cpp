#include "store/book.h"

#include <algorithm>
#include <ctime>
#include <mutex>
#include <set>

#include <fmt/format.h>
#include <sqlite3.h>

#include "base/nearest.h"
#include "plan/stages.h"
#include "store/database.h"
#include "store/files.h"
#include "store/migrations.h"

namespace plankwright::store {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kNow = "strftime('%Y-%m-%dT%H:%M:%SZ', 'now')";

base::Error fault_error(const fs::path& file, const DatabaseFault& fault) {
  const int kind = fault.code & 0xFF;
  if (kind == SQLITE_NOTADB) {
    return {base::ErrorCode::kBadInput, fmt::format("{} is no book", file.string())};
  }
  if (kind == SQLITE_CORRUPT) {
    return {base::ErrorCode::kIo,
            fmt::format("the book {} is damaged; go back to its last backup", file.string())};
  }
  return {base::ErrorCode::kIo, fmt::format("the book {}: {}", file.string(), fault.what())};
}

/// Runs `work` and turns what the database throws into an error.
template <class Work>
auto guarded(const fs::path& file, Work work) -> decltype(work()) {
  try {
    return work();
  } catch (const DatabaseFault& fault) {
    return fault_error(file, fault);
  }
}

int newest_version() {
  return migrations().back().version;
}

/// What keeps the file from being used as a book, if anything.
std::optional<base::Error> refuse(const Database& book, const fs::path& file) {
  const std::int64_t mark = book.number_of("PRAGMA application_id");
  const std::int64_t tables = book.number_of("SELECT count(*) FROM sqlite_schema");
  if (mark != kBookMark && (mark != 0 || tables != 0)) {
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("{} is no book but another program's file", file.string())};
  }
  const std::int64_t version = book.number_of("PRAGMA user_version");
  if (version > newest_version()) {
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("the book {} was written by a newer plankwright (version {}, "
                                   "this one knows {}); nothing was changed",
                                   file.string(),
                                   version,
                                   newest_version())};
  }
  const std::string sound = book.text_of("PRAGMA integrity_check");
  if (sound != "ok" || !book.text_of("PRAGMA foreign_key_check").empty()) {
    return base::Error{base::ErrorCode::kIo,
                       fmt::format("the book {} is damaged ({}); go back to its last backup",
                                   file.string(),
                                   sound == "ok" ? "rows without their document" : sound)};
  }
  return std::nullopt;
}

/// One migration a transaction: a book is never between two versions.
void bring_up_to_date(const Database& book) {
  for (const Migration& migration : migrations()) {
    Transaction transaction{book};
    // Asked anew within the transaction: another program may have been quicker.
    if (book.number_of("PRAGMA user_version") < migration.version) {
      book.run(std::string{migration.sql});
      book.run(fmt::format(
          "PRAGMA application_id = {}; PRAGMA user_version = {}", kBookMark, migration.version));
      transaction.keep();
    }
  }
}

std::chrono::system_clock::time_point time_of(const std::string& iso) {
  std::tm parts{};
  if (strptime(iso.c_str(), "%Y-%m-%dT%H:%M:%SZ", &parts) == nullptr) {
    return {};
  }
  return std::chrono::system_clock::from_time_t(timegm(&parts));
}

class SqliteBook final : public Book {
 public:
  SqliteBook(fs::path file, Database database)
      : file_{std::move(file)}, book_{std::move(database)} {}

  std::vector<Entry> list() const override {
    const std::lock_guard lock{mutex_};
    std::vector<Entry> entries;
    Statement rows = book_.prepare(
        "SELECT d.id, d.file, v.number, v.written_at FROM document d JOIN version v ON "
        "v.document_id = d.id WHERE d.kind = 'commission' AND v.number = (SELECT max(number) FROM "
        "version WHERE document_id = d.id) ORDER BY d.id");
    while (rows.step()) {
      entries.push_back(
          {rows.text(0), rows.text(1), time_of(rows.text(3)), std::to_string(rows.number(2))});
    }
    return entries;
  }

  base::Result<Entry> find(const std::string& id) const override {
    std::vector<std::string> ids;
    for (Entry& entry : list()) {
      if (entry.id == id) {
        return std::move(entry);
      }
      ids.push_back(entry.id);
    }
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("there is no commission `{}`", id),
                       std::nullopt,
                       base::nearest_word(id, std::span<const std::string>{ids})};
  }

  base::Result<KeptText> read(const std::string& id) const override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<KeptText> { return newest(id); });
  }

  base::Result<Saved> save(const std::string& id,
                           const std::string& text,
                           const std::string& known) override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<Saved> {
      Transaction transaction{book_};
      KeptText now = newest(id);
      if (now.version != known) {
        const std::string version = now.version;
        return Saved{version, std::move(now)};
      }
      const std::string version = hash_of(text);
      if (version != known) {
        append(id, text, "written");
        transaction.keep();
      }
      return Saved{version, std::nullopt};
    });
  }

  base::Result<std::string> add(const std::string& name, const std::string& text) override {
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<std::string> {
      Transaction transaction{book_};
      const std::string stem = id_from(name);
      std::string id = stem;
      for (int n = 2; has(id, id + ".yaml"); ++n) {
        id = fmt::format("{}_{}", stem, n);
      }
      add_document(id, "commission", id + ".yaml", text, "begun");
      transaction.keep();
      return id;
    });
  }

  base::Result<std::vector<int>> ticks(const std::string& id) const override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<std::vector<int>> { return ticks_of(id); });
  }

  base::Result<std::vector<int>> tick(const std::string& id, int step, bool done) override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<std::vector<int>> {
      book_
          .prepare(done ? fmt::format("INSERT OR IGNORE INTO tick VALUES (?, ?, {})", kNow)
                        : "DELETE FROM tick WHERE document_id = ? AND step = ?")
          .bind(1, id)
          .bind(2, std::int64_t{step})
          .run();
      return ticks_of(id);
    });
  }

  shop::OpenFile opener(const std::string& /*id*/) const override {
    return [this](const std::string& name) -> base::Result<std::string> {
      {
        const std::lock_guard lock{mutex_};
        Statement row = book_.prepare(
            "SELECT v.text FROM document d JOIN version v ON v.document_id = d.id WHERE d.file = ? "
            "AND d.kind = 'beside' ORDER BY v.number DESC LIMIT 1");
        if (row.bind(1, name).step()) {
          return row.text(0);
        }
      }
      return open_within(data_folder() / "commission.yaml")(name);
    };
  }

  base::Result<std::vector<PastVersion>> versions(const std::string& id) const override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<std::vector<PastVersion>> {
      std::vector<PastVersion> all;
      Statement rows = book_.prepare(
          "SELECT number, hash, written_at, why FROM version WHERE document_id = ? ORDER BY "
          "number");
      rows.bind(1, id);
      while (rows.step()) {
        all.push_back({static_cast<int>(rows.number(0)), rows.text(1), rows.text(2), rows.text(3)});
      }
      return all;
    });
  }

  bool is_book() const override { return true; }

  base::Result<std::vector<std::string>> take_in(const std::vector<fs::path>& files) override {
    std::vector<std::string> taken;
    for (const fs::path& file : files) {
      const auto text = read_file(file);
      if (!text.ok()) {
        return text.error();
      }
      const std::lock_guard lock{mutex_};
      const auto id = guarded(file_, [&] { return take_in_one(file, text.value()); });
      if (!id.ok()) {
        return id.error();
      }
      if (!id.value().empty()) {
        taken.push_back(id.value());
      }
    }
    return taken;
  }

  base::Result<KeptText> read_version(const std::string& id, int number) const override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&] { return text_of(id, number); });
  }

  base::Result<int> go_back(const std::string& id, int number) override {
    const auto entry = find(id);
    if (!entry.ok()) {
      return entry.error();
    }
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<int> {
      Transaction transaction{book_};
      const auto old = text_of(id, number);
      if (!old.ok()) {
        return old.error();
      }
      const int made = append(id, old.value().text, fmt::format("back to version {}", number));
      transaction.keep();
      return made;
    });
  }

  base::Result<std::size_t> back_up(const fs::path& into) const override {
    fs::path fresh = into;
    fresh += ".new";
    std::error_code error;
    if (fs::equivalent(into, file_, error)) {
      return base::Error{
          base::ErrorCode::kBadInput,
          fmt::format("{} is the book itself, expected another file", into.string())};
    }
    fs::remove(fresh, error);
    const std::lock_guard lock{mutex_};
    return guarded(file_, [&]() -> base::Result<std::size_t> {
      book_.back_up(fresh);
      {
        const Database copy{fresh, Database::Mode::kReadWrite};
        copy.run("PRAGMA journal_mode = DELETE");  // one file, without a log beside it
        if (copy.text_of("PRAGMA integrity_check") != "ok") {
          return base::Error{base::ErrorCode::kIo, "the copy is not sound; nothing was replaced"};
        }
      }
      fs::rename(fresh, into, error);
      if (error) {
        return base::Error{base::ErrorCode::kIo,
                           fmt::format("cannot write {}: {}", into.string(), error.message())};
      }
      return static_cast<std::size_t>(fs::file_size(into));
    });
  }

 private:
  KeptText newest(const std::string& id) const {
    Statement row = book_.prepare(
        "SELECT text, hash FROM version WHERE document_id = ? ORDER BY number DESC LIMIT 1");
    row.bind(1, id).step();
    return {row.text(0), row.text(1)};
  }

  base::Result<KeptText> text_of(const std::string& id, int number) const {
    Statement row =
        book_.prepare("SELECT text, hash FROM version WHERE document_id = ? AND number = ?");
    if (!row.bind(1, id).bind(2, std::int64_t{number}).step()) {
      return base::Error{base::ErrorCode::kBadInput,
                         fmt::format("`{}` has no version {}", id, number)};
    }
    return KeptText{row.text(0), row.text(1)};
  }

  std::vector<int> ticks_of(const std::string& id) const {
    std::vector<int> steps;
    Statement rows = book_.prepare("SELECT step FROM tick WHERE document_id = ? ORDER BY step");
    rows.bind(1, id);
    while (rows.step()) {
      steps.push_back(static_cast<int>(rows.number(0)));
    }
    return steps;
  }

  bool has(const std::string& id, const std::string& file) const {
    return book_.prepare("SELECT 1 FROM document WHERE id = ? OR file = ?")
        .bind(1, id)
        .bind(2, file)
        .step();
  }

  int append(const std::string& id, const std::string& text, const std::string& why) const {
    Statement next =
        book_.prepare("SELECT coalesce(max(number), 0) + 1 FROM version WHERE document_id = ?");
    next.bind(1, id).step();
    const std::int64_t number = next.number(0);
    book_.prepare(fmt::format("INSERT INTO version VALUES (?, ?, ?, ?, {}, ?)", kNow))
        .bind(1, id)
        .bind(2, number)
        .bind(3, hash_of(text))
        .bind(4, text)
        .bind(5, why)
        .run();
    return static_cast<int>(number);
  }

  void add_document(const std::string& id,
                    std::string_view kind,
                    const std::string& file,
                    const std::string& text,
                    const std::string& why) const {
    book_.prepare("INSERT INTO document VALUES (?, ?, ?)")
        .bind(1, id)
        .bind(2, kind)
        .bind(3, file)
        .run();
    append(id, text, why);
  }

  /// The documents that a commission opens and that lie beside it, by name.
  static std::map<std::string, std::string> beside(const fs::path& file, const std::string& text) {
    std::map<std::string, std::string> found;
    const shop::OpenFile open = open_beside(file);
    const shop::OpenFile watched = [&](const std::string& name) {
      auto opened = open(name);
      std::error_code ignored;
      if (opened.ok() && fs::exists(file.parent_path() / name, ignored)) {
        found[name] = opened.value();
      }
      return opened;
    };
    // What is wrong with them is shown when the commission is planned.
    static_cast<void>(plan::read_documents(text, file.string(), watched));
    return found;
  }

  /// The id, or "" when the book has it already.
  base::Result<std::string> take_in_one(const fs::path& file, const std::string& text) const {
    const std::string id = id_from(file.stem().string());
    const std::string name = file.filename().string();
    Transaction transaction{book_};
    if (has(id, name)) {
      return std::string{};
    }
    add_document(id, "commission", name, text, fmt::format("taken in from {}", name));
    for (const auto& [other, content] : beside(file, text)) {
      if (!has("beside-" + id_from(other), other)) {
        add_document("beside-" + id_from(other),
                     "beside",
                     other,
                     content,
                     fmt::format("taken in with {}", name));
      }
    }
    transaction.keep();
    return id;
  }

  fs::path file_;
  Database book_;
  mutable std::mutex mutex_;
};

}  // namespace

base::Result<std::unique_ptr<Book>> Book::open(const fs::path& file) {
  return guarded(file, [&]() -> base::Result<std::unique_ptr<Book>> {
    Database database{file, Database::Mode::kReadWriteCreate};
    if (const auto refused = refuse(database, file)) {
      return *refused;
    }
    database.run("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL");
    bring_up_to_date(database);
    return std::unique_ptr<Book>{std::make_unique<SqliteBook>(file, std::move(database))};
  });
}

}  // namespace plankwright::store
