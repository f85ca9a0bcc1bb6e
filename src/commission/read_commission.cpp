// The choices are read first, because the names that the picked options set may stand anywhere
// else.

#include <algorithm>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "commission/choices.h"
#include "commission/commission.h"
#include "shop/take.h"
#include "shop/terms.h"

namespace plankwright::commission {
namespace {

using document::Fields;
using document::Node;

std::string scalar(const Node& root, std::string_view key) {
  const Node* node = root.find(key);
  return node != nullptr && node->kind == Node::Kind::kScalar ? node->text : std::string{};
}

measure::LengthUnit unit_of(const Node& root, measure::LengthUnit otherwise) {
  const std::string word = scalar(root, "units");
  if (word == "inch") {
    return measure::LengthUnit::kInch;
  }
  return word == "mm" ? measure::LengthUnit::kMillimetre : otherwise;
}

/// A text without the line end that block text has behind it.
std::string without_line_end(std::string text) {
  while (text.ends_with('\n')) {
    text.pop_back();
  }
  return text;
}

/// `names:` first, then what the picked options set, which goes before it.
void set_names(const Fields& from, base::Errors& errors, Commission& commission) {
  if (const Node* names = from.node("names")) {
    for (auto& [name, value] : read_names(*names, errors)) {
      commission.names.set(name, std::move(value));
    }
  }
  for (const Choice& choice : commission.choices) {
    for (const Option& option : choice.options) {
      if (option.id == choice.picked) {
        for (const auto& [name, value] : option.sets) {
          commission.names.set(name, value);
        }
      }
    }
  }
}

void read_title(const Fields& from, Commission& commission) {
  commission.name = from.text("commission");
  commission.number = from.text("number");
  commission.revision = from.text("revision");
  commission.says = without_line_end(from.text("says"));
  commission.shop_file = from.text("shop");
  from.word("units");
  const Fields client = from.map("client");
  commission.client.name = client.text("name");
  shop::take_texts(client, "address", commission.client.address);
}

void read_dates(const Fields& from, Commission& commission) {
  commission.quoted = from.date("quoted");
  commission.wanted = from.date("wanted");
  if (commission.quoted && commission.wanted && *commission.wanted < *commission.quoted) {
    from.complain("wanted",
                  fmt::format("wanted on {}, before the offer of {}",
                              measure::print(*commission.wanted),
                              measure::print(*commission.quoted)));
  }
}

Use read_use(const Fields& from) {
  Use use;
  shop::take_word(from, "what", use.what);
  shop::take(from, "children", use.children);
  use.knee_height = from.optional_length("knee_height");
  if (from.has("shelf_load")) {
    use.shelf_load = from.line_load("shelf_load");
  }
  use.says = without_line_end(from.text("says"));
  return use;
}

Room read_room(const Fields& from) {
  Room room;
  const std::size_t before = from.mistakes();
  shop::take_within(from, "humidity_low", {5, 95}, room.humidity_low);
  shop::take_within(from, "humidity_high", {5, 95}, room.humidity_high);
  shop::take_within(from, "temperature", {-20, 50}, room.temperature);
  room.ceiling = from.optional_length("ceiling");
  room.at = from.at();
  if (from.mistakes() == before && room.humidity_low > room.humidity_high) {
    from.complain("humidity_low",
                  fmt::format("the driest air ({:g} %) is damper than the dampest ({:g} %)",
                              room.humidity_low.count(),
                              room.humidity_high.count()));
  }
  return room;
}

Passage read_passage(const Fields& from) {
  Passage passage{.kind = from.word("kind"),
                  .name = from.text("name"),
                  .width = from.length("width"),
                  .beyond = from.length("beyond"),
                  .height = from.length("height"),
                  .at = from.at()};
  if (passage.kind == "corner" && !from.has("beyond")) {
    from.complain("beyond", "a corner needs `beyond`, the width of the corridor after it");
  }
  if (passage.name.empty()) {
    passage.name = passage.kind;
  }
  return passage;
}

Risk read_risk(const Fields& from) {
  Risk risk{.what = from.text("what"),
            .chance = {},
            .minutes = from.minutes("minutes"),
            .material = {},
            .at = from.at()};
  shop::take_within(from, "chance", {0, 100}, risk.chance);
  shop::take(from, "material", risk.material);
  if (!from.has("minutes") && !from.has("material")) {
    from.complain("what", "a risk needs `minutes` or `material`: what it costs to make good");
  }
  return risk;
}

ExtraCost read_cost(const Fields& from) {
  const std::size_t before = from.mistakes();
  ExtraCost cost{
      .what = from.text("what"), .kind = from.word("kind"), .price = {}, .at = from.at()};
  shop::take(from, "price", cost.price);
  if (from.mistakes() != before) {
    return cost;
  }
  if (cost.kind == "client_item" && cost.price > Money{}) {
    from.complain("price", "a client_item costs nothing here; leave its `price` off");
  } else if (cost.kind != "client_item" && cost.price <= Money{}) {
    from.complain("price", fmt::format("`{}` needs a `price` of more than zero", cost.what));
  }
  return cost;
}

ExtraWork read_work(const Fields& from, const std::vector<std::string>& standards) {
  ExtraWork work{.what = from.text("what"),
                 .standard = from.identifier("standard"),
                 .units = 1,
                 .at = from.at()};
  shop::take_within(from, "units", {0, 10'000}, work.units);
  shop::need_known(from, "standard", "labour standard", work.standard, standards);
  return work;
}

/// A reason of nothing but spaces is none.
Dismissal read_dismissal(const Fields& from) {
  Dismissal dismissal{
      .finding = from.identifier("finding"), .reason = from.text("reason"), .at = from.at()};
  if (from.has("reason") && dismissal.reason.find_first_not_of(" \n") == std::string::npos) {
    from.complain("reason", "a finding is dismissed only with a reason");
  }
  return dismissal;
}

/// What the document names, which must be in the shop, or else the first the shop has.
template <class T>
std::string read_own(const Fields& from,
                     std::string_view key,
                     std::string_view what,
                     const std::vector<T>& of_shop) {
  std::string id = of_shop.empty() ? std::string{} : of_shop.front().id;
  if (from.has(key)) {
    id = from.identifier(key);
    shop::need_known(from, key, what, id, shop::ids_of(of_shop));
    if (of_shop.empty()) {
      from.complain(key, fmt::format("the shop has no {} at all", what));
    }
  }
  return id;
}

void read_lists(const Fields& from, const shop::Shop& shop, Commission& commission) {
  for (const Fields& one : from.maps("way_in")) {
    commission.way_in.push_back(read_passage(one));
  }
  for (const Fields& one : from.maps("risks")) {
    commission.risks.push_back(read_risk(one));
  }
  for (const Fields& one : from.maps("extra_costs")) {
    commission.extra_costs.push_back(read_cost(one));
  }
  const std::vector<std::string> standards = shop::ids_of(shop.standards);
  for (const Fields& one : from.maps("extra_work")) {
    commission.extra_work.push_back(read_work(one, standards));
  }
  for (const Fields& one : from.maps("dismissed")) {
    commission.dismissals.push_back(read_dismissal(one));
  }
}

void read_piece(const Fields& from, Commission& commission) {
  const Node* piece = from.node("piece");
  if (piece == nullptr) {
    return;
  }
  commission.piece = *piece;
  if (piece->kind != Node::Kind::kMap) {
    from.complain(
        "piece",
        fmt::format("found {}, expected the sizes and kits of the piece", kind_of(*piece)));
  }
}

void sort_by_place(base::Errors& errors) {
  std::ranges::stable_sort(errors, {}, [](const base::Error& error) {
    return error.at ? std::pair{error.at->line, error.at->column} : std::pair{0, 0};
  });
}

}  // namespace

ReadCommission read_commission(const Node& root,
                               const std::string& file,
                               const shop::Shop& shop,
                               const Picks& picks) {
  ReadCommission read;
  Commission& commission = read.commission;
  commission.file = file;
  commission.names = document::Names{unit_of(root, shop.unit)};
  const Fields from{root, commission_fields(), commission.names, read.errors};
  commission.choices = read_choices(from, picks, read.errors);
  set_names(from, read.errors, commission);
  read_title(from, commission);
  read_dates(from, commission);
  commission.use = read_use(from.map("use"));
  commission.room = read_room(from.map("room"));
  commission.terms = shop.terms;
  shop::take_terms(from.map("terms"), commission.terms);
  commission.finish = read_own(from, "finish", "finish", shop.finishes);
  commission.glue = read_own(from, "glue", "glue", shop.glues);
  read_lists(from, shop, commission);
  read_piece(from, commission);
  sort_by_place(read.errors);
  return read;
}

std::string shop_named_by(const Node& root) {
  return scalar(root, "shop");
}

}  // namespace plankwright::commission
