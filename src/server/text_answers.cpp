// The written text: to be read, kept, and changed value by value.
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "plan/stages.h"
#include "server/office.h"
#include "server/written_values.h"
#include "store/edit_text.h"
#include "store/files.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

/// The text under `key`, when it is one.
const std::string* text_in(const nlohmann::json& body, const char* key) {
  const auto found = body.find(key);
  return found != body.end() && found->is_string() ? found->get_ptr<const std::string*>() : nullptr;
}

int number_in(const nlohmann::json& body, const char* key) {
  const auto found = body.find(key);
  return found != body.end() && found->is_number_integer() ? found->get<int>() : 0;
}

base::Result<store::Edit> edit_in(const nlohmann::json& body) {
  const std::string* from = text_in(body, "from");
  const std::string* to = text_in(body, "to");
  const auto at = body.find("at");
  if (from == nullptr || to == nullptr || at == body.end() || !at->is_object()) {
    return base::Error{base::ErrorCode::kBadInput,
                       "an edit needs `at` with line and column, `from` and `to`"};
  }
  return store::Edit{number_in(*at, "line"), number_in(*at, "column"), *from, *to};
}

Json value_json(const WrittenValue& value) {
  Json json = {{"path", value.path},
               {"line", value.at.line},
               {"column", value.at.column},
               {"written", value.written},
               {"kind", value.kind}};
  if (value.length) {
    json["millimetres"] = value.length->mm();
  }
  if (!value.says.empty()) {
    json["says"] = value.says;
  }
  if (!value.options.empty()) {
    json["options"] = value.options;
  }
  return json;
}

}  // namespace

base::Result<Order> order_for(const Office& office,
                              const Request& request,
                              const std::string& text) {
  const auto entry = office.keeper.find(request.id);
  if (!entry.ok()) {
    return entry.error();
  }
  return Order{{text, entry.value().file, office.keeper.opener(request.id)}, store::hash_of(text)};
}

base::Result<Order> order_for(const Office& office, const Request& request) {
  const auto kept = office.keeper.read(request.id);
  if (!kept.ok()) {
    return kept.error();
  }
  return order_for(office, request, kept.value().text);
}

base::Result<Order> order_for(const Office& office,
                              const Request& request,
                              const nlohmann::json& body) {
  const std::string* text = text_in(body, "text");
  return text != nullptr ? order_for(office, request, *text) : order_for(office, request);
}

Answer get_text(const Office& office, const Request& request) {
  const auto kept = office.keeper.read(request.id);
  if (!kept.ok()) {
    return refusal_of(kept.error());
  }
  Answer answer = json_answer({{"text", kept.value().text}, {"version", kept.value().version}});
  answer.headers["ETag"] = '"' + kept.value().version + '"';
  return answer;
}

Answer put_text(const Office& office, const Request& request) {
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  const std::string* text = text_in(body.value(), "text");
  const std::string* version = text_in(body.value(), "version");
  if (text == nullptr || version == nullptr) {
    return refusal(400, "keeping a text needs `text`, and `version` of the text it was made from");
  }
  const auto saved = office.keeper.save(request.id, *text, *version);
  if (!saved.ok()) {
    return refusal_of(saved.error());
  }
  if (saved.value().theirs) {
    const base::Errors errors = {
        {base::ErrorCode::kBadInput,
         "the text was changed elsewhere since it was read; nothing was overwritten"}};
    return json_answer({{"errors", errors_json(errors)},
                        {"text", saved.value().theirs->text},
                        {"version", saved.value().version}},
                       409);
  }
  office.events.publish("changed",
                        Json{{"id", request.id}, {"version", saved.value().version}}.dump());
  return json_answer({{"version", saved.value().version}});
}

Answer post_edit(const Office& office, const Request& request) {
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  const auto edit = edit_in(body.value());
  if (!edit.ok()) {
    return refusal(400, base::Errors{edit.error()});
  }
  const auto order = order_for(office, request, body.value());
  if (!order.ok()) {
    return refusal_of(order.error());
  }
  const auto changed =
      store::edit_text(order.value().plan.text, order.value().plan.file, edit.value());
  if (!changed.ok()) {
    return refusal(422, base::Errors{changed.error()});
  }
  return json_answer({{"text", changed.value()}});
}

Answer post_values(const Office& office, const Request& request) {
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  const auto order = order_for(office, request, body.value());
  if (!order.ok()) {
    return refusal_of(order.error());
  }
  const PlanOrder& asked = order.value().plan;
  const plan::Documents documents = plan::read_documents(asked.text, asked.file, asked.open);
  const commission::ReadCommission read =
      commission::read_commission(documents.root, asked.file, documents.shop);
  Json list = Json::array();
  for (const WrittenValue& value : written_values(documents.root, read.commission)) {
    list.push_back(value_json(value));
  }
  return json_answer({{"values", std::move(list)}, {"errors", errors_json(documents.errors)}});
}

}  // namespace plankwright::server
