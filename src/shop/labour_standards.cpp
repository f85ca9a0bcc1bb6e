#include "shop/labour_standards.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "base/csv.h"
#include "base/nearest.h"
#include "base/quote.h"

namespace plankwright::shop {
namespace {

constexpr std::string_view kPhases[] = {"milling",
                                        "joints",
                                        "assembly",
                                        "surface",
                                        "curves",
                                        "fittings",
                                        "finish",
                                        "outside",
                                        "office"};
constexpr std::string_view kSetupPer[] = {"job", "setting", "stage", "coat", "trip"};

constexpr std::string_view kColumns[] = {"id",
                                         "name",
                                         "phase",
                                         "setup_min",
                                         "setup_per",
                                         "per_unit_min",
                                         "unit",
                                         "sigma",
                                         "machine",
                                         "unattended_min",
                                         "people",
                                         "note",
                                         "source"};

constexpr double kMostMinutes = 10'000;
constexpr double kMostSigma = 2;
constexpr double kMostPeople = 10;

template <class Word>
std::string one_of(const base::CsvRow& row, std::string_view column, std::span<const Word> words) {
  const std::string& word = row.word(column);
  if (!word.empty() && std::ranges::find(words, word) == words.end()) {
    row.complain(column,
                 fmt::format("found {}, expected {}", base::quote(word), base::list_words(words)),
                 base::nearest_word(word, words));
  }
  return word;
}

std::string machine_of(const base::CsvRow& row, std::span<const std::string> machines) {
  const std::string& word = row.text("machine");
  if (!word.empty() && !machines.empty() && std::ranges::find(machines, word) == machines.end()) {
    row.complain("machine",
                 fmt::format("there is no machine {} in this shop", base::quote(word)),
                 base::nearest_word(word, machines));
  }
  return word;
}

int people_of(const base::CsvRow& row) {
  const double people = row.number("people", 1, kMostPeople);
  if (people != std::floor(people)) {
    row.complain("people", fmt::format("`people` must be a whole number, not `{}`", people));
  }
  return static_cast<int>(people);
}

/// Says once of each column that it is missing, not once a row.
bool has_all_columns(const base::CsvTable& table, base::Errors& errors) {
  bool all = true;
  for (const std::string_view column : kColumns) {
    if (std::ranges::find(table.columns, column, &base::CsvCell::text) == table.columns.end()) {
      const base::CsvCell& first = table.columns.front();
      errors.push_back({.message = fmt::format("there is no column `{}`", column),
                        .at = base::Position{table.file, first.line, first.column}});
      all = false;
    }
  }
  return all;
}

LabourStandard read_standard(const base::CsvRow& row, std::span<const std::string> machines) {
  LabourStandard standard;
  standard.id = row.word("id");
  standard.name = row.word("name");
  standard.phase = one_of(row, "phase", phase_words());
  standard.setup = Minutes{row.number("setup_min", 0, kMostMinutes)};
  standard.setup_per = one_of(row, "setup_per", setup_per_words());
  standard.per_unit = Minutes{row.number("per_unit_min", 0, kMostMinutes)};
  standard.unit = row.word("unit");
  standard.sigma = row.number("sigma", 0, kMostSigma);
  standard.machine = machine_of(row, machines);
  standard.unattended = Minutes{row.number("unattended_min", 0, kMostMinutes)};
  standard.people = people_of(row);
  standard.note = row.text("note");
  standard.source = row.word("source");
  return standard;
}

}  // namespace

std::span<const std::string_view> phase_words() {
  return kPhases;
}

std::span<const std::string_view> setup_per_words() {
  return kSetupPer;
}

std::vector<LabourStandard> read_labour_standards(std::string_view csv_text,
                                                  const std::string& file,
                                                  std::span<const std::string> machines,
                                                  base::Errors& errors) {
  const base::Result<base::CsvTable> table = base::read_csv(csv_text, file);
  if (!table.ok()) {
    errors.push_back(table.error());
    return {};
  }
  if (!has_all_columns(table.value(), errors)) {
    return {};
  }
  std::vector<LabourStandard> standards;
  std::set<std::string> seen;
  for (std::size_t i = 0; i < table.value().rows.size(); ++i) {
    const base::CsvRow row{table.value(), i, errors};
    const std::size_t before = errors.size();
    LabourStandard standard = read_standard(row, machines);
    if (!seen.insert(standard.id).second) {
      row.complain("id", fmt::format("{} stands here a second time", base::quote(standard.id)));
    } else if (errors.size() == before && standard.setup + standard.per_unit <= Minutes{0}) {
      row.complain("per_unit_min",
                   fmt::format("{} takes no time at all", base::quote(standard.id)));
    }
    standards.push_back(std::move(standard));
  }
  return standards;
}

}  // namespace plankwright::shop
