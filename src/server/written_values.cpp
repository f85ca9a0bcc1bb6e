// The field tables that read a document also say what its values are: the tree is walked along
// them. Where a table leaves a field open (names, the inside of a piece) kits and spaces are known
// by their keys, and what is left is judged by what it comes to.
#include "server/written_values.h"

#include <algorithm>

#include <fmt/format.h>

#include "document/fields.h"
#include "measure/expression.h"
#include "piece/build_piece.h"
#include "piece/kit.h"
#include "piece/space.h"

namespace plankwright::server {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldTable;
using document::Node;

const Field* field_of(FieldTable table, std::string_view key) {
  const auto found = std::ranges::find(table, key, &Field::key);
  return found == table.end() ? nullptr : &*found;
}

/// The table of what stands under `key` where the table above leaves it open.
FieldTable table_behind(const Field* field, std::string_view key) {
  if (field != nullptr && !field->inner.empty()) {
    return field->inner;
  }
  for (const piece::Kit& kit : piece::all_kits()) {
    if (kit.word == key) {
      return kit.fields;
    }
  }
  if (key == "stack" || key == "row" || key == "bays") {
    return piece::space_fields();
  }
  return key == "piece" ? piece::piece_fields() : FieldTable{};
}

class Walk {
 public:
  explicit Walk(const commission::Commission& commission) : commission_{commission} {}

  void visit(const Node& node, const std::string& path, const Field* field, FieldTable inner) {
    switch (node.kind) {
      case Node::Kind::kScalar:
        add(node, path, field);
        return;
      case Node::Kind::kList:
        for (std::size_t i = 0; i < node.items.size(); ++i) {
          visit(node.items[i], fmt::format("{}/{}", path, i), field, inner);
        }
        return;
      case Node::Kind::kMap:
        visit_map(node, path, field, inner);
        return;
      case Node::Kind::kEmpty:
        return;
    }
  }

  std::vector<WrittenValue> take() { return std::move(values_); }

 private:
  void visit_map(const Node& node, const std::string& path, const Field* field, FieldTable inner) {
    const bool named = field != nullptr && field->kind == FieldKind::kNamedMaps;
    for (const Node::Entry& entry : node.entries) {
      const std::string below = path.empty() ? entry.key : path + '/' + entry.key;
      if (named && entry.value.kind == Node::Kind::kMap) {
        // The key is the maker's own word; what stands under it is read by the same table.
        for (const Node::Entry& of_one : entry.value.entries) {
          visit_field(of_one, below + '/' + of_one.key, inner);
        }
      } else {
        visit_field(entry, below, inner);
      }
    }
  }

  void visit_field(const Node::Entry& entry, const std::string& path, FieldTable table) {
    const Field* field = field_of(table, entry.key);
    visit(entry.value, path, field, table_behind(field, entry.key));
  }

  void add(const Node& node, const std::string& path, const Field* field) {
    if (node.text.empty() || node.text.find('\n') != std::string::npos) {
      return;
    }
    WrittenValue value{path, node.at, node.text, "text"};
    if (field != nullptr) {
      value.says = field->says;
    }
    classify(value, node, field);
    values_.push_back(std::move(value));
  }

  void classify(WrittenValue& value, const Node& node, const Field* field) const {
    if (node.quoted) {
      return;
    }
    if (set_options(value, field)) {
      value.kind = "choice";
    } else if (field == nullptr || field->kind == FieldKind::kAny) {
      judge_by_worth(value, node);
    } else if (field->kind == FieldKind::kLength || field->kind == FieldKind::kLengths) {
      set_length(value, node);
    } else if (is_figure(field->kind)) {
      value.kind = "number";
    }
  }

  static bool is_figure(FieldKind kind) {
    switch (kind) {
      case FieldKind::kNumber:
      case FieldKind::kCount:
      case FieldKind::kPercent:
      case FieldKind::kMoney:
      case FieldKind::kMinutes:
      case FieldKind::kCelsius:
      case FieldKind::kKilograms:
      case FieldKind::kLineLoad:
      case FieldKind::kPercents:
        return true;
      default:
        return false;
    }
  }

  /// What may stand here, when that is a short list: words of the trade, options, yes and no.
  bool set_options(WrittenValue& value, const Field* field) const {
    if (value.path.starts_with("choices/") && value.path.ends_with("/pick")) {
      const std::string id = value.path.substr(8, value.path.size() - 8 - 5);
      for (const commission::Choice& choice : commission_.choices) {
        for (const commission::Option& option : choice.options) {
          if (choice.id == id) {
            value.options.push_back(option.id);
          }
        }
      }
    } else if (field != nullptr && field->kind == FieldKind::kWord) {
      value.options.assign(field->words.begin(), field->words.end());
    } else if (field != nullptr && field->kind == FieldKind::kYesNo) {
      value.options = {"yes", "no"};
    }
    return !value.options.empty();
  }

  /// `rest` and the like are words even where a size may stand.
  void set_length(WrittenValue& value, const Node& node) const {
    const auto worth = commission_.names.evaluate(node);
    if (!worth.ok()) {
      return;
    }
    const auto plain = measure::parse_length(node.text, commission_.unit());
    value.kind = plain.ok() ? "length" : "expression";
    value.length = measure::as_length(worth.value(), commission_.unit());
  }

  /// A bare number under `names` is a size or a count, and nobody can tell; most are sizes.
  void judge_by_worth(WrittenValue& value, const Node& node) const {
    const bool may_be_size =
        value.path.starts_with("names/") || value.path.find("/sets/") != std::string::npos;
    const bool in_piece = value.path.starts_with("piece/");
    if ((may_be_size || in_piece) && value.path.find("/name") == std::string::npos) {
      set_length(value, node);
    }
  }

  const commission::Commission& commission_;
  std::vector<WrittenValue> values_;
};

}  // namespace

std::vector<WrittenValue> written_values(const Node& root,
                                         const commission::Commission& commission) {
  Walk walk{commission};
  walk.visit(root, "", nullptr, commission::commission_fields());
  return walk.take();
}

}  // namespace plankwright::server
