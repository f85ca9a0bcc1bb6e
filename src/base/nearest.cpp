#include "base/nearest.h"

#include <algorithm>
#include <cctype>
#include <vector>

namespace plankwright::base {
namespace {

std::string lower_case(std::string_view text) {
  std::string lower{text};
  std::ranges::transform(lower, lower.begin(), [](unsigned char c) {
    return static_cast<char>(c == '-' || c == ' ' ? '_' : std::tolower(c));
  });
  return lower;
}

// Optimal string alignment: Levenshtein's distance with a swap of neighbours as one edit (Damerau
// 1964). Three rows are enough because a swap looks back two.
int edit_distance(std::string_view a, std::string_view b) {
  std::vector<int> before(b.size() + 1);
  std::vector<int> last(b.size() + 1);
  std::vector<int> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) {
    last[j] = static_cast<int>(j);
  }
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int substitute = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, substitute});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

template <class Words>
std::string nearest_in(std::string_view typed, const Words& words) {
  constexpr std::size_t kLongestWord = 64;  // nobody means a word by typing a paragraph
  if (typed.size() > kLongestWord) {
    return {};
  }
  const std::string wanted = lower_case(typed);
  std::string best;
  int best_distance = static_cast<int>(std::max<std::size_t>(1, typed.size() / 3)) + 1;
  for (const auto& word : words) {
    const int distance = edit_distance(wanted, lower_case(word));
    if (distance < best_distance) {
      best_distance = distance;
      best = word;
    }
  }
  return best;
}

template <class Words>
std::string list_of(const Words& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += i == 0 ? "" : i + 1 == words.size() ? " or " : ", ";
    text += words[i];
  }
  return text;
}

}  // namespace

std::string nearest_word(std::string_view typed, std::span<const std::string_view> words) {
  return nearest_in(typed, words);
}

std::string nearest_word(std::string_view typed, std::span<const std::string> words) {
  return nearest_in(typed, words);
}

std::string list_words(std::span<const std::string_view> words) {
  return list_of(words);
}

std::string list_words(std::span<const std::string> words) {
  return list_of(words);
}

}  // namespace plankwright::base
