#pragma once
// One value of a document, read as what its field wants.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "document/fields.h"
#include "document/names.h"
#include "document/node.h"
#include "measure/date.h"
#include "measure/length.h"
#include "measure/money.h"

namespace plankwright::document {

// Each reads `node`, or what it stands for when it is a name; the error has its place.
base::Result<measure::Length> read_length(const Node& node, const Names& names, FieldRange range);
base::Result<double> read_number(const Node& node, const Names& names, FieldRange range);
base::Result<int> read_count(const Node& node, const Names& names, FieldRange range);
base::Result<measure::Money> read_money(const Node& node, const Names& names, FieldRange range);
base::Result<measure::Date> read_date(const Node& node, const Names& names);
base::Result<bool> read_yes(const Node& node, const Names& names);
/// A literal of `words`, else a name that stands for one.
base::Result<std::string> read_word(const Node& node,
                                    const Names& names,
                                    std::span<const std::string_view> words);
base::Result<std::string> read_identifier(const Node& node, const Names& names);
base::Result<std::string> read_any_text(const Node& node);

/// A value written as one text with its unit (`45 min`): percent, minutes, degrees Celsius,
/// kilograms or newtons per millimetre, as `kind` says.
base::Result<double> read_measured(const Node& node,
                                   const Names& names,
                                   FieldKind kind,
                                   FieldRange range);

/// The values of a list, or of one value that stands for a list of one. A name may stand for a
/// list.
std::vector<const Node*> items_of(const Node& node, const Names& names);

/// A fallback of a table, read as if the maker had written it at `at`.
Node as_written(std::string_view fallback, const base::Position& at);

/// Letters, digits, `_` and `.`.
bool is_word(std::string_view text);

}  // namespace plankwright::document
