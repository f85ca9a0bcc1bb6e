// The program as a maker runs it: what it prints, what it writes, and its exit status.

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sys/wait.h>
#include <unistd.h>

namespace plankwright {
namespace {

namespace fs = std::filesystem;
using ::testing::ContainsRegex;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

struct Ran {
  int status = 0;
  std::string said;  // both streams
};

Ran run(const std::string& arguments) {
  const std::string command = "'" PLANKWRIGHT_BINARY_DIR "/plankwright' " + arguments + " 2>&1";
  const auto close = [](FILE* pipe) { return ::pclose(pipe); };
  FILE* pipe = ::popen(command.c_str(), "r");
  Ran ran;
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe)) {
    ran.said.append(buffer.data(), n);
  }
  ran.status = WEXITSTATUS(close(pipe));
  return ran;
}

std::string example(const std::string& name) {
  return PLANKWRIGHT_SOURCE_DIR "/examples/" + name + ".yaml";
}

std::string text_of(const fs::path& file) {
  std::ifstream in{file};
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// A folder that is gone after the test.
class CommandLine : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() /
              ("plankwright-" + std::to_string(::getpid()) +
               ::testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string write(const std::string& name, const std::string& text) {
    std::ofstream{folder_ / name, std::ios::binary} << text;
    return (folder_ / name).string();
  }

  /// The hall cabinet with one thing changed.
  std::string changed(const std::string& from, const std::string& to) {
    std::string text = text_of(example("hall_cabinet"));
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return write("changed.yaml", text.replace(at, from.size(), to));
  }

  fs::path folder_;
};

TEST_F(CommandLine, PlansAnExampleForReading) {
  const Ran ran = run("plan " + example("hall_cabinet"));
  EXPECT_EQ(ran.status, 0);
  for (const char* part :
       {"59 parts", "WHAT TO BUY", "HOURS", "PRICE", "CHOICES", "margin", "markup"}) {
    EXPECT_THAT(ran.said, HasSubstr(part));
  }
}

TEST_F(CommandLine, PrintsTheWholePlanAsJson) {
  const Ran ran = run("plan " + example("dining_table") + " --json");
  ASSERT_EQ(ran.status, 0);
  const auto json = nlohmann::json::parse(ran.said);
  EXPECT_EQ(json["format"], "plankwright-plan-1");
  EXPECT_EQ(json["piece"]["parts"].size(), 29U);
}

TEST_F(CommandLine, TakesAChoiceDifferently) {
  const Ran ran = run("check " + example("dining_table") + " --pick base=fixed");
  EXPECT_EQ(ran.status, 0);
  EXPECT_THAT(ran.said, HasSubstr("does not come through"));
}

TEST_F(CommandLine, SaysInTheYardWhatIsCoveredAndWhatIsMissing) {
  const Ran ran = run("yard " + example("hall_cabinet") +
                      " " PLANKWRIGHT_SOURCE_DIR "/examples/hall_cabinet.tally");
  EXPECT_EQ(ran.status, 0);
  for (const char* part : {"black cherry 4/4: 5 boards tallied",
                           "covered: ",
                           "still missing: ",
                           "ask for 1 board at least",
                           "black cherry 8/4: nothing tallied yet",
                           "WHAT COMES OUT OF WHICH BOARD"}) {
    EXPECT_THAT(ran.said, HasSubstr(part));
  }
  const std::string bad = write("bad.tally", "# heading\ncherry_4_4, 96, 7\ncherry_4_5, 96, 7\n");
  const Ran refused = run("yard " + example("hall_cabinet") + " " + bad);
  EXPECT_EQ(refused.status, 2);
  EXPECT_THAT(refused.said, HasSubstr("bad.tally:3:1: error: found `cherry_4_5`"));
}

TEST_F(CommandLine, LaysPartsOnTalliedBoardsWhenThereAreSome) {
  const Ran ran = run("plan " + example("hall_cabinet") +
                      " --json --boards " PLANKWRIGHT_SOURCE_DIR "/examples/hall_cabinet.tally");
  ASSERT_EQ(ran.status, 0);
  const auto json = nlohmann::json::parse(ran.said);
  const auto& first = json["stock"]["solids"][0]["boards"][0];
  EXPECT_EQ(first["tally_line"], 2);
  EXPECT_EQ(first["length"]["text"], "98 in");
}

TEST_F(CommandLine, WritesThePapersWhole) {
  const Ran ran =
      run("papers " + example("hall_cabinet") + " --into " + (folder_ / "out").string());
  ASSERT_EQ(ran.status, 0) << ran.said;
  EXPECT_THAT(text_of(folder_ / "out/quotation.pdf"), StartsWith("%PDF"));
  EXPECT_THAT(text_of(folder_ / "out/shop_packet.pdf"), StartsWith("%PDF"));
  EXPECT_TRUE(nlohmann::json::accept(text_of(folder_ / "out/plan.json")));
}

TEST_F(CommandLine, ReportsFiveMistakesInOneRun) {
  std::string text = text_of(example("hall_cabinet"));
  const auto change = [&](const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    ASSERT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
  };
  change("    - name: base\n      height: 6\n",
         "    - name: base\n      hieght: 6\n      height: 6\n");
  change("stock: cherry_8_4", "stock: chery_8_4");
  change("joint: housed", "joint: howsed");
  change("finish: finish_taken", "finish: oil_varnish_wipd");
  change("top_rail_width: 3", "top_rail_width: 3 apples");
  const Ran ran = run("plan " + write("five.yaml", text));
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.said, HasSubstr("did you mean `height`?"));
  EXPECT_THAT(ran.said, HasSubstr("did you mean `cherry_8_4`?"));
  EXPECT_THAT(ran.said, HasSubstr("did you mean `housed`?"));
  EXPECT_THAT(ran.said, HasSubstr("did you mean `oil_varnish_wiped`?"));
  EXPECT_THAT(ran.said, HasSubstr("5 mistakes; nothing was planned."));
  EXPECT_THAT(ran.said, ContainsRegex("five.yaml:[0-9]+:[0-9]+: error: "));
  EXPECT_THAT(ran.said, HasSubstr("^\n"));
}

