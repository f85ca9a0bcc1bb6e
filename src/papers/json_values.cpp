#include "papers/json_values.h"

#include "measure/expression.h"

namespace plankwright::papers {

nlohmann::ordered_json JsonValues::length(measure::Length size) const {
  return {{"mm", size.mm()},
          {"text", measure::print_with_unit(size, named_by_->commission.unit())}};
}

nlohmann::ordered_json JsonValues::paths(const std::vector<piece::PartIndex>& parts) const {
  Json list = Json::array();
  for (const piece::PartIndex i : parts) {
    list.push_back(named_by_->piece.parts[i].path);
  }
  return list;
}

nlohmann::ordered_json JsonValues::place(const base::Position& at) {
  return {{"file", at.file}, {"line", at.line}, {"column", at.column}};
}

}  // namespace plankwright::papers
