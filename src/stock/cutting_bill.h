#pragma once
// What is cut from one kind of rough board, as the board solver takes it.

#include <optional>
#include <string>
#include <vector>

#include "piece/piece.h"
#include "shop/shop.h"
#include "solve/boards.h"
#include "stock/stock.h"
#include "stock/tally.h"

namespace plankwright::stock {

/// How the strips of glued-up parts are taken: all alike, as the piece says, or of any width the
/// boards give, from half to one and a half of that (common practice, no source).
enum class Strips { kAlike, kAnyWidth };

/// A board job without its boards, in micrometres (sizes of parts rounded up), and what its parts
/// and panels stand for. Parts of a run lie end to end as far as `longest` goes.
class CuttingBill {
 public:
  CuttingBill(const piece::Piece& piece,
              const shop::Shop& shop,
              const shop::SolidStock& stock,
              Strips strips,
              Length longest);

  const solve::BoardJob& job() const { return job_; }
  bool empty() const { return job_.parts.empty() && job_.panels.empty(); }

  /// The answer as boards with parts on them. `boards` are the job's with which it was solved.
  std::vector<BoardLayout> layouts(const solve::BoardAnswer& answer,
                                   const std::vector<solve::RoughBoard>& boards) const;
  /// What the answer leaves out: a bill of its own.
  CuttingBill missing(const solve::BoardAnswer& answer) const;
  /// The parts of the piece that the answer leaves out, in whole or in part, in the piece's order.
  std::vector<PartIndex> parts_missing(const solve::BoardAnswer& answer) const;
  std::vector<PartIndex> all_parts() const;
  /// Parts that show come before all others when not all can be had; among like ones the larger.
  void value_show_parts_first();

  static std::int64_t micrometres_up(Length length);
  static std::int64_t micrometres_down(Length length);

 private:
  CuttingBill() = default;

  /// A strip, layer or whole of a part of the piece.
  struct Blank {
    PartIndex part = 0;
    int strip = 0;
    bool shows = false;
  };

  void add_part(const piece::Piece& piece, PartIndex index, Strips strips);
  void add_blanks(const solve::BoardPart& part, const Blank& blank);
  void add_run(const piece::Piece& piece, const std::vector<PartIndex>& run, Length longest);
  void add_panel(const piece::Piece& piece, PartIndex index);

  solve::BoardJob job_;
  std::vector<std::vector<Blank>> blanks_;  // of each part of the job, one for each copy
  std::vector<Blank> panels_;               // of each panel, demand one each
  Length joint_;
};

/// The order laid out, if it can be, and if the layout stands a second look.
std::optional<solve::BoardAnswer> boards_laid_out(const solve::BoardJob& job,
                                                  const solve::BoardLimits& limits);

/// Price in whole minor units of a board of this size, as the stock is sold.
std::int64_t board_price(const shop::SolidStock& stock, Length length, Length width);

/// A rough board of the usual size, as many as wanted, and beside it boards just large enough for
/// what the usual one does not hold.
std::vector<solve::RoughBoard> usual_boards(const CuttingBill& bill, const shop::SolidStock& stock);

/// The boards of a tally that are of this stock.
std::vector<solve::RoughBoard> tallied_boards(const Tally& tally, const shop::SolidStock& stock);

/// Lays on boards of the rack what would cost most as new wood, as far as a board is worth less than
/// that, and takes it out of the bill. New wood counts at its price times the buy factor, because so
/// much more is bought than is laid out.
std::vector<BoardLayout> lay_on_the_rack(CuttingBill& bill,
                                         const shop::Shop& shop,
                                         const shop::SolidStock& stock,
                                         double work);

/// Boards laid out, put together into lines to ask for. `piece` says what the parts are called.
std::vector<BoardAsk> asks_for(const std::vector<BoardLayout>& boards,
                               const piece::Piece& piece,
                               bool inches);

}  // namespace plankwright::stock