struct Wrong {
  const char* why;
  const char* from;
  const char* to;
  const char* says;
};

TEST_F(CommandLine, PlacesEachKindOfMistake) {
  const Wrong cases[] = {
      {"drawers taller than their opening",
       "[4 1/2, 5 3/8, 6 1/4, 7 1/4]",
       "[4 1/2, 5 3/8, 6 1/4, 9 1/4]",
       "2 in"},
      {"bays that do not add up",
       "- name: middle\n            width: 16 1/4",
       "- name: middle\n            width: 17 1/4",
       "add up to"},
      {"a joint deeper than its part", "joint_depth: 1/4", "joint_depth: 1 1/4", "deep"},
      {"a stock that is not in the shop", "show: cherry_4_4", "show: plum_4_4", "not a stock"},
      {"a circle of names", "side: 3/4", "side: board\n  board: side", "side -> board -> side"},
      {"a length times a length", "joint_depth: 1/4", "joint_depth: 1/2 in * 1/2 in", "length"},
      {"layers that do not fill the height", "      height: 6\n", "      height: 40\n", "too much"},
      {"a choice that picks nothing", "pick: sawn", "pick: sown", "did you mean `sawn`"},
      {"an unfinished quote", "number: 26-031", "number: '26-031", "quote"},
      {"a key twice", "number: 26-031", "number: 26-031\nnumber: 26-031", "number"},
      {"a fitting that is not there",
       "pin: shelf_pin_brass",
       "pin: shelf_pin_bras",
       "did you mean `shelf_pin_brass`"},
      {"an arch higher than its rail", "rise: 1 3/4", "rise: 5", "arch"}};
  for (const Wrong& c : cases) {
    SCOPED_TRACE(c.why);
    const Ran ran = run("check " + changed(c.from, c.to));
    EXPECT_EQ(ran.status, 2) << ran.said;
    EXPECT_THAT(ran.said, ContainsRegex("changed.yaml:[0-9]+:[0-9]+: error: "));
    EXPECT_THAT(ran.said, HasSubstr(c.says));
  }
}

