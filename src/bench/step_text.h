#pragma once
// The words on a step card: what to do, with the figures, and what to beware of.

#include <string>
#include <vector>

#include "bench/batches.h"

namespace plankwright::bench {

/// The rule's sentence with its figures filled in: {setting}, {pieces}, {parts}, {about}, {count},
/// {length}, {area}, {label}, {spares}. Lengths and areas in the commission's unit.
std::string card_text(const Batch& batch, const Tasks& tasks, const Job& job);

/// "4 A11 door stile, 4 A12 door rail", in the order of the list; beyond six kinds "and 3 more".
std::string list_parts(const piece::Piece& piece, const std::vector<PartIndex>& parts);

/// At most three cautions that apply to this work, worst first, with the part and figures that make
/// them apply.
std::vector<std::string> cautions_for(const Batch& batch,
                                      const Tasks& tasks,
                                      const std::vector<Caution>& cautions,
                                      const Job& job);

/// `text` with each {name} replaced; unknown names stay, so that a mistake in a table is seen.
std::string fill_in(std::string text,
                    const std::vector<std::pair<std::string, std::string>>& figures);

}  // namespace plankwright::bench
