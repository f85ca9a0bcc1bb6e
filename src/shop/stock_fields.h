#pragma once
// What may be written about boards, sheets, bars and edge bands in a Shop document.

#include "document/fields.h"

namespace plankwright::shop {

document::FieldTable solid_fields();
document::FieldTable sheet_fields();
document::FieldTable bar_fields();
document::FieldTable band_fields();

}  // namespace plankwright::shop
