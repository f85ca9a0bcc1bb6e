#include "store/keeper.h"

#include <algorithm>

namespace plankwright::store {
namespace {

constexpr std::size_t kLongestId = 60;

bool is_letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

}  // namespace

std::string id_from(std::string_view name) {
  std::string id;
  for (const char any : name) {
    const char c = lower(any);
    if (is_letter_or_digit(c) || c == '-') {
      id += c;
    } else if (c != '\'' && !id.empty() && id.back() != '_') {
      id += '_';
    }
    if (id.size() == kLongestId) {
      break;
    }
  }
  while (!id.empty() && id.back() == '_') {
    id.pop_back();
  }
  return id.empty() ? "commission" : id;
}

bool is_id(std::string_view id) {
  return !id.empty() && id.size() <= 2 * kLongestId && std::ranges::all_of(id, [](char c) {
    return is_letter_or_digit(c) || c == '_' || c == '-';
  });
}

}  // namespace plankwright::store
