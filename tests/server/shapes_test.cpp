// Every answer has the shape that docs/api.schema.json publishes, from which the types of the pages
// are generated.
#include <cstring>
#include <fstream>

#include <gmock/gmock.h>

#include "server/served.h"
#include "whole/schema_check.h"

namespace plankwright::server {
namespace {

Json read_schema(const std::string& name) {
  std::ifstream in{kSource / "docs" / name};
  return Json::parse(in);
}

/// References to the plan's schema as references within one document.
void point_inwards(Json& schema) {
  if (schema.is_object() && schema.contains("$ref")) {
    const std::string target = schema["$ref"];
    const std::string file = "plan.schema.json";
    if (target.rfind(file, 0) == 0) {
      const std::string inside = target.substr(file.size());
      schema["$ref"] = "#/$defs/the_plan" + (inside.empty() ? "" : inside.substr(1));
    }
  }
  for (Json& child : schema) {
    if (child.is_structured()) {
      point_inwards(child);
    }
  }
}

/// Both schemas as one; the plan's own definitions go beside those of the answers.
const Json& all_shapes() {
  static const Json kAll = [] {
    Json api = read_schema("api.schema.json");
    point_inwards(api);
    Json plan = read_schema("plan.schema.json");
    for (const auto& [name, shape] : plan["$defs"].items()) {
      EXPECT_FALSE(api["$defs"].contains(name)) << name << " means two things";
      api["$defs"][name] = shape;
    }
    api["$defs"]["the_plan"] = plan;
    return api;
  }();
  return kAll;
}

void expect_shape(const Json& value, const std::string& name) {
  Json schema = all_shapes();
  schema["$ref"] = "#/$defs/" + name;
  whole::SchemaCheck check{schema};
  EXPECT_THAT(check.faults(value), testing::IsEmpty()) << name;
}

TEST(Shapes, OfEveryAnswerAreThosePublished) {
  const Served served;
  expect_shape(served.get("/api/shelf"), "shelf");
  expect_shape(served.post("/api/shelf", {{"pattern", "bench"}}, 201), "created");
  expect_shape(served.post("/api/shelf", {{"pattern", ""}, {"name", "Empty"}}, 201), "created");
  expect_shape(served.get("/api/shelf"), "shelf");  // now with one that cannot be planned
  for (const std::string id : {"hall_cabinet", "dining_table", "study_wall", "empty"}) {
    const std::string at = "/api/commissions/" + id;
    expect_shape(served.get(at + "/text"), "kept_text");
    expect_shape(served.post(at + "/plan", Json::object()), "plan_answer");
    expect_shape(served.post(at + "/plan", {{"quick", true}}), "plan_answer");
    expect_shape(served.post(at + "/values", Json::object()), "values_answer");
    expect_shape(served.get(at + "/ticks"), "ticks");
    expect_shape(served.get(at + "/versions"), "versions_answer");
    if (id == "empty") {
      expect_shape(served.get(at + "/compare", 422), "refusal");
      expect_shape(served.get(at + "/papers", 422), "refusal");
      expect_shape(served.post(at + "/solids", Json::object(), 422), "refusal");
      continue;
    }
    expect_shape(served.get(at + "/compare"), "comparison");
    expect_shape(served.get(at + "/papers"), "papers_answer");
    const auto solids = served.client().Post(at + "/solids", "{}", "application/json");
    ASSERT_TRUE(solids);
    std::uint32_t length = 0;
    std::memcpy(&length, solids->body.data(), sizeof length);
    expect_shape(Json::parse(solids->body.substr(4, length)), "solids_head");
  }
  const Json text = served.get("/api/commissions/study_wall/text");
  expect_shape(served.put("/api/commissions/study_wall/text",
                          {{"text", text["text"]}, {"version", text["version"]}}),
               "kept");
  expect_shape(
      served.put("/api/commissions/study_wall/text", {{"text", ""}, {"version", "x"}}, 409),
      "refusal");
  expect_shape(served.post("/api/commissions/study_wall/edit",
                           {{"at", {{"line", 4}, {"column", 13}}},
                            {"from", "Signal House study wall"},
                            {"to", "Signal House shelves"}}),
               "edited");
  expect_shape(served.get("/api/commissions/none/text", 404), "refusal");
  expect_shape(served.get("/api/none", 404), "refusal");
}

}  // namespace
}  // namespace plankwright::server
