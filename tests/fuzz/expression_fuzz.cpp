// Any bytes, read as an expression: a value within its bounds or an error with its column.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "measure/expression.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace plankwright;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto expression = measure::Expression::parse(text);
  const auto lookup = [](std::string_view name) -> base::Result<measure::Value> {
    if (name.size() == 1) {
      return measure::Value{false, {}, static_cast<double>(name[0]) / 3};
    }
    return measure::Value{true, measure::Length::from_mm(static_cast<double>(name.size())), 0};
  };
  const auto value = expression.ok()
                         ? expression.value().evaluate(measure::LengthUnit::kInch, lookup)
                         : base::Result<measure::Value>{expression.error()};
  if (value.ok()) {
    static_cast<void>(measure::as_length(value.value(), measure::LengthUnit::kInch));
    if (!std::isfinite(value.value().number) || std::abs(value.value().length.metres()) > 1000) {
      std::abort();
    }
  } else if (!value.error().at || value.error().at->column < 1) {
    std::abort();
  }
  for (const auto parse :
       {measure::parse_minutes, measure::parse_percent, measure::parse_line_load}) {
    static_cast<void>(parse(text).ok());
  }
  return 0;
}
