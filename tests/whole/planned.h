#pragma once
// Plans an example once for all tests of the whole job.

#include <map>
#include <stdexcept>
#include <string>

#include "base/result.h"
#include "plan/plan.h"
#include "store/files.h"

namespace plankwright::whole {

inline std::string example_path(const std::string& name) {
  return std::string{PLANKWRIGHT_SOURCE_DIR} + "/examples/" + name + ".yaml";
}

inline const plan::Reference& reference() {
  static const plan::Reference kReference = store::read_reference().value();
  return kReference;
}

/// Plans a text as if it stood beside the examples.
inline plan::Planned plan_text(const std::string& text, const commission::Picks& picks = {}) {
  const std::string file = example_path("written_here");
  return plan::plan_commission(text, file, store::open_beside(file), reference(), picks, {});
}

/// The plan of an example, with these picks.
inline const plan::Plan& planned(const std::string& name, const commission::Picks& picks = {}) {
  static std::map<std::pair<std::string, commission::Picks>, plan::Plan> plans;
  const auto key = std::pair{name, picks};
  if (!plans.contains(key)) {
    const std::string file = example_path(name);
    plan::Planned made = plan::plan_commission(
        store::read_file(file).value(), file, store::open_beside(file), reference(), picks, {});
    if (!made.plan) {
      std::string all;
      for (const base::Error& error : made.errors) {
        all += base::describe(error);
      }
      throw std::runtime_error(name + " cannot be planned:\n" + all);
    }
    plans.emplace(key, std::move(*made.plan));
  }
  return plans.at(key);
}

}  // namespace plankwright::whole
