// The grammar is yaml-cpp's; before it comes our own look at each line (line_scan.h), because the
// library accepts some mistakes silently and explains others in words no maker uses.
#include <algorithm>
#include <cctype>
#include <set>
#include <sstream>
#include <tuple>

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include "base/quote.h"
#include "document/line_scan.h"
#include "document/node.h"
#include "document/source_lines.h"

namespace plankwright::document {
namespace {

using base::Error;
using base::Position;

constexpr std::size_t kLongestText = 4U << 20U;
constexpr std::size_t kDeepest = 64;

/// A mistake in the order of the text that ends the reading at once.
struct Refused {
  Error error;
};

/// Builds the tree from the parser's events.
class TreeBuilder : public YAML::EventHandler {
 public:
  TreeBuilder(const SourceLines& lines, const std::string& file) : lines_{lines}, file_{file} {}

  Node take_root() { return std::move(root_); }
  base::Errors take_errors() { return std::move(errors_); }

  /// The library takes a line that fits nothing above it for the start of another document.
  void OnDocumentStart(const YAML::Mark& mark) override {
    if (started_) {
      throw YAML::ParserException{mark, YAML::ErrorMsg::END_OF_MAP};
    }
    started_ = true;
  }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    add(make_node(Node::Kind::kEmpty, place(mark)));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    add(make_node(Node::Kind::kEmpty, place(mark)));
  }
  void OnScalar(const YAML::Mark& mark,
                const std::string& tag,
                YAML::anchor_t /*anchor*/,
                const std::string& value) override {
    Node node = make_scalar(value, place(mark));
    node.quoted = tag == "!";  // what the library calls everything but a plain scalar
    add(std::move(node));
  }
  void OnSequenceStart(const YAML::Mark& mark,
                       const std::string& /*tag*/,
                       YAML::anchor_t /*anchor*/,
                       YAML::EmitterStyle::value /*style*/) override {
    open(make_node(Node::Kind::kList, place(mark)));
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark,
                  const std::string& /*tag*/,
                  YAML::anchor_t /*anchor*/,
                  YAML::EmitterStyle::value /*style*/) override {
    open(make_node(Node::Kind::kMap, place(mark)));
  }
  void OnMapEnd() override { close(); }

 private:
  /// A list or map being filled; in a map a key waits for its value.
  struct Open {
    Node node;
    bool has_key = false;
    std::string key;
    Position key_at;
    std::set<std::string, std::less<>> keys;
  };

  Position place(const YAML::Mark& mark) const {
    return {
        file_,
        mark.line + 1,
        lines_.column(static_cast<std::size_t>(mark.line), static_cast<std::size_t>(mark.column))};
  }
  void open(Node node);
  void close();
  void add(Node node);
  void add_key(Open& map, const Node& key);
  void add_entry(Open& map, Node value);

