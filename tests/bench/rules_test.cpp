#include "bench/rules.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "bench/items.h"
#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

using ::testing::HasSubstr;

const std::string kHeader =
    "stage,subject,kind,standard,units,setting,name,fails,test,says,source\n";
const std::string kLimits =
    "limits,limit,short_part_mm,,300,,,,,,practice\n"
    "limits,limit,glue_lines_a_stage,,3,,,,,,practice\n"
    "limits,limit,share_of_open_time,,0.7,,,,,,practice\n"
    "limits,limit,spreading_share,,0.4,,,,,,practice\n"
    "limits,limit,assembling_share,,0.35,,,,,,practice\n"
    "limits,limit,joints_for_two,,8,,,,,,practice\n"
    "limits,limit,board_feet_a_board,,8,,,,,,practice\n"
    "limits,limit,bent_plies,,7,,,,,,practice\n"
    "limits,limit,clamp_spacing_mm,,200,,,,,,practice\n"
    "limits,limit,join_settings_within_mm,,0,,,,,,practice\n"
    "limits,limit,walk_minutes,,2,,,,,,practice\n"
    "limits,limit,fetch_minutes,,0.5,,,,,,practice\n"
    "limits,limit,glue_halves_each_C,,10,,,,,,practice\n"
    "limits,limit,wide_tenon_mm,,200,,,,,,practice\n";

std::string errors_of(const std::string& rows) {
  std::string text;
  for (const base::Error& error : read_rules(kHeader + kLimits + rows, "rules.csv").errors) {
    text += base::describe(error);
  }
  return text;
}

TEST(ReadRules, ReadsARowForEachOfItsKinds) {
  const ReadRules read = read_rules(
      kHeader + kLimits + "joinery,joint,housing halving,housing,one,cutter,,0.1,scrap,Cut.,shop\n",
      "rules.csv");
  ASSERT_TRUE(read.errors.empty());
  ASSERT_EQ(read.rules.rules.size(), 2U);
  const auto found = read.rules.rules_for("joint", "halving");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0]->standard, "housing");
  EXPECT_EQ(found[0]->units, Units::kOne);
  EXPECT_EQ(found[0]->setting, SettingWay::kCutter);
  EXPECT_DOUBLE_EQ(found[0]->fails, 0.1);
  EXPECT_EQ(found[0]->at.line, 16);
  EXPECT_EQ(read.rules.limits.short_part, 300_mm);
}

TEST(ReadRules, TakesTheStarOnlyForKindsWithoutARow) {
  const ReadRules read = read_rules(kHeader + kLimits +
                                        "fit,fitting,pull,pull_mount,count,,,,,,shop\n"
                                        "fit,fitting,*,glides,count,,,,,,shop\n",
                                    "rules.csv");
  EXPECT_EQ(read.rules.rules_for("fitting", "pull")[0]->standard, "pull_mount");
  EXPECT_EQ(read.rules.rules_for("fitting", "lock")[0]->standard, "glides");
}

struct BadRow {
  std::string_view why;
  std::string rows;
  std::string complaint;
};

TEST(ReadRules, PlacesEveryMistake) {
  const BadRow cases[] = {
      {"subject",
       "a,joynt,housing,housing,one,,,,,,s\n",
       "rules.csv:16:3: error: `joynt` is not known here"},
      {"the right word", "a,joynt,housing,housing,one,,,,,,s\n", "joint"},
      {"units", "a,joint,housing,housing,ones,,,,,,s\n", "rules.csv:16:25: error: `ones`"},
      {"setting", "a,joint,housing,housing,one,fense,,,,,s\n", "fence"},
      {"chance", "a,joint,housing,housing,one,,,1.5,,,s\n", "`fails` is 1.5, expected 0 to 1"},
      {"no reason", "a,joint,housing,,,,,,,,s\n", "must say why no time is counted"},
      {"no units", "a,joint,housing,housing,,,,,,,s\n", "how many units"},
      {"twice", "a,joint,housing housing,housing,one,,,,,,s\n", "has this work already"},
      {"stages apart",
       "a,joint,housing,housing,one,,,,,,s\nb,joint,dowel,housing,one,,,,,,s\n"
       "a,joint,biscuit,housing,one,,,,,,s\n",
       "rules.csv:18:1: error: the rows of stage `a` stand apart"},
      {"limit", "limits,limit,long_part_mm,,3,,,,,,s\n", "`long_part_mm` is not known here"},
      {"no source", "a,joint,housing,housing,one,,,,,,\n", "`source` must not be empty"}};
  for (const BadRow& bad : cases) {
    SCOPED_TRACE(bad.why);
    EXPECT_THAT(errors_of(bad.rows), HasSubstr(bad.complaint));
  }
}

