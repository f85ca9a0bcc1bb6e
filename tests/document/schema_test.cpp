#include <algorithm>
#include <regex>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "document/fields.h"

namespace plankwright::document {
namespace {

using nlohmann::json;

constexpr std::string_view kJoints[] = {"butt", "housed"};
constexpr Field kInner[] = {
    {.key = "side", .kind = FieldKind::kLength, .says = "Thickness of a leg.", .required = true}};
constexpr Field kTable[] = {
    {.key = "long",
     .kind = FieldKind::kLength,
     .says = "The \"whole\" length.",
     .required = true,
     .range = FieldRange::kPositive},
    {.key = "joint",
     .kind = FieldKind::kWord,
     .says = "How it is joined.",
     .fallback = "butt",
     .words = kJoints},
    {.key = "count", .kind = FieldKind::kCount, .says = "How many."},
    {.key = "painted", .kind = FieldKind::kYesNo, .says = "Whether."},
    {.key = "price", .kind = FieldKind::kMoney, .says = "Money."},
    {.key = "set_up", .kind = FieldKind::kMinutes, .says = "Minutes."},
    {.key = "margin", .kind = FieldKind::kPercent, .says = "Percent."},
    {.key = "heat", .kind = FieldKind::kCelsius, .says = "Heat."},
    {.key = "mass", .kind = FieldKind::kKilograms, .says = "Mass."},
    {.key = "load", .kind = FieldKind::kLineLoad, .says = "Load."},
    {.key = "due", .kind = FieldKind::kDate, .says = "Day."},
    {.key = "sizes", .kind = FieldKind::kLengths, .says = "Sizes."},
    {.key = "leg", .kind = FieldKind::kMap, .says = "A leg.", .inner = kInner},
    {.key = "legs", .kind = FieldKind::kMaps, .says = "Legs.", .inner = kInner},
    {.key = "parts", .kind = FieldKind::kNamedMaps, .says = "Parts.", .inner = kInner}};

json schema() {
  return json::parse(json_schema(kTable, "A table"));
}

TEST(JsonSchema, IsADraft202012Object) {
  const json s = schema();
  EXPECT_EQ(s["$schema"], "https://json-schema.org/draft/2020-12/schema");
  EXPECT_EQ(s["title"], "A table");
  EXPECT_EQ(s["type"], "object");
  EXPECT_EQ(s["required"], json::array({"long"}));
  EXPECT_EQ(s["additionalProperties"], false);
  EXPECT_EQ(s["properties"].size(), std::size(kTable));
  EXPECT_EQ(s["properties"]["long"]["description"], "The \"whole\" length.");
  EXPECT_EQ(s["properties"]["joint"]["default"], "butt");
}

TEST(JsonSchema, KeepsTheTablesOrder) {
  const auto s = nlohmann::ordered_json::parse(json_schema(kTable, "A table"));
  std::size_t i = 0;
  for (const auto& [key, value] : s["properties"].items()) {
    EXPECT_EQ(key, kTable[i++].key);
  }
}

TEST(JsonSchema, NestsMaps) {
  const json p = schema()["properties"];
  const json inner = {{"type", "object"},
                      {"properties", {{"side", p["leg"]["properties"]["side"]}}},
                      {"required", {"side"}},
                      {"additionalProperties", false}};
  json leg = p["leg"];
  leg.erase("description");
  EXPECT_EQ(leg, inner);
  EXPECT_EQ(p["legs"]["items"], inner);
  EXPECT_EQ(p["parts"]["additionalProperties"], inner);
}

/// Whether one of the alternatives of a schema takes the value. Written for the few keywords used.
bool takes(const json& schema, const json& value) {
  if (schema.contains("anyOf")) {
    return std::ranges::any_of(schema["anyOf"], [&](const json& s) { return takes(s, value); });
  }
  if (schema.contains("enum")) {
    return std::ranges::find(schema["enum"], value) != schema["enum"].end();
  }
  const std::string type = schema["type"];
  if (type == "array") {
    return value.is_array() &&
           std::ranges::all_of(value, [&](const json& v) { return takes(schema["items"], v); });
  }
  if (type == "string") {
    return value.is_string() && std::regex_match(value.get<std::string>(),
                                                 std::regex(schema["pattern"].get<std::string>()));
  }
  const bool right = type == "boolean"   ? value.is_boolean()
                     : type == "integer" ? value.is_number_integer()
                                         : value.is_number();
  return right && (!schema.contains("minimum") || value >= schema["minimum"]) &&
         (!schema.contains("exclusiveMinimum") || value > schema["exclusiveMinimum"]);
}

struct TakeCase {
  std::string_view key;
  json value;
  bool taken;
};

TEST(JsonSchema, TakesWhatTheReaderTakes) {
  const TakeCase cases[] = {{"long", 34, true},
                            {"long", -34, false},
                            {"long", "34 7/8", true},
                            {"long", "5' 2-1/2\"", true},
                            {"long", "if(side > 2, min(a.b, 3), 1 cm)", true},
                            {"long", "34;7", false},
                            {"long", true, false},
                            {"joint", "housed", true},
                            {"joint", "how", true},
                            {"joint", "half lap", false},
                            {"count", 3, true},
                            {"count", -3, false},
                            {"count", "2 * legs", true},
                            {"painted", "yes", true},
                            {"painted", true, true},
                            {"painted", 1, false},
                            {"price", 120.5, true},
                            {"price", "1,250.50", true},
                            {"price", "3 EUR", false},
                            {"set_up", "45 min", true},
                            {"set_up", "1 h 30 min", true},
                            {"set_up", "1 1/2 h", true},
                            {"set_up", "45 mim", false},
                            {"set_up", "usual_time", true},
                            {"margin", "35 %", true},
                            {"margin", "35", false},
                            {"heat", "-4.5 C", true},
                            {"heat", "20 K", false},
                            {"mass", "60 lb", true},
                            {"mass", "60", false},
                            {"load", "20 lb/ft", true},
                            {"load", "20 lb", false},
                            {"due", "2026-03-14", true},
                            {"due", "14.3.2026", false},
                            {"sizes", json::array({1, "3/4 in"}), true},
                            {"sizes", "3/4 in", true},
                            {"sizes", json::array({true}), false}};
  const json properties = schema()["properties"];
  for (const TakeCase& c : cases) {
    SCOPED_TRACE(std::string{c.key} + " " + c.value.dump());
    EXPECT_EQ(takes(properties[std::string{c.key}], c.value), c.taken);
  }
}

extern const Field kRound[2];
const Field kRound[2] = {
    {.key = "name", .kind = FieldKind::kText, .says = "Name."},
    {.key = "inside", .kind = FieldKind::kMaps, .says = "More of them.", .inner = kRound}};

TEST(JsonSchema, PointsBackToATableThatHoldsItself) {
  const json s = json::parse(json_schema(kRound, "Boxes in boxes"));
  EXPECT_EQ(s["properties"]["inside"]["items"], (json{{"$ref", "#"}}));
}

}  // namespace
}  // namespace plankwright::document
