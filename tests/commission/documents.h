#pragma once
// Commissions to read in tests: the examples of this project and written ones.

#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "commission/commission.h"
#include "document/node.h"
#include "shop/read_shop.h"

namespace plankwright::commission::test {

inline base::Result<std::string> open(const std::string& name) {
  for (const char* folder : {"/examples/", "/data/"}) {
    std::ifstream in{PLANKWRIGHT_SOURCE_DIR + std::string{folder} + name};
    if (in) {
      return std::string{std::istreambuf_iterator<char>{in}, {}};
    }
  }
  return base::Error{.code = base::ErrorCode::kIo, .message = "there is no file " + name};
}

/// A shop of the project, read once.
inline const shop::Shop& shop_of(const std::string& file) {
  static std::map<std::string, shop::Shop> known;
  const auto it = known.find(file);
  if (it != known.end()) {
    return it->second;
  }
  shop::ReadShop read = shop::read_shop(open(file).value(), file, open);
  EXPECT_TRUE(read.errors.empty()) << describe(read.errors.front());
  return known.emplace(file, std::move(read.shop)).first->second;
}

/// The commission written in `text`, read with the default shop.
inline ReadCommission read(std::string_view text, const Picks& picks = {}) {
  document::Parsed parsed = document::parse_yaml(text, "my.yaml");
  ReadCommission commission = read_commission(parsed.root, "my.yaml", shop_of("shop.yaml"), picks);
  commission.errors.insert(commission.errors.begin(), parsed.errors.begin(), parsed.errors.end());
  return commission;
}

/// Every error as the maker reads it.
inline std::string said(const base::Errors& errors) {
  std::string all;
  for (const base::Error& error : errors) {
    all += describe(error);
  }
  return all;
}

}  // namespace plankwright::commission::test
