#include "run_options.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <variant>

#include <fmt/format.h>

namespace plankwright::bench_tool {
namespace {

using Target = std::variant<std::string*, double*, int*, std::int64_t*>;

struct Reader {
  const std::string& text;
  bool operator()(std::string* target) const {
    *target = text;
    return true;
  }
  template <class Number>
  bool operator()(Number* target) const {
    const char* const end = text.data() + text.size();
    const auto [rest, trouble] = std::from_chars(text.data(), end, *target);
    return trouble == std::errc{} && rest == end;
  }
};

base::Error bad(std::string message) {
  return {base::ErrorCode::kBadInput, std::move(message), std::nullopt, {}};
}

}  // namespace

const char* const kOptionsHelp =
    "[--variant V] [--set NAME] [--seconds S] [--cpu S] [--work BILLIONS] [--threads N] "
    "[--first N] [--every K]";

base::Result<RunOptions> read_options(const std::vector<std::string>& words) {
  RunOptions options;
  const std::map<std::string, Target> targets = {{"--variant", &options.variant},
                                                 {"--set", &options.set},
                                                 {"--seconds", &options.seconds},
                                                 {"--cpu", &options.cpu},
                                                 {"--work", &options.work},
                                                 {"--threads", &options.threads},
                                                 {"--every", &options.every},
                                                 {"--first", &options.first}};
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!words[i].starts_with("--")) {
      options.files.push_back(words[i]);
      continue;
    }
    const auto target = targets.find(words[i]);
    if (target == targets.end()) {
      return bad(fmt::format("{} is no option; there are {}", words[i], kOptionsHelp));
    }
    if (i + 1 == words.size()) {
      return bad(fmt::format("{} needs a value", words[i]));
    }
    ++i;
    if (!std::visit(Reader{words[i]}, target->second)) {
      return bad(fmt::format("{} needs a number, not {}", words[i - 1], words[i]));
    }
  }
  options.every = std::max<std::int64_t>(1, options.every);
  return options;
}

}  // namespace plankwright::bench_tool
