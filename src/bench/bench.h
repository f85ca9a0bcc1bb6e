#pragma once
// The building itself: operations in batches that share a machine setting, their hours and how sure
// they are, and the cards that are read at the bench. Values only.

#include <array>
#include <string>
#include <vector>

#include "bench/marking.h"
#include "bench/setting_order.h"
#include "bench/stage_cards.h"
#include "commission/commission.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/stock.h"

namespace plankwright::bench {

using measure::Length;
using measure::Minutes;
using piece::PartIndex;

/// Work of one kind on some parts. One operation is one batch: everything in it is done in one
/// setting of one machine (or in one go at the bench).
struct Operation {
  std::string standard;  // id of the labour standard
  std::string name;      // "Rip to width"
  std::string phase;
  std::string machine;       // name of the machine, "" at the bench
  std::string setting;       // in large figures at the machine: "2 1/4", "57"
  Length setting_length;     // the same as a number; zero when it has none
  Length setting_depth;      // of a cutter or bit
  std::string setting_kind;  // "fence", "stop", "height", "cutter", "bit", "jig", ""
  std::vector<PartIndex> parts;
  int pieces = 0;  // what passes the machine in this setting, spares included
  int spares = 0;
  double units = 0;  // in the standard's unit
  Minutes setup;
  Minutes work;
  double sigma = 0;
  int people = 1;
  Minutes unattended;
  double fails = 0;                   // chance that a piece of it is spoiled
  Minutes rework;                     // what making that piece anew takes
  std::vector<std::string> joined;    // settings given up for this one, where the shop allows it
  std::string test;                   // how the setting is proved: "scrap of the same thickness"
  std::string says;                   // for the step card
  std::vector<std::string> cautions;  // at most three, bound to this work
  std::vector<std::size_t> after;     // operations that must be done first
  std::string from;                   // rule and source

  Minutes total() const { return setup + work; }
};

/// Hours of a phase or of the whole job as they may turn out.
struct Spread {
  double table = 0;  // sum of the standards' medians, hours
  double median = 0;
  double mean = 0;
  double p10 = 0, p80 = 0, p90 = 0;
};

struct PhaseHours {
  std::string phase;
  Spread hours;
};

struct Bench {
  std::vector<Operation> operations;  // in working order
  std::vector<PhaseHours> phases;
  Spread bench;  // without office hours
  Spread office;
  Spread total;
  int settings = 0;                // machine settings made
  int settings_drawing_order = 0;  // made when working part by part
  Minutes saved;                   // by batching
  SettingOrder order;              // what the working order takes beside the work
  Marking marking;
  std::vector<StageCard> glue_ups;           // in working order
  int glue_ups_bound = 0;                    // fewest the same sub-assemblies could be glued in
  std::vector<std::string> cannot_assemble;  // joints that block each other, and what helps
  std::vector<std::string>
      driven_by;  // the three standards that make most of the spread, with their share
  std::vector<std::string> without_rule;  // things no rule gives work to: their hours are missing
};

/// Derives the operations by the rules in `rules` (data/operation_rules.csv, read by read_rules),
/// batches and orders them, and reckons hours. `work` is how long to look for a better order; 1 is
/// what a first answer takes. Deterministic.
Bench plan_bench(const piece::Piece& piece,
                 const stock::Stock& stock,
                 const shop::Shop& shop,
                 const commission::Commission& commission,
                 const struct Rules& rules,
                 double work = 1.0);

/// Hours as a lognormal: every operation's time has its own sigma, and all share the job factor
/// `job_sigma`. Exact mean and variance of the sum, then one lognormal of the same two moments
/// (Fenton 1960). `medians` in hours.
Spread spread_of(const std::vector<double>& medians,
                 const std::vector<double>& sigmas,
                 double job_sigma);

/// Quantile `share` (0..1) of the lognormal with this mean and median.
double quantile(const Spread& spread, double share);

}  // namespace plankwright::bench
