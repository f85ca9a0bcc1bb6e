#pragma once
// Reading the Shop document and the tables behind it.

#include <functional>
#include <string>

#include "base/result.h"
#include "document/fields.h"
#include "shop/shop.h"

namespace plankwright::shop {

/// How a document asks for another file by a name written in it (`based_on: shop.yaml`), resolved
/// beside the asking file or in the data folder. The rim opens files; rooms ask.
using OpenFile = std::function<base::Result<std::string>(const std::string& name)>;

struct ReadShop {
  Shop shop;
  base::Errors errors;
};

/// Reads a shop. `based_on` takes another shop first and changes only what is written; lists of
/// stock, fittings, standards and machines are merged by id. Labour standards and reference tables
/// come from the CSV files the shop names. Errors: all of them, with their places; also a price of
/// zero, a stock with an unknown species or panel, a machine limit below zero, instalments that do
/// not add up to 100.
ReadShop read_shop(std::string_view text, const std::string& file, const OpenFile& open);

/// What may stand in a Shop document; also published as JSON Schema.
document::FieldTable shop_fields();

}  // namespace plankwright::shop
