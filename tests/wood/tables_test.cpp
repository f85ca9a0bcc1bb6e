// The shipped tables as a whole: they can be read, and every figure names a source that is listed.

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "base/csv.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using testing::data_text;
using testing::reference;

const std::vector<std::string> kTables = {"species.csv",
                                          "emc.csv",
                                          "panels.csv",
                                          "thickness_classes.csv",
                                          "board_grades.csv",
                                          "board_faults.csv",
                                          "limits.csv",
                                          "creep.csv",
                                          "loads.csv",
                                          "adhesives.csv",
                                          "clamp_pressure.csv",
                                          "finishes.csv",
                                          "finish_transfer.csv",
                                          "ergonomics.csv",
                                          "proportions.csv",
                                          "storage_rule.csv"};

bool ends_with_src(const std::string& column) {
  return column == "src" || column.ends_with("_src");
}

std::set<std::string> keys_used_in(const std::string& name) {
  const auto table = base::read_csv(data_text(name).value(), name);
  EXPECT_TRUE(table.ok()) << name;
  std::set<std::string> keys;
  for (const auto& row : table.value().rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (ends_with_src(table.value().columns[i].text)) {
        for (const std::string& key : keys_of({.mark = {}, .source = row[i].text, .how = {}})) {
          keys.insert(key);
        }
      }
    }
  }
  return keys;
}

std::string text_of_checks() {
  std::ostringstream text;
  for (const auto& entry :
       std::filesystem::directory_iterator{PLANKWRIGHT_SOURCE_DIR "/tests/published"}) {
    text << std::ifstream{entry.path()}.rdbuf();
  }
  for (const auto& entry :
       std::filesystem::directory_iterator{PLANKWRIGHT_SOURCE_DIR "/src/wood"}) {
    text << std::ifstream{entry.path()}.rdbuf();
  }
  return text.str();
}

TEST(Tables, AllReadAndHoldWhatTheyShould) {
  const Reference& all = reference();
  EXPECT_EQ(all.species.rows().size(), 81U);
  EXPECT_EQ(all.grades.rows().size(), 8U);
  EXPECT_EQ(all.thicknesses.rows().size(), 12U);
  EXPECT_GE(all.panels.rows().size(), 8U);
  EXPECT_GE(all.adhesives.rows().size(), 12U);
  EXPECT_GE(all.finishes.rows().size(), 12U);
  EXPECT_GE(all.usual_sizes.rows().size(), 40U);
}

TEST(Tables, EverySourceIsListed) {
  for (const std::string& name : kTables) {
    for (const std::string& key : keys_used_in(name)) {
      EXPECT_NE(reference().sources.get(key), nullptr) << name << " names " << key;
    }
  }
}

TEST(Tables, EveryListedSourceIsUsed) {
  std::set<std::string> used;
  for (const std::string& name : kTables) {
    used.merge(keys_used_in(name));
  }
  const std::string checks = text_of_checks();
  for (const Source& source : reference().sources.rows()) {
    EXPECT_TRUE(used.contains(source.id) || checks.find(source.id) != std::string::npos)
        << source.id;
  }
}

TEST(Table, OffersTheRightWord) {
  struct Case {
    std::string typed, offer;
  };
  const Case cases[] = {{"chery_black", "cherry_black"},
                        {"cherry", "cherry_black"},
                        {"walnut", "walnut_black"},
                        {"xylophone", ""},
                        {"", ""}};
  for (const Case& c : cases) {
    SCOPED_TRACE(c.typed);
    const auto found = reference().species.find(c.typed);
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.error().code, base::ErrorCode::kOutOfTable);
    EXPECT_EQ(found.error().message, "there is no wood `" + c.typed + "`");
    EXPECT_EQ(found.error().nearest, c.offer);
  }
}

