// Fittings, finishes and glues.

#include <fmt/format.h>

#include "shop/hardware_kinds.h"
#include "shop/read_entries.h"

namespace plankwright::shop {
namespace {

using document::Fields;

void take_sizes(const Fields& from, Hardware& fitting) {
  const Fields sizes = from.map("sizes");
  for (const document::Field& size : hardware_size_fields()) {
    if (sizes.has(size.key)) {
      fitting.sizes[std::string{size.key}] = sizes.length(size.key);
    }
  }
  const HardwareKind* kind = hardware_kind(fitting.kind);
  for (const std::string_view size :
       kind == nullptr ? std::span<const std::string_view>{} : kind->needed_sizes) {
    if (!fitting.sizes.contains(size)) {
      from.complain("sizes",
                    fmt::format("`{}` is a {} and needs the size `{}`, which is not written",
                                fitting.id,
                                fitting.kind,
                                size));
    }
  }
}

void take_price(const Fields& from, Hardware& fitting) {
  take(from, "client_item", fitting.client_item);
  const std::size_t before = from.mistakes();
  take(from, "price", fitting.price);
  if (from.has("price") && from.mistakes() == before && fitting.price <= Money{} &&
      !fitting.client_item) {
    from.complain("price",
                  fmt::format("found {}, expected more than zero, or `client_item: yes`",
                              kind_of(*from.node("price"))));
  }
}

void read_fitting(const Fields& from, Hardware& fitting) {
  take_text(from, "name", fitting.name);
  take_word(from, "kind", fitting.kind);
  take_price(from, fitting);
  take(from, "freight", fitting.freight);
  take_within(from, "pack", {1, 10'000}, fitting.pack);
  take(from, "mass", fitting.mass);
  take_sizes(from, fitting);
  take_text(from, "supplier", fitting.supplier);
  take_within(from, "lead_days", kLeadDays, fitting.lead_days);
}

/// A finish is paid by the litre, or by the square metre when somebody else puts it on.
void need_price(const Fields& from, const Finish& finish) {
  const auto missing = [&](std::string_view key) {
    from.complain(key, fmt::format("`{}` is {} and needs `{}`", finish.id, finish.applied, key));
  };
  if (finish.applied == "outside") {
    if (finish.price_per_square_metre <= Money{} && !from.has("price_per_square_metre")) {
      missing("price_per_square_metre");
    }
  } else if (finish.coats > 0 && !finish.applied.empty()) {
    if (finish.price_per_litre <= Money{} && !from.has("price_per_litre")) {
      missing("price_per_litre");
    }
    if (finish.square_metres_per_litre <= 0 && !from.has("square_metres_per_litre")) {
      missing("square_metres_per_litre");
    }
  }
}

void read_finish(const Fields& from, const Shop& shop, Finish& finish) {
  take_text(from, "name", finish.name);
  take_identifier(from, "type", finish.type);
  need_known(from, "type", "kind of finish", finish.type, shop.finish_types.ids());
  take_word(from, "applied", finish.applied);
  take_within(from, "coats", {0, 20}, finish.coats);
  take_within(from, "square_metres_per_litre", {0.5, 100}, finish.square_metres_per_litre);
  take_within(from, "transfer", {5, 100}, finish.transfer);
  take(from, "price_per_litre", finish.price_per_litre);
  take(from, "recoat", finish.recoat);
  take(from, "price_per_square_metre", finish.price_per_square_metre);
  take_within(from, "runs", {0, 20}, finish.runs);
  take_within(from, "lead_days", kLeadDays, finish.lead_days);
  take_weekdays(from, "taken_in", finish.taken_in);
  take_text(from, "care", finish.care);
  need_price(from, finish);
}

void read_glue(const Fields& from, const Shop& shop, Glue& glue) {
  take_text(from, "name", glue.name);
  take_identifier(from, "type", glue.type);
  need_known(from, "type", "kind of glue", glue.type, shop.adhesives.ids());
  take(from, "price_per_litre", glue.price_per_litre);
}

}  // namespace

void read_hardware(const Fields& from, Shop& shop) {
  merge_entries(from, "hardware", shop.hardware, {"name", "kind", "price"}, read_fitting);
}

void read_finishes(const Fields& from, Shop& shop) {
  merge_entries(from,
                "finishes",
                shop.finishes,
                {"name", "type", "applied"},
                [&](const Fields& f, Finish& finish) { read_finish(f, shop, finish); });
}

void read_glues(const Fields& from, Shop& shop) {
  merge_entries(from,
                "glues",
                shop.glues,
                {"name", "type", "price_per_litre"},
                [&](const Fields& f, Glue& glue) { read_glue(f, shop, glue); });
}

}  // namespace plankwright::shop
