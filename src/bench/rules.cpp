#include "bench/rules.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "base/csv.h"
#include "base/nearest.h"

namespace plankwright::bench {
namespace {

using base::CsvRow;
using base::CsvTable;
using base::Errors;

template <class Value>
using Words = std::span<const std::pair<std::string_view, Value>>;

constexpr std::array<std::pair<std::string_view, Units>, 10> kUnits = {
    {{"", Units::kNone},
     {"one", Units::kOne},
     {"half", Units::kHalf},
     {"twice", Units::kTwice},
     {"count", Units::kCount},
     {"quarter", Units::kQuarter},
     {"third", Units::kThird},
     {"feet", Units::kFeet},
     {"square_feet", Units::kSquareFeet},
     {"blanks", Units::kBlanks}}};

constexpr std::array<std::pair<std::string_view, SettingWay>, 8> kSettings = {
    {{"", SettingWay::kNone},
     {"fence", SettingWay::kFence},
     {"stop", SettingWay::kStop},
     {"height", SettingWay::kHeight},
     {"thickness", SettingWay::kThickness},
     {"cutter", SettingWay::kCutter},
     {"bit", SettingWay::kBit},
     {"jig", SettingWay::kJig}}};

constexpr std::array<std::pair<std::string_view, When>, 13> kWhens = {
    {{"always", When::kAlways},
     {"shorter_than", When::kShorterThan},
     {"narrower_than", When::kNarrowerThan},
     {"thinner_than", When::kThinnerThan},
     {"wider_than", When::kWiderThan},
     {"longer_than", When::kLongerThan},
     {"heavier_than", When::kHeavierThan},
     {"more_than", When::kMoreThan},
     {"species", When::kSpecies},
     {"material", When::kMaterial},
     {"finish", When::kFinish},
     {"loose_panel", When::kLoosePanel},
     {"people", When::kPeople}}};

// What the rules can be about; items.h says what each of them stands for.
constexpr std::array<std::string_view, 20> kSubjects = {
    "limit",   "extra",          "supply", "part",         "shape",   "glue_line",  "band",
    "feature", "drawer_feature", "joint",  "drawer_joint", "opening", "glue_stage", "drawer",
    "door",    "fitting",        "coat",   "finisher",     "package", "piece"};

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    if (end > at) {
      words.push_back(text.substr(at, end - at));
    }
    at = end + 1;
  }
  return words;
}

void complain_of_word(const CsvRow& row,
                      std::string_view column,
                      std::string_view typed,
                      std::span<const std::string_view> words) {
  row.complain(column,
               fmt::format("`{}` is not known here, expected {}", typed, base::list_words(words)),
               base::nearest_word(typed, words));
}

template <class Value>
Value value_of(const CsvRow& row, std::string_view column, Words<Value> known) {
  const std::string& typed = row.text(column);
  std::vector<std::string_view> words;
  for (const auto& [word, value] : known) {
    if (word == typed) {
      return value;
    }
    if (!word.empty()) {
      words.push_back(word);
    }
  }
  complain_of_word(row, column, typed, words);
  return known.front().second;
}

base::Position place_of_row(const CsvTable& table, std::size_t row) {
  const base::CsvCell& cell = table.rows[row].front();
  return {table.file, cell.line, cell.column};
}

/// Gives each stage its rank, and complains of rows of a stage that others stand between.
class StageOrder {
 public:
  std::size_t rank_of(const CsvRow& row) {
    const std::string& stage = row.word("stage");
    const auto found = std::ranges::find(stages_, stage);
    if (found == stages_.end()) {
      stages_.push_back(stage);
      return stages_.size() - 1;
    }
    if (found + 1 != stages_.end()) {
      row.complain("stage",
                   fmt::format("the rows of stage `{}` stand apart; the order of the stages is the "
                               "order of work",
                               stage));
    }
    return static_cast<std::size_t>(found - stages_.begin());
  }

