// What may stand in a Commission document outside the piece.

#include "commission/commission.h"
#include "document/fields.h"
#include "shop/terms.h"

namespace plankwright::commission {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::string_view kUnits[] = {"inch", "mm"};
constexpr std::string_view kUses[] = {"hall_cabinet",
                                      "dining_table",
                                      "desk",
                                      "bookcase",
                                      "coffee_table",
                                      "side_table",
                                      "console_table",
                                      "nightstand",
                                      "chest_of_drawers",
                                      "wardrobe",
                                      "sideboard",
                                      "kitchen_cabinet",
                                      "counter",
                                      "bench",
                                      "chair",
                                      "bed",
                                      "shelf",
                                      "other"};
constexpr std::string_view kPassages[] = {"door", "corner", "stair", "lift"};
constexpr std::string_view kCosts[] = {
    "material", "hardware", "subcontract", "delivery", "finish", "allowance", "client_item"};

constexpr Field kClient[] = {
    {.key = "name", .kind = FieldKind::kText, .says = "Who asked for the piece"},
    {.key = "address", .kind = FieldKind::kAny, .says = "Lines of the address"}};

constexpr Field kUse[] = {
    {.key = "what", .kind = FieldKind::kWord, .says = "What the piece serves as", .words = kUses},
    {.key = "children",
     .kind = FieldKind::kYesNo,
     .says = "Whether children live with it or visit"},
    {.key = "knee_height",
     .kind = FieldKind::kLength,
     .says = "Clear height asked for below a top",
     .range = FieldRange::kPositive},
    {.key = "shelf_load",
     .kind = FieldKind::kLineLoad,
     .says = "What the shelves carry",
     .range = FieldRange::kPositive},
    {.key = "says",
     .kind = FieldKind::kText,
     .says = "What it is used for, in the client's words"}};

constexpr Field kRoom[] = {{.key = "humidity_low",
                            .kind = FieldKind::kPercent,
                            .says = "Relative humidity of the driest time of the year",
                            .fallback = "35 %"},
                           {.key = "humidity_high",
                            .kind = FieldKind::kPercent,
                            .says = "Relative humidity of the dampest time of the year",
                            .fallback = "65 %"},
                           {.key = "temperature",
                            .kind = FieldKind::kCelsius,
                            .says = "Usual temperature",
                            .fallback = "21 C"},
                           {.key = "ceiling",
                            .kind = FieldKind::kLength,
                            .says = "Height of the ceiling at its lowest",
                            .range = FieldRange::kPositive}};

constexpr Field kPassage[] = {{.key = "kind",
                               .kind = FieldKind::kWord,
                               .says = "What must be passed",
                               .required = true,
                               .words = kPassages},
                              {.key = "name", .kind = FieldKind::kText, .says = "Which one it is"},
                              {.key = "width",
                               .kind = FieldKind::kLength,
                               .says = "Clear width; of the corridor before a corner",
                               .required = true,
                               .range = FieldRange::kPositive},
                              {.key = "beyond",
                               .kind = FieldKind::kLength,
                               .says = "Clear width of the corridor after a corner",
                               .range = FieldRange::kPositive},
                              {.key = "height",
                               .kind = FieldKind::kLength,
                               .says = "Clear height, where it binds",
                               .range = FieldRange::kPositive}};

constexpr Field kOption[] = {
    {.key = "says",
     .kind = FieldKind::kText,
     .says = "What the client gets, in the client's words",
     .required = true},
    {.key = "sets", .kind = FieldKind::kAny, .says = "The names it gives a meaning, and which"}};

constexpr Field kChoice[] = {
    {.key = "asks", .kind = FieldKind::kText, .says = "The question", .required = true},
    {.key = "pick",
     .kind = FieldKind::kIdentifier,
     .says = "The option taken; the first where none is written"},
    {.key = "options",
     .kind = FieldKind::kNamedMaps,
     .says = "The answers, by id",
     .required = true,
     .inner = kOption}};

constexpr Field kWork[] = {
    {.key = "what", .kind = FieldKind::kText, .says = "What is done", .required = true},
    {.key = "standard",
     .kind = FieldKind::kIdentifier,
     .says = "Labour standard it is reckoned by",
     .required = true},
    {.key = "units",
     .kind = FieldKind::kNumber,
     .says = "How many units of it",
     .fallback = "1",
     .range = FieldRange::kPositive}};

constexpr Field kCost[] = {
    {.key = "what", .kind = FieldKind::kText, .says = "What is paid for", .required = true},
    {.key = "kind",
     .kind = FieldKind::kWord,
     .says = "Where it belongs; a client_item stands in the lists and costs nothing",
     .required = true,
     .words = kCosts},
    {.key = "price",
     .kind = FieldKind::kMoney,
     .says = "What it costs the shop",
     .range = FieldRange::kNotNegative}};

constexpr Field kRisk[] = {
    {.key = "what", .kind = FieldKind::kText, .says = "What may go wrong", .required = true},
    {.key = "chance",
     .kind = FieldKind::kPercent,
     .says = "How likely it is",
     .required = true,
     .range = FieldRange::kPositive},
    {.key = "minutes",
     .kind = FieldKind::kMinutes,
     .says = "Work to make it good",
     .range = FieldRange::kNotNegative},
    {.key = "material",
     .kind = FieldKind::kMoney,
     .says = "What is bought anew",
     .range = FieldRange::kNotNegative}};

constexpr Field kDismissed[] = {
    {.key = "finding",
     .kind = FieldKind::kIdentifier,
     .says = "Id of the finding, or its front part",
     .required = true},
    {.key = "reason", .kind = FieldKind::kText, .says = "Why it is accepted", .required = true}};

}  // namespace

