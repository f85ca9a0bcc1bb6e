// What holds for commissions however they are kept, and what only for files.
#include "store/keeper.h"

#include <thread>

#include <gtest/gtest.h>

#include "store/book.h"
#include "store/files.h"
#include "store/folder_keeper.h"
#include "store/temporary_folder.h"

namespace plankwright::store {
namespace {

enum class Way { kFolder, kBook };

/// Two commissions, one with a shop of its own.
class Keepers : public testing::TestWithParam<Way> {
 protected:
  Keepers() {
    folder_.put("bench.yaml", "commission: A bench\nshop: own.yaml\n");
    folder_.put("table.yaml", "commission: A table\n");
    folder_.put("own.yaml", "based_on: shop.yaml\nshop: Own\n");
    keeper_ = open();
  }

  std::unique_ptr<Keeper> open() {
    if (GetParam() == Way::kFolder) {
      return keep_folder({folder_.path()}).value();
    }
    auto book = Book::open(folder_ / "shop.book").value();
    EXPECT_TRUE(book->take_in(commission_files({folder_.path()})).ok());
    return book;
  }

  std::vector<std::string> ids() const {
    std::vector<std::string> all;
    for (const Entry& entry : keeper_->list()) {
      all.push_back(entry.id);
    }
    return all;
  }

