#pragma once
// What must come before what, for every solver that orders work.

#include <string>
#include <vector>

namespace plankwright::solve {

/// `first` must be done before `second`; both count from nought.
struct Before {
  int first = 0;
  int second = 0;
  friend bool operator==(const Before&, const Before&) = default;
};

/// Works that wait for each other in a circle, in order, each before the next and the last before
/// the first; empty when there is no circle. Pairs that name a work outside 0..count-1 are ignored.
std::vector<int> find_circle(int count, const std::vector<Before>& before);

/// The works in an order that keeps every pair, lowest index first among those that are free. Works
/// in or behind a circle are left out.
std::vector<int> sort_by_precedence(int count, const std::vector<Before>& before);

/// "0, 4, 7": the indices of an error message.
std::string list_of(const std::vector<int>& indices);

}  // namespace plankwright::solve
