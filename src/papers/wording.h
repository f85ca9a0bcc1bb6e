#pragma once
// How figures and names are worded on the papers: one place, so that all sheets say the same.

#include <string>
#include <string_view>
#include <vector>

#include "measure/date.h"
#include "papers/page.h"
#include "plan/plan.h"

namespace plankwright::papers {

/// A4 for a shop that works in millimetres, Letter for inches.
PageSize page_size(const shop::Shop& shop);

/// What a reader shows of the file. The date is the day of the quotation; without one it is the
/// first day a computer counts from, so that equal plans give equal files.
PaperInfo paper_info(const plan::Plan& plan, std::string_view kind);

/// In the unit of the commission: `34 7/8`, `886`; with the unit behind it: `34 7/8 in`.
std::string length(const plan::Plan& plan, measure::Length length);
std::string length_with_unit(const plan::Plan& plan, measure::Length length);
/// `length x width x thickness`.
std::string size(const plan::Plan& plan, const piece::Size& size);
/// "inches" or "millimetres".
std::string_view unit_name(const plan::Plan& plan);

/// Money with its minor part; and without it when it is zero.
std::string money(const plan::Plan& plan, measure::Money amount);
std::string round_money(const plan::Plan& plan, measure::Money amount);

/// Pounds for a shop of inches, else kilograms; whole ones above five.
std::string weight(const plan::Plan& plan, measure::Kilograms mass);

/// `14 March 2026`.
std::string long_date(measure::Date date);

/// The name of anything that a part can be cut from; the id when the shop does not know it.
std::string stock_name(const plan::Plan& plan, std::string_view stock);

/// `1 sheet`, `7 sheets`.
std::string counted(std::size_t count, std::string_view one, std::string_view many = {});

/// `a, b and c`.
std::string listed(const std::vector<std::string>& words);

/// `3 × B7, B8`: parts by their codes, in the order of the parts list; `all parts` when they are.
std::string codes(const plan::Plan& plan, const std::vector<piece::PartIndex>& parts);

/// `25 min`, `1 h 40 min`: to the next five minutes, for more is not known.
std::string duration(measure::Minutes minutes);

/// Hours to the half: `14.5`.
std::string half_hours(double hours);

/// A text of an earlier stage as it is set on paper: `case.left door` becomes `case left door`,
/// `3 x 40` gets its sign, `m2` its raised figure.
std::string plain(std::string_view text);

/// The first letter as a capital.
std::string sentence(std::string_view text);

}  // namespace plankwright::papers