TEST(Table, RefusesARowTwice) {
  const auto creep = read_creep(
      "id,what,factor,mark,src,note\na,x,1.5,practice,,\na,y,2,practice,,\n", "creep.csv");
  ASSERT_FALSE(creep.ok());
  EXPECT_EQ(base::describe(creep.error()), "creep.csv:3:1: error: `a` stands here a second time\n");
}

TEST(Table, RefusesAPublishedFigureWithoutSource) {
  const auto creep = read_creep("id,what,factor,mark,src,note\na,x,1.5,verified,,\n", "creep.csv");
  ASSERT_FALSE(creep.ok());
  EXPECT_EQ(base::describe(creep.error()), "creep.csv:2:18: error: `src` must not be empty\n");
}

TEST(Table, RefusesAnUnknownMark) {
  const auto creep = read_creep("id,what,factor,mark,src,note\na,x,1.5,verifed,X,\n", "creep.csv");
  ASSERT_FALSE(creep.ok());
  EXPECT_EQ(base::describe(creep.error()),
            "creep.csv:2:9: error: `verifed` is not a mark, expected verified, memory or practice; "
            "did you mean `verified`?\n");
}

TEST(Provenance, PrintsAndSpellsOut) {
  const Provenance cherry = testing::species("cherry_black").tangential_coefficient->from;
  EXPECT_EQ(print(cherry), "(WH3, verified)");
  EXPECT_EQ(spell_out(cherry, reference().sources),
            "Wood Handbook FPL-GTR-190, table 13-5 dimensional change coefficients, hardwoods "
            "(verified)");
  EXPECT_EQ(print(Provenance{}), "(common practice, no source)");
  EXPECT_EQ(spell_out(Provenance{}, reference().sources), "(common practice, no source)");
  const Provenance worked_out{.mark = Mark::kMemory, .source = "EC5;nowhere", .how = "1 + 0.6"};
  EXPECT_EQ(print(worked_out), "1 + 0.6 (EC5;nowhere, from memory)");
  EXPECT_EQ(spell_out(worked_out, reference().sources),
            "1 + 0.6; EN 1995-1-1, table 3.2, not seen: from memory; nowhere (from memory)");
}

TEST(Reference, PassesOnWhatGoesWrong) {
  const auto no_file = read_reference([](const std::string& name) -> base::Result<std::string> {
    return base::Error{.code = base::ErrorCode::kIo, .message = "no " + name};
  });
  ASSERT_FALSE(no_file.ok());
  EXPECT_EQ(no_file.error().message, "no sources.csv");
  const auto bad_creep = read_reference([](const std::string& name) -> base::Result<std::string> {
    if (name == "creep.csv") {
      return std::string{"id,what,factor,mark,src,note\nother,x,2,practice,,\n"};
    }
    return data_text(name);
  });
  ASSERT_FALSE(bad_creep.ok());
  EXPECT_EQ(bad_creep.error().message, "panel fibreboard: there is no creep row `ec5_fibreboard`");
}

// Any change of a shipped table, however wild, is read or refused with its place.
TEST(Tables, SurviveGarbage) {
  std::vector<std::string> names = kTables;
  names.push_back("sources.csv");
  EXPECT_TRUE(rc::check([&] {
    const std::string spoiled = *rc::gen::elementOf(names);
    const auto at = *rc::gen::inRange<std::size_t>(0, 20'000);
    const auto length = *rc::gen::inRange<std::size_t>(0, 40);
    const auto junk = *rc::gen::container<std::string>(
        rc::gen::element<char>('"', ',', '\n', '-', '9', '.', 'x', ':', '#', ' ', '\0', '\xC3'));
    const auto all = read_reference([&](const std::string& name) -> base::Result<std::string> {
      std::string text = data_text(name).value();
      if (name == spoiled) {
        text.replace(at % text.size(), length, junk);
      }
      return text;
    });
    if (!all.ok()) {
      RC_ASSERT(!all.error().message.empty());
    }
  }));
}

}  // namespace
}  // namespace plankwright::wood
