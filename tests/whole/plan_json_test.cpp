// The JSON of a plan holds to its published schema, and the schemas in docs/ are those the program
// prints.

#include "papers/plan_json.h"

#include <fstream>
#include <sstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "papers/schemas.h"
#include "whole/planned.h"
#include "whole/schema_check.h"

namespace plankwright::whole {
namespace {

using nlohmann::json;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

json plan_schema() {
  return json::parse(papers::schema("plan").value());
}

class PlanJson : public ::testing::TestWithParam<const char*> {};

TEST_P(PlanJson, HoldsToItsSchema) {
  SchemaCheck check{plan_schema()};
  EXPECT_THAT(check.faults(json::parse(papers::plan_json(planned(GetParam())))), IsEmpty());
}

TEST_P(PlanJson, SaysWhatThePlanSays) {
  const plan::Plan& plan = planned(GetParam());
  const json printed = json::parse(papers::plan_json(plan));
  EXPECT_EQ(printed["price"]["price"].get<std::int64_t>(), plan.price.price.minor());
  EXPECT_EQ(printed["piece"]["parts"].size(), plan.piece.parts.size());
  EXPECT_EQ(printed["findings"]["open"].size(), plan.findings.open.size());
  EXPECT_EQ(printed["bench"]["operations"].size(), plan.bench.operations.size());
  std::size_t listed = 0;
  for (const json& line : printed["piece"]["lines"]) {
    listed += line["quantity"].get<std::size_t>();
  }
  EXPECT_EQ(listed, plan.piece.parts.size());
}

INSTANTIATE_TEST_SUITE_P(Demos,
                         PlanJson,
                         ::testing::Values("hall_cabinet", "dining_table", "study_wall"),
                         [](const auto& param) { return std::string{param.param}; });

TEST(SchemaCheck, FindsEachKindOfFault) {
  const json plan = json::parse(papers::plan_json(planned("dining_table")));
  SchemaCheck check{plan_schema()};
  json broken = plan;
  broken.erase("price");
  EXPECT_THAT(check.faults(broken), Contains(HasSubstr("lacks price")));
  broken = plan;
  broken["piece"]["parts"][0]["colour"] = "red";
  EXPECT_THAT(check.faults(broken), Contains(HasSubstr("has colour")));
  broken = plan;
  broken["price"]["tax"] = "much";
  EXPECT_THAT(check.faults(broken), Contains(HasSubstr("/price/tax: is not of type integer")));
  broken = plan;
  broken["piece"]["parts"][0]["hand"] = "middle";
  EXPECT_THAT(check.faults(broken), Contains(HasSubstr("is not one of")));
}

TEST(Schemas, InTheDocsAreThoseTheProgramPrints) {
  for (const std::string& name : papers::schema_names()) {
    std::ifstream in{PLANKWRIGHT_SOURCE_DIR "/docs/" + name + ".schema.json"};
    std::ostringstream text;
    text << in.rdbuf();
    ASSERT_TRUE(json::accept(text.str())) << name;
    EXPECT_TRUE(json::parse(text.str()) == json::parse(papers::schema(name).value()))
        << "write it anew: plankwright schema " << name << " > docs/" << name << ".schema.json";
  }
}

}  // namespace
}  // namespace plankwright::whole
