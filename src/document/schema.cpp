// JSON Schema of the tables, for editors that complete and check while a maker writes.
#include <vector>

#include <nlohmann/json.hpp>

#include "document/fields.h"

namespace plankwright::document {
namespace {

using Json = nlohmann::ordered_json;

// A name may stand for nearly every value; editors can only see that it could be one.
constexpr const char* kNamePattern = "^[A-Za-z_][A-Za-z0-9_.]*$";
constexpr const char* kWordPattern = "^[A-Za-z0-9_.]+$";
// Characters an expression can hold; its grammar is no regular one.
constexpr const char* kExpressionPattern =
    "^[A-Za-z0-9_.+\\-*/()<>=!, "
    "'\"\\u00BC-\\u00BE\\u2150-\\u215E\\u2032\\u2033\\u2044\\u2212\\u00D7"
    "\\u00F7]+$";
#define PLANKWRIGHT_AMOUNT \
  "(\\d+(\\.\\d+)?|\\d+/\\d+|\\d+[ -]\\d+/\\d+|\\d*[\\u00BC-\\u00BE\\u2150-\\u215E])"
constexpr const char* kMinutesPattern =
    "^" PLANKWRIGHT_AMOUNT " *((h|hr|hours?)( *" PLANKWRIGHT_AMOUNT
    " *(mins?|minutes?))?|mins?|minutes?)$";
constexpr const char* kPercentPattern = "^-?" PLANKWRIGHT_AMOUNT " *%$";
constexpr const char* kCelsiusPattern = "^-?" PLANKWRIGHT_AMOUNT " *\\u00B0?[CF]$";
constexpr const char* kKilogramsPattern = "^" PLANKWRIGHT_AMOUNT " *(kg|g|lbs?)$";
constexpr const char* kLineLoadPattern = "^" PLANKWRIGHT_AMOUNT " *(kg/m|lbs?/ft|N/mm|N/m|kN/m)$";
#undef PLANKWRIGHT_AMOUNT
constexpr const char* kMoneyPattern = "^-?(\\d+|\\d{1,3}(,\\d{3})+)(\\.\\d{1,2})?$";
constexpr const char* kDatePattern = "^\\d{4}-\\d{2}-\\d{2}$";

Json text_like(const char* pattern) {
  return {{"type", "string"}, {"pattern", pattern}};
}

Json any_of(std::initializer_list<Json> choices) {
  return {{"anyOf", Json(std::vector<Json>(choices))}};
}

Json list_or_one(const Json& one) {
  return any_of({{{"type", "array"}, {"items", one}}, one, text_like(kNamePattern)});
}

Json number_or(const char* pattern, FieldRange range) {
  Json number{{"type", "number"}};
  if (range == FieldRange::kPositive) {
    number["exclusiveMinimum"] = 0;
  } else if (range == FieldRange::kNotNegative) {
    number["minimum"] = 0;
  }
  return any_of({number, text_like(pattern)});
}

/// Writes the schema of a table. A table that holds itself is written once and pointed to.
class Writer {
 public:
  Json map(FieldTable table, const std::string& here);

 private:
  struct Open {
    const Field* table = nullptr;
    std::string place;
  };
  Json field(const Field& field, const std::string& here);
  static Json value(const Field& field);
  std::vector<Open> open_;
};

Json Writer::map(FieldTable table, const std::string& here) {
  for (const Open& open : open_) {
    if (open.table == table.data() && !table.empty()) {
      return {{"$ref", open.place}};
    }
  }
  open_.push_back({table.data(), here});
  Json schema{{"type", "object"}, {"properties", Json::object()}};
  for (const Field& f : table) {
    const std::string key{f.key};
    schema["properties"][key] = field(f, here + "/properties/" + key);
    if (f.required) {
      schema["required"].push_back(key);
    }
  }
  schema["additionalProperties"] = false;
  open_.pop_back();
  return schema;
}

Json Writer::field(const Field& field, const std::string& here) {
  Json schema = [&]() -> Json {
    switch (field.kind) {
      case FieldKind::kMap:
        return map(field.inner, here);
      case FieldKind::kMaps:
        return {{"type", "array"}, {"items", map(field.inner, here + "/items")}};
      case FieldKind::kNamedMaps:
        return {{"type", "object"},
                {"propertyNames", {{"pattern", kWordPattern}}},
                {"additionalProperties", map(field.inner, here + "/additionalProperties")}};
      default:
        return value(field);
    }
  }();
  if (!field.says.empty()) {
    schema["description"] = std::string{field.says};
  }
  if (!field.fallback.empty()) {
    schema["default"] = std::string{field.fallback};
  }
  return schema;
}

Json Writer::value(const Field& field) {
  const auto named = [](const char* pattern) {
    return any_of({text_like(pattern), text_like(kNamePattern)});
  };
  switch (field.kind) {
    case FieldKind::kLength:
    case FieldKind::kNumber:
      return number_or(kExpressionPattern, field.range);
    case FieldKind::kCount:
      return any_of(
          {{{"type", "integer"}, {"minimum", field.range == FieldRange::kPositive ? 1 : 0}},
           text_like(kExpressionPattern)});
    case FieldKind::kMoney:
      return any_of({number_or(kMoneyPattern, field.range)["anyOf"][0],
                     text_like(kMoneyPattern),
                     text_like(kNamePattern)});
    case FieldKind::kPercent:
      return named(kPercentPattern);
    case FieldKind::kMinutes:
      return named(kMinutesPattern);
    case FieldKind::kCelsius:
      return named(kCelsiusPattern);
    case FieldKind::kKilograms:
      return named(kKilogramsPattern);
    case FieldKind::kLineLoad:
      return named(kLineLoadPattern);
    case FieldKind::kDate:
      return named(kDatePattern);
    case FieldKind::kYesNo:
      return any_of({{{"type", "boolean"}}, {{"enum", {"yes", "no"}}}, text_like(kNamePattern)});
    case FieldKind::kWord: {
      Json words = Json::array();
      for (const std::string_view word : field.words) {
        words.push_back(std::string{word});
      }
      return any_of({{{"enum", words}}, text_like(kNamePattern)});
    }
    case FieldKind::kIdentifier:
      return text_like(kWordPattern);
    case FieldKind::kIdentifiers:
      return list_or_one(text_like(kWordPattern));
    case FieldKind::kLengths:
      return list_or_one(number_or(kExpressionPattern, field.range));
    case FieldKind::kPercents:
      return list_or_one(text_like(kPercentPattern));
    case FieldKind::kText:
      return {{"type", {"string", "number", "boolean", "null"}}};
    default:
      return Json::object();
  }
}

}  // namespace

std::string json_schema(FieldTable table, std::string_view title) {
  Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", std::string{title}}};
  schema.update(Writer{}.map(table, "#"));
  return schema.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace plankwright::document
