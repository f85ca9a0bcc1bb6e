// Any bytes, read as a document by a table: never a crash, a hang or an error without a place.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "document/fields.h"

namespace {

using namespace plankwright;
using namespace plankwright::document;

constexpr std::string_view kJoints[] = {"butt", "housed"};
constexpr Field kLeg[] = {{.key = "side", .kind = FieldKind::kLength, .says = "", .required = true},
                          {.key = "joint", .kind = FieldKind::kWord, .says = "", .words = kJoints},
                          {.key = "stock", .kind = FieldKind::kIdentifier, .says = ""}};
constexpr Field kTable[] = {
    {.key = "names", .kind = FieldKind::kAny, .says = ""},
    {.key = "a", .kind = FieldKind::kLengths, .says = "", .fallback = "[1, 2]"},
    {.key = "b", .kind = FieldKind::kMinutes, .says = ""},
    {.key = "c", .kind = FieldKind::kMoney, .says = ""},
    {.key = "d", .kind = FieldKind::kDate, .says = ""},
    {.key = "leg", .kind = FieldKind::kMap, .says = "", .inner = kLeg},
    {.key = "legs", .kind = FieldKind::kMaps, .says = "", .inner = kLeg},
    {.key = "parts", .kind = FieldKind::kNamedMaps, .says = "", .inner = kLeg}};

void need_places(const base::Errors& errors, std::string_view text) {
  for (const base::Error& error : errors) {
    if (!error.at || error.at->line < 1 || error.at->column < 1 || error.message.empty()) {
      std::abort();
    }
    static_cast<void>(base::describe(error, text));
  }
}

void read_leg(const Fields& leg) {
  static_cast<void>(leg.length("side"));
  static_cast<void>(leg.word("joint"));
  static_cast<void>(leg.identifier("stock"));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const Parsed parsed = parse_yaml(text, "f");
  if (!parsed.readable && parsed.errors.empty()) {
    std::abort();
  }
  need_places(parsed.errors, text);
  Names names{measure::LengthUnit::kInch};
  if (const Node* given = parsed.root.find("names")) {
    for (const Node::Entry& entry : given->entries) {
      names.set(entry.key, entry.value);
    }
  }
  base::Errors errors;
  const Fields fields{parsed.root, kTable, names, errors};
  static_cast<void>(fields.lengths("a"));
  static_cast<void>(fields.minutes("b"));
  static_cast<void>(fields.money("c"));
  static_cast<void>(fields.date("d"));
  read_leg(fields.map("leg"));
  for (const Fields& leg : fields.maps("legs")) {
    read_leg(leg);
  }
  for (const auto& [name, leg] : fields.named_maps("parts")) {
    read_leg(leg);
  }
  need_places(errors, text);
  return 0;
}