TEST_F(CommandLine, ReportsAPriceOfZeroInTheShop) {
  write("shop_here.yaml", "based_on: shop.yaml\nsolids:\n  - {id: cherry_4_4, price: 0}\n");
  const Ran ran = run("plan " + changed("shop: shop.yaml", "shop: shop_here.yaml"));
  EXPECT_EQ(ran.status, 2) << ran.said;
  EXPECT_THAT(ran.said, ContainsRegex("shop_here.yaml:[0-9]+:[0-9]+: error: "));
}

TEST_F(CommandLine, SurvivesWhatIsNoCommission) {
  const std::string binary{
      "\x7f"
      "ELF\x00\x01\x02\xff\xfe binary",
      18};
  const struct {
    const char* why;
    std::string file;
  } cases[] = {{"no such file", (folder_ / "nowhere.yaml").string()},
               {"a folder", folder_.string()},
               {"empty", write("empty.yaml", "")},
               {"binary", write("binary.yaml", binary)},
               {"ten megabytes", write("large.yaml", std::string(10U << 20U, 'x'))},
               {"a list", write("list.yaml", "- a\n- b\n")},
               {"only a word", write("word.yaml", "table\n")},
               {"no piece", write("none.yaml", "commission: Nothing\n")},
               {"deep", write("deep.yaml", std::string(100'000, '['))}};
  for (const auto& c : cases) {
    SCOPED_TRACE(c.why);
    const Ran ran = run("papers '" + c.file + "' --into '" + (folder_ / "out").string() + "'");
    EXPECT_EQ(ran.status, 2) << ran.said;
    EXPECT_THAT(ran.said, HasSubstr("error: "));
    EXPECT_FALSE(fs::exists(folder_ / "out")) << "nothing is written";
  }
}

TEST_F(CommandLine, NamesTheNearestFile) {
  write("cabinet.yaml", "commission: x\n");
  const Ran ran = run("plan " + (folder_ / "cabinett.yaml").string());
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.said, HasSubstr("did you mean `cabinet.yaml`?"));
}

TEST_F(CommandLine, PutsTwoCommissionsIntoOneShop) {
  const std::string ics = (folder_ / "both.ics").string();
  const std::string pdf = (folder_ / "both.pdf").string();
  const std::string two = example("hall_cabinet") + " " + example("dining_table");
  const Ran ran = run("calendar --start 2026-03-02 --ics " + ics + " --pdf " + pdf + " " + two);
  EXPECT_EQ(ran.status, 0) << ran.said;
  EXPECT_THAT(ran.said, HasSubstr("Millrace hall cabinet: finished"));
  EXPECT_THAT(ran.said, HasSubstr("HOURS PROMISED AGAINST HOURS AT HAND"));
  EXPECT_THAT(ran.said, ContainsRegex("waits [0-9.]+ h for"));
  EXPECT_THAT(ran.said, ContainsRegex("drives the date in [0-9]+ % of the trials"));
  EXPECT_THAT(text_of(ics), StartsWith("BEGIN:VCALENDAR"));
  EXPECT_THAT(text_of(pdf), StartsWith("%PDF-"));
}

TEST_F(CommandLine, PrintsACalendarAsJson) {
  const Ran ran = run("calendar --json " + example("dining_table"));
  ASSERT_EQ(ran.status, 0) << ran.said;
  const auto json = nlohmann::json::parse(ran.said);
  EXPECT_EQ(json["draws"], 10'000);
  EXPECT_EQ(json["commissions"].size(), 1U);
  EXPECT_FALSE(json["critical"].empty());
}

struct BadShop {
  std::string_view why, lines, says;
};

TEST_F(CommandLine, SaysWhyThereIsNoCalendar) {
  const BadShop cases[] = {
      {"closed for years",
       "closed: [{from: 2026-01-01, to: 2045-12-31}]\n",
       "the shop has no working day after"},
      {"a maker who is in on days the shop is not",
       "people: [{name: Bo, role: maker, wage: 20, paid_hours: 1700, days: [sunday]}]\n",
       "no maker is in on any working day"},
      {"nobody who can work alone",
       "people: [{name: Bo, role: helper, wage: 20, paid_hours: 1700}]\n",
       "no maker is in on any working day"}};
  for (const BadShop& c : cases) {
    SCOPED_TRACE(c.why);
    const std::string shop = write("bad_shop.yaml", "based_on: shop.yaml\n" + std::string{c.lines});
    const Ran ran =
        run("calendar --start 2026-03-02 --shop " + shop + " " + example("hall_cabinet"));
    EXPECT_EQ(ran.status, 2) << ran.said;
    EXPECT_THAT(ran.said, HasSubstr(std::string{c.says}));
  }
}

// March is a holiday and the work goes on in April; no error, and no hang.
TEST_F(CommandLine, WorksRoundAMonthOfHolidays) {
  const std::string shop = write("fair.yaml",
                                 "based_on: shop.yaml\n"
                                 "closed: [{from: 2026-03-01, to: 2026-03-31, says: fair}]\n");
  const Ran ran = run("calendar --start 2026-03-02 --shop " + shop + " " + example("hall_cabinet"));
  EXPECT_EQ(ran.status, 0) << ran.said;
  EXPECT_THAT(ran.said, HasSubstr("begun Wed 2026-04-01"));
}

TEST_F(CommandLine, SaysWhenADayIsTooShortForAGlueUp) {
  const std::string shop =
      write("short.yaml", "based_on: shop.yaml\nworkday: {hours: 0.5, hands_on: 50 %}\n");
  const Ran ran = run("calendar --start 2026-03-02 --shop " + shop + " " + example("hall_cabinet"));
  EXPECT_EQ(ran.status, 2) << ran.said;
  EXPECT_THAT(ran.said, HasSubstr("min of the day in one go, and a day has 30"));
}

TEST_F(CommandLine, AsksForTheDayTheWorkMayBegin) {
  const Ran ran = run("calendar " + changed("quoted: 2026-03-02\n", ""));
  EXPECT_EQ(ran.status, 2) << ran.said;
  EXPECT_THAT(ran.said, HasSubstr("--start 2026-03-02"));
  EXPECT_EQ(run("calendar --start soon " + example("hall_cabinet")).status, 2);
}

TEST_F(CommandLine, HelpTeachesByExample) {
  const Ran help = run("--help");
  EXPECT_EQ(help.status, 0);
  EXPECT_THAT(help.said, HasSubstr("plankwright plan examples/hall_cabinet.yaml"));
  for (const char* command : {"plan", "check", "papers", "schema"}) {
    const Ran ran = run(std::string{command} + " --help");
    EXPECT_EQ(ran.status, 0);
    EXPECT_THAT(ran.said, HasSubstr("Example: plankwright "));
  }
}

TEST_F(CommandLine, AMistypedCommandIsOfferedTheRightOne) {
  const Ran ran = run("paln " + example("hall_cabinet"));
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.said, HasSubstr("did you mean `plan`?"));
  EXPECT_EQ(run("").status, 2);
  EXPECT_EQ(run("plan").status, 2);
}

TEST_F(CommandLine, PrintsSchemasThatAreJson) {
  for (const char* name : {"commission", "shop", "plan"}) {
    const Ran ran = run(std::string{"schema "} + name);
    EXPECT_EQ(ran.status, 0);
    EXPECT_TRUE(nlohmann::json::accept(ran.said)) << name;
  }
  const Ran ran = run("schema comission");
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.said, HasSubstr("did you mean `commission`?"));
}

TEST_F(CommandLine, ComparesEveryCombination) {
  const Ran ran = run("plan " + example("study_wall") + " --all-combinations");
  EXPECT_EQ(ran.status, 0);
  EXPECT_THAT(ran.said, HasSubstr("ALL 12 COMBINATIONS"));
}

}  // namespace
}  // namespace plankwright
