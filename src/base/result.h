#pragma once
// What went wrong, where, and how to put it right. An error is a value: a calculation returns its
// message, and only the reader of a document, who knows lines, fills in the place.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace plankwright::base {

/// A place in the user's own text, counted from 1. `column` counts characters, not bytes.
struct Position {
  std::string file = {};
  int line = 1;
  int column = 1;
  friend bool operator==(const Position&, const Position&) = default;
};

enum class ErrorCode { kBadInput, kOutOfTable, kDoesNotFit, kIo, kCancelled };

/// One mistake. `message` says what was found and what was expected, in a maker's words, without a
/// full stop; `nearest` is the right word when a wrong one looks like it, and is printed as an offer.
struct Error {
  ErrorCode code = ErrorCode::kBadInput;
  std::string message;
  std::optional<Position> at = std::nullopt;
  std::string nearest = {};
};

/// Every mistake of a document, in the order found. Empty means the document is good.
using Errors = std::vector<Error>;

/// Either a T or the Error that prevented it; a caller cannot drop it unread. The constructors are
/// implicit so that `return length;` and `return Error{...};` read plainly.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_{std::move(value)} {}      // NOLINT(google-explicit-constructor)
  Result(Error error) : state_{std::move(error)} {}  // NOLINT(google-explicit-constructor)
  bool ok() const { return std::holds_alternative<T>(state_); }
  const T& value() const& { return std::get<T>(state_); }
  T&& value() && { return std::get<T>(std::move(state_)); }
  const Error& error() const { return std::get<Error>(state_); }

 private:
  std::variant<T, Error> state_;
};

/// `file:line:column: error: message`, then the source line and a caret under the column when
/// `source` (the whole text of the file) is given. Ends with a newline.
std::string describe(const Error& error, std::string_view source = {});

}  // namespace plankwright::base