document::FieldTable commission_fields() {
  static const Field kFields[] = {
      {.key = "commission",
       .kind = FieldKind::kText,
       .says = "What the piece is called",
       .required = true},
      {.key = "number", .kind = FieldKind::kText, .says = "Number of the commission"},
      {.key = "revision",
       .kind = FieldKind::kText,
       .says = "Revision of the document",
       .fallback = "A"},
      {.key = "units",
       .kind = FieldKind::kWord,
       .says = "What bare numbers are in; the shop's unit where it is not written",
       .words = kUnits},
      {.key = "shop",
       .kind = FieldKind::kText,
       .says = "File of the shop that makes it; the default shop where it is not written"},
      {.key = "says", .kind = FieldKind::kText, .says = "The piece in a sentence, for the client"},
      {.key = "client", .kind = FieldKind::kMap, .says = "Who asked for it", .inner = kClient},
      {.key = "quoted", .kind = FieldKind::kDate, .says = "Day of the offer"},
      {.key = "wanted", .kind = FieldKind::kDate, .says = "Day on which it should be delivered"},
      {.key = "use", .kind = FieldKind::kMap, .says = "What the piece serves", .inner = kUse},
      {.key = "room", .kind = FieldKind::kMap, .says = "Where it will live", .inner = kRoom},
      {.key = "way_in",
       .kind = FieldKind::kMaps,
       .says = "Narrow places on the way in",
       .inner = kPassage},
      {.key = "choices",
       .kind = FieldKind::kNamedMaps,
       .says = "Questions that are open, by id",
       .inner = kChoice},
      {.key = "names",
       .kind = FieldKind::kAny,
       .says = "Names of your own for sizes, numbers and words"},
      {.key = "piece",
       .kind = FieldKind::kAny,
       .says = "The piece itself, built of kits",
       .required = true},
      {.key = "finish",
       .kind = FieldKind::kIdentifier,
       .says = "Finish, an id of the shop's; its first where none is written"},
      {.key = "glue",
       .kind = FieldKind::kIdentifier,
       .says = "Glue, an id of the shop's; its first where none is written"},
      {.key = "terms",
       .kind = FieldKind::kMap,
       .says = "Terms that differ from the shop's",
       .inner = shop::terms_fields()},
      {.key = "extra_work",
       .kind = FieldKind::kMaps,
       .says = "Work that no part of the piece shows",
       .inner = kWork},
      {.key = "extra_costs",
       .kind = FieldKind::kMaps,
       .says = "Costs that no part of the piece shows",
       .inner = kCost},
      {.key = "risks",
       .kind = FieldKind::kMaps,
       .says = "What may go wrong, for the reserve",
       .inner = kRisk},
      {.key = "dismissed",
       .kind = FieldKind::kMaps,
       .says = "Findings that are seen and accepted",
       .inner = kDismissed}};
  return kFields;
}

}  // namespace plankwright::commission
