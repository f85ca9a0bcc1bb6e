#pragma once
// The table of labour standards (data/labour_standards.csv).

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "shop/shop.h"

namespace plankwright::shop {

/// The words that may stand under `phase` and `setup_per`.
std::span<const std::string_view> phase_words();
std::span<const std::string_view> setup_per_words();

/// Reads the table: id, name, phase, setup_min, setup_per, per_unit_min, unit, sigma, machine,
/// unattended_min, people, note, source. What is wrong goes into `errors`, all of it, with its
/// place: a machine that is not one of `machines`, an operation without any time, an id that stands
/// twice.
std::vector<LabourStandard> read_labour_standards(std::string_view csv_text,
                                                  const std::string& file,
                                                  std::span<const std::string> machines,
                                                  base::Errors& errors);

}  // namespace plankwright::shop
