#include "stock/cutting_bill.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "shop/rack.h"
#include "solve/check_boards.h"

namespace plankwright::stock {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

solve::Quality quality_of(const piece::Part& part) {
  const auto shows = [&](int sign) { return part.shows({part.thickness_axis, sign}); };
  return shows(1) && shows(-1) ? solve::Quality::kClearBothFaces : solve::Quality::kClearOneFace;
}

Length from_micrometres(std::int64_t um) {
  return Length::from_nm(um * 1'000);
}

}  // namespace

std::int64_t CuttingBill::micrometres_up(Length length) {
  return (length.nm() + 999) / 1'000;
}

std::int64_t CuttingBill::micrometres_down(Length length) {
  return length.nm() / 1'000;
}

CuttingBill::CuttingBill(const piece::Piece& piece,
                         const shop::Shop& shop,
                         const shop::SolidStock& stock,
                         Strips strips,
                         Length longest)
    : joint_{shop.allowances.rough_width} {
  job_.kerf = micrometres_up(shop.allowances.saw_kerf);
  std::map<std::string, std::vector<PartIndex>> runs;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    if (part.stock != stock.id || part.rough.length <= Length{} || part.rough.width <= Length{}) {
      continue;
    }
    if (part.run.empty() || part.strips > 1) {
      add_part(piece, i, strips);
    } else {
      runs[part.run].push_back(i);
    }
  }
  for (auto& [name, run] : runs) {
    std::ranges::stable_sort(run, {}, [&](PartIndex i) { return piece.parts[i].place_in_run; });
    add_run(piece, run, longest);
  }
}

void CuttingBill::add_blanks(const solve::BoardPart& part, const Blank& blank) {
  // Parts of a run keep to themselves: nothing is merged into them.
  const auto same = std::ranges::find_if(job_.parts, [&](const solve::BoardPart& known) {
    const int index = static_cast<int>(&known - job_.parts.data());
    return known.length == part.length && known.width == part.width &&
           known.quality == part.quality && blanks_[at(index)].front().shows == blank.shows &&
           std::ranges::none_of(job_.runs, [&](const solve::BoardRun& run) {
             return std::ranges::find(run.parts, index) != run.parts.end();
           });
  });
  if (same == job_.parts.end()) {
    job_.parts.push_back(part);
    blanks_.push_back({blank});
  } else {
    same->demand += 1;
    blanks_[static_cast<std::size_t>(same - job_.parts.begin())].push_back(blank);
  }
}

void CuttingBill::add_part(const piece::Piece& piece, PartIndex index, Strips strips) {
  const piece::Part& part = piece.parts[index];
  const int across = std::max(1, part.strips);
  if (across > 1 && strips == Strips::kAnyWidth && part.layers <= 1) {
    add_panel(piece, index);
    return;
  }
  for (int i = 0; i < across * std::max(1, part.layers); ++i) {
    add_blanks({micrometres_up(part.rough.length),
                micrometres_up(part.rough.width / across),
                quality_of(part),
                1,
                0,
                -1},
               {index, i, !part.show_faces.empty()});
  }
}

void CuttingBill::add_run(const piece::Piece& piece,
                          const std::vector<PartIndex>& run,
                          Length longest) {
  const std::int64_t most = micrometres_down(longest);
  solve::BoardRun lying;
  std::int64_t length = 0;
  const auto close = [&] {
    if (lying.parts.size() > 1) {
      job_.runs.push_back(lying);
    }
    lying = {};
    length = 0;
  };
  for (const PartIndex index : run) {
    const piece::Part& part = piece.parts[index];
    const std::int64_t own = micrometres_up(part.rough.length);
    if (!lying.parts.empty() && length + job_.kerf + own > most) {
      close();
    }
    length += own + (lying.parts.empty() ? 0 : job_.kerf);
    lying.parts.push_back(static_cast<int>(job_.parts.size()));
    job_.parts.push_back({own, micrometres_up(part.rough.width), quality_of(part), 1, 0, -1});
    blanks_.push_back({{index, 0, !part.show_faces.empty()}});
  }
  close();
}

