#pragma once
// The cut trees of the sheets being worked on, all at once, with cheap undo.

#include <cstdint>
#include <vector>

#include "solve/random.h"
#include "solve/sheet_problem.h"

namespace plankwright::solve {

/// A forest of n-ary cut trees, one for each open sheet, and the copies that lie in none. The
/// children of a node lie side by side along its axis, axes alternate from level to level, and the
/// order of children is free, so all waste of a node is one rectangle. Copies are numbered; the
/// copies of a type are interchangeable.
class CutForest {
 public:
  /// `demand` says how many copies of each type are to be laid out (it may differ from the
  /// problem's).
  CutForest(const PackProblem& problem, const std::vector<std::int64_t>& demand);

  /// A point to come back to: everything after it can be undone at once.
  void mark();
  void undo();

  /// Opens an empty sheet and returns its slot; closing one leaves out whatever lay in it. Neither
  /// can be undone.
  int open_sheet(int kind);
  void close_sheet(int slot);
  /// The slots in use, in no particular order.
  const std::vector<int>& open_slots() const { return open_; }
  int kind_of(int slot) const { return sheets_[at(slot)].kind; }
  /// Part of the sheet covered by pieces, in area.
  double used_area(int slot) const;
  bool is_empty(int slot) const { return nodes_[at(sheets_[at(slot)].root)].first < 0; }

  /// Copies in no sheet.
  const std::vector<int>& left_out() const { return left_out_; }
  int type_of(int copy) const { return copy_type_[at(copy)]; }
  int copies() const { return static_cast<int>(copy_type_.size()); }
  double left_value() const { return left_value_; }
  /// Sum of squared waste areas, the largest sheet's area counting one: high when waste lies in few
  /// large rectangles.
  double waste_squares() const { return waste_squares_; }

  /// Takes a random piece or sub-tree out of a sheet; false when the sheet is empty.
  bool remove_random(int slot, Random& random);
  /// Moves waste across a random inner node: out of all its children to beside it, or the other
  /// way. What it holds stays where it is. False when the sheet offers none.
  bool shift_waste(int slot, Random& random);
  /// Takes everything out of a sheet, which stays open.
  void empty_sheet(int slot);

  /// Puts a left-out copy where it spoils least waste; false when it fits nowhere. A place is
  /// passed over with the probability set by set_blink.
  bool insert_best(int copy, Random& random);
  void set_blink(double probability) {
    blink_ = probability;
    until_blink_ = probability > 0 ? 1 : 1 << 30;
  }

  /// The pattern of a sheet, and a sheet filled from a pattern (as far as copies are left out to
  /// fill it; missing ones are skipped).
  PackNode pattern(int slot) const;
  int open_pattern(int kind, const PackNode& root);

  /// Work done so far, in about nanoseconds.
  std::int64_t work() const { return work_; }
  void set_value(int type, double value);

 private:
  struct Node {
    std::int32_t parent = -1;  // an inner node, or -1 - slot for a root
    std::int32_t first = -1;
    std::int32_t previous = -1;
    std::int32_t next = -1;
    std::int32_t width = 0;
    std::int32_t height = 0;
    std::int32_t free = 0;  // extent along the axis that no child takes
    std::int32_t children = 0;
    std::uint8_t along_x = 1;
    std::uint8_t level = 1;
    std::uint8_t closed =
        0;  // a trimming node that takes no second piece; of a piece: it lies turned
  };
  struct Sheet {
    int kind = 0;
    int root = -1;
    int place = 0;  // in open_
  };
  struct Saved {
    std::int32_t id = 0;
    std::int32_t change = 0;  // 0 contents, 1 allocated, 2 released
    Node node;
  };
  struct Place {
    double cost = 0;
    std::int32_t node = -1;
    bool turned = false;
    bool cross_first = false;
    bool along_x = true;  // for an empty sheet
  };
  /// How an empty sheet may be parted first: along x or its given axis, or across. With few stages
  /// the way that spoils least for the first piece may be wrong for all that follow, and nothing
  /// turns it later: the draw decides.
  enum class FirstCut : std::uint8_t { kEither, kAlong, kAcross };
  struct Extent {
    std::int32_t along = 0;
    std::int32_t across = 0;
  };

  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  bool is_leaf(int id) const { return id >= inner_; }
  Extent extent(const Node& node, bool along_x) const {
    return along_x ? Extent{node.width, node.height} : Extent{node.height, node.width};
  }
  void touch(int id);
  int allocate();
  void release(int id);
  void refresh(int id);
  void link(int child, int parent);
  void unlink(int child);
  void remove(int id);
  void drop_subtree(int id);
  int random_child(int id, Random& random);
  bool tighten(int id);
  bool widen(int id);
  void stretch(int id, std::int32_t by);
  void leave_out(int copy);
  void take_in(int copy);
  void try_places(
      std::int32_t width, std::int32_t height, bool turned, Random& random, Place& best);
  void weigh(int id, std::int32_t width, std::int32_t height, bool turned, Place& best) const;
  void weigh_axis(
      int id, bool along_x, Extent piece, bool turned, FirstCut first, Place& best) const;
  bool allows(const Node& node, int deeper) const;
  int add_inner(int parent, std::int32_t along, bool closed);
  void put(int copy, const Place& place);
  void put_leaf(int copy, int parent, bool turned);
  PackNode pattern_of(int id) const;
  void fill(int parent, const PackNode& pattern, std::vector<std::vector<int>>& at_hand);
  void draw_blink(Random& random);

  const PackProblem* problem_;
  FirstCut first_cut_ = FirstCut::kEither;
  int inner_ = 0;  // ids below are inner nodes, from here on copies
  std::vector<Node> nodes_;
  std::vector<std::int32_t> place_width_;   // waste rectangle of each inner node,
  std::vector<std::int32_t> place_height_;  // nought when it has none
  std::vector<double> square_;
  std::int32_t high_ = 0;  // inner ids from here on were never used
  std::vector<std::int32_t> released_;
  std::vector<int> copy_type_;
  std::vector<double> value_;  // by type
  std::vector<int> left_out_;
  std::vector<int> left_place_;
  std::vector<Sheet> sheets_;
  std::vector<int> open_;
  std::vector<int> closed_slots_;
  double left_value_ = 0;
  double waste_squares_ = 0;
  double inverse_area_ = 1;
  double blink_ = 0.02;
  int until_blink_ = 1;
  std::vector<std::int32_t> candidates_;
  std::vector<std::uint32_t> stamp_;
  std::uint32_t mark_ = 1;
  std::vector<Saved> journal_;
  std::vector<int> marked_left_;
  double marked_value_ = 0;
  double marked_squares_ = 0;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
