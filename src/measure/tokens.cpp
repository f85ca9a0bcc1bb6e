// Sizes are read as one word before any arithmetic, so that `3/4 in` is not 3 divided by 4 inches.
// Where a spelling has two honest readings (`long/3/4`, `long*8-1/2`) it is refused rather than
// guessed.
#include "measure/tokens.h"

#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "base/quote.h"
#include "measure/characters.h"

namespace plankwright::measure {
namespace {

using base::Error;
using base::Result;

constexpr std::int64_t kInchNm = 25'400'000;
constexpr std::int64_t kInchesInFoot = 12;

struct UnitWord {
  std::string_view word;
  std::int64_t nm;
};
constexpr std::array<UnitWord, 11> kUnitWords{{{"in", kInchNm},
                                               {"inch", kInchNm},
                                               {"inches", kInchNm},
                                               {"\"", kInchNm},
                                               {"ft", kInchesInFoot* kInchNm},
                                               {"foot", kInchesInFoot* kInchNm},
                                               {"feet", kInchesInFoot* kInchNm},
                                               {"'", kInchesInFoot* kInchNm},
                                               {"mm", 1'000'000},
                                               {"cm", 10'000'000},
                                               {"m", 1'000'000'000}}};

Error fault(std::size_t at, std::string message) {
  return Error{.message = std::move(message),
               .at = base::Position{.line = 1, .column = static_cast<int>(at) + 1}};
}

/// A number without unit: where it ends, and how it was written.
struct Amount {
  ExactNumber number;
  std::size_t end = 0;
  bool fraction = false;    // has a fractional part written as a fraction
  bool whole_part = false;  // has a part before the fraction
  bool dashed = false;      // `34-7/8`
};

/// Reads words from left to right.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : chars_{text} {}

  Result<std::vector<Token>> run();
  Result<Amount> amount(std::size_t at) const;
  std::size_t skip_space(std::size_t at) const;
  std::string written(std::size_t begin, std::size_t end) const {
    return chars_.written(begin, end);
  }
  std::string quoted(std::size_t begin, std::size_t end) const {
    return base::quote(written(begin, end));
  }
  std::size_t size() const { return chars_.size(); }
  bool starts_amount(std::size_t at) const;

 private:
  struct Whole {
    std::int64_t value = 0;
    std::size_t end = 0;
  };
  struct UnitAt {
    std::int64_t nm = 0;  // 0: no unit follows
    std::size_t end = 0;
    bool is_foot() const { return nm == kInchesInFoot * kInchNm; }
  };

  Result<Whole> whole(std::size_t at) const;
  Result<Amount> decimal(Whole before, std::size_t point) const;
  Result<Amount> fraction(std::size_t at) const;
  bool starts_fraction(std::size_t at) const;
  Result<Amount> mixed(Whole before) const;
  Result<UnitAt> unit(std::size_t at) const;
  Result<Token> size_word(std::size_t at) const;
  Result<Token> feet_and_inches(Token feet, std::size_t begin, std::size_t at) const;
  Result<Token> sign(std::size_t at) const;
  Token name(std::size_t at) const;
  Token word(Token::Kind kind, std::size_t begin, std::size_t end) const;

  std::optional<Error> unclear(const Token& token, const std::vector<Token>& before) const;

  Characters chars_;
};

std::size_t Scanner::skip_space(std::size_t at) const {
  while (chars_[at] == U' ') {
    ++at;
  }
  return at;
}

bool Scanner::starts_amount(std::size_t at) const {
  return is_digit(chars_[at]) || vulgar_fraction(chars_[at]).under != 0 ||
         (chars_[at] == U'.' && is_digit(chars_[at + 1]));
}

Result<Scanner::Whole> Scanner::whole(std::size_t at) const {
  Whole result{.value = 0, .end = at};
  for (; is_digit(chars_[result.end]); ++result.end) {
    constexpr std::int64_t kMost = 999'999'999'999'999'999;
    const auto digit = static_cast<std::int64_t>(chars_[result.end] - U'0');
    if (result.value > (kMost - digit) / 10) {
      return fault(at, "found a number of more than 18 digits");
    }
    result.value = result.value * 10 + digit;
  }
  return result;
}

Result<Amount> Scanner::decimal(Whole before, std::size_t point) const {
  const auto after = whole(point + 1);
  if (!after.ok()) {
    return after.error();
  }
  const std::size_t places = after.value().end - point - 1;
  std::int64_t under = 1;
  for (std::size_t i = 0; i < places; ++i) {
    if (under > std::numeric_limits<std::int64_t>::max() / 100) {
      return fault(point, "found more than 17 decimal places");
    }
    under *= 10;
  }
  return Amount{.number = ExactNumber::whole(before.value) +
                          ExactNumber::fraction(after.value().value, under),
                .end = after.value().end};
}

/// `7/8` with nothing between, and not the start of `7/8.5`; or `½`.
bool Scanner::starts_fraction(std::size_t at) const {
  if (vulgar_fraction(chars_[at]).under != 0) {
    return true;
  }
  std::size_t slash = at;
  while (is_digit(chars_[slash])) {
    ++slash;
  }
  std::size_t end = slash + 1;
  while (is_digit(chars_[end])) {
    ++end;
  }
  const bool decimal_below = chars_[end] == U'.' && is_digit(chars_[end + 1]);
  return slash > at && chars_[slash] == U'/' && end > slash + 1 && !decimal_below;
}

Result<Amount> Scanner::fraction(std::size_t at) const {
  if (const VulgarFraction vulgar = vulgar_fraction(chars_[at]); vulgar.under != 0) {
    return Amount{
        .number = ExactNumber::fraction(vulgar.top, vulgar.under), .end = at + 1, .fraction = true};
  }
  const auto top = whole(at);
  if (!top.ok()) {
    return top.error();
  }
  const auto under = whole(top.value().end + 1);
  if (!under.ok()) {
    return under.error();
  }
  if (under.value().value == 0) {
    return fault(at,
                 fmt::format("found {}, a fraction with nothing below its bar",
                             quoted(at, under.value().end)));
  }
  return Amount{.number = ExactNumber::fraction(top.value().value, under.value().value),
                .end = under.value().end,
                .fraction = true};
}

/// What may follow a whole number: `34 7/8`, `34-7/8`, `34½`; else the whole number itself.
Result<Amount> Scanner::mixed(Whole before) const {
  const bool dashed = chars_[before.end] == U'-';
  const std::size_t at = dashed ? before.end + 1 : skip_space(before.end);
  const bool joined = at == before.end && vulgar_fraction(chars_[at]).under != 0;
  if (!starts_fraction(at) || (at == before.end && !joined)) {
    return Amount{.number = ExactNumber::whole(before.value), .end = before.end};
  }
  auto part = fraction(at);
  if (!part.ok()) {
    return part;
  }
  Amount all = part.value();
  if (all.number >= ExactNumber::whole(1)) {
    return fault(at,
                 fmt::format("found {} behind a whole number, expected a fraction below 1{}",
                             quoted(at, all.end),
                             dashed ? "; to take away write spaces around the `-`" : ""));
  }
  all.number = ExactNumber::whole(before.value) + all.number;
  all.whole_part = true;
  all.dashed = dashed;
  return all;
}

Result<Amount> Scanner::amount(std::size_t at) const {
  if (chars_[at] == U'.') {
    return decimal(Whole{.value = 0, .end = at}, at);
  }
  if (starts_fraction(at)) {
    return fraction(at);
  }
  const auto before = whole(at);
  if (!before.ok()) {
    return before.error();
  }
  const std::size_t end = before.value().end;
  if (chars_[end] == U'.' && is_digit(chars_[end + 1])) {
    return decimal(before.value(), end);
  }
  return mixed(before.value());
}

Result<Scanner::UnitAt> Scanner::unit(std::size_t after) const {
  std::size_t at = skip_space(after);
  if (chars_[after] == U'\'') {
    return UnitAt{.nm = kInchesInFoot * kInchNm, .end = after + 1};
  }
  if (chars_[at] == U'"') {
    return UnitAt{.nm = kInchNm, .end = at + 1};
  }
  if (!is_letter(chars_[at])) {
    return UnitAt{.nm = 0, .end = after};
  }
  std::size_t end = at;
  while (is_name_part(chars_[end])) {
    ++end;
  }
  const std::string found = written(at, end);
  const auto known =
      std::ranges::find_if(kUnitWords, [&](const UnitWord& u) { return u.word == found; });
  if (known == kUnitWords.end()) {
    return fault(at,
                 fmt::format("found {} behind a number, expected in, ft, mm, cm or m, or a sign "
                             "such as `*`",
                             base::quote(found)));
  }
  return UnitAt{.nm = known->nm, .end = end};
}

Token Scanner::word(Token::Kind kind, std::size_t begin, std::size_t end) const {
  Token token;
  token.kind = kind;
  token.text = written(begin, end);
  token.column = static_cast<int>(begin) + 1;
  return token;
}

/// The inches behind `5'`: a space or a `-` without spaces, then a number below 12.
Result<Token> Scanner::feet_and_inches(Token feet, std::size_t begin, std::size_t at) const {
  const bool dashed = chars_[at] == U'-';
  const std::size_t inches_at = dashed ? at + 1 : skip_space(at);
  if (!starts_amount(inches_at)) {
    return feet;
  }
  const auto inches = amount(inches_at);
  if (!inches.ok()) {
    return inches.error();
  }
  const auto mark = unit(inches.value().end);
  if (!mark.ok()) {
    return mark.error();
  }
  const std::size_t end = mark.value().end;
  if (dashed && mark.value().nm != kInchNm) {
    return fault(at,
                 fmt::format("`{0}` has two readings; write `{1} {2}\"` for feet and inches, or "
                             "spaces around the `-` to take away",
                             written(begin, end),
                             feet.text,
                             written(inches_at, inches.value().end)));
  }
  if (mark.value().nm != kInchNm && mark.value().nm != 0) {
    return fault(inches_at,
                 fmt::format("found {} behind feet, expected inches", quoted(inches_at, end)));
  }
  if (inches.value().number >= ExactNumber::whole(kInchesInFoot)) {
    return fault(
        inches_at,
        fmt::format("found {} behind feet, expected less than 12 inches", quoted(inches_at, end)));
  }
  Token all = word(Token::Kind::kNumber, begin, end);
  all.is_length = true;
  all.number = feet.number + inches.value().number * ExactNumber::whole(kInchNm);
  return all;
}

Result<Token> Scanner::size_word(std::size_t at) const {
  const auto number = amount(at);
  if (!number.ok()) {
    return number.error();
  }
  const auto mark = unit(number.value().end);
  if (!mark.ok()) {
    return mark.error();
  }
  Token token = word(Token::Kind::kNumber, at, mark.value().end);
  token.number = number.value().number;
  if (mark.value().nm == 0) {
    token.bare_fraction = number.value().fraction && !number.value().whole_part;
    return token;
  }
  token.is_length = true;
  token.number = token.number * ExactNumber::whole(mark.value().nm);
  return mark.value().is_foot() ? feet_and_inches(token, at, mark.value().end) : token;
}

Token Scanner::name(std::size_t at) const {
  std::size_t end = at;
  while (is_name_part(chars_[end])) {
    ++end;
  }
  return word(Token::Kind::kName, at, end);
}

Result<Token> Scanner::sign(std::size_t at) const {
  const char32_t c = chars_[at];
  const char32_t next = chars_[at + 1];
  std::string canonical;
  if (next == U'=' && (c == U'<' || c == U'>' || c == U'=' || c == U'!')) {
    canonical = {static_cast<char>(c), '='};
  } else if (c < 0x80 &&
             std::string_view{"+-*/(),<>"}.find(static_cast<char>(c)) != std::string_view::npos) {
    canonical = {static_cast<char>(c)};
  } else {
    return fault(
        at,
        fmt::format("found {}, expected a size, a name or a sign such as `+`", quoted(at, at + 1)));
  }
  Token token = word(Token::Kind::kSign, at, at + canonical.size());
  token.text = canonical;
  return token;
}

/// A spelling with two readings, told apart only by guessing.
std::optional<Error> Scanner::unclear(const Token& token, const std::vector<Token>& before) const {
  if (token.kind != Token::Kind::kNumber || before.size() < 2) {
    return std::nullopt;
  }
  const std::string& sign = before.back().text;
  const bool behind_value =
      before[before.size() - 2].kind != Token::Kind::kSign || before[before.size() - 2].text == ")";
  const auto at = static_cast<std::size_t>(token.column) - 1;
  if (token.bare_fraction && sign == "/") {
    return fault(at,
                 fmt::format("`/` before `{0}` has two readings; write `/ ({0})` or leave spaces "
                             "inside it",
                             token.text));
  }
  const bool joined = before.back().kind == Token::Kind::kSign && behind_value &&
                      before.back().column + 1 == token.column && sign != "(" && sign != "," &&
                      sign != "-";  // `long-8-1/2` comes to the same either way
  if (joined && !token.is_length && token.text.find('-') != std::string::npos) {
    return fault(at,
                 fmt::format("`{0}{1}` has two readings; leave spaces around the signs that take "
                             "away",
                             sign,
                             token.text));
  }
  return std::nullopt;
}

Result<std::vector<Token>> Scanner::run() {
  std::vector<Token> tokens;
  for (std::size_t at = skip_space(0); at < chars_.size(); at = skip_space(at)) {
    auto token = starts_amount(at)       ? size_word(at)
                 : is_letter(chars_[at]) ? Result<Token>{name(at)}
                                         : sign(at);
    if (!token.ok()) {
      return token.error();
    }
    if (auto error = unclear(token.value(), tokens)) {
      return *error;
    }
    constexpr std::size_t kMostWords = 1000;
    if (tokens.size() >= kMostWords) {
      return fault(at, "found an expression of more than 1000 words");
    }
    at += Characters{token.value().text}.size();
    tokens.push_back(std::move(token).value());
  }
  tokens.push_back(word(Token::Kind::kEnd, chars_.size(), chars_.size()));
  return tokens;
}

}  // namespace

Result<std::vector<Token>> tokens_of(std::string_view text) {
  constexpr std::size_t kLongest = 10'000;
  if (text.size() > kLongest) {
    return fault(0, "found a text of more than 10000 letters, expected a size or a sum of sizes");
  }
  return Scanner{text}.run();
}

Result<LeadingAmount> leading_amount(std::string_view text) {
  const Scanner scanner{text};
  const std::size_t at = scanner.skip_space(0);
  if (!scanner.starts_amount(at)) {
    return fault(at, "found no number");
  }
  const auto amount = scanner.amount(at);
  if (!amount.ok()) {
    return amount.error();
  }
  const std::size_t rest = scanner.skip_space(amount.value().end);
  return LeadingAmount{.number = amount.value().number,
                       .rest = scanner.written(rest, scanner.size())};
}

}  // namespace plankwright::measure
