#pragma once
// The terms of a shop, which a commission may change for itself.

#include "document/fields.h"
#include "shop/shop.h"

namespace plankwright::shop {

/// What may stand under `terms`, in a Shop and in a Commission document.
document::FieldTable terms_fields();

/// Changes what is written. Complains of a margin of 100 % or more, of a tax over 100 %, of
/// instalments that do not add up to 100 %, of hours reckoned at less than even odds.
void take_terms(const document::Fields& from, Terms& terms);

}  // namespace plankwright::shop
