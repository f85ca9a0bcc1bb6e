// Sizes depend on the written ones in straight lines, as long as the same parts come out: one piece
// built with the largest change tells how all lie between. Only what could save by that is laid out
// again, and only what does save is planned again as a whole.

#include "plan/nudges.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "document/node.h"
#include "measure/expression.h"
#include "piece/build_piece.h"
#include "stock/nudges.h"

namespace plankwright::plan {
namespace {

using document::Node;
using measure::Length;

/// How much is tried, counted and not timed: the same commission gives the same answer.
struct Budget {
  int builds = 24;  // of a piece
  int layouts = 4;  // of one stock
  int plans = 2;
};

/// A size that stands in the document, by the steps that lead to it.
struct Written {
  std::vector<std::size_t> steps;  // entries of maps and items of lists, from the root
  std::string what;
  Length size;
  base::Position at;
};

bool is_size_key(std::string_view key) {
  constexpr std::string_view kEnds[] = {
      "width", "height", "depth", "length", "wide", "high", "deep", "long"};
  return std::ranges::any_of(kEnds, [&](std::string_view end) { return key.ends_with(end); });
}

/// Literal sizes under a node, those under `names` whatever they are called.
class Sizes {
 public:
  explicit Sizes(measure::LengthUnit unit) : unit_{unit} {}

  std::vector<Written> of(const Node& root) {
    for (std::size_t i = 0; i < root.entries.size(); ++i) {
      const auto& [key, key_at, value] = root.entries[i];
      if (key == "names" || key == "piece") {
        steps_ = {i};
        visit(value, key == "names" ? "" : "the piece", key == "names");
      }
    }
    return std::move(found_);
  }

 private:
  void visit(const Node& node, const std::string& of, bool all) {
    for (std::size_t i = 0; i < node.entries.size(); ++i) {
      const auto& [key, key_at, value] = node.entries[i];
      steps_.push_back(i);
      if (value.kind == Node::Kind::kScalar && !value.quoted && (all || is_size_key(key))) {
        add(value, of.empty() ? key : fmt::format("{} of {}", key, of));
      }
      visit(value, value.kind == Node::Kind::kMap ? key : of, all);
      steps_.pop_back();
    }
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      steps_.push_back(i);
      const Node* name = node.items[i].find("name");
      visit(node.items[i], name != nullptr ? name->text : of, all);
      steps_.pop_back();
    }
  }

  void add(const Node& value, std::string what) {
    constexpr Length kLeast = Length::from_nm(50'000'000);  // nobody changes a shorter one by 2 %
    const auto size = measure::parse_length(value.text, unit_);
    if (size.ok() && size.value() >= kLeast) {
      std::ranges::replace(what, '_', ' ');
      found_.push_back({steps_, std::move(what), size.value(), value.at});
    }
  }

  measure::LengthUnit unit_;
  std::vector<std::size_t> steps_;
  std::vector<Written> found_;
};

Node& at_steps(Node& root, const std::vector<std::size_t>& steps) {
  Node* node = &root;
  for (const std::size_t step : steps) {
    node = node->kind == Node::Kind::kList ? &node->items[step] : &node->entries[step].value;
  }
  return *node;
}

/// Different sizes that saws are set to: lengths and widths as cut, of each stock. `part_of_way`
/// goes from the piece (0) to the changed one (1).
std::size_t sizes_set(const piece::Piece& piece, const piece::Piece& changed, double part_of_way) {
  std::set<std::tuple<std::string, bool, std::int64_t>> sizes;
  const auto between = [&](Length from, Length to) {
    constexpr double kMicrometre = 1'000;
    return std::llround(
        (static_cast<double>(from.nm()) + part_of_way * static_cast<double>((to - from).nm())) /
        kMicrometre);
  };
  for (std::size_t i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& a = piece.parts[i];
    const piece::Part& b = changed.parts[i];
    sizes.emplace(a.stock, true, between(a.cut.length, b.cut.length));
    sizes.emplace(a.stock, false, between(a.cut.width, b.cut.width));
  }
  return sizes.size();
}

bool same_parts(const piece::Piece& a, const piece::Piece& b) {
  return std::ranges::equal(a.parts, b.parts, [](const piece::Part& x, const piece::Part& y) {
    return x.path == y.path && x.stock == y.stock;
  });
}

commission::Picks picks_of(const Plan& plan) {
  commission::Picks picks;
  for (const commission::Choice& choice : plan.commission.choices) {
    picks[choice.id] = choice.picked;
  }
  return picks;
}

class Nudger {
 public:
  Nudger(Plan& plan, const Documents& documents, const Reference& reference, double work)
      : plan_{plan},
        documents_{documents},
        reference_{reference},
        work_{work},
        picks_{picks_of(plan)} {}

  void look() {
    for (const Written& written : Sizes{plan_.commission.unit()}.of(documents_.root)) {
      for (const int sign : {-1, 1}) {
        look_at(written, stock::nearby_sizes(written.size, plan_.commission.unit(), sign));
      }
    }
    look_at_parts();
    std::ranges::stable_sort(plan_.nudges, std::greater{}, &stock::Nudge::money);
  }

 private:
  void look_at(const Written& written, const std::vector<Length>& sizes) {
    if (sizes.empty()) {
      return;
    }
    const std::optional<piece::Piece> far = built(written, sizes.back());
    if (!far) {
      return;
    }
    if (const auto size = smallest_that_saves(written, sizes, *far)) {
      plan_with(written, *size);
    } else if (const auto fewer = fewest_settings(written, sizes, *far)) {
      plan_with(written, *fewer);
    }
  }