  const SourceLines& lines_;
  const std::string& file_;
  bool started_ = false;
  std::vector<Open> open_;
  Node root_;
  base::Errors errors_;
};

void TreeBuilder::open(Node node) {
  if (open_.size() >= kDeepest) {
    throw Refused{{.message = "found maps and lists more than 64 deep", .at = node.at}};
  }
  if (!open_.empty() && open_.back().node.kind == Node::Kind::kMap && !open_.back().has_key) {
    throw Refused{{.message = fmt::format("found {} as a name, expected a word before the `:`",
                                          kind_of(node)),
                   .at = node.at}};
  }
  Open opened;
  opened.node = std::move(node);
  open_.push_back(std::move(opened));
}

void TreeBuilder::close() {
  Node node = std::move(open_.back().node);
  open_.pop_back();
  add(std::move(node));
}

void TreeBuilder::add(Node node) {
  if (open_.empty()) {
    root_ = std::move(node);
    return;
  }
  Open& parent = open_.back();
  if (parent.node.kind == Node::Kind::kList) {
    if (node.kind == Node::Kind::kEmpty) {
      node.at = parent.node.at;
    }
    parent.node.items.push_back(std::move(node));
  } else if (!parent.has_key) {
    add_key(parent, node);
  } else {
    add_entry(parent, std::move(node));
  }
}

void TreeBuilder::add_key(Open& map, const Node& key) {
  map.has_key = true;
  map.key = key.text;
  map.key_at = key.at;
  if ((key.kind == Node::Kind::kEmpty || key.text == "<<") && errors_.size() < kMostErrors) {
    errors_.push_back({.message = key.text.empty() ? "found `:` without a name before it"
                                                   : "found `<<`; merging maps is not part of the "
                                                     "format",
                       .at = key.at});
  }
}

void TreeBuilder::add_entry(Open& map, Node value) {
  map.has_key = false;
  if (value.kind == Node::Kind::kEmpty) {
    value.at = map.key_at;  // the library gives the place of whatever comes next
  }
  if (map.keys.insert(map.key).second) {
    map.node.entries.push_back({map.key, map.key_at, std::move(value)});
    return;
  }
  if (errors_.size() >= kMostErrors) {
    return;
  }
  const auto first = std::ranges::find_if(
      map.node.entries, [&](const Node::Entry& entry) { return entry.key == map.key; });
  errors_.push_back({.message = fmt::format("{} is written twice in this map, first in line {}",
                                            base::quote(map.key),
                                            first->key_at.line),
                     .at = map.key_at});
}

/// The library's complaint in a maker's words.
std::string in_plain_words(const std::string& complaint) {
  struct Wording {
    std::string_view theirs, ours;
  };
  constexpr Wording kWordings[] = {
      {"illegal map value",
       "found a `:` where no name can stand; is the line indented like its neighbours?"},
      {"illegal block entry", "found a `-` where no list can start"},
      {"illegal map key", "found a name where none can stand"},
      {"end of map not found",
       "this line is not indented like the lines above it, or is no `name: value`"},
      {"end of sequence not found",
       "this line is not indented like the list above it, or has no `-`"},
      {"end of sequence flow not found",
       "found a list in `[` `]` that does not end, or lacks a `,`"},
      {"end of map flow not found", "found a map in `{` `}` that does not end, or lacks a `,`"},
      {"illegal flow end", "found a closing bracket without its opening one"},
      {"unknown token",
       "found something that starts no value; text with such signs goes into quotes"},
      {"illegal document indicator in scalar", "found `---` or `...` inside a text"},
      {"unexpected character in block scalar",
       "found something behind `|` or `>`, expected the text on the next lines"},
      {"illegal EOF in scalar", "found a text without its closing quote"}};
  for (const Wording& wording : kWordings) {
    if (complaint == wording.theirs) {
      return std::string{wording.ours};
    }
  }
  if (complaint.starts_with("invalid unicode") ||
      complaint.starts_with("bad character found while scanning hex")) {
    return "found before this a `\\` whose number stands for no character";
  }
  return fmt::format("this is not YAML: {}", complaint);
}

/// Takes the line that could not be read and what hangs on it out of the text, so that the rest can
/// be looked at. False when there is nothing to take.
bool blank_block(std::vector<std::string>& lines, std::size_t at) {
  if (at >= lines.size() || is_blank(lines[at])) {
    return false;
  }
  const std::size_t indent = indent_of(lines[at]);
  do {
    lines[at++].clear();
  } while (at < lines.size() && (is_blank(lines[at]) || indent_of(lines[at]) > indent));
  return true;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    text += line;
    text += '\n';
  }
  return text;
}

/// One pass of the parser. True when it read to the end.
struct Pass {
  bool complete = false;
  bool refused = false;
  std::size_t line = 0;  // of the syntax error, from 0
  Node root;
  base::Errors errors;
};

