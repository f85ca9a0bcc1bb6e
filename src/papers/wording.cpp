#include "papers/wording.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

namespace plankwright::papers {
namespace {

constexpr double kKilogramsPerPound = 0.45359237;
constexpr double kWholeAbove = 5;

constexpr std::array<std::string_view, 12> kMonths = {"January",
                                                      "February",
                                                      "March",
                                                      "April",
                                                      "May",
                                                      "June",
                                                      "July",
                                                      "August",
                                                      "September",
                                                      "October",
                                                      "November",
                                                      "December"};

bool is_letter(std::string_view text, std::size_t i) {
  return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0;
}

bool is_letter_or_figure(std::string_view text, std::size_t i) {
  return i < text.size() && std::isalnum(static_cast<unsigned char>(text[i])) != 0;
}

/// The dot of a path or the stroke of a written name, not that of a sentence or a number.
bool joins_words(std::string_view text, std::size_t i) {
  if (i == 0 || (text[i] != '.' && text[i] != '_')) {
    return false;
  }
  return text[i] == '.' ? is_letter(text, i - 1) && is_letter(text, i + 1)
                        : is_letter_or_figure(text, i - 1) && is_letter_or_figure(text, i + 1);
}

/// The figure of m2 and m3.
bool is_raised(std::string_view text, std::size_t i) {
  return i > 1 && (text[i] == '2' || text[i] == '3') && text[i - 1] == 'm' && text[i - 2] == ' ' &&
         !is_letter_or_figure(text, i + 1);
}

bool is_times_sign(std::string_view text, std::size_t i) {
  return i > 0 && i + 1 < text.size() && text[i] == 'x' && text[i - 1] == ' ' && text[i + 1] == ' ';
}

}  // namespace

PageSize page_size(const shop::Shop& shop) {
  return shop.unit == measure::LengthUnit::kInch ? kUsLetter : kA4;
}

PaperInfo paper_info(const plan::Plan& plan, std::string_view kind) {
  constexpr measure::Date kNoDate{
      std::chrono::year{1970}, std::chrono::January, std::chrono::day{1}};
  return {.title = fmt::format("{}: {}", kind, plan.commission.name),
          .author = plan.shop.name,
          .subject = plan.commission.number,
          .date = plan.commission.quoted.value_or(kNoDate)};
}

std::string length(const plan::Plan& plan, measure::Length length) {
  return measure::print(length, plan.commission.unit());
}

std::string length_with_unit(const plan::Plan& plan, measure::Length length) {
  return measure::print_with_unit(length, plan.commission.unit());
}

std::string size(const plan::Plan& plan, const piece::Size& size) {
  return fmt::format("{} \u00d7 {} \u00d7 {}",
                     length(plan, size.length),
                     length(plan, size.width),
                     length(plan, size.thickness));
}

std::string_view unit_name(const plan::Plan& plan) {
  return plan.commission.unit() == measure::LengthUnit::kInch ? "inches" : "millimetres";
}

std::string money(const plan::Plan& plan, measure::Money amount) {
  return measure::print(amount, plan.shop.currency);
}

std::string round_money(const plan::Plan& plan, measure::Money amount) {
  return measure::print_whole(amount, plan.shop.currency);
}

std::string weight(const plan::Plan& plan, measure::Kilograms mass) {
  const bool pounds = plan.shop.unit == measure::LengthUnit::kInch;
  const double amount = mass.count() / (pounds ? kKilogramsPerPound : 1);
  return fmt::format("{:.{}f} {}", amount, amount > kWholeAbove ? 0 : 1, pounds ? "lb" : "kg");
}

std::string long_date(measure::Date date) {
  return fmt::format("{} {} {}",
                     static_cast<unsigned>(date.day()),
                     kMonths[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()));
}

std::string stock_name(const plan::Plan& plan, std::string_view stock) {
  if (const auto* solid = plan.shop.solid(stock)) {
    return solid->name;
  }
  if (const auto* sheet = plan.shop.sheet(stock)) {
    return sheet->name;
  }
  if (const auto* bar = plan.shop.bar(stock)) {
    return bar->name;
  }
  if (const auto* band = plan.shop.band(stock)) {
    return band->name;
  }
  const auto* fitting = plan.shop.fitting(stock);
  return fitting != nullptr ? fitting->name : std::string{stock};
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  if (count == 1) {
    return fmt::format("1 {}", one);
  }
  return many.empty() ? fmt::format("{} {}s", count, one) : fmt::format("{} {}", count, many);
}

std::string listed(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) {
    all += i == 0 ? "" : i + 1 == words.size() ? " and " : ", ";
    all += words[i];
  }
  return all;
}

std::string codes(const plan::Plan& plan, const std::vector<piece::PartIndex>& parts) {
  if (!parts.empty() && parts.size() == plan.piece.parts.size()) {
    return "all parts";
  }
  std::vector<std::pair<std::string, std::size_t>> counts;
  for (const piece::PartIndex part : parts) {
    const std::string& code = plan.piece.parts[part].code;
    const auto known = std::ranges::find(counts, code, &std::pair<std::string, std::size_t>::first);
    if (known == counts.end()) {
      counts.emplace_back(code, 1);
    } else {
      ++known->second;
    }
  }
  std::string all;
  for (const auto& [code, count] : counts) {
    all += all.empty() ? "" : ", ";
    all += count == 1 ? code : fmt::format("{} \u00d7 {}", count, code);
  }
  return all;
}

std::string duration(measure::Minutes minutes) {
  constexpr double kStep = 5;
  constexpr int kHour = 60;
  const int whole = static_cast<int>(std::ceil(minutes.count() / kStep) * kStep);
  if (whole < kHour) {
    return fmt::format("{} min", whole);
  }
  return whole % kHour == 0 ? fmt::format("{} h", whole / kHour)
                            : fmt::format("{} h {} min", whole / kHour, whole % kHour);
}

std::string half_hours(double hours) {
  return fmt::format("{:.1f}", std::round(hours * 2) / 2);
}

std::string plain(std::string_view text) {
  std::string words;
  for (std::size_t i = 0; i < text.size(); ++i) {
    words += joins_words(text, i)     ? " "
             : is_raised(text, i)     ? (text[i] == '2' ? "\u00b2" : "\u00b3")
             : is_times_sign(text, i) ? "\u00d7"
                                      : std::string(1, text[i]);
  }
  return words;
}

std::string sentence(std::string_view text) {
  std::string capital{text};
  if (!capital.empty()) {
    capital[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(capital[0])));
  }
  return capital;
}

}  // namespace plankwright::papers
