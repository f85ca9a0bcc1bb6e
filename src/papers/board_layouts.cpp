// Boards of the usual size with the parts chalked on them. The real boards decide; this shows that
// the asked ones are enough, and which parts want the long ones.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "papers/label_places.h"
#include "papers/packet.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using measure::Length;

// Boards are long and narrow: widths are drawn larger than lengths so that the codes can be read,
// until the widest board is this high on the paper.
constexpr double kBoardHeight = 18;
constexpr double kMostTimes = 2;
constexpr double kHead = 5;   // over a board
constexpr double kRuler = 6;  // under it
constexpr double kBetween = 3;
constexpr Pen kBoardPen{.width = 0.35, .colour = kPencil};
constexpr Pen kPartPen{.width = 0.25, .colour = kPencil};
constexpr TextStyle kHeadText{.letter_height = 2.3, .weight = Weight::kMedium};
constexpr TextStyle kRulerText{.letter_height = 1.9, .colour = kSoftPencil, .tabular = true};

/// Boards laid out alike, by part codes and places.
struct BoardKind {
  const stock::BoardLayout* layout = nullptr;
  int count = 1;
};

std::string shown_code(const plan::Plan& plan, const stock::BoardPiece& piece) {
  const piece::Part& part = plan.piece.parts[piece.part];
  const int pieces = part.strips * part.layers;
  return pieces > 1 ? fmt::format("{} ({} of {})", part.code, piece.strip + 1, pieces) : part.code;
}

bool alike(const plan::Plan& plan, const stock::BoardLayout& a, const stock::BoardLayout& b) {
  return a.length == b.length && a.width == b.width && a.rack == b.rack && a.line == b.line &&
         std::ranges::equal(
             a.pieces, b.pieces, [&](const stock::BoardPiece& p, const stock::BoardPiece& q) {
               return plan.piece.parts[p.part].code == plan.piece.parts[q.part].code &&
                      p.x == q.x && p.y == q.y && p.length == q.length && p.width == q.width;
             });
}

std::vector<BoardKind> kinds_of(const plan::Plan& plan, const stock::SolidNeed& need) {
  std::vector<BoardKind> kinds;
  for (const stock::BoardLayout& board : need.boards) {
    const auto same = std::ranges::find_if(
        kinds, [&](const BoardKind& kind) { return alike(plan, *kind.layout, board); });
    if (same == kinds.end()) {
      kinds.push_back({&board, 1});
    } else {
      ++same->count;
    }
  }
  return kinds;
}

/// The longest length and the widest width of all boards.
stock::BoardLayout largest_board(const plan::Plan& plan) {
  stock::BoardLayout largest;
  for (const stock::SolidNeed& need : plan.stock.solids) {
    for (const stock::BoardLayout& board : need.boards) {
      largest.length = std::max(largest.length, board.length);
      largest.width = std::max(largest.width, board.width);
    }
  }
  return largest;
}

/// How much larger widths are drawn, in quarters, so that it can be said.
double width_times(Length widest, double factor) {
  const double times = std::clamp(kBoardHeight / (widest.mm() * factor), 1.0, kMostTimes);
  return std::floor(times * 4) / 4;
}

/// Ends of parts along the board, from its first end, each once.
std::vector<Length> crosscuts(const stock::BoardLayout& board) {
  std::vector<Length> places;
  for (const stock::BoardPiece& piece : board.pieces) {
    places.push_back(piece.x + piece.length);
  }
  std::ranges::sort(places);
  const auto repeated = std::ranges::unique(places);
  places.erase(repeated.begin(), repeated.end());
  return places;
}

class BoardSetter {
 public:
  BoardSetter(Flow& flow, const plan::Plan& plan, double factor, double width_times)
      : flow_{flow}, plan_{plan}, factor_{factor}, width_factor_{factor * width_times} {}

