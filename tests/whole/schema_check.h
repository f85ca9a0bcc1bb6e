#pragma once
// Holds JSON to a schema, as far as the schemas of this project go: type, const, enum, anyOf,
// properties, required, additionalProperties, items, minItems, maxItems and local references.

#include <algorithm>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace plankwright::whole {

class SchemaCheck {
 public:
  explicit SchemaCheck(const nlohmann::json& schema)
      : root_(schema) {}  // braces would make a list of it

  /// Every place where `value` breaks the schema, as `/path: what is wrong`.
  std::vector<std::string> faults(const nlohmann::json& value) {
    faults_.clear();
    check(value, root_, "");
    return faults_;
  }

 private:
  using Json = nlohmann::json;

  void check(const Json& value, const Json& schema, const std::string& path) {
    if (schema.contains("$ref")) {
      const std::string name = schema["$ref"];
      check(value, root_.at(Json::json_pointer(name.substr(1))), path);
      return;
    }
    if (schema.contains("anyOf")) {
      check_any_of(value, schema["anyOf"], path);
    }
    if (schema.contains("const") && value != schema["const"]) {
      fault(path, "is not " + schema["const"].dump());
    }
    if (schema.contains("enum") && !contains(schema["enum"], value)) {
      fault(path, value.dump() + " is not one of " + schema["enum"].dump());
    }
    if (schema.contains("type") && !has_type(value, schema["type"])) {
      const Json& type = schema["type"];
      fault(path, "is not of type " + (type.is_string() ? type.get<std::string>() : type.dump()));
      return;
    }
    if (value.is_object()) {
      check_object(value, schema, path);
    } else if (value.is_array()) {
      check_array(value, schema, path);
    }
  }

  /// The faults of the way that comes nearest, when none fits.
  void check_any_of(const Json& value, const Json& ways, const std::string& path) {
    const std::vector<std::string> before = faults_;
    std::vector<std::string> nearest;
    for (const Json& way : ways) {
      faults_.clear();
      check(value, way, path);
      if (faults_.empty()) {
        faults_ = before;
        return;
      }
      if (nearest.empty() || faults_.size() < nearest.size()) {
        nearest = faults_;
      }
    }
    faults_ = before;
    faults_.insert(faults_.end(), nearest.begin(), nearest.end());
  }

  void check_object(const Json& value, const Json& schema, const std::string& path) {
    for (const auto& key : schema.value("required", Json::array())) {
      if (!value.contains(key.get<std::string>())) {
        fault(path, "lacks " + key.get<std::string>());
      }
    }
    const Json properties = schema.value("properties", Json::object());
    for (const auto& [key, child] : value.items()) {
      if (properties.contains(key)) {
        check(child, properties[key], path + "/" + key);
      } else if (schema.contains("additionalProperties") &&
                 schema["additionalProperties"].is_object()) {
        check(child, schema["additionalProperties"], path + "/" + key);
      } else if (schema.contains("additionalProperties") &&
                 schema["additionalProperties"] == false) {
        fault(path, "has " + key + ", which the schema does not know");
      }
    }
  }

  void check_array(const Json& value, const Json& schema, const std::string& path) {
    if (value.size() < schema.value("minItems", std::size_t{0}) ||
        value.size() > schema.value("maxItems", value.size())) {
      fault(path, "has " + std::to_string(value.size()) + " items");
    }
    for (std::size_t i = 0; schema.contains("items") && i < value.size(); ++i) {
      check(value[i], schema["items"], path + "/" + std::to_string(i));
    }
  }

  static bool contains(const Json& list, const Json& value) {
    return std::find(list.begin(), list.end(), value) != list.end();
  }
  static bool has_type(const Json& value, const Json& type) {
    if (type.is_array()) {
      return std::any_of(
          type.begin(), type.end(), [&](const Json& one) { return has_type(value, one); });
    }
    return type == "object"    ? value.is_object()
           : type == "array"   ? value.is_array()
           : type == "string"  ? value.is_string()
           : type == "integer" ? value.is_number_integer()
           : type == "number"  ? value.is_number()
           : type == "boolean" ? value.is_boolean()
           : type == "null"    ? value.is_null()
                               : false;
  }
  void fault(const std::string& path, const std::string& what) {
    faults_.push_back(path + ": " + what);
  }

  Json root_;
  std::vector<std::string> faults_;
};

}  // namespace plankwright::whole