  TemporaryFolder folder_;
  std::unique_ptr<Keeper> keeper_;
};

INSTANTIATE_TEST_SUITE_P(BothWays, Keepers, testing::Values(Way::kFolder, Way::kBook));

TEST_P(Keepers, ListCommissionsAndNotShops) {
  EXPECT_EQ(ids(), (std::vector<std::string>{"bench", "table"}));
  for (const Entry& entry : keeper_->list()) {
    const auto age = std::chrono::system_clock::now() - entry.changed;
    EXPECT_LT(age, std::chrono::minutes{5});
    EXPECT_GT(age, -std::chrono::minutes{5});
  }
}

TEST_P(Keepers, SaveWhatWasMadeFromThePresentText) {
  const KeptText first = keeper_->read("bench").value();
  EXPECT_EQ(first.version, hash_of(first.text));
  const Saved saved = keeper_->save("bench", "commission: New\n", first.version).value();
  EXPECT_FALSE(saved.theirs.has_value());
  EXPECT_EQ(saved.version, hash_of("commission: New\n"));
  keeper_.reset();
  keeper_ = open();
  EXPECT_EQ(keeper_->read("bench").value().text, "commission: New\n");
}

TEST_P(Keepers, ShowBothTextsInsteadOfOverwriting) {
  const std::string stale = keeper_->read("bench").value().version;
  ASSERT_TRUE(keeper_->save("bench", "commission: Theirs\n", stale).ok());
  const Saved refused = keeper_->save("bench", "commission: Mine\n", stale).value();
  ASSERT_TRUE(refused.theirs.has_value());
  EXPECT_EQ(refused.theirs->text, "commission: Theirs\n");
  EXPECT_EQ(refused.version, hash_of("commission: Theirs\n"));
  EXPECT_EQ(keeper_->read("bench").value().text, "commission: Theirs\n");
}

TEST_P(Keepers, LetOneOfTwoWritersWin) {
  const std::string version = keeper_->read("bench").value().version;
  std::atomic<int> won{0};
  std::vector<std::thread> writers;
  for (int i = 0; i < 8; ++i) {
    writers.emplace_back([&, i] {
      const auto saved = keeper_->save("bench", "commission: " + std::to_string(i) + "\n", version);
      won += saved.ok() && !saved.value().theirs ? 1 : 0;
    });
  }
  for (std::thread& writer : writers) {
    writer.join();
  }
  EXPECT_EQ(won, 1);
}

TEST_P(Keepers, NameNewOnesApart) {
  EXPECT_EQ(keeper_->add("Mo's Table", "commission: x\n").value(), "mos_table");
  EXPECT_EQ(keeper_->add("table", "commission: y\n").value(), "table_2");
  EXPECT_EQ(keeper_->add("../../etc/passwd", "commission: z\n").value(), "etc_passwd");
  EXPECT_EQ(ids(),
            (std::vector<std::string>{"bench", "etc_passwd", "mos_table", "table", "table_2"}));
  EXPECT_EQ(keeper_->read("table_2").value().text, "commission: y\n");
}

TEST_P(Keepers, RememberTicks) {
  EXPECT_TRUE(keeper_->ticks("bench").value().empty());
  keeper_->tick("bench", 7, true).value();
  keeper_->tick("bench", 2, true).value();
  EXPECT_EQ(keeper_->tick("bench", 7, true).value(), (std::vector<int>{2, 7}));
  EXPECT_EQ(keeper_->tick("bench", 2, false).value(), (std::vector<int>{7}));
  keeper_.reset();
  keeper_ = open();
  EXPECT_EQ(keeper_->ticks("bench").value(), (std::vector<int>{7}));
}

TEST_P(Keepers, OpenTheShopOfTheCommission) {
  const auto open = keeper_->opener("bench");
  EXPECT_NE(open("own.yaml").value().find("Own"), std::string::npos);
  EXPECT_TRUE(open("shop.yaml").ok());  // the default shop of the data folder
  EXPECT_FALSE(open("../shop.yaml").ok());
}

TEST_P(Keepers, OfferTheNearestName) {
  const auto missing = keeper_->read("bemch");
  ASSERT_FALSE(missing.ok());
  EXPECT_EQ(missing.error().nearest, "bench");
  EXPECT_FALSE(keeper_->save("bemch", "x", "y").ok());
  EXPECT_FALSE(keeper_->ticks("bemch").ok());
  EXPECT_FALSE(keeper_->versions("bemch").ok());
}

TEST_P(Keepers, ChangeTheStampWithTheText) {
  const std::string before = keeper_->find("bench").value().stamp;
  const std::string version = keeper_->read("bench").value().version;
  ASSERT_TRUE(keeper_->save("bench", "commission: Other name\n", version).ok());
  EXPECT_NE(keeper_->find("bench").value().stamp, before);
}

TEST(FolderKeeper, ShowsAFileThatIsNoDocument) {
  const TemporaryFolder folder;
  folder.put("broken.yaml", "\x01\x02 not: [a document");
  folder.put("notes.txt", "commission: no\n");
  const auto keeper = keep_folder({folder.path()}).value();
  ASSERT_EQ(keeper->list().size(), 1U);
  EXPECT_EQ(keeper->list().front().id, "broken");
}

TEST(FolderKeeper, SeesFilesComeAndGoAndChange) {
  const TemporaryFolder folder;
  folder.put("a.yaml", "commission: A\n");
  const auto keeper = keep_folder({folder.path()}).value();
  folder.put("b.yaml", "commission: B\n");
  EXPECT_EQ(keeper->list().size(), 2U);
  std::filesystem::remove(folder / "a.yaml");
  EXPECT_EQ(keeper->list().size(), 1U);
  EXPECT_FALSE(keeper->read("a").ok());
}

TEST(FolderKeeper, RefusesAPlaceThatIsNotThere) {
  const TemporaryFolder folder;
  EXPECT_FALSE(keep_folder({folder / "nowhere"}).ok());
  EXPECT_FALSE(keep_folder({}).ok());
}

TEST(Ids, AreSafeInAnAddress) {
  EXPECT_EQ(id_from("Hall cabinet, Nº 2"), "hall_cabinet_n_2");
  EXPECT_EQ(id_from("///"), "commission");
  EXPECT_EQ(id_from(std::string(500, 'a')).size(), 60U);
  EXPECT_TRUE(is_id(id_from("Ünïcode only: ß")));
  EXPECT_FALSE(is_id("../x"));
  EXPECT_FALSE(is_id(""));
}

}  // namespace
}  // namespace plankwright::store