void CuttingBill::add_panel(const piece::Piece& piece, PartIndex index) {
  const piece::Part& part = piece.parts[index];
  solve::BoardPanel panel;
  panel.length = micrometres_up(part.rough.length);
  panel.joint = micrometres_up(joint_);
  panel.width = micrometres_up(part.rough.width - joint_ * part.strips);
  const std::int64_t alike = panel.width / part.strips + panel.joint;
  panel.narrowest = std::max(panel.joint + 1, alike / 2);
  panel.widest = std::min(panel.width + panel.joint, alike * 3 / 2);
  panel.quality = quality_of(part);
  // A top or a side is glued from boards of one lot.
  panel.lot_group = static_cast<int>(job_.panels.size());
  job_.panels.push_back(panel);
  panels_.push_back({index, 0, !part.show_faces.empty()});
}

void CuttingBill::value_show_parts_first() {
  constexpr std::int64_t kSquareMillimetre = 1'000'000;
  std::int64_t hidden = 1;
  const auto area = [](std::int64_t length, std::int64_t width) {
    return std::max<std::int64_t>(1,
                                  length / 1'000 * (width / 1'000) * 1'000'000 / kSquareMillimetre);
  };
  for (std::size_t i = 0; i < job_.parts.size(); ++i) {
    job_.parts[i].value = area(job_.parts[i].length, job_.parts[i].width);
    hidden += blanks_[i].front().shows ? 0 : job_.parts[i].value * job_.parts[i].demand;
  }
  for (std::size_t i = 0; i < job_.panels.size(); ++i) {
    job_.panels[i].value = area(job_.panels[i].length, job_.panels[i].width);
    hidden += panels_[i].shows ? 0 : job_.panels[i].value;
  }
  for (std::size_t i = 0; i < job_.parts.size(); ++i) {
    job_.parts[i].value += blanks_[i].front().shows ? hidden : 0;
  }
  for (std::size_t i = 0; i < job_.panels.size(); ++i) {
    job_.panels[i].value += panels_[i].shows ? hidden : 0;
  }
}

std::vector<BoardLayout> CuttingBill::layouts(const solve::BoardAnswer& answer,
                                              const std::vector<solve::RoughBoard>& boards) const {
  std::vector<BoardLayout> laid;
  std::vector<std::size_t> taken(blanks_.size(), 0);
  std::vector<int> strips(panels_.size(), 0);
  for (const solve::BoardLayout& from : answer.layouts) {
    BoardLayout layout;
    layout.length = from_micrometres(boards[at(from.board)].length);
    layout.width = from_micrometres(boards[at(from.board)].width);
    const auto gather = [&](const auto& self, const solve::BoardNode& node) -> void {
      if (node.role == solve::BoardRole::kPart || node.role == solve::BoardRole::kStrip) {
        const bool strip = node.role == solve::BoardRole::kStrip;
        Blank blank =
            strip ? panels_[at(node.panel)] : blanks_[at(node.part)][taken[at(node.part)]];
        if (strip) {
          blank.strip = strips[at(node.panel)]++;
        } else {
          ++taken[at(node.part)];
        }
        layout.pieces.push_back({blank.part,
                                 blank.strip,
                                 from_micrometres(node.x),
                                 from_micrometres(node.y),
                                 from_micrometres(node.length),
                                 from_micrometres(node.width)});
      }
      for (const solve::BoardNode& child : node.children) {
        self(self, child);
      }
    };
    gather(gather, from.root);
    laid.push_back(std::move(layout));
  }
  return laid;
}

CuttingBill CuttingBill::missing(const solve::BoardAnswer& answer) const {
  CuttingBill rest;
  rest.job_.kerf = job_.kerf;
  rest.joint_ = joint_;
  std::vector<int> index(job_.parts.size(), -1);
  for (std::size_t i = 0; i < job_.parts.size(); ++i) {
    const auto left = static_cast<std::ptrdiff_t>(answer.left_out[i]);
    if (left > 0) {
      index[i] = static_cast<int>(rest.job_.parts.size());
      rest.job_.parts.push_back(job_.parts[i]);
      rest.job_.parts.back().demand = left;
      rest.blanks_.emplace_back(blanks_[i].end() - left, blanks_[i].end());
    }
  }
  // A run is cut whole or not at all.
  for (const solve::BoardRun& run : job_.runs) {
    if (std::ranges::all_of(run.parts, [&](int part) { return index[at(part)] >= 0; })) {
      solve::BoardRun left = run;
      std::ranges::transform(run.parts, left.parts.begin(), [&](int p) { return index[at(p)]; });
      rest.job_.runs.push_back(std::move(left));
    }
  }
  for (std::size_t i = 0; i < job_.panels.size(); ++i) {
    if (answer.panels_left_out[i] > 0) {
      rest.job_.panels.push_back(job_.panels[i]);
      rest.panels_.push_back(panels_[i]);
    }
  }
  return rest;
}

