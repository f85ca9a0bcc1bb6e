#include "papers/findings_json.h"

#include "papers/json_values.h"

namespace plankwright::papers {
namespace {

class Writer : JsonValues {
 public:
  explicit Writer(const plan::Plan& plan) : JsonValues{plan} {}

  Json list(const std::vector<checks::Finding>& findings) const {
    Json json = Json::array();
    for (const checks::Finding& each : findings) {
      json.push_back(finding(each));
    }
    return json;
  }

 private:
  Json mend(const checks::Mend& from) const {
    return {{"from", place(from.from)},
            {"fields", from.fields},
            {"was", length(from.was)},
            {"to", length(from.to)},
            {"says", from.says}};
  }

  Json finding(const checks::Finding& from) const {
    Json mends = Json::array();
    for (const checks::Mend& each : from.mends) {
      mends.push_back(mend(each));
    }
    return {{"id", from.id},
            {"kind", from.kind},
            {"severity", checks::word(from.severity)},
            {"title", from.title},
            {"figure", from.figure},
            {"limit", from.limit},
            {"source", from.source},
            {"remedy", from.remedy},
            {"mends", std::move(mends)},
            {"value", from.value},
            {"limit_value", from.limit_value},
            {"unit", from.unit},
            {"parts", paths(from.parts)},
            {"from", place(from.from)},
            {"dismissed", from.dismissed}};
  }
};

}  // namespace

nlohmann::ordered_json findings_json(const plan::Plan& plan) {
  const Writer writer{plan};
  return {{"open", writer.list(plan.findings.open)},
          {"dismissed", writer.list(plan.findings.dismissed)}};
}

}  // namespace plankwright::papers
