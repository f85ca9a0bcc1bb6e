#pragma once
// plankwright serve: the pages, until they are stopped.

#include <string>
#include <vector>

namespace plankwright::cli {

struct ServeAsked {
  std::vector<std::string> places;  // commissions and folders
  std::string book;                 // keep them in this file
  int port = -1;                    // -1: the usual one, or any when it is taken
};

/// Prints the address and answers until the program is interrupted. Returns the exit status.
int serve(const ServeAsked& asked);

}  // namespace plankwright::cli
