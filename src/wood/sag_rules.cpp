#include "wood/sag_rules.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/nearest.h"

namespace plankwright::wood {
namespace {

using base::CsvRow;
using measure::Length;
using measure::Megapascals;
using measure::Newtons;
using measure::NewtonsPerMillimetre;

constexpr double kNewtonsPerPoundForce = 4.4482216;
constexpr double kMillimetresPerFoot = 304.8;

void read_amount(const CsvRow& row, Load& load) {
  constexpr std::array<std::string_view, 4> kUnits = {"lb/ft2", "lb/ft", "lb", "N"};
  const double amount = row.number("value", 0.01, 10'000);
  const double newtons = amount * kNewtonsPerPoundForce;
  const std::string& unit = row.word("unit");
  if (unit == kUnits[0]) {
    load.area = Megapascals{newtons / (kMillimetresPerFoot * kMillimetresPerFoot)};
  } else if (unit == kUnits[1]) {
    load.line = NewtonsPerMillimetre{newtons / kMillimetresPerFoot};
  } else if (unit == kUnits[2]) {
    load.point = Newtons{newtons};
  } else if (unit == kUnits[3]) {
    load.point = Newtons{amount};
  } else {
    row.complain(
        "unit",
        fmt::format("`{}` is no unit of load, expected {}", unit, base::list_words(kUnits)),
        base::nearest_word(unit, kUnits));
  }
}

Load read_load(const CsvRow& row) {
  Load load;
  load.what = row.word("what");
  read_amount(row, load);
  if (const auto most = row.number_if_any("at_most_lb", 1, 10'000)) {
    load.at_most = Newtons{*most * kNewtonsPerPoundForce};
  }
  load.from = read_provenance(row);
  return load;
}

SagLimit read_limit(const CsvRow& row) {
  SagLimit limit;
  limit.what = row.word("what");
  limit.span_per_sag = row.number("span_per_sag", 10, 10'000);
  if (const auto most = row.number_if_any("at_most_mm", 0.01, 1000)) {
    limit.at_most = Length::from_mm(*most);
  }
  limit.from = read_provenance(row);
  return limit;
}

}  // namespace

base::Result<SagLimitTable> read_sag_limits(std::string_view csv_text, const std::string& file) {
  return read_table<SagLimit>("sag limit", csv_text, file, read_limit);
}

Length allowed_sag(const SagLimit& limit, Length span) {
  const Length allowed = measure::scaled(span, 1.0 / limit.span_per_sag);
  return limit.at_most ? std::min(allowed, *limit.at_most) : allowed;
}

base::Result<CreepTable> read_creep(std::string_view csv_text, const std::string& file) {
  return read_table<Creep>("creep row", csv_text, file, [](const CsvRow& row) {
    return Creep{.id = {},
                 .what = row.word("what"),
                 .factor = row.number("factor", 1, 20),
                 .from = read_provenance(row)};
  });
}

base::Result<LoadTable> read_loads(std::string_view csv_text, const std::string& file) {
  return read_table<Load>("load", csv_text, file, read_load);
}

NewtonsPerMillimetre line_load(const Load& load, Length depth, Length span) {
  const NewtonsPerMillimetre even =
      load.line + NewtonsPerMillimetre{load.area.count() * depth.mm()};
  if (load.at_most && span > Length{}) {
    return std::min(even, NewtonsPerMillimetre{load.at_most->count() / span.mm()});
  }
  return even;
}

}  // namespace plankwright::wood
