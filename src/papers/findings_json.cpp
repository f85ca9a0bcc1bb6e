#include "papers/findings_json.h"

#include "measure/expression.h"

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;

Json place(const base::Position& at) {
  return {{"file", at.file}, {"line", at.line}, {"column", at.column}};
}

Json length(measure::Length size, const plan::Plan& plan) {
  return {{"mm", size.mm()}, {"text", measure::print_with_unit(size, plan.commission.unit())}};
}

Json mend_json(const checks::Mend& mend, const plan::Plan& plan) {
  return {{"from", place(mend.from)},
          {"fields", mend.fields},
          {"was", length(mend.was, plan)},
          {"to", length(mend.to, plan)},
          {"says", mend.says}};
}

Json finding_json(const checks::Finding& finding, const plan::Plan& plan) {
  Json mends = Json::array();
  for (const checks::Mend& mend : finding.mends) {
    mends.push_back(mend_json(mend, plan));
  }
  Json parts = Json::array();
  for (const piece::PartIndex i : finding.parts) {
    parts.push_back(plan.piece.parts[i].path);
  }
  return {{"id", finding.id},
          {"kind", finding.kind},
          {"severity", checks::word(finding.severity)},
          {"title", finding.title},
          {"figure", finding.figure},
          {"limit", finding.limit},
          {"source", finding.source},
          {"remedy", finding.remedy},
          {"mends", std::move(mends)},
          {"value", finding.value},
          {"limit_value", finding.limit_value},
          {"unit", finding.unit},
          {"parts", std::move(parts)},
          {"from", place(finding.from)},
          {"dismissed", finding.dismissed}};
}

}  // namespace

Json findings_json(const plan::Plan& plan) {
  Json json = {{"open", Json::array()}, {"dismissed", Json::array()}};
  for (const checks::Finding& finding : plan.findings.open) {
    json["open"].push_back(finding_json(finding, plan));
  }
  for (const checks::Finding& finding : plan.findings.dismissed) {
    json["dismissed"].push_back(finding_json(finding, plan));
  }
  return json;
}

}  // namespace plankwright::papers
