// Dynamic programme over the points that are sums of part sizes. A rectangle split along an axis
// into pieces that are not split along it again needs only such irreducible first pieces, and the
// smallest of them is at most half: the lists of them are short, tens of entries and not hundreds.
// The table is kept twice, by rows and by columns, so that both scans run through memory in order.

#include "solve/guillotine_table.h"

#include <algorithm>
#include <cmath>

namespace plankwright::solve {
namespace {

struct Length {
  std::int32_t size = 0;
  std::int64_t copies = 0;
};

// All sums of the lengths, each at most its copies times, up to `most`.
std::vector<std::int32_t> sums_of(const std::vector<Length>& lengths, std::int32_t most) {
  std::vector<std::uint8_t> reached(static_cast<std::size_t>(most) + 1, 0);
  std::vector<std::int64_t> used(reached.size());
  reached[0] = 1;
  for (const Length& length : lengths) {
    std::ranges::fill(used, 0);
    const auto step = static_cast<std::size_t>(length.size);
    for (std::size_t sum = step; sum < reached.size(); ++sum) {
      if (reached[sum] == 0 && reached[sum - step] != 0 && used[sum - step] < length.copies) {
        reached[sum] = 1;
        used[sum] = used[sum - step] + 1;
      }
    }
  }
  std::vector<std::int32_t> sums;
  for (std::size_t sum = 0; sum < reached.size(); ++sum) {
    if (reached[sum] != 0) {
      sums.push_back(static_cast<std::int32_t>(sum));
    }
  }
  return sums;
}

std::vector<std::int32_t> floors(const std::vector<std::int32_t>& points, std::int32_t most) {
  std::vector<std::int32_t> index(static_cast<std::size_t>(most) + 1);
  std::int32_t last = 0;
  for (std::int32_t length = 0; length <= most; ++length) {
    while (last + 1 < static_cast<std::int32_t>(points.size()) &&
           points[static_cast<std::size_t>(last) + 1] <= length) {
      ++last;
    }
    index[static_cast<std::size_t>(length)] = last;
  }
  return index;
}

std::vector<Length> merged(std::vector<Length> lengths) {
  std::ranges::sort(lengths, {}, &Length::size);
  std::vector<Length> result;
  for (const Length& length : lengths) {
    if (!result.empty() && result.back().size == length.size) {
      result.back().copies += length.copies;
    } else {
      result.push_back(length);
    }
  }
  return result;
}

}  // namespace

GuillotineTable::GuillotineTable(const PackProblem& problem,
                                 const std::vector<std::int64_t>& demand,
                                 std::int32_t grid)
    : problem_{problem}, grid_{grid} {
  std::int32_t most_x = 0;
  std::int32_t most_y = 0;
  for (const PackKind& kind : problem.kinds) {
    most_x = std::max(most_x, kind.width / grid);
    most_y = std::max(most_y, kind.height / grid);
  }
  std::vector<Length> along_x;
  std::vector<Length> along_y;
  for (std::size_t t = 0; t < problem.types.size(); ++t) {
    const PackType& type = problem.types[t];
    if (demand[t] == 0) {
      continue;
    }
    along_x.push_back({type.width / grid, demand[t]});
    along_y.push_back({type.height / grid, demand[t]});
    if (type.may_turn) {
      along_x.push_back({type.height / grid, demand[t]});
      along_y.push_back({type.width / grid, demand[t]});
    }
  }
  x_ = sums_of(merged(along_x), most_x);
  y_ = sums_of(merged(along_y), most_y);
  floor_x_ = floors(x_, most_x);
  floor_y_ = floors(y_, most_y);
}

void GuillotineTable::place_parts(const std::vector<std::int32_t>& values) {
  spots_.clear();
  const auto add = [&](std::int32_t width, std::int32_t height, int type, bool turned) {
    const std::int32_t value = values[at(type)];
    width /= grid_;
    height /= grid_;
    if (value > 0 && width <= x_.back() && height <= y_.back()) {
      spots_.push_back({floor_x_[at(width)], floor_y_[at(height)], value, type, turned});
    }
  };
  for (std::size_t t = 0; t < problem_.types.size(); ++t) {
    const PackType& type = problem_.types[t];
    add(type.width, type.height, static_cast<int>(t), false);
    if (type.may_turn) {
      add(type.height, type.width, static_cast<int>(t), true);
    }
  }
  for (const Spot& spot : spots_) {
    cell(spot.x, spot.y) = std::max(cell(spot.x, spot.y), spot.value);
  }
}

void GuillotineTable::fill(const std::vector<std::int32_t>& values,
                           double per_cut,
                           double per_length) {
  rows_.assign(x_.size() * y_.size(), 0);
  columns_.resize(rows_.size());
  place_parts(values);
  const auto money = [&](std::int32_t point) {
    const double length = std::max(0.0, static_cast<double>(point) * grid_ - problem_.kerf);
    return static_cast<std::int32_t>(std::floor(per_cut + per_length * length));
  };
  cut_x_.clear();
  cut_y_.clear();
  for (const std::int32_t y : y_) {
    cut_x_.push_back(money(y));
  }
  for (const std::int32_t x : x_) {
    cut_y_.push_back(money(x));
  }
  row_firsts_.resize(y_.size());
  column_firsts_.resize(x_.size());
  for (auto& firsts : column_firsts_) {
    firsts.clear();
  }
  for (int y = 0; y < static_cast<int>(y_.size()); ++y) {
    fill_row(y);
  }
}

void GuillotineTable::fill_row(int y) {
  const std::size_t width = x_.size();
  const std::size_t height = y_.size();
  std::int32_t* const row = rows_.data() + at(y) * width;
  const std::int32_t* const below = y > 0 ? row - width : row;
  const std::int32_t this_y = y_[at(y)];
  const std::int32_t off_x = cut_x_[at(y)];
  std::vector<std::int32_t>& firsts = row_firsts_[at(y)];
  firsts.clear();
  std::int64_t looked = 0;
  for (std::size_t x = 0; x < width; ++x) {
    const std::int32_t own = row[x];
    std::int32_t best = std::max(below[x], x > 0 ? row[x - 1] : 0);
    best = std::max(best, own);
    const std::int32_t this_x = x_[x];
    std::int32_t split_x = 0;
    const std::int32_t* const floor_x = floor_x_.data() + this_x;
    for (const std::int32_t first : firsts) {
      const std::int32_t point = x_[at(first)];
      if (2 * point > this_x) {
        break;
      }
      split_x = std::max(split_x, row[first] + row[*(floor_x - point)] - off_x);
      ++looked;
    }
    std::int32_t split_y = 0;
    const std::int32_t* const column = columns_.data() + x * height;
    const std::int32_t* const floor_y = floor_y_.data() + this_y;
    const std::int32_t off_y = cut_y_[x];
    for (const std::int32_t first : column_firsts_[x]) {
      const std::int32_t point = y_[at(first)];
      if (2 * point > this_y) {
        break;
      }
      split_y = std::max(split_y, column[first] + column[*(floor_y - point)] - off_y);
      ++looked;
    }
    const std::int32_t value = std::max({best, split_x, split_y});
    row[x] = value;
    columns_[x * height + at(y)] = value;
    if (x > 0 && value > row[x - 1] && value > split_x) {
      firsts.push_back(static_cast<std::int32_t>(x));
    }
    if (y > 0 && value > below[x] && value > split_y) {
      column_firsts_[x].push_back(y);
    }
  }
  work_ += looked + 4 * static_cast<std::int64_t>(width);
}

std::int64_t GuillotineTable::value_of(std::int32_t width, std::int32_t height) const {
  return cell(floor_x_[at(width / grid_)], floor_y_[at(height / grid_)]);
}

std::int64_t GuillotineTable::value(int kind) const {
  const PackKind& sheet = problem_.kinds[at(kind)];
  return value_of(sheet.width, sheet.height);
}

bool GuillotineTable::split(int x, int y, bool along_x, std::int32_t value, PackNode& node) const {
  const auto& points = along_x ? x_ : y_;
  const auto& floor = along_x ? floor_x_ : floor_y_;
  const int end = along_x ? x : y;
  const std::int32_t off = along_x ? cut_x_[at(y)] : cut_y_[at(x)];
  for (int first = 1; first <= end && 2 * points[at(first)] <= points[at(end)]; ++first) {
    const int second = floor[at(points[at(end)] - points[at(first)])];
    const std::int32_t sum =
        along_x ? cell(first, y) + cell(second, y) : cell(x, first) + cell(x, second);
    if (sum - off == value) {
      node.along = along_x ? Axis::kX : Axis::kY;
      node.children.push_back(along_x ? trace(first, y) : trace(x, first));
      node.children.push_back(along_x ? trace(second, y) : trace(x, second));
      return true;
    }
  }
  return false;
}

PackNode GuillotineTable::trace(int x, int y) const {
  const std::int32_t value = cell(x, y);
  PackNode node;
  if (value == 0) {
    return node;
  }
  while (x > 0 && cell(x - 1, y) == value) {
    --x;
  }
  while (y > 0 && cell(x, y - 1) == value) {
    --y;
  }
  for (const Spot& spot : spots_) {
    if (spot.x == x && spot.y == y && spot.value == value) {
      node.type = spot.type;
      node.turned = spot.turned;
      return node;
    }
  }
  if (!split(x, y, true, value, node)) {
    split(x, y, false, value, node);
  }
  return node;
}

PackNode GuillotineTable::pattern(int kind) const {
  const PackKind& sheet = problem_.kinds[at(kind)];
  return trace(floor_x_[at(sheet.width / grid_)], floor_y_[at(sheet.height / grid_)]);
}

}  // namespace plankwright::solve
