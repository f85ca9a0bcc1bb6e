#pragma once
// The Commission document: what was asked for. The piece itself stays written text here (kits and
// their fields); the piece room turns it into parts.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "document/fields.h"
#include "document/names.h"
#include "document/node.h"
#include "measure/date.h"
#include "measure/expression.h"
#include "measure/length.h"
#include "measure/money.h"
#include "measure/quantity.h"
#include "shop/shop.h"

namespace plankwright::commission {

using measure::Length;
using measure::Money;
using measure::Percent;

/// One way to take a choice: the names it sets.
struct Option {
  std::string id;    // "bought"
  std::string says;  // for the client: "Drawer boxes bought in"
  std::vector<std::pair<std::string, document::Node>> sets;
  base::Position at;
};

/// A question the client or the maker must answer.
struct Choice {
  std::string id;    // "drawers"
  std::string asks;  // "Drawer boxes made here or bought in?"
  std::vector<Option> options;
  std::string picked;  // id of an option
  base::Position at;
};

/// Which option is taken in each choice, by ids. Choices left out keep what the document picked.
using Picks = std::map<std::string, std::string>;

struct Client {
  std::string name;
  std::vector<std::string> address;
};

/// Where the piece will live.
struct Room {
  Percent humidity_low{35};
  Percent humidity_high{65};
  measure::Celsius temperature{21};
  std::optional<Length> ceiling;
  base::Position at;
};

/// One narrow place on the way in.
struct Passage {
  std::string kind;  // "door", "corner", "stair", "lift"
  std::string name;
  Length width;   // clear width of a door, or of the corridor before a corner
  Length beyond;  // of the corridor after a corner
  Length height;  // clear height; zero when it does not bind
  base::Position at;
};

/// A risky step the maker expects: chance times cost goes into the reserve.
struct Risk {
  std::string what;
  Percent chance;
  measure::Minutes minutes;  // to make good
  Money material;
  base::Position at;
};

/// Something no kit makes: a bought item, a subcontract, packing, a provisional sum.
struct ExtraCost {
  std::string what;
  std::string kind;  // "material", "hardware", "subcontract", "delivery", "finish", "allowance"
  Money price;
  base::Position at;
};

/// Hours that no rule can see (design talks, a site visit): `standard` is an id of the shop's
/// table.
struct ExtraWork {
  std::string what;
  std::string standard;
  double units = 1;
  base::Position at;
};

/// A finding the maker has seen and accepts.
struct Dismissal {
  std::string finding;  // its id, or the front part of it
  std::string reason;
  base::Position at;
};

/// Who or what the piece serves, for the checks.
struct Use {
  std::string
      what;  // "hall_cabinet", "dining_table", "desk", "bookcase" ...: picks ergonomic rules
  bool children = false;
  std::optional<Length> knee_height;  // asked for by the client
  std::optional<measure::NewtonsPerMillimetre> shelf_load;
  std::string says;
};

struct Commission {
  std::string file;
  std::string name;
  std::string number;
  std::string revision = "A";
  std::string says;  // for the client's paper
  Client client;
  std::optional<measure::Date> quoted;
  std::optional<measure::Date> wanted;
  std::string shop_file;  // "" : the default shop
  Use use;
  Room room;
  std::vector<Passage> way_in;
  std::vector<Choice> choices;
  document::Names names{measure::LengthUnit::kMillimetre};  // with the picked options' names set
  document::Node piece;
  std::vector<Risk> risks;
  std::vector<ExtraCost> extra_costs;
  std::vector<ExtraWork> extra_work;
  std::vector<Dismissal> dismissals;
  shop::Terms terms;   // the shop's, with what the commission changes
  std::string finish;  // id in the shop's list
  std::string glue;

  measure::LengthUnit unit() const { return names.unit(); }
};

struct ReadCommission {
  Commission commission;
  base::Errors errors;
};

/// Reads the head of a commission: everything but the inside of `piece`. `shop` gives defaults of
/// terms, finish and glue, which must exist there.
ReadCommission read_commission(const document::Node& root,
                               const std::string& file,
                               const shop::Shop& shop,
                               const Picks& picks = {});

/// The shop file a commission names, before anything else of it is read ("" when it names none).
std::string shop_named_by(const document::Node& root);

/// What may stand in a Commission document outside the piece; also published as JSON Schema.
document::FieldTable commission_fields();

/// All combinations of options, the document's own picks first, at most `most` of them.
std::vector<Picks> combinations(const Commission& commission, std::size_t most);

/// The document's own picks.
Picks picks_of(const Commission& commission);

}  // namespace plankwright::commission
