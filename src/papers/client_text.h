#pragma once
// What the client is told about the piece, in words without the shop's inner figures.

#include <string>
#include <vector>

#include "plan/plan.h"

namespace plankwright::papers {

/// One line of the description: what it is about, and what is said.
struct ClientLine {
  std::string about;
  std::string says;
};

/// Woods and boards that are seen, those inside, fittings that are seen or touched, finish, the air
/// it is made for.
std::vector<ClientLine> made_of(const plan::Plan& plan);

/// What the client asked and what was picked.
std::vector<ClientLine> choices_taken(const plan::Plan& plan);

/// What a client must know before signing: where the piece must be anchored, fixed by someone
/// licensed, or does not do what was asked.
std::vector<std::string> client_cautions(const plan::Plan& plan);

/// The last day of the offer, when it has a first one.
std::optional<measure::Date> valid_until(const plan::Plan& plan);

}  // namespace plankwright::papers
