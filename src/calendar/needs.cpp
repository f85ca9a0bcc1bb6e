// Which delivery which work waits for.

#include <algorithm>

#include "calendar/model.h"

namespace plankwright::calendar {
namespace {

using bench::Operation;
using piece::PartIndex;

bool share_any(const std::vector<PartIndex>& a, const std::vector<PartIndex>& b) {
  return std::ranges::any_of(a,
                             [&](PartIndex part) { return std::ranges::find(b, part) != b.end(); });
}

std::vector<PartIndex> parts_of_stock(const piece::Piece& piece, const std::string& stock) {
  std::vector<PartIndex> parts;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    const bool banded = std::ranges::any_of(
        part.bands, [&](const piece::EdgeBand& band) { return band.stock == stock; });
    if (part.stock == stock || banded) {
      parts.push_back(i);
    }
  }
  return parts;
}

std::vector<PartIndex> parts_with_fitting(const piece::Piece& piece, const std::string& id) {
  std::vector<PartIndex> parts;
  for (const piece::HardwareUse& use : piece.hardware) {
    if (use.id == id) {
      parts.insert(parts.end(), use.parts.begin(), use.parts.end());
    }
  }
  return parts;
}

/// Standards that ask for a fitting of this kind.
std::vector<std::string> standards_of_fitting(const bench::Rules& rules, const std::string& kind) {
  std::vector<std::string> standards;
  for (const bench::Rule* rule : rules.rules_for("fitting", kind)) {
    if (!rule->standard.empty()) {
      standards.push_back(rule->standard);
    }
  }
  return standards;
}

class Needs {
 public:
  Needs(const Work& work, const shop::Shop& shop, const bench::Rules& rules)
      : work_{work}, shop_{shop}, rules_{rules}, needs_(work.bench->operations.size()) {}

  std::vector<std::vector<std::size_t>> all() {
    for (std::size_t i = 0; i < work_.stock->purchases.size(); ++i) {
      add(i);
    }
    return std::move(needs_);
  }

 private:
  void add(std::size_t purchase) {
    const stock::Purchase& bought = work_.stock->purchases[purchase];
    if (bought.kind == "hardware") {
      add_fitting(purchase, bought);
    } else if (bought.kind == "finish") {
      give(purchase, [](const Operation& o) {
        return o.standard == "oil_coat" || o.standard == "spray_coat";
      });
    } else {
      const std::vector<PartIndex> parts = parts_of_stock(*work_.piece, bought.stock);
      const bool band = bought.kind == "band";
      give(purchase, [&](const Operation& o) {
        const bool asks =
            band ? o.standard == "edge_band" : o.phase == "milling" || o.standard == "buy_trip";
        return asks && share_any(o.parts, parts);
      });
    }
  }

  /// The work of the rules for its kind; else what is fitted first on the same parts.
  void add_fitting(std::size_t purchase, const stock::Purchase& bought) {
    const shop::Hardware* fitting = shop_.fitting(bought.stock);
    const std::vector<std::string> standards =
        standards_of_fitting(rules_, fitting != nullptr ? fitting->kind : "");
    const std::vector<PartIndex> parts = parts_with_fitting(*work_.piece, bought.stock);
    const bool found = give(purchase, [&](const Operation& o) {
      return std::ranges::find(standards, o.standard) != standards.end() &&
             (parts.empty() || share_any(o.parts, parts));
    });
    if (!found) {
      give(purchase,
           [&](const Operation& o) { return o.phase == "fittings" && share_any(o.parts, parts); });
    }
  }

  template <class Asks>
  bool give(std::size_t purchase, const Asks& asks) {
    bool found = false;
    for (std::size_t i = 0; i < needs_.size(); ++i) {
      if (asks(work_.bench->operations[i])) {
        needs_[i].push_back(purchase);
        found = true;
      }
    }
    return found;
  }

  const Work& work_;
  const shop::Shop& shop_;
  const bench::Rules& rules_;
  std::vector<std::vector<std::size_t>> needs_;
};

}  // namespace

std::vector<std::vector<std::size_t>> needs_of(const Work& work,
                                               const shop::Shop& shop,
                                               const bench::Rules& rules) {
  return Needs{work, shop, rules}.all();
}

}  // namespace plankwright::calendar