  Documents changed(const Written& written, Length size) const {
    Documents documents = documents_;
    at_steps(documents.root, written.steps).text =
        measure::print_with_unit(size, plan_.commission.unit());
    return documents;
  }

  /// The piece with another size, if the same parts come out.
  std::optional<piece::Piece> built(const Written& written, Length size) {
    if (--budget_.builds < 0) {
      return std::nullopt;
    }
    const Documents documents = changed(written, size);
    const commission::ReadCommission read =
        commission::read_commission(documents.root, documents.file, plan_.shop, picks_);
    if (!read.errors.empty()) {
      return std::nullopt;
    }
    piece::BuiltPiece built = piece::build_piece(read.commission, plan_.shop);
    if (!built.errors.empty() || !same_parts(plan_.piece, built.piece)) {
      return std::nullopt;
    }
    return std::move(built.piece);
  }

  bool saves(const piece::Piece& changed_piece) {
    const std::vector<std::string> ids =
        stock::could_save(plan_.piece, changed_piece, plan_.shop, plan_.stock);
    return std::ranges::any_of(ids, [&](const std::string& id) {
      return --budget_.layouts >= 0 &&
             !stock::saved_pieces(plan_.shop,
                                  plan_.stock,
                                  stock::plan_one_stock(changed_piece,
                                                        plan_.shop,
                                                        id,
                                                        work_,
                                                        plan_.tally,
                                                        reference_.wood.board_faults))
                  .empty();
    });
  }

  /// The larger the change, the more it saves: halve the changes that are left.
  std::optional<Length> smallest_that_saves(const Written& written,
                                            const std::vector<Length>& sizes,
                                            const piece::Piece& far) {
    if (!saves(far)) {
      return std::nullopt;
    }
    std::size_t without = 0;
    std::size_t with = sizes.size();
    while (with - without > 1) {
      const std::size_t middle = (with + without) / 2;
      const std::optional<piece::Piece> piece = built(written, sizes[middle - 1]);
      (piece && saves(*piece) ? with : without) = middle;
    }
    return sizes[with - 1];
  }

  /// The smallest change that makes most sizes fall together.
  std::optional<Length> fewest_settings(const Written& written,
                                        const std::vector<Length>& sizes,
                                        const piece::Piece& far) const {
    std::optional<Length> best;
    std::size_t fewest = sizes_set(plan_.piece, far, 0);
    for (const Length size : sizes) {
      const double way = (size - written.size) / (sizes.back() - written.size);
      const std::size_t now = sizes_set(plan_.piece, far, way);
      if (now < fewest) {
        fewest = now;
        best = size;
      }
    }
    return best;
  }

  bool finds_more(const Plan& other) const {
    return std::ranges::any_of(other.findings.open, [&](const checks::Finding& finding) {
      return std::ranges::find(plan_.findings.open, finding.id, &checks::Finding::id) ==
             plan_.findings.open.end();
    });
  }

  /// Kept when the whole plan costs less by it and nothing new has to be settled.
  void plan_with(const Written& written, Length size) {
    if (--budget_.plans < 0) {
      return;
    }
    const Planned planned = run_stages(changed(written, size), reference_, picks_, work_);
    if (!planned.plan || finds_more(*planned.plan)) {
      return;
    }
    const Plan& after = *planned.plan;
    stock::Nudge nudge;
    nudge.saves = stock::saved_pieces(plan_.shop, plan_.stock, after.stock);
    const int settings = plan_.bench.settings - after.bench.settings;
    if (settings > 0) {
      nudge.saves.push_back(fmt::format("{} setting{}", settings, settings == 1 ? "" : "s"));
    }
    nudge.money = plan_.price.cost - after.price.cost;
    if (nudge.saves.empty() || nudge.money <= measure::Money{}) {
      return;
    }
    nudge.what = written.what;
    nudge.from = written.size;
    nudge.to = size;
    nudge.at = written.at;
    for (piece::PartIndex i = 0; i < plan_.piece.parts.size(); ++i) {
      const piece::Size& a = plan_.piece.parts[i].cut;
      const piece::Size& b = after.piece.parts[i].cut;
      if (a.length != b.length || a.width != b.width) {
        nudge.parts.push_back(i);
      }
    }
    plan_.nudges.push_back(std::move(nudge));
  }

  /// Sizes of parts, where no written size has it already.
  void look_at_parts() {
    for (stock::Nudge& nudge : stock::part_nudges(plan_.piece,
                                                  plan_.shop,
                                                  plan_.stock,
                                                  work_,
                                                  plan_.tally,
                                                  reference_.wood.board_faults,
                                                  std::max(0, budget_.layouts))) {
      const bool known = std::ranges::any_of(plan_.nudges, [&](const stock::Nudge& other) {
        return std::ranges::any_of(nudge.saves, [&](const std::string& save) {
          return std::ranges::find(other.saves, save) != other.saves.end();
        });
      });
      if (!known) {
        plan_.nudges.push_back(std::move(nudge));
      }
    }
  }

  Plan& plan_;
  const Documents& documents_;
  const Reference& reference_;
  double work_;
  commission::Picks picks_;
  Budget budget_;
};

}  // namespace

void look_for_nudges(Plan& plan,
                     const Documents& documents,
                     const Reference& reference,
                     double work) {
  Nudger{plan, documents, reference, work}.look();
}

}  // namespace plankwright::plan
