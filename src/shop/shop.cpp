#include "shop/shop.h"

#include <algorithm>

namespace plankwright::shop {
namespace {

template <class T>
const T* with_id(const std::vector<T>& list, std::string_view id) {
  const auto it = std::ranges::find(list, id, &T::id);
  return it == list.end() ? nullptr : &*it;
}

}  // namespace

const SolidStock* Shop::solid(std::string_view id) const {
  return with_id(solids, id);
}

const SheetStock* Shop::sheet(std::string_view id) const {
  return with_id(sheets, id);
}

const BarStock* Shop::bar(std::string_view id) const {
  return with_id(bars, id);
}

const BandStock* Shop::band(std::string_view id) const {
  return with_id(bands, id);
}

const Hardware* Shop::fitting(std::string_view id) const {
  return with_id(hardware, id);
}

const Finish* Shop::finish(std::string_view id) const {
  return with_id(finishes, id);
}

const Glue* Shop::glue(std::string_view id) const {
  return with_id(glues, id);
}

const Machine* Shop::machine(std::string_view id) const {
  return with_id(machines, id);
}

const LabourStandard* Shop::standard(std::string_view id) const {
  return with_id(standards, id);
}

std::vector<std::string> Shop::stock_ids() const {
  std::vector<std::string> ids;
  for (const SolidStock& stock : solids) {
    ids.push_back(stock.id);
  }
  for (const SheetStock& stock : sheets) {
    ids.push_back(stock.id);
  }
  for (const BarStock& stock : bars) {
    ids.push_back(stock.id);
  }
  return ids;
}

std::vector<std::string> Shop::fitting_ids(std::string_view kind) const {
  std::vector<std::string> ids;
  for (const Hardware& fitting : hardware) {
    if (kind.empty() || fitting.kind == kind) {
      ids.push_back(fitting.id);
    }
  }
  return ids;
}

}  // namespace plankwright::shop
