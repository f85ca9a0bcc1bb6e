#pragma once
// The settings at the machines in the order in which they are made.

#include <string>
#include <vector>

#include "bench/bench.h"

namespace plankwright::bench {

/// One setting of one machine: set, proved on scrap, and left until all its pieces are through.
struct MachineSetting {
  std::string machine;                  // its name, "" for a jig at the bench
  std::string kind;                     // "fence", "stop", "height", "cutter", "bit", "jig"
  std::string figure;                   // as it is read at the machine: "2 1/4", "57"
  Length length;                        // the same as a number; zero when it has none
  Length depth;                         // of a cutter or bit; zero when it has none
  std::vector<std::size_t> operations;  // in Bench::operations, one after the other
  std::vector<PartIndex> parts;         // in the order of the piece
  int pieces = 0;                       // that pass, spares included
  int spares = 0;
  std::vector<std::string> joined;  // settings given up for this one, where the shop allows it
  std::string test;                 // how it is proved
  Minutes setup;
  Minutes work;
};

/// In working order. Work that follows on itself at one machine in one setting is one entry.
std::vector<MachineSetting> setting_list(const Bench& bench);

}  // namespace plankwright::bench
