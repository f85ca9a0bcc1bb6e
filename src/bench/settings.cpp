#include "bench/settings.h"

#include <algorithm>

#include <fmt/format.h>

namespace plankwright::bench {
namespace {

Setting of_length(Length length, const char* kind, measure::LengthUnit unit) {
  return {.text = measure::print(length, unit), .length = length, .depth = {}, .kind = kind};
}

Setting of_cut(const Item& item, const char* kind, measure::LengthUnit unit) {
  Setting setting = of_length(item.across, kind, unit);
  if (item.depth > Length{}) {
    setting.depth = item.depth;
    setting.text += fmt::format(" x {}", measure::print(item.depth, unit));
  }
  return setting;
}

}  // namespace

Setting setting_of(SettingWay way,
                   const Item& item,
                   const piece::Piece& piece,
                   measure::LengthUnit unit) {
  if (way == SettingWay::kNone || item.parts.empty()) {
    return {};
  }
  const piece::Part& part = piece.parts[item.parts.front()];
  switch (way) {
    case SettingWay::kFence:
      return of_length(part.cut.width, "fence", unit);
    case SettingWay::kStop:
      return of_length(part.cut.length, "stop", unit);
    case SettingWay::kHeight:
      return of_length(part.finished.thickness / std::max(1, part.layers), "height", unit);
    case SettingWay::kThickness:
      return of_length(part.finished.thickness, "jig", unit);
    case SettingWay::kCutter:
      return of_cut(item, "cutter", unit);
    case SettingWay::kBit:
      return of_cut(item, "bit", unit);
    case SettingWay::kJig:
      return {.text = item.label, .length = {}, .depth = {}, .kind = "jig"};
    case SettingWay::kNone:
      break;
  }
  return {};
}

double units_of(Units units, const Item& item) {
  switch (units) {
    case Units::kNone:
      return 0;
    case Units::kOne:
      return 1;
    case Units::kHalf:
      return 0.5;
    case Units::kTwice:
      return 2;
    case Units::kCount:
      return item.count;
    case Units::kQuarter:
      return 0.25;
    case Units::kThird:
      return std::max(1.0, item.count / 3);
    case Units::kFeet:
      return item.feet;
    case Units::kSquareFeet:
      return item.square_feet;
    case Units::kBlanks:
      return item.blanks;
  }
  return 0;
}

}  // namespace plankwright::bench
