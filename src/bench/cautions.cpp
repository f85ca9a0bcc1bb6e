#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "bench/step_text.h"

namespace plankwright::bench {
namespace {

constexpr std::size_t kMostCautions = 3;

using piece::Part;

/// What makes a caution apply: the part, and its figure as it is read.
struct Ground {
  std::string part;
  std::string size;
  std::string limit;
};

class Grounds {
 public:
  Grounds(const Batch& batch, const Tasks& tasks, const Job& job)
      : batch_{batch}, first_{batch.first(tasks)}, job_{job} {}

  /// Why a caution applies to the work, or nothing.
  std::optional<Ground> of(const Caution& caution) const {
    switch (caution.when) {
      case When::kAlways:
        return Ground{};
      case When::kShorterThan:
        return smallest(&piece::Size::length, shortest(caution));
      case When::kNarrowerThan:
        return smallest(&piece::Size::width, Length::from_mm(caution.limit));
      case When::kThinnerThan:
        return smallest(&piece::Size::thickness, Length::from_mm(caution.limit));
      case When::kWiderThan:
        return largest(&piece::Size::width, Length::from_mm(caution.limit));
      case When::kLongerThan:
        return largest(&piece::Size::length, Length::from_mm(caution.limit));
      case When::kHeavierThan:
        return heavier(caution.limit);
      case When::kMoreThan:
        return more(batch_.pieces, caution.limit);
      case When::kPeople:
        return more(batch_.people, caution.limit - 1);
      case When::kSpecies:
        return first_part([&](const Part& part) { return is_one_of(part.species, caution.words); });
      case When::kMaterial:
        return first_part([&](const Part& part) {
          const char* word = part.material == piece::Material::kSolid   ? "solid"
                             : part.material == piece::Material::kSheet ? "sheet"
                                                                        : "bought";
          return std::ranges::find(caution.words, word) != caution.words.end();
        });
      case When::kLoosePanel:
        return first_part([](const Part& part) { return part.moves_free; });
      case When::kFinish:
        return finish(caution.words);
    }
    return std::nullopt;
  }

 private:
  std::string shown(Length length) const {
    return measure::print_with_unit(length, job_.commission.unit());
  }

  Length shortest(const Caution& caution) const {
    const shop::Machine* machine = job_.shop.machine(first_.standard->machine);
    return machine != nullptr && machine->shortest ? *machine->shortest
                                                   : Length::from_mm(caution.limit);
  }

  /// Sizes as the machine takes the part: a spare or a rough piece is no smaller.
  std::optional<Ground> smallest(Length piece::Size::*size, Length limit) const {
    const Part* found = nullptr;
    for (const PartIndex index : batch_.parts) {
      const Part& part = job_.piece.parts[index];
      if (part.cut.*size < limit && (found == nullptr || part.cut.*size < found->cut.*size)) {
        found = &part;
      }
    }
    return found == nullptr
               ? std::nullopt
               : std::optional{Ground{found->name, shown(found->cut.*size), shown(limit)}};
  }

  std::optional<Ground> largest(Length piece::Size::*size, Length limit) const {
    const Part* found = nullptr;
    for (const PartIndex index : batch_.parts) {
      const Part& part = job_.piece.parts[index];
      if (part.cut.*size > limit && (found == nullptr || part.cut.*size > found->cut.*size)) {
        found = &part;
      }
    }
    return found == nullptr
               ? std::nullopt
               : std::optional{Ground{found->name, shown(found->cut.*size), shown(limit)}};
  }

  std::optional<Ground> heavier(double limit) const {
    if (batch_.mass.count() <= limit) {
      return std::nullopt;
    }
    const auto part = std::ranges::max_element(
        batch_.parts, {}, [&](PartIndex i) { return job_.piece.parts[i].mass; });
    return Ground{part == batch_.parts.end() ? "" : job_.piece.parts[*part].name,
                  fmt::format("{:.0f} kg", batch_.mass.count()),
                  fmt::format("{:.0f} kg", limit)};
  }

  static std::optional<Ground> more(int have, double limit) {
    return have > limit
               ? std::optional{Ground{"", std::to_string(have), fmt::format("{:.0f}", limit)}}
               : std::nullopt;
  }

  template <class Test>
  std::optional<Ground> first_part(const Test& test) const {
    for (const PartIndex index : batch_.parts) {
      const Part& part = job_.piece.parts[index];
      if (test(part)) {
        return Ground{part.name, part.species, ""};
      }
    }
    return std::nullopt;
  }

  /// `oak` stands for every wood whose id begins with it.
  static bool is_one_of(const std::string& species, const std::vector<std::string>& words) {
    return std::ranges::any_of(words, [&](const std::string& word) {
      return species == word || species.starts_with(word + "_");
    });
  }

  std::optional<Ground> finish(const std::vector<std::string>& types) const {
    const shop::Finish* finish = job_.shop.finish(job_.commission.finish);
    const bool one = finish != nullptr && std::ranges::find(types, finish->type) != types.end();
    return one ? std::optional{Ground{finish->name, "", ""}} : std::nullopt;
  }

  const Batch& batch_;
  const Task& first_;
  const Job& job_;
};

bool belongs_to(const Caution& caution, const std::string& standard) {
  return std::ranges::any_of(caution.standards,
                             [&](const std::string& one) { return one == "*" || one == standard; });
}

}  // namespace

std::vector<std::string> cautions_for(const Batch& batch,
                                      const Tasks& tasks,
                                      const std::vector<Caution>& cautions,
                                      const Job& job) {
  const Grounds grounds{batch, tasks, job};
  const shop::LabourStandard& standard = *batch.first(tasks).standard;
  const shop::Machine* machine = job.shop.machine(standard.machine);
  std::vector<std::pair<int, std::string>> apply;
  for (const Caution& caution : cautions) {
    if (!belongs_to(caution, standard.id)) {
      continue;
    }
    if (const std::optional<Ground> ground = grounds.of(caution)) {
      apply.emplace_back(caution.severity,
                         fill_in(caution.says,
                                 {{"part", ground->part},
                                  {"size", ground->size},
                                  {"limit", ground->limit},
                                  {"machine", machine != nullptr ? machine->name : "machine"}}));
    }
  }
  std::ranges::stable_sort(apply, [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::string> worst;
  for (std::size_t i = 0; i < std::min(apply.size(), kMostCautions); ++i) {
    worst.push_back(apply[i].second);
  }
  return worst;
}

}  // namespace plankwright::bench
