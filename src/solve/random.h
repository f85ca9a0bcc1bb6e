#pragma once
// Random numbers that are the same on every machine.

#include <cstdint>

namespace plankwright::solve {

/// xoshiro256** of Blackman & Vigna (2018), seeded by splitmix64. The library distributions are
/// left aside because their draws differ between implementations.
class Random {
 public:
  explicit Random(std::uint64_t seed) {
    for (std::uint64_t& word : state_) {
      seed += 0x9e3779b97f4a7c15ULL;
      std::uint64_t mixed = seed;
      mixed = (mixed ^ (mixed >> 30U)) * 0xbf58476d1ce4e5b9ULL;
      mixed = (mixed ^ (mixed >> 27U)) * 0x94d049bb133111ebULL;
      word = mixed ^ (mixed >> 31U);
    }
  }

  std::uint64_t next() {
    const std::uint64_t result = rotate(state_[1] * 5, 7) * 9;
    const std::uint64_t shifted = state_[1] << 17U;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= shifted;
    state_[3] = rotate(state_[3], 45);
    return result;
  }

  /// A whole number from 0 to below - 1; `below` is at least 1.
  int below(int below) {
    return static_cast<int>((static_cast<std::uint64_t>(static_cast<std::uint32_t>(next() >> 32U)) *
                             static_cast<std::uint32_t>(below)) >>
                            32U);
  }

  /// A fraction from 0 to less than 1.
  double fraction() { return static_cast<double>(next() >> 11U) * 0x1.0p-53; }

 private:
  static std::uint64_t rotate(std::uint64_t word, unsigned by) {
    return (word << by) | (word >> (64U - by));
  }
  std::uint64_t state_[4] = {};
};

}  // namespace plankwright::solve
