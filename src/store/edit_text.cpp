// The value is replaced in the characters of the text and the result read again: the two trees must
// be the same but for that value. So whatever the grammar thinks of the new characters, an edit
// that does more than it says is never kept.
#include "store/edit_text.h"

#include <optional>
#include <string_view>

#include <fmt/format.h>

#include "base/quote.h"
#include "document/node.h"
#include "document/utf8.h"

namespace plankwright::store {
namespace {

using document::Node;

const Node* value_at(const Node& node, int line, int column) {
  if (node.kind == Node::Kind::kScalar || node.kind == Node::Kind::kEmpty) {
    return node.at.line == line && node.at.column == column ? &node : nullptr;
  }
  for (const Node& item : node.items) {
    if (const Node* found = value_at(item, line, column)) {
      return found;
    }
  }
  for (const Node::Entry& entry : node.entries) {
    if (const Node* found = value_at(entry.value, line, column)) {
      return found;
    }
  }
  return nullptr;
}

/// Where in the text a place is; npos when the text has no such line or character.
std::size_t byte_of(std::string_view text, int line, int column) {
  std::size_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  for (int n = 1; n < line; ++n) {
    at = text.find('\n', at);
    if (at == std::string_view::npos) {
      return at;
    }
    ++at;
  }
  for (int n = 1; n < column; ++n) {
    if (at >= text.size() || text[at] == '\n') {
      return std::string_view::npos;
    }
    at += std::max<std::size_t>(document::utf8_length(text.substr(at)), 1);
  }
  return at;
}

/// How many bytes the value takes as it is written at `at`; none when it runs over lines.
std::optional<std::size_t> written_length(std::string_view text, std::size_t at, const Node& node) {
  const std::string_view rest = text.substr(at);
  if (!node.quoted) {
    return rest.starts_with(node.text) ? std::optional{node.text.size()} : std::nullopt;
  }
  const char quote = rest.empty() ? '\0' : rest.front();
  if (quote != '\'' && quote != '"') {
    return std::nullopt;  // block text
  }
  for (std::size_t i = 1; i < rest.size() && rest[i] != '\n'; ++i) {
    if (rest[i] == '\\' && quote == '"') {
      ++i;
    } else if (rest[i] == quote) {
      if (quote == '\'' && i + 1 < rest.size() && rest[i + 1] == quote) {
        ++i;
      } else {
        return i + 1;
      }
    }
  }
  return std::nullopt;
}

std::string in_quotes(std::string_view value) {
  std::string out = "\"";
  for (const char c : value) {
    if (c == '"' || c == '\\') {
      out += '\\';
    }
    out += c;
  }
  return out + '"';
}

bool same_but_for(const Node& a, const Node& b, const Node* changed, const std::string& to);

bool same_children(const Node& a, const Node& b, const Node* changed, const std::string& to) {
  for (std::size_t i = 0; i < a.items.size(); ++i) {
    if (!same_but_for(a.items[i], b.items[i], changed, to)) {
      return false;
    }
  }
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    if (a.entries[i].key != b.entries[i].key ||
        !same_but_for(a.entries[i].value, b.entries[i].value, changed, to)) {
      return false;
    }
  }
  return true;
}

bool same_but_for(const Node& a, const Node& b, const Node* changed, const std::string& to) {
  if (&a == changed) {
    return b.kind == Node::Kind::kScalar && b.text == to;
  }
  return a.kind == b.kind && a.text == b.text && a.items.size() == b.items.size() &&
         a.entries.size() == b.entries.size() && same_children(a, b, changed, to);
}

base::Error refuse(const std::string& file, const Edit& edit, std::string message) {
  return {
      base::ErrorCode::kBadInput, std::move(message), base::Position{file, edit.line, edit.column}};
}

bool is_one_line(std::string_view value) {
  return value.find_first_of("\n\r\t") == std::string_view::npos;
}

}  // namespace

base::Result<std::string> edit_text(const std::string& text,
                                    const std::string& file,
                                    const Edit& edit) {
  const document::Parsed parsed = document::parse_yaml(text, file);
  if (!parsed.errors.empty()) {
    return parsed.errors.front();
  }
  const Node* value = value_at(parsed.root, edit.line, edit.column);
  const std::size_t at = byte_of(text, edit.line, edit.column);
  if (value == nullptr || value->kind != Node::Kind::kScalar || at == std::string::npos) {
    return refuse(file, edit, "there is no single value here to change");
  }
  if (value->text != edit.from) {
    return refuse(file,
                  edit,
                  fmt::format("found {}, expected {}; the text has changed since it was read",
                              base::quote(value->text),
                              base::quote(edit.from)));
  }
  const auto length = written_length(text, at, *value);
  if (!length || edit.to.empty() || !is_one_line(edit.to)) {
    return refuse(file, edit, "only a value of one line can be changed here; write in the text");
  }
  for (const std::string& written :
       {value->quoted ? in_quotes(edit.to) : edit.to, in_quotes(edit.to)}) {
    std::string changed = text;
    changed.replace(at, *length, written);
    const document::Parsed again = document::parse_yaml(changed, file);
    if (again.errors.empty() && same_but_for(parsed.root, again.root, value, edit.to)) {
      return changed;
    }
  }
  return refuse(file, edit, fmt::format("{} cannot be written here", base::quote(edit.to)));
}

}  // namespace plankwright::store