 private:
  std::vector<std::string> stages_;
};

void check_rule(const CsvRow& row, const Rule& rule) {
  if (rule.standard.empty() && rule.says.empty()) {
    row.complain("says", "a row without a standard must say why no time is counted");
  }
  if (!rule.standard.empty() && rule.units == Units::kNone) {
    row.complain("units", "a row with a standard must say how many units are counted");
  }
}

Rule read_rule(const CsvRow& row, StageOrder& stages) {
  Rule rule;
  rule.rank = stages.rank_of(row);
  rule.stage = row.text("stage");
  rule.subject = row.text("subject");
  rule.standard = row.text("standard");
  rule.units = value_of<Units>(row, "units", kUnits);
  rule.setting = value_of<SettingWay>(row, "setting", kSettings);
  rule.name = row.text("name");
  rule.fails = row.number_if_any("fails", 0, 1).value_or(0);
  rule.test = row.text("test");
  rule.says = row.text("says");
  rule.source = row.word("source");
  check_rule(row, rule);
  return rule;
}

/// The figures of Limits by the names they have in the table.
struct LimitValues {
  std::map<std::string, double, std::less<>> values;

  static constexpr std::array<std::string_view, 14> kNames = {"short_part_mm",
                                                              "glue_lines_a_stage",
                                                              "share_of_open_time",
                                                              "spreading_share",
                                                              "assembling_share",
                                                              "joints_for_two",
                                                              "board_feet_a_board",
                                                              "bent_plies",
                                                              "wide_tenon_mm",
                                                              "clamp_spacing_mm",
                                                              "join_settings_within_mm",
                                                              "walk_minutes",
                                                              "fetch_minutes",
                                                              "glue_halves_each_C"};

  double get(std::string_view name) const {
    const auto found = values.find(name);
    return found == values.end() ? 1 : found->second;
  }

  Limits limits() const {
    return {.short_part = Length::from_mm(get("short_part_mm")),
            .glue_lines_a_stage = static_cast<int>(get("glue_lines_a_stage")),
            .share_of_open_time = get("share_of_open_time"),
            .spreading_share = get("spreading_share"),
            .assembling_share = get("assembling_share"),
            .joints_for_two = static_cast<int>(get("joints_for_two")),
            .board_feet_a_board = get("board_feet_a_board"),
            .bent_plies = static_cast<int>(get("bent_plies")),
            .wide_tenon = Length::from_mm(get("wide_tenon_mm")),
            .clamp_spacing = Length::from_mm(get("clamp_spacing_mm")),
            .join_settings_within = Length::from_mm(get("join_settings_within_mm")),
            .walk = measure::Minutes{get("walk_minutes")},
            .fetch = measure::Minutes{get("fetch_minutes")},
            .glue_halves = measure::Celsius{get("glue_halves_each_C")}};
  }
};

void read_limit(const CsvRow& row, LimitValues& limits) {
  const std::string& name = row.word("kind");
  if (std::ranges::find(LimitValues::kNames, name) == LimitValues::kNames.end()) {
    complain_of_word(row, "kind", name, LimitValues::kNames);
    return;
  }
  const double least = name == "join_settings_within_mm" ? 0 : 0.01;
  if (!limits.values.emplace(name, row.number("units", least, 1e6)).second) {
    row.complain("kind", fmt::format("`{}` stands here a second time", name));
  }
}

void check_limits(const CsvTable& table, const LimitValues& limits, Errors& errors) {
  for (const std::string_view name : LimitValues::kNames) {
    if (!limits.values.contains(name)) {
      errors.push_back({.message = fmt::format("there is no row `limit` of kind `{}`", name),
                        .at = base::Position{table.file, 1, 1}});
    }
  }
}

