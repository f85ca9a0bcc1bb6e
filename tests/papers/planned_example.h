#pragma once
// The example commissions planned from their files, once a test program.

#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "bench/rules.h"
#include "plan/plan.h"

namespace plankwright::papers {

inline base::Result<std::string> text_of(const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  if (!in) {
    return base::Error{base::ErrorCode::kIo, "cannot read " + path};
  }
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

inline const std::string kSource = PLANKWRIGHT_SOURCE_DIR;

/// Beside the examples first, then among the tables.
inline base::Result<std::string> open_example(const std::string& name) {
  auto text = text_of(kSource + "/examples/" + name);
  return text.ok() ? text : text_of(kSource + "/data/" + name);
}

inline plan::Reference read_tables() {
  const auto table = [](const std::string& name) { return text_of(kSource + "/data/" + name); };
  auto wood = wood::read_reference(table);
  bench::ReadRules rules =
      bench::read_rules(table("operation_rules.csv").value(), "operation_rules.csv");
  const base::Errors wrong =
      bench::read_cautions(table("cautions.csv").value(), "cautions.csv", rules.rules);
  EXPECT_TRUE(wood.ok() && rules.errors.empty() && wrong.empty());
  plan::Reference reference;
  reference.wood = std::move(wood).value();
  reference.rules = std::move(rules.rules);
  return reference;
}

/// A commission written in the test, with the files that examples may name.
inline plan::Planned planned_text(const std::string& text, const commission::Picks& picks = {}) {
  static const plan::Reference reference = read_tables();
  plan::PlanLimits limits;
  limits.work = 0.2;
  limits.compare_choices = false;
  return plan::plan_commission(text, "test.yaml", open_example, reference, picks, limits);
}

/// Read once, so that all tests of a run see the same text.
inline const std::string& example_text(const std::string& example) {
  static std::map<std::string, std::string> texts;
  const auto found = texts.find(example);
  return found != texts.end()
             ? found->second
             : texts.emplace(example, open_example(example + ".yaml").value()).first->second;
}

inline plan::Plan planned(const std::string& example, const commission::Picks& picks = {}) {
  plan::Planned made = planned_text(example_text(example), picks);
  for (const base::Error& error : made.errors) {
    ADD_FAILURE() << base::describe(error);
  }
  return made.plan ? std::move(*made.plan) : plan::Plan{};
}

/// The same, planned once; tests only read it.
inline const plan::Plan& example_plan(const std::string& example) {
  static std::map<std::string, plan::Plan> plans;
  const auto found = plans.find(example);
  return found != plans.end() ? found->second
                              : plans.emplace(example, planned(example)).first->second;
}

inline constexpr const char* kExamples[] = {"hall_cabinet", "dining_table", "study_wall"};

}  // namespace plankwright::papers