/// The library blames the end of a text in a line behind its last one.
Position place_of(const YAML::Mark& mark, const SourceLines& lines, const std::string& file) {
  const auto line = static_cast<std::size_t>(std::max(0, mark.line));
  const std::size_t last = std::max<std::size_t>(lines.size(), 1) - 1;
  const std::size_t byte = line <= last       ? static_cast<std::size_t>(std::max(0, mark.column))
                           : lines.size() > 0 ? lines[last].size()
                                              : 0;
  const std::size_t shown = std::min(line, last);
  return {file, static_cast<int>(shown) + 1, lines.column(shown, byte)};
}

Pass read_once(const std::string& text, const SourceLines& lines, const std::string& file) {
  Pass pass;
  TreeBuilder builder{lines, file};
  try {
    std::istringstream stream{text};
    YAML::Parser parser{stream};
    while (parser.HandleNextDocument(builder)) {
    }
    pass.complete = true;
    pass.root = builder.take_root();
    pass.errors = builder.take_errors();
  } catch (const Refused& refused) {
    pass.refused = true;
    pass.errors = builder.take_errors();
    pass.errors.push_back(refused.error);
  } catch (const YAML::Exception& exception) {
    pass.line = static_cast<std::size_t>(std::max(0, exception.mark.line));
    pass.errors = builder.take_errors();
    pass.errors.push_back(
        {.message = in_plain_words(exception.msg), .at = place_of(exception.mark, lines, file)});
  }
  return pass;
}

bool is_before(const Error& a, const Error& b) {
  const Position start;
  const Position& first = a.at ? *a.at : start;
  const Position& second = b.at ? *b.at : start;
  return std::tie(first.line, first.column) < std::tie(second.line, second.column);
}

/// Adds what stands in lines not blamed before: a line that was mended may not read well.
void add_new(base::Errors& all, const base::Errors& more) {
  std::set<int> blamed;
  for (const Error& error : all) {
    blamed.insert(error.at->line);
  }
  for (const Error& error : more) {
    if (!blamed.contains(error.at->line) && all.size() < kMostErrors) {
      all.push_back(error);
    }
  }
}

/// Reads what the line scan left; after a syntax error the block it stands in is taken out and the
/// rest is read again. Work is bounded: a long text is read once, a short one until all is found.
void read_grammar(const SourceLines& lines,
                  const std::string& file,
                  std::vector<std::string> mended,
                  Parsed& parsed) {
  constexpr std::size_t kMostWork = 1U << 20U;
  std::size_t passes = std::clamp<std::size_t>(kMostWork / (joined(mended).size() + 1), 1, 20);
  for (; passes > 0; --passes) {
    Pass pass = read_once(joined(mended), lines, file);
    add_new(parsed.errors, pass.errors);
    if (pass.complete) {
      if (pass.root.kind != Node::Kind::kEmpty) {
        parsed.root = std::move(pass.root);
      }
      return;
    }
    parsed.readable = false;
    if (pass.refused || !blank_block(mended, pass.line)) {
      return;
    }
  }
}

Parsed refused(const std::string& file, std::string message) {
  Parsed parsed;
  parsed.readable = false;
  parsed.errors.push_back({.message = std::move(message), .at = Position{file, 1, 1}});
  return parsed;
}

}  // namespace

Parsed parse_yaml(std::string_view text, const std::string& file) {
  if (text.size() > kLongestText) {
    return refused(
        file, fmt::format("found a text of {} MiB, expected at most 4 MiB", text.size() >> 20U));
  }
  if (text.find('\0') != std::string_view::npos) {
    return refused(file, "this is not a text in UTF-8");
  }
  const SourceLines lines{text};
  LineScan scan = scan_lines(lines, file);
  Parsed parsed;
  parsed.root.at = {file, 1, 1};
  parsed.readable = scan.errors.empty();
  parsed.errors = std::move(scan.errors);
  if (!scan.hopeless && parsed.errors.size() < kMostErrors) {
    read_grammar(lines, file, std::move(scan.mended), parsed);
  }
  std::ranges::stable_sort(parsed.errors, is_before);
  return parsed;
}

}  // namespace plankwright::document