void add_rule(const CsvRow& row, const base::Position& at, StageOrder& stages, Rules& rules) {
  Rule rule = read_rule(row, stages);
  rule.at = at;
  for (const std::string& kind : words_of(row.word("kind"))) {
    rule.kind = kind;
    const bool again = std::ranges::any_of(rules.rules, [&](const Rule& other) {
      return other.subject == rule.subject && other.kind == kind &&
             other.standard == rule.standard && other.stage == rule.stage;
    });
    if (again) {
      row.complain("kind",
                   fmt::format("`{}` has this work already in stage `{}`", kind, rule.stage));
    }
    rules.rules.push_back(rule);
  }
}

Caution read_caution(const CsvRow& row) {
  Caution caution;
  caution.id = row.word("id");
  caution.severity = static_cast<int>(row.number("severity", 1, 3));
  caution.standards = words_of(row.word("standards"));
  caution.when = value_of<When>(row, "when", kWhens);
  caution.says = row.word("says");
  caution.source = row.word("source");
  const bool by_words = caution.when == When::kSpecies || caution.when == When::kMaterial ||
                        caution.when == When::kFinish;
  if (by_words) {
    caution.words = words_of(row.word("limit"));
  } else if (caution.when != When::kAlways && caution.when != When::kLoosePanel) {
    caution.limit = row.number("limit", 0, 1e6);
  }
  return caution;
}

}  // namespace

std::vector<const Rule*> Rules::rules_for(std::string_view subject, std::string_view kind) const {
  std::vector<const Rule*> found;
  const std::string_view wanted = names(subject, kind) ? kind : "*";
  for (const Rule& rule : rules) {
    if (rule.subject == subject && rule.kind == wanted) {
      found.push_back(&rule);
    }
  }
  return found;
}

bool Rules::names(std::string_view subject, std::string_view kind) const {
  return std::ranges::any_of(
      rules, [&](const Rule& rule) { return rule.subject == subject && rule.kind == kind; });
}

ReadRules read_rules(std::string_view csv_text, const std::string& file) {
  ReadRules read;
  const base::Result<CsvTable> table = base::read_csv(csv_text, file);
  if (!table.ok()) {
    read.errors.push_back(table.error());
    return read;
  }
  StageOrder stages;
  LimitValues limits;
  for (std::size_t i = 0; i < table.value().rows.size(); ++i) {
    const CsvRow row{table.value(), i, read.errors};
    const std::string& subject = row.word("subject");
    if (std::ranges::find(kSubjects, subject) == kSubjects.end()) {
      complain_of_word(row, "subject", subject, kSubjects);
    } else if (subject == "limit") {
      read_limit(row, limits);
    } else {
      add_rule(row, place_of_row(table.value(), i), stages, read.rules);
    }
  }
  check_limits(table.value(), limits, read.errors);
  read.rules.limits = limits.limits();
  return read;
}

base::Errors read_cautions(std::string_view csv_text, const std::string& file, Rules& rules) {
  Errors errors;
  const base::Result<CsvTable> table = base::read_csv(csv_text, file);
  if (!table.ok()) {
    errors.push_back(table.error());
    return errors;
  }
  std::set<std::string> seen;
  for (std::size_t i = 0; i < table.value().rows.size(); ++i) {
    const CsvRow row{table.value(), i, errors};
    rules.cautions.push_back(read_caution(row));
    if (!seen.insert(rules.cautions.back().id).second) {
      row.complain("id", fmt::format("`{}` stands here a second time", rules.cautions.back().id));
    }
  }
  return errors;
}

base::Errors missing_standards(const Rules& rules, const std::vector<std::string>& known) {
  Errors errors;
  for (const Rule& rule : rules.rules) {
    if (!rule.standard.empty() && std::ranges::find(known, rule.standard) == known.end()) {
      errors.push_back(
          {.message = fmt::format("there is no labour standard `{}`", rule.standard),
           .at = rule.at,
           .nearest = base::nearest_word(rule.standard, std::span<const std::string>{known})});
    }
  }
  return errors;
}

}  // namespace plankwright::bench
