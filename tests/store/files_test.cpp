#include "store/files.h"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include "store/temporary_folder.h"

namespace plankwright::store {
namespace {

namespace fs = std::filesystem;

// FIPS 180-4, the example "abc" of NIST's test vectors.
TEST(HashOf, GivesTheStandardsExample) {
  EXPECT_EQ(hash_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(WriteFile, ReplacesTheWholeTextAndLeavesNothingBeside) {
  const TemporaryFolder folder;
  ASSERT_TRUE(write_file(folder / "a.yaml", std::string(100000, 'x')).ok());
  ASSERT_TRUE(write_file(folder / "a.yaml", "short").ok());
  EXPECT_EQ(read_file(folder / "a.yaml").value(), "short");
  EXPECT_EQ(folder.count(), 1U);
}

TEST(WriteFile, KeepsWhoMayReadIt) {
  const TemporaryFolder folder;
  ASSERT_TRUE(write_file(folder / "a.yaml", "one").ok());
  fs::permissions(folder / "a.yaml", fs::perms{0600});
  ASSERT_TRUE(write_file(folder / "a.yaml", "two").ok());
  EXPECT_EQ(fs::status(folder / "a.yaml").permissions(), fs::perms{0600});
}

TEST(WriteFile, ReplacesWhatALinkPointsTo) {
  const TemporaryFolder folder;
  ASSERT_TRUE(write_file(folder / "real.yaml", "one").ok());
  fs::create_symlink(folder / "real.yaml", folder / "link.yaml");
  ASSERT_TRUE(write_file(folder / "link.yaml", "two").ok());
  EXPECT_TRUE(fs::is_symlink(folder / "link.yaml"));
  EXPECT_EQ(read_file(folder / "real.yaml").value(), "two");
}

// The last step, the change of names, fails: a folder that is not empty stands at the place.
TEST(WriteFile, LeavesAllAsItWasWhenTheLastStepFails) {
  const TemporaryFolder folder;
  fs::create_directories(folder / "a.yaml/inside");
  const auto written = write_file(folder / "a.yaml", "text");
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.error().code, base::ErrorCode::kIo);
  EXPECT_TRUE(fs::exists(folder / "a.yaml/inside"));
  EXPECT_EQ(folder.count(), 1U);
}

// The first step, the new file beside the old one, fails: its name would be too long.
TEST(WriteFile, LeavesTheOldTextWhenTheNewFileCannotBeMade) {
  const TemporaryFolder folder;
  const std::string longest(250, 'n');
  folder.put(longest, "old");
  EXPECT_FALSE(write_file(folder / longest, "new").ok());
  EXPECT_EQ(read_file(folder / longest).value(), "old");
  EXPECT_EQ(folder.count(), 1U);
}

TEST(ReadFile, RefusesWhatIsNoDocument) {
  const TemporaryFolder folder;
  EXPECT_NE(read_file(folder.path()).error().message.find("is a folder"), std::string::npos);
  ASSERT_TRUE(write_file(folder / "big.yaml", std::string(10U << 20U, 'x')).ok());
  EXPECT_NE(read_file(folder / "big.yaml").error().message.find("10 MB"), std::string::npos);
  EXPECT_EQ(read_file(folder / "bog.yaml").error().nearest, "big.yaml");
}

TEST(OpenWithin, StaysInTheFolder) {
  const TemporaryFolder folder;
  fs::create_directories(folder / "in");
  ASSERT_TRUE(write_file(folder / "secret", "s").ok());
  ASSERT_TRUE(write_file(folder / "in/shop.yaml", "shop").ok());
  const auto open = open_within(folder / "in/c.yaml");
  EXPECT_EQ(open("shop.yaml").value(), "shop");
  for (const std::string& out :
       {std::string{"../secret"}, (folder / "secret").string(), std::string{"a/../../secret"}}) {
    const auto text = open(out);
    ASSERT_FALSE(text.ok()) << out;
    EXPECT_NE(text.error().message.find("expected a file beside"), std::string::npos);
  }
}

}  // namespace
}  // namespace plankwright::store
