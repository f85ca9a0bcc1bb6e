#pragma once
// Reading of documents that change only what they write: a value takes the place of the one that
// was there when its key is written, and else stays.

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "document/fields.h"
#include "measure/length.h"
#include "measure/money.h"
#include "measure/quantity.h"

namespace plankwright::shop {

void take(const document::Fields& from, std::string_view key, measure::Length& into);
void take(const document::Fields& from, std::string_view key, measure::Minutes& into);
void take(const document::Fields& from, std::string_view key, measure::Kilograms& into);
void take(const document::Fields& from, std::string_view key, int& into);
void take(const document::Fields& from, std::string_view key, bool& into);

/// Complains of more than a thousand million, which is a slip and would not add up.
void take(const document::Fields& from, std::string_view key, measure::Money& into);

/// What a number must lie between, both ends included.
struct Limits {
  double least = 0;
  double most = 100;
};
void take_within(const document::Fields& from, std::string_view key, Limits limits, double& into);
void take_within(const document::Fields& from, std::string_view key, Limits limits, int& into);
/// Limits in percent.
void take_within(const document::Fields& from,
                 std::string_view key,
                 Limits limits,
                 measure::Percent& into);
/// Limits in degrees Celsius.
void take_within(const document::Fields& from,
                 std::string_view key,
                 Limits limits,
                 measure::Celsius& into);

/// Strings come from fields of three kinds, so their name says which.
void take_text(const document::Fields& from, std::string_view key, std::string& into);
void take_word(const document::Fields& from, std::string_view key, std::string& into);
void take_identifier(const document::Fields& from, std::string_view key, std::string& into);

/// A list of texts, or one text, from a field of kind kAny.
void take_texts(const document::Fields& from, std::string_view key, std::vector<std::string>& into);

/// Complains of each key that is not written. `whose` is what needs it: "`cherry_4_4`".
void need(const document::Fields& fields,
          std::string_view whose,
          std::initializer_list<std::string_view> keys);

/// The ids of a list, in its order.
template <class T>
std::vector<std::string> ids_of(const std::vector<T>& list) {
  std::vector<std::string> ids;
  ids.reserve(list.size());
  for (const T& entry : list) {
    ids.push_back(entry.id);
  }
  return ids;
}

/// Complains at `key` when `id` is not one of `ids`; `what` is the word for one: "wood". An empty
/// list (its table could not be read) blames nothing.
void need_known(const document::Fields& fields,
                std::string_view key,
                std::string_view what,
                const std::string& id,
                const std::vector<std::string>& ids);

}  // namespace plankwright::shop
