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
  office.watch.tell(request.id, saved.value().version);
  return json_answer({{"version", saved.value().version}});
}

Answer get_versions(const Office& office, const Request& request) {
  const auto versions = office.keeper.versions(request.id);
  if (!versions.ok()) {
    return refusal_of(versions.error());
  }
  Json list = Json::array();
  for (const store::PastVersion& version : versions.value()) {
    list.push_back({{"number", version.number},
                    {"version", version.version},
                    {"written", version.written},
                    {"why", version.why}});
  }
  return json_answer({{"versions", std::move(list)}});
}

Answer get_version(const Office& office, const Request& request) {
  const auto kept = office.keeper.read_version(request.id, std::atoi(request.rest.c_str()));
  if (!kept.ok()) {
    return refusal_of(kept.error());
  }
  return json_answer({{"text", kept.value().text}, {"version", kept.value().version}});
}

Answer post_undo(const Office& office, const Request& request) {
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  const auto made = office.keeper.go_back(request.id, number_in(body.value(), "number"));
  if (!made.ok()) {
    return refusal_of(made.error());
  }
  if (const auto now = office.keeper.read(request.id); now.ok()) {
    office.watch.tell(request.id, now.value().version);
  }
  return get_text(office, request);
}

Answer post_edit(const Office& office, const Request& request) {
  const Asked asked = read_order(office, request);
  if (!asked.order) {
    return asked.refused;
  }
  const auto edit = edit_in(asked.body);
  if (!edit.ok()) {
    return refusal(400, base::Errors{edit.error()});
  }
  const auto changed =
      store::edit_text(asked.order->plan.text, asked.order->plan.file, edit.value());
  if (!changed.ok()) {
    return refusal(422, base::Errors{changed.error()});
  }
  return json_answer({{"text", changed.value()}});
}

Answer post_values(const Office& office, const Request& request) {
  const Asked asked = read_order(office, request);
  if (!asked.order) {
    return asked.refused;
  }
  const PlanOrder& order = asked.order->plan;
  const plan::Documents documents = plan::read_documents(order.text, order.file, order.open);
  const commission::ReadCommission read =
      commission::read_commission(documents.root, order.file, documents.shop);
  Json list = Json::array();
  for (const WrittenValue& value : written_values(documents.root, read.commission)) {
    list.push_back(value_json(value));
  }
  return json_answer({{"values", std::move(list)}, {"errors", errors_json(documents.errors)}});
}

}  // namespace plankwright::server
