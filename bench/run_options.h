#pragma once
// What every kind of instance is run with, read once from the words of the command line.

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"

namespace plankwright::bench_tool {

/// Files, which of their instances to run, and for how long. Nought or below nought stands for "not
/// given" where nothing else is said.
struct RunOptions {
  std::vector<std::string> files;
  std::string variant;
  std::string set;     // only instances whose set or name holds this
  double seconds = 2;  // of the clock
  double cpu = 0;      // processor seconds of all threads, instead
  double work = 0;     // in billions; else what the seconds allow, as a guard
  int threads = 2;
  std::int64_t every = 1;   // the first of every so many
  std::int64_t first = -1;  // at most so many
};

/// `--name value` pairs of the fields above; every other word is a file. kBadInput for an option
/// without a value or a value that is no number.
base::Result<RunOptions> read_options(const std::vector<std::string>& words);

/// What is printed about the options.
extern const char* const kOptionsHelp;

}  // namespace plankwright::bench_tool
