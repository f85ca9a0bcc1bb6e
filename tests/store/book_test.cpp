#include "store/book.h"

#include <csignal>
#include <fstream>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "store/database.h"
#include "store/files.h"
#include "store/migrations.h"
#include "store/temporary_folder.h"

namespace plankwright::store {
namespace {

TEST(Book, KeepsEveryVersionAndGoesBackAsANewOne) {
  const TemporaryFolder folder;
  const auto book = Book::open(folder / "b").value();
  const std::string id = book->add("Bench", "one").value();
  ASSERT_TRUE(book->save(id, "two", hash_of("one")).ok());
  ASSERT_TRUE(book->save(id, "two", hash_of("two")).ok());  // nothing new
  EXPECT_EQ(book->go_back(id, 1).value(), 3);
  const auto versions = book->versions(id).value();
  ASSERT_EQ(versions.size(), 3U);
  EXPECT_EQ(versions[0].why, "begun");
  EXPECT_EQ(versions[2].why, "back to version 1");
  EXPECT_EQ(versions[2].version, hash_of("one"));
  EXPECT_EQ(book->read(id).value().text, "one");
  EXPECT_EQ(book->read_version(id, 2).value().text, "two");
  EXPECT_EQ(book->go_back(id, 9).error().message, "`bench` has no version 9");
}

TEST(Book, NeverChangesAVersion) {
  const TemporaryFolder folder;
  Book::open(folder / "b").value()->add("Bench", "one").value();
  const Database direct{folder / "b", Database::Mode::kReadWrite};
  EXPECT_THROW(direct.run("UPDATE version SET text = 'other'"), DatabaseFault);
  EXPECT_THROW(direct.run("DELETE FROM version"), DatabaseFault);
  EXPECT_THROW(direct.run("DELETE FROM document"), DatabaseFault);  // foreign keys are on
}

TEST(Book, BringsAnOlderBookUpToDate) {
  const TemporaryFolder folder;
  {
    const Database old{folder / "b", Database::Mode::kReadWriteCreate};
    old.run(std::string{migrations().front().sql});
    old.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = 1", kBookMark));
    old.run(
        fmt::format("INSERT INTO document VALUES ('bench', 'commission', 'bench.yaml'); INSERT "
                    "INTO version VALUES ('bench', 1, '{}', 'one', '2026-01-02T03:04:05Z', '')",
                    hash_of("one")));
  }
  const auto book = Book::open(folder / "b").value();
  EXPECT_EQ(book->read("bench").value().text, "one");
  EXPECT_EQ(book->tick("bench", 3, true).value(), std::vector<int>{3});
  const Database direct{folder / "b", Database::Mode::kReadOnly};
  EXPECT_EQ(direct.number_of("PRAGMA user_version"), migrations().back().version);
}

TEST(Book, MigrationsRunInOrderFromOne) {
  int version = 0;
  for (const Migration& migration : migrations()) {
    EXPECT_EQ(migration.version, ++version);
  }
}

TEST(Book, RefusesABookOfANewerProgram) {
  const TemporaryFolder folder;
  Book::open(folder / "b").value();
  Database{folder / "b", Database::Mode::kReadWrite}.run("PRAGMA user_version = 99");
  const auto book = Book::open(folder / "b");
  ASSERT_FALSE(book.ok());
  EXPECT_NE(book.error().message.find("newer plankwright (version 99"), std::string::npos);
}

TEST(Book, RefusesWhatIsNoBook) {
  const TemporaryFolder folder;
  folder.put("text", std::string(5000, 'x'));
  EXPECT_NE(Book::open(folder / "text").error().message.find("is no book"), std::string::npos);
  EXPECT_EQ(read_file(folder / "text").value(), std::string(5000, 'x'));
  Database{folder / "other", Database::Mode::kReadWriteCreate}.run("CREATE TABLE t (x)");
  EXPECT_NE(Book::open(folder / "other").error().message.find("another program's"),
            std::string::npos);
  EXPECT_FALSE(Book::open(folder.path()).ok());
  EXPECT_FALSE(Book::open(folder / "no/such/folder").ok());
}

TEST(Book, FindsDamageAtTheStart) {
  const TemporaryFolder folder;
  {
    const auto book = Book::open(folder / "b").value();
    for (int i = 0; i < 40; ++i) {
      book->add("Bench", std::string(3000, static_cast<char>('a' + i % 26))).value();
    }
    ASSERT_TRUE(book->back_up(folder / "copy").ok());
  }
  std::fstream file{folder / "copy", std::ios::in | std::ios::out | std::ios::binary};
  for (int page = 2; page < 12; ++page) {
    file.seekp(page * 4096);
    file << std::string(64, '\xA5');
  }
  file.close();
  const auto damaged = Book::open(folder / "copy");
  ASSERT_FALSE(damaged.ok());
  EXPECT_EQ(damaged.error().code, base::ErrorCode::kIo);
  EXPECT_NE(damaged.error().message.find("damaged"), std::string::npos);
}

TEST(Book, IsCopiedWholeWhileItIsInUse) {
  const TemporaryFolder folder;
  const auto book = Book::open(folder / "b").value();
  const std::string id = book->add("Bench", "one").value();
  const auto other = Book::open(folder / "b").value();
  ASSERT_TRUE(other->save(id, "two", hash_of("one")).ok());
  ASSERT_TRUE(book->back_up(folder / "copy").ok());
  ASSERT_TRUE(other->save(id, "three", hash_of("two")).ok());
  EXPECT_EQ(Book::open(folder / "copy").value()->read(id).value().text, "two");
  ASSERT_TRUE(book->back_up(folder / "copy").ok());  // an older copy is replaced
  EXPECT_EQ(Book::open(folder / "copy").value()->versions(id).value().size(), 3U);
  EXPECT_FALSE(book->back_up(folder / "b").ok());
  EXPECT_FALSE(book->back_up(folder / "no/such/folder/copy").ok());
  EXPECT_EQ(book->read(id).value().text, "three");
}

TEST(Book, TwoProgramsCannotOverwriteEachOther) {
  const TemporaryFolder folder;
  const auto mine = Book::open(folder / "b").value();
  const auto theirs = Book::open(folder / "b").value();
  const std::string id = mine->add("Bench", "one").value();
  ASSERT_FALSE(theirs->save(id, "theirs", hash_of("one")).value().theirs.has_value());
  const Saved refused = mine->save(id, "mine", hash_of("one")).value();
  ASSERT_TRUE(refused.theirs.has_value());
  EXPECT_EQ(refused.theirs->text, "theirs");
}

TEST(Book, TakesInWhatItDoesNotHaveWithItsShops) {
  const TemporaryFolder folder;
  const std::filesystem::path examples = std::string{PLANKWRIGHT_SOURCE_DIR} + "/examples";
  const auto book = Book::open(folder / "b").value();
  const std::vector<std::filesystem::path> files = {examples / "dining_table.yaml",
                                                    examples / "hall_cabinet.yaml"};
  EXPECT_EQ(book->take_in(files).value().size(), 2U);
  const std::string version = book->read("hall_cabinet").value().version;
  ASSERT_TRUE(book->save("hall_cabinet", "changed", version).ok());
  EXPECT_TRUE(book->take_in(files).value().empty());
  EXPECT_EQ(book->read("hall_cabinet").value().text, "changed");
  EXPECT_EQ(book->list().size(), 2U);
  EXPECT_EQ(book->opener("dining_table")("rope_walk_shop.yaml").value(),
            read_file(examples / "rope_walk_shop.yaml").value());
}

/// Writes versions for ever, and tells the pipe of each when it was acknowledged.
[[noreturn]] void write_for_ever(const std::filesystem::path& file, int pipe) {
  const auto book = Book::open(file).value();
  std::string text = book->read("bench").value().text;
  for (int n = 0;; ++n) {
    const std::string next = fmt::format("{} {}", n, std::string(2000, 'x'));
    if (!book->save("bench", next, hash_of(text)).ok() || ::write(pipe, "+", 1) != 1) {
      ::_exit(1);
    }
    text = next;
  }
}

// The process dies at any moment: what was acknowledged is there, and the book is sound.
TEST(Book, LosesNothingWhenTheProgramIsKilled) {
  const TemporaryFolder folder;
  Book::open(folder / "b").value()->add("Bench", "start").value();
  std::size_t before = 1;
  for (int round = 0; round < 6; ++round) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      ::close(ends[0]);
      write_for_ever(folder / "b", ends[1]);
    }
    ::close(ends[1]);
    std::size_t acknowledged = 0;
    char plus = 0;
    const auto wanted = static_cast<std::size_t>(20 + 13 * round);
    while (acknowledged < wanted && ::read(ends[0], &plus, 1) == 1) {
      ++acknowledged;
    }
    ::kill(child, SIGKILL);
    while (::read(ends[0], &plus, 1) == 1) {
      ++acknowledged;
    }
    ::close(ends[0]);
    ::waitpid(child, nullptr, 0);
    const auto book = Book::open(folder / "b");
    ASSERT_TRUE(book.ok()) << book.error().message;
    const std::size_t kept = book.value()->versions("bench").value().size();
    EXPECT_GE(kept, before + acknowledged);
    EXPECT_LE(kept, before + acknowledged + 1);  // kept, but killed before it could say so
    const KeptText text = book.value()->read("bench").value();
    EXPECT_EQ(text.version, hash_of(text.text));
    before = kept;
  }
}

}  // namespace
}  // namespace plankwright::store
