// Optima proven in print, on instances of other people: see data/README.md.

#include <fstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "solve/bars.h"
#include "solve/check_sheets.h"
#include "solve/sheet_value.h"
#include "solve/sheets.h"

namespace plankwright::solve {
namespace {

using nlohmann::json;

std::vector<json> instances(const std::string& name) {
  std::ifstream file{std::string{PLANKWRIGHT_SOURCE_DIR} + "/tests/solve/data/" + name};
  std::vector<json> rows;
  for (std::string line; std::getline(file, line);) {
    rows.push_back(json::parse(line));
  }
  EXPECT_GE(rows.size(), 3U);
  return rows;
}

std::int64_t number(const json& value) {
  return value.get<std::int64_t>();
}

TEST(Published, SheetsReachTheProvenOptimum) {
  for (const json& row : instances("sheets.jsonl")) {
    for (const std::string variant : {"guillotine_fixed", "guillotine_rot"}) {
      SCOPED_TRACE(row["name"].get<std::string>() + " " + variant);
      SheetJob job;
      job.kinds.push_back({number(row["sheet"][0]), number(row["sheet"][1]), 1, {}, {}});
      for (const json& item : row["items"]) {
        job.parts.push_back(
            {number(item[0]), number(item[1]), number(item[2]), variant.ends_with("_rot")});
      }
      SheetLimits limits;
      limits.threads = 1;
      limits.work = 300'000'000;
      const auto answer = solve_sheets(job, limits);
      ASSERT_TRUE(answer.ok());
      EXPECT_TRUE(check_sheets(job, answer.value()).empty());
      EXPECT_EQ(answer.value().cost, number(row["known"][variant]["ub"]));
      EXPECT_LE(answer.value().bound, number(row["known"][variant]["lb"]));
    }
  }
}

// Adding the kerf to every size and to the sheet makes the instance with kerf equal to the one
// without.
TEST(Published, SheetsReachItWithKerfAndTrimAsWell) {
  for (const json& row : instances("sheets.jsonl")) {
    SCOPED_TRACE(row["name"].get<std::string>());
    SheetJob job;
    job.kerf = 3;
    job.trim = 7;
    job.kinds.push_back(
        {4 * number(row["sheet"][0]) - 3 + 14, 4 * number(row["sheet"][1]) - 3 + 14, 1, {}, {}});
    for (const json& item : row["items"]) {
      job.parts.push_back(
          {4 * number(item[0]) - 3, 4 * number(item[1]) - 3, number(item[2]), false});
    }
    SheetLimits limits;
    limits.threads = 1;
    limits.work = 300'000'000;
    const auto answer = solve_sheets(job, limits);
    ASSERT_TRUE(answer.ok());
    EXPECT_TRUE(check_sheets(job, answer.value()).empty());
    EXPECT_EQ(answer.value().cost, number(row["known"]["guillotine_fixed"]["ub"]));
  }
}

TEST(Published, ValuesReachTheProvenOptimum) {
  for (const std::string file : {"sheet_value.jsonl", "sheets_value.jsonl"}) {
    for (const json& row : instances(file)) {
      SCOPED_TRACE(row["name"].get<std::string>());
      ValueJob job;
      job.width = number(row["sheet"][0]);
      job.height = number(row["sheet"][1]);
      job.sheets = row.value("sheets", 1);
      for (const json& item : row["items"]) {
        job.parts.push_back(
            {number(item[0]), number(item[1]), number(item[3]), number(item[2]), false});
      }
      const auto answer = solve_sheet_value(job);
      ASSERT_TRUE(answer.ok());
      EXPECT_TRUE(check_sheet_value(job, answer.value()).empty());
      EXPECT_EQ(answer.value().value, number(row["known"]["guillotine_fixed"]["ub"]));
    }
  }
}

TEST(Published, BarsReachTheProvenOptimumAndProveIt) {
  for (const json& row : instances("bars.jsonl")) {
    SCOPED_TRACE(row["name"].get<std::string>());
    BarJob job;
    job.kinds.push_back({number(row["capacity"]), 1, {}, {}});
    for (const json& item : row["items"]) {
      job.parts.push_back({number(item[0]), number(item[1])});
    }
    const auto answer = solve_bars(job);
    ASSERT_TRUE(answer.ok());
    EXPECT_TRUE(check_bars(job, answer.value()).empty());
    EXPECT_EQ(answer.value().bars, number(row["known"]["ub"]));
    EXPECT_TRUE(answer.value().proven);
  }
}

}  // namespace
}  // namespace plankwright::solve
