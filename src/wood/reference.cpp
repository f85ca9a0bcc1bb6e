#include "wood/reference.h"

#include <fmt/format.h>

namespace plankwright::wood {
namespace {

/// Reads one table into its place; after the first error nothing more is read.
class Shelf {
 public:
  using TextOf = std::function<base::Result<std::string>(const std::string& name)>;

  explicit Shelf(const TextOf& text_of) : text_of_{text_of} {}

  template <class T, class Read>
  void read(const std::string& name, const Read& reader, T& into) {
    if (error_) {
      return;
    }
    const base::Result<std::string> text = text_of_(name);
    if (!text.ok()) {
      error_ = text.error();
      return;
    }
    base::Result<T> table = reader(text.value(), name);
    if (table.ok()) {
      into = std::move(table).value();
    } else {
      error_ = table.error();
    }
  }

  const std::optional<base::Error>& error() const { return error_; }

 private:
  const TextOf& text_of_;
  std::optional<base::Error> error_;
};

}  // namespace

base::Result<Reference> read_reference(const Shelf::TextOf& text_of) {
  Reference all;
  Shelf shelf{text_of};
  shelf.read("sources.csv", read_sources, all.sources);
  shelf.read("species.csv", read_species, all.species);
  shelf.read("panels.csv", read_panels, all.panels);
  shelf.read("thickness_classes.csv", read_thickness_classes, all.thicknesses);
  shelf.read("board_grades.csv", read_grades, all.grades);
  shelf.read("board_faults.csv", read_board_faults, all.board_faults);
  shelf.read("limits.csv", read_sag_limits, all.sag_limits);
  shelf.read("creep.csv", read_creep, all.creep);
  shelf.read("loads.csv", read_loads, all.loads);
  shelf.read("adhesives.csv", read_adhesives, all.adhesives);
  shelf.read("clamp_pressure.csv", read_clamp_pressures, all.clamp_pressures);
  shelf.read("finishes.csv", read_finishes, all.finishes);
  shelf.read("finish_transfer.csv", read_finish_transfers, all.finish_transfers);
  shelf.read("ergonomics.csv", read_usual_sizes, all.usual_sizes);
  shelf.read("proportions.csv", read_proportions, all.proportions);
  shelf.read("storage_rule.csv", read_storage_rule, all.storage_rule);
  if (shelf.error()) {
    return *shelf.error();
  }
  for (const Panel& panel : all.panels.rows()) {
    const auto creep = all.creep.find(panel.creep);
    if (!creep.ok()) {
      return base::Error{.message = fmt::format("panel {}: {}", panel.id, creep.error().message)};
    }
  }
  return all;
}

}  // namespace plankwright::wood