std::vector<PartIndex> CuttingBill::all_parts() const {
  std::vector<PartIndex> parts;
  for (const std::vector<Blank>& blanks : blanks_) {
    for (const Blank& blank : blanks) {
      parts.push_back(blank.part);
    }
  }
  for (const Blank& panel : panels_) {
    parts.push_back(panel.part);
  }
  std::ranges::sort(parts);
  const auto repeated = std::ranges::unique(parts);
  parts.erase(repeated.begin(), repeated.end());
  return parts;
}

std::vector<PartIndex> CuttingBill::parts_missing(const solve::BoardAnswer& answer) const {
  return missing(answer).all_parts();
}

std::optional<solve::BoardAnswer> boards_laid_out(const solve::BoardJob& job,
                                                  const solve::BoardLimits& limits) {
  base::Result<solve::BoardAnswer> answer = solve::solve_boards(job, limits);
  if (!answer.ok() || !solve::check_boards(job, answer.value()).empty()) {
    return std::nullopt;
  }
  return std::move(answer).value();
}

std::int64_t board_price(const shop::SolidStock& stock, Length length, Length width) {
  return shop::price_of_board(stock, length, width).minor();
}

std::vector<solve::RoughBoard> usual_boards(const CuttingBill& bill,
                                            const shop::SolidStock& stock) {
  std::vector<solve::RoughBoard> boards;
  const auto add = [&](Length length, Length width) {
    solve::RoughBoard board;
    board.length = CuttingBill::micrometres_up(length);
    board.width = CuttingBill::micrometres_up(width);
    board.price = std::max<std::int64_t>(1, board_price(stock, length, width));
    board.available = std::nullopt;
    const bool known = std::ranges::any_of(boards, [&](const solve::RoughBoard& other) {
      return other.length == board.length && other.width == board.width;
    });
    if (!known) {
      boards.push_back(std::move(board));
    }
  };
  add(stock.board_length, stock.board_width);
  const auto add_for = [&](std::int64_t length, std::int64_t width) {
    add(std::max(stock.board_length, from_micrometres(length)),
        std::max(stock.board_width, from_micrometres(width)));
  };
  const solve::BoardJob& job = bill.job();
  for (const solve::BoardPart& part : job.parts) {
    add_for(part.length, part.width);
  }
  for (const solve::BoardPanel& panel : job.panels) {
    add_for(panel.length, panel.narrowest);
  }
  for (const solve::BoardRun& run : job.runs) {
    std::int64_t length = -job.kerf;
    std::int64_t width = 0;
    for (const int part : run.parts) {
      length += job.parts[at(part)].length + job.kerf;
      width = std::max(width, job.parts[at(part)].width);
    }
    add_for(length, width);
  }
  return boards;
}

std::vector<solve::RoughBoard> tallied_boards(const Tally& tally, const shop::SolidStock& stock) {
  std::vector<solve::RoughBoard> boards;
  std::map<std::string, int> lots;
  for (const TallyBoard& from : tally) {
    if (from.stock != stock.id) {
      continue;
    }
    solve::RoughBoard board;
    board.length = CuttingBill::micrometres_down(from.length);
    board.width = CuttingBill::micrometres_down(from.width);
    board.price = board_price(stock, from.length, from.width);
    board.available = from.count;
    board.lot = lots.try_emplace(from.lot, static_cast<int>(lots.size())).first->second;
    boards.push_back(std::move(board));
  }
  return boards;
}

}  // namespace plankwright::stock