  void set(const BoardKind& kind, const std::string& name) {
    const stock::BoardLayout& board = *kind.layout;
    const double height = board.width.mm() * width_factor_;
    const Rectangle room = flow_.take(kHead + height + kRuler + kBetween);
    flow_.page().text(
        {room.x, room.y + 0.6},
        fmt::format(
            "{}, {} \u00d7 {}, {}",
            sentence(where_from(board) + name),
            length(plan_, board.length),
            length_with_unit(plan_, board.width),
            counted(static_cast<std::size_t>(kind.count), "board like this", "boards like this")),
        kHeadText);
    outline_ = {room.x, room.y + kHead, board.length.mm() * factor_, height};
    flow_.page().rectangle(outline_, kShade, kBoardPen);
    for (const stock::BoardPiece& piece : board.pieces) {
      set_piece(piece, kind.count);
    }
    for (const stock::Offcut& rest : board.rests) {
      label_offcut(
          flow_.page(),
          {outline_.x + rest.x.mm() * factor_,
           outline_.y + rest.y.mm() * width_factor_,
           rest.length.mm() * factor_,
           rest.width.mm() * width_factor_},
          fmt::format("keep {} \u00d7 {}", length(plan_, rest.length), length(plan_, rest.width)));
    }
    set_ruler(board);
  }

 private:
  /// Which board of the rack or of the tally it is.
  static std::string where_from(const stock::BoardLayout& board) {
    return !board.rack.empty() ? board.rack + " out of the rack: "
           : board.tallied()   ? fmt::format("line {} of the tally: ", board.line)
                               : "";
  }

  void set_piece(const stock::BoardPiece& piece, int count) {
    const Rectangle box{outline_.x + piece.x.mm() * factor_,
                        outline_.y + piece.y.mm() * width_factor_,
                        piece.length.mm() * factor_,
                        piece.width.mm() * width_factor_};
    const piece::Part& part = plan_.piece.parts[piece.part];
    flow_.page().rectangle(box, mixed(kWhite, wood_colour(part), 0.3), kPartPen);
    label_part(flow_.page(),
               box,
               count > 1 ? part.code : shown_code(plan_, piece),
               fmt::format("{} \u00d7 {}", length(plan_, piece.length), length(plan_, piece.width)),
               part.name);
  }

  void set_ruler(const stock::BoardLayout& board) {
    double last = outline_.x - 1;
    for (const Length place : crosscuts(board)) {
      const double x = outline_.x + place.mm() * factor_;
      const std::string text = length(plan_, place);
      const double width = text_size(text, kRulerText).width;
      flow_.page().line({x, outline_.bottom()}, {x, outline_.bottom() + 1.2}, kThinPen);
      // A figure that would run into the one before it is left out: the chalk line is near both.
      if (x - width > last) {
        flow_.page().text({x, outline_.bottom() + 1.8}, text, kRulerText, {.align = Align::kRight});
        last = x + 1.5;
      }
    }
  }

  Flow& flow_;
  const plan::Plan& plan_;
  double factor_;
  double width_factor_;
  Rectangle outline_;
};

}  // namespace

void add_board_layouts(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  const stock::BoardLayout largest = largest_board(plan);
  if (largest.length == Length{}) {
    return;
  }
  SheetInfo info = packet.info("Boards, chalked", "Board layout");
  const Rectangle area = sheet_area(landscape(page_size(plan.shop)));
  const DrawingScale scale = fitting_scale(
      largest.length.mm(), 1, {0, 0, area.width, area.height}, plan.commission.unit());
  info.scale = scale.name;
  const double times = width_times(largest.width, scale.factor);
  Flow flow = packet.sheets.flow(info, true);
  flow.paragraph(fmt::format(
      "One way to lay the rough parts on boards of the usual size; where a board is not "
      "measured yet, the real ones decide. Lengths to scale, widths drawn {:g} times as large. The "
      "figures under a "
      "board are measured from its left end, in {}.",
      times,
      unit_name(plan)));
  BoardSetter setter{flow, plan, scale.factor, times};
  for (const stock::SolidNeed& need : plan.stock.solids) {
    for (const BoardKind& kind : kinds_of(plan, need)) {
      setter.set(kind, stock_name(plan, need.stock));
    }
  }
}

}  // namespace plankwright::papers
