#include "papers/schemas.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/nearest.h"
#include "commission/commission.h"
#include "document/fields.h"
#include "papers/plan_schema.h"
#include "piece/build_piece.h"
#include "piece/kit.h"
#include "piece/space.h"
#include "shop/read_shop.h"

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;

Json schema_of(document::FieldTable table, std::string_view title) {
  Json schema = Json::parse(document::json_schema(table, title));
  schema.erase("$schema");
  return schema;
}

Json reference_to(std::string_view definition) {
  return {{"$ref", fmt::format("#/$defs/{}", definition)}};
}

Json one_or_several(const Json& schema) {
  return {{"anyOf", Json::array({schema, {{"type", "array"}, {"items", schema}}})}};
}

/// Spaces hold kits, and kits hold spaces: where a table leaves a field open, the schema points to
/// the definition it stands for.
void link_spaces_and_kits(Json& schema) {
  if (!schema.contains("properties")) {
    return;
  }
  Json& properties = schema["properties"];
  const auto link = [&](std::string_view key, Json target) {
    const std::string name{key};
    if (!properties.contains(name)) {
      return;
    }
    if (properties[name].contains("description")) {
      target["description"] = properties[name]["description"];
    }
    properties[name] = std::move(target);
  };
  for (const piece::Kit& kit : piece::all_kits()) {
    link(kit.word, one_or_several(reference_to(kit.word)));
  }
  for (const std::string_view list : {"stack", "row", "bays"}) {
    link(list, {{"type", "array"}, {"items", reference_to("space")}});
  }
}

Json commission_schema() {
  Json schema =
      Json::parse(document::json_schema(commission::commission_fields(), "Plankwright commission"));
  Json definitions;
  definitions["piece"] = schema_of(piece::piece_fields(), "The piece");
  definitions["space"] = schema_of(piece::space_fields(), "A space in the piece");
  for (const piece::Kit& kit : piece::all_kits()) {
    definitions[std::string{kit.word}] = schema_of(kit.fields, kit.says);
  }
  for (auto& [name, definition] : definitions.items()) {
    link_spaces_and_kits(definition);
  }
  Json linked = reference_to("piece");
  if (schema["properties"]["piece"].contains("description")) {
    linked["description"] = schema["properties"]["piece"]["description"];
  }
  schema["properties"]["piece"] = std::move(linked);
  schema["$defs"].update(definitions);
  return schema;
}

}  // namespace

std::vector<std::string> schema_names() {
  return {"commission", "shop", "plan"};
}

base::Result<std::string> schema(std::string_view name) {
  if (name == "commission") {
    return commission_schema().dump(2);
  }
  if (name == "shop") {
    return Json::parse(document::json_schema(shop::shop_fields(), "Plankwright shop")).dump(2);
  }
  if (name == "plan") {
    return std::string{plan_schema()};
  }
  const std::vector<std::string> known = schema_names();
  return base::Error{
      base::ErrorCode::kBadInput,
      fmt::format(
          "found `{}`, expected {}", name, base::list_words(std::span<const std::string>{known})),
      std::nullopt,
      base::nearest_word(name, std::span<const std::string>{known})};
}

}  // namespace plankwright::papers