TEST(ReadRules, AsksForEveryLimit) {
  const ReadRules read = read_rules(kHeader, "rules.csv");
  EXPECT_EQ(read.errors.size(), 14U);
  EXPECT_THAT(base::describe(read.errors[0]), HasSubstr("no row `limit` of kind `short_part_mm`"));
}

TEST(ReadCautions, PlacesEveryMistake) {
  const std::string header = "id,severity,standards,when,limit,says,source\n";
  Rules rules;
  const base::Errors errors = read_cautions(header +
                                                "a,4,rip_final,always,,Mind.,s\n"
                                                "a,1,rip_final,shorter,3,Mind.,s\n"
                                                "b,1,rip_final,heavier_than,,Mind.,s\n"
                                                "c,1,rip_final,species,,Mind.,s\n",
                                            "cautions.csv",
                                            rules);
  ASSERT_EQ(errors.size(), 5U);
  EXPECT_THAT(base::describe(errors[0]), HasSubstr("cautions.csv:2:3"));
  EXPECT_THAT(base::describe(errors[1]), HasSubstr("shorter_than"));
  EXPECT_THAT(base::describe(errors[2]), HasSubstr("second time"));
}

RC_GTEST_PROP(ReadRules, SurvivesAnyText, (const std::string& text)) {
  Rules rules;
  RC_ASSERT(!read_rules(text, "x").errors.empty());
  read_cautions(text, "x", rules);
}

RC_GTEST_PROP(ReadRules, SurvivesTheShippedTableWithAHoleInIt, ()) {
  std::string text = testing::text_of("operation_rules.csv").value();
  const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
  text.erase(at, *rc::gen::inRange<std::size_t>(1, 200));
  read_rules(text, "x");
}

// No operation is forgotten silently: whatever a kit can make has a row, if only one that says why
// no time is counted.
template <class Kind>
void expect_row_for_every_kind(std::string_view subject, std::string_view unknown) {
  int kinds = 0;
  for (; piece::word(static_cast<Kind>(kinds)) != unknown; ++kinds) {
    const std::string kind = table_word(piece::word(static_cast<Kind>(kinds)));
    EXPECT_TRUE(testing::rules().names(subject, kind)) << subject << " " << kind;
  }
  EXPECT_GE(kinds, 22);
}

TEST(ShippedRules, HaveARowForEveryFeatureAndJoint) {
  expect_row_for_every_kind<piece::FeatureKind>("feature", "feature");
  expect_row_for_every_kind<piece::JointKind>("joint", "joint");
}

TEST(ShippedRules, HaveARowForEveryKindOfFitting) {
  for (const std::string_view kind : {"slide_pair",
                                      "butt_hinge",
                                      "cup_hinge",
                                      "pull",
                                      "catch",
                                      "shelf_pin",
                                      "top_clip",
                                      "button_screw",
                                      "leg_bolt",
                                      "insert",
                                      "glide",
                                      "leveller",
                                      "screw",
                                      "connector",
                                      "wall_fixing",
                                      "anchor",
                                      "drawer_box",
                                      "other"}) {
    EXPECT_TRUE(testing::rules().names("fitting", kind)) << kind;
  }
}

TEST(ShippedRules, AskOnlyForStandardsTheShopHas) {
  std::vector<std::string> known;
  for (const shop::LabourStandard& standard : testing::inch_shop().standards) {
    known.push_back(standard.id);
  }
  for (const base::Error& error : missing_standards(testing::rules(), known)) {
    ADD_FAILURE() << base::describe(error);
  }
  for (const Caution& caution : testing::rules().cautions) {
    for (const std::string& standard : caution.standards) {
      EXPECT_TRUE(standard == "*" || testing::inch_shop().standard(standard) != nullptr)
          << caution.id << " " << standard;
    }
  }
}

TEST(ShippedRules, LeaveNoStandardOfTheShopUnused) {
  // Done only when a maker asks for them in the commission's extra work.
  const std::vector<std::string> by_hand = {"dovetail_hand", "machine_program", "pull_make"};
  for (const shop::LabourStandard& standard : testing::inch_shop().standards) {
    const bool used = std::ranges::any_of(
        testing::rules().rules, [&](const Rule& rule) { return rule.standard == standard.id; });
    EXPECT_TRUE(used || std::ranges::find(by_hand, standard.id) != by_hand.end()) << standard.id;
  }
}

}  // namespace
}  // namespace plankwright::bench
