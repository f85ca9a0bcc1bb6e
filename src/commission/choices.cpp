#include "commission/choices.h"

#include <algorithm>
#include <iterator>
#include <map>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "measure/expression.h"

namespace plankwright::commission {
namespace {

using document::Fields;
using document::Node;

/// Words that already mean something where a size or a word is written.
constexpr std::string_view kTaken[] = {"in",
                                       "ft",
                                       "mm",
                                       "cm",
                                       "m",
                                       "min",
                                       "max",
                                       "round_to",
                                       "if",
                                       "rest",
                                       "yes",
                                       "no",
                                       "true",
                                       "false"};

std::vector<std::string> option_ids(const Choice& choice) {
  std::vector<std::string> ids;
  for (const Option& option : choice.options) {
    ids.push_back(option.id);
  }
  return ids;
}

const Option* find_option(const Choice& choice, std::string_view id) {
  const auto it = std::ranges::find(choice.options, id, &Option::id);
  return it == choice.options.end() ? nullptr : &*it;
}

Option read_option(const std::string& id, const Fields& from, base::Errors& errors) {
  Option option{.id = id, .says = from.text("says"), .sets = {}, .at = from.at()};
  if (const Node* sets = from.node("sets")) {
    option.sets = read_names(*sets, errors);
  }
  return option;
}

void complain_of_pick(const Choice& choice,
                      const std::string& pick,
                      const base::Position& at,
                      base::Errors& errors) {
  const std::vector<std::string> ids = option_ids(choice);
  errors.push_back({.message = fmt::format("the choice `{}` has no option {}, expected {}",
                                           choice.id,
                                           base::quote(pick),
                                           base::list_words(ids)),
                    .at = at,
                    .nearest = base::nearest_word(pick, ids)});
}

/// What is taken: what the caller picked, else what is written, else the first option.
void take_pick(const Fields& from, const Picks& picks, base::Errors& errors, Choice& choice) {
  if (choice.options.empty()) {
    return;
  }
  choice.picked = choice.options.front().id;
  const auto picked = picks.find(choice.id);
  if (!from.has("pick") && picked == picks.end()) {
    return;
  }
  const std::string pick = picked == picks.end() ? from.identifier("pick") : picked->second;
  if (find_option(choice, pick) != nullptr) {
    choice.picked = pick;
  } else if (!pick.empty() || picked != picks.end()) {
    complain_of_pick(choice, pick, from.at("pick"), errors);
  }
}

Choice read_choice(const std::string& id,
                   const Fields& from,
                   const Picks& picks,
                   base::Errors& errors) {
  Choice choice{.id = id, .asks = from.text("asks"), .options = {}, .picked = {}, .at = from.at()};
  for (const auto& [option_id, option] : from.named_maps("options")) {
    choice.options.push_back(read_option(option_id, option, errors));
  }
  if (from.has("options") && choice.options.size() < 2) {
    from.complain("options",
                  fmt::format("the choice `{}` has {}, expected two options or more",
                              id,
                              choice.options.empty() ? "no option" : "one option"));
  }
  take_pick(from, picks, errors, choice);
  return choice;
}

/// Two choices that set one name would undo each other.
void complain_of_shared_names(const std::vector<Choice>& choices, base::Errors& errors) {
  std::map<std::string, const Choice*> owner;
  for (const Choice& choice : choices) {
    for (const Option& option : choice.options) {
      for (const auto& [name, value] : option.sets) {
        const Choice* first = owner.emplace(name, &choice).first->second;
        if (first != &choice) {
          errors.push_back({.message = fmt::format(
                                "the choices `{}` and `{}` both set `{}`; each name belongs to "
                                "one choice",
                                first->id,
                                choice.id,
                                name),
                            .at = value.at});
        }
      }
    }
  }
}

void complain_of_unknown_picks(const Fields& from,
                               const std::vector<Choice>& choices,
                               const Picks& picks,
                               base::Errors& errors) {
  std::vector<std::string> ids;
  std::ranges::transform(choices, std::back_inserter(ids), &Choice::id);
  for (const auto& [choice, option] : picks) {
    if (std::ranges::find(ids, choice) == ids.end()) {
      errors.push_back({.message = fmt::format("picked {} of the choice {}, which is not there",
                                               base::quote(option),
                                               base::quote(choice)),
                        .at = from.at("choices"),
                        .nearest = base::nearest_word(choice, ids)});
    }
  }
}

}  // namespace

std::vector<std::pair<std::string, Node>> read_names(const Node& map, base::Errors& errors) {
  std::vector<std::pair<std::string, Node>> names;
  if (map.kind != Node::Kind::kMap && map.kind != Node::Kind::kEmpty) {
    errors.push_back(
        {.message = fmt::format("found {}, expected a map of names", kind_of(map)), .at = map.at});
  }
  for (const Node::Entry& entry : map.entries) {
    if (!measure::is_name(entry.key)) {
      errors.push_back(
          {.message = fmt::format("found {}, expected a name of letters, digits and `_` "
                                  "that begins with a letter",
                                  base::quote(entry.key)),
           .at = entry.key_at});
    } else if (std::ranges::find(kTaken, entry.key) != std::end(kTaken)) {
      errors.push_back(
          {.message = fmt::format("`{}` has a meaning already and cannot be a name", entry.key),
           .at = entry.key_at});
    } else {
      names.emplace_back(entry.key, entry.value);
    }
  }
  return names;
}

std::vector<Choice> read_choices(const Fields& from, const Picks& picks, base::Errors& errors) {
  std::vector<Choice> choices;
  for (const auto& [id, fields] : from.named_maps("choices")) {
    choices.push_back(read_choice(id, fields, picks, errors));
  }
  complain_of_shared_names(choices, errors);
  complain_of_unknown_picks(from, choices, picks, errors);
  return choices;
}

}  // namespace plankwright::commission
