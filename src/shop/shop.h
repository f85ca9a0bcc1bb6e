#pragma once
// The Shop document: what the shop is. Rates, people, machines, stock with prices, habits, climate,
// terms. Values only; how it is read is in read_shop.h.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/date.h"
#include "measure/expression.h"
#include "measure/length.h"
#include "measure/money.h"
#include "measure/quantity.h"
#include "wood/adhesives.h"
#include "wood/finishes.h"
#include "wood/panel.h"
#include "wood/species.h"

namespace plankwright::shop {

using measure::Length;
using measure::Minutes;
using measure::Money;
using measure::Percent;

/// Days of the week, Monday first.
using Weekdays = std::array<bool, 7>;
constexpr Weekdays kMondayToFriday = {true, true, true, true, true, false, false};

struct Person {
  std::string name;
  std::string role;                             // "maker", "helper"
  Money wage;                                   // an hour, with what the employer pays on top
  double paid_hours = 0;                        // a year
  std::optional<Weekdays> days = std::nullopt;  // in the shop; all working days when it is not said
};

struct Overhead {
  std::string what;  // "rent", "insurance"
  Money per_year;
};

/// What an hour at the bench costs, and how it came about:
/// (wages x paid hours + overhead) / (paid hours x utilisation).
struct HourRate {
  Money cost;  // of one billable hour
  Money wages_per_year;
  Money overhead_per_year;
  double billable_hours = 0;
};

/// A machine and what it can take. A limit that is absent does not bind.
struct Machine {
  std::string id;  // "table_saw", "planer", "jointer", "bandsaw", "mortiser", "router_table" ...
  std::string name;
  std::optional<Length> widest;
  std::optional<Length> thickest;
  std::optional<Length> longest;
  std::optional<Length> shortest;
  std::optional<Length> kerf;
  int count = 1;  // how many of them stand in the shop
};

struct ClampSet {
  Length reach;
  int count = 0;
  measure::Newtons force;
};

/// Median hands-on minutes of one kind of operation: setup x settings + per_unit x units. `sigma`
/// is the standard deviation of the logarithm of the time.
struct LabourStandard {
  std::string id;     // "rip_final"
  std::string name;   // "Rip to width"
  std::string phase;  // "milling", "joints", "assembly", "surface", "curves", "fittings", "finish",
                      // "outside", "office"
  Minutes setup;
  std::string setup_per;  // "job", "setting", "stage", "coat", "trip"
  Minutes per_unit;
  std::string unit;  // "board", "cut", "foot", "piece", "joint", "square_foot" ...
  double sigma = 0;
  std::string machine;  // id of the machine it needs, or ""
  Minutes unattended;   // what runs by itself afterwards: clamps, drying
  int people = 1;
  std::string note;
  std::string source;  // document and mark, or "common practice, no source"
};

enum class SoldBy { kBoardFoot, kCubicMetre };

/// Rough or surfaced boards of one species and thickness class.
struct SolidStock {
  std::string id;                      // "cherry_4_4"
  std::string name;                    // "black cherry 4/4"
  std::string species;                 // id in the species table
  std::string cut_kind = "flat_sawn";  // or "quarter_sawn", "rift_sawn"
  int quarters = 4;                    // nominal rough thickness in quarters of an inch
  Length rough_thickness;              // nominal
  Length surfaced_thickness;           // the thickest finished part it gives
  std::string grade;
  Money price;  // per unit sold
  SoldBy sold_by = SoldBy::kBoardFoot;
  Length board_width;  // of a usual board
  Length board_length;
  double buy_factor = 1.3;  // bought / rough need: grade loss, colour, spare
  double least = 0;         // smallest quantity sold, in the unit sold
  double step = 0;          // bought in whole multiples of this; 0: any quantity
  std::string supplier;
  int lead_days = 0;  // working days
};

/// Sheets. The face grain runs along `length`.
struct SheetStock {
  std::string id;  // "oak_board_18"
  std::string name;
  std::string panel;         // id in the panel table: density, stiffness
  std::string face_species;  // "" when painted or plain
  Length thickness;          // as measured, not nominal
  Length length;
  Length width;
  Money price;
  double smallest_share = 1;  // of a sheet that is sold: 0.5 where the supplier cuts sheets in half
  bool grain = true;          // false: parts may be turned
  std::string supplier;
  int lead_days = 0;
};

/// One of the lengths that bars or strips are sold in.
struct SoldLength {
  Length length;
  Money price;  // of one piece
};

/// What is bought in its final section and only cut to length: planed battens and rails, mouldings,
/// bar steel. A part of it has just this section.
struct BarStock {
  std::string id;  // "oak_batten_45_20"
  std::string name;
  std::string species;  // id in the species table; "" for metal and plastic
  std::string cut_kind = "flat_sawn";
  Length width;  // of the section, as measured; not less than the thickness
  Length thickness;
  std::vector<SoldLength> lengths;
  Length end_trim;          // split or dirty, off each end before the first part
  double kg_per_metre = 0;  // where there is no wood to take it from
  std::string supplier;
  int lead_days = 0;
};

struct BandStock {
  std::string id;
  std::string name;
  Length thickness;
  Length width;
  Money price_per_metre;
  Length roll;                     // how it is sold; zero: by the metre
  std::vector<SoldLength> strips;  // instead of rolls and metres: strips of these lengths
  std::string supplier;
  int lead_days = 0;
};

/// Fittings and everything else bought by the piece. What a kit must know of it (deductions of a
/// slide, overlay of a hinge) is in `sizes` by name, entered from the maker's sheet.
struct Hardware {
  std::string id;  // "slide_concealed_15"
  std::string name;
  std::string kind;  // "slide_pair", "butt_hinge" ...: a word of hardware_kinds.h, which also names
                     // the sizes
  Money price;       // of one pack
  Money freight;     // of one order, whatever the count
  int pack = 1;      // pieces in a pack
  measure::Kilograms mass;  // of one piece
  std::map<std::string, Length, std::less<>> sizes;
  std::string supplier;
  int lead_days = 0;
  bool client_item = false;  // stands in the list, not in the sum
};

/// A finish as this shop uses it, on a generic type of the finish table.
struct Finish {
  std::string id;  // "oil_varnish_wiped"
  std::string name;
  std::string type;  // id in the finish table
  std::string
      applied;    // "wiped", "brushed", "sprayed", "outside"; "touch_up": the board comes finished
  int coats = 1;  // 0 when only edges cut on site are touched up
  double square_metres_per_litre = 0;
  Percent transfer{100};
  Money price_per_litre;
  Minutes recoat;                // between coats, unattended
  Money price_per_square_metre;  // of an outside finisher
  int runs = 0;                  // trips to an outside finisher
  int lead_days = 0;
  std::optional<Weekdays>
      taken_in;      // when an outside finisher takes work in; any day when not said
  std::string care;  // for the client's paper
};

/// Glue as this shop uses it, on a generic type of the adhesive table.
struct Glue {
  std::string id;
  std::string name;
  std::string type;
  Money price_per_litre;
};

/// What is added to a part when it is cut rough, and what the shop keeps.
struct Allowances {
  Length rough_length;      // a part
  Length rough_width;       // a strip
  Length glued_width;       // more for a part glued up from strips
  Length lamination_width;  // more for layers glued face to face
  Length sheet_trim;        // off each edge of a sheet before the first part
  Length sheet_kerf;
  Length saw_kerf;
  Length offcut_length;  // an offcut is kept when it is at least this long
  Length offcut_width;   // and this wide
  Percent offcut_value;  // of its share of the price
  int spare_boards = 0;  // asked for beside those the parts of a stock fit on
  Length band_extra;     // of edge band at each edge
  Percent band_waste;
  Length show_gap;  // usual reveal
};

struct Instalment {
  Percent share;
  std::string event;  // "on order", "when the case is dry fitted", "on delivery"
};

struct Terms {
  Percent margin;  // profit / price
  Money round_to;  // the price is rounded up to the next
  Percent tax;
  std::string tax_name;  // "sales tax", "VAT"
  std::vector<Instalment> instalments;
  int valid_days = 30;
  Percent contingency_quantile{50};  // hours the price is reckoned at; 50: the mean
  std::vector<std::string> exclusions;
  std::vector<std::string> conditions;
};

struct Climate {
  measure::Celsius temperature{20};
  Percent humidity{45};
};

struct Workday {
  double hours = 8;
  Percent hands_on{78};  // of the paid hours; for the calendar only, the hour rate has its own
  int starts = 8 * 60;   // minutes after midnight
  Weekdays days = kMondayToFriday;
};

/// Days on which nobody works, both ends included.
struct Closed {
  measure::Date from;
  measure::Date to;
  std::string says;  // "Easter", "summer holidays"
};

/// Room for what cannot be moved for a while.
struct Places {
  int bench = 2;      // benches or floor places where something may stand in clamps
  int finishing = 1;  // apart from the dust; 0: nobody sands while a coat is wet
};

enum class RackKind { kBoard, kSheet, kBar };

/// One line of the rack: `count` pieces alike, left over from other work, with what each is worth.
/// Boards of one `lot` agree in colour.
struct RackPiece {
  std::string label;  // chalked on it: "R7"
  std::string stock;  // id of a rough board, a sheet or a bar of the shop
  RackKind kind = RackKind::kSheet;
  Length length;  // along the grain
  Length width;   // of bars: that of their section
  int count = 1;
  std::string lot;
  Money value;  // of one
  base::Position at;
};

struct Shop {
  std::string name;
  std::vector<std::string> address;
  std::string owner;
  measure::Currency currency;
  measure::LengthUnit unit = measure::LengthUnit::kMillimetre;
  std::vector<Person> people;
  std::vector<Overhead> overheads;
  Percent utilisation{70};
  HourRate hour;
  Workday workday;
  std::vector<Closed> closed;
  Places places;
  int order_slack = 2;  // working days by which a delivery should be here before it is needed
  std::vector<Machine> machines;
  std::vector<ClampSet> clamps;
  std::vector<LabourStandard> standards;
  std::vector<SolidStock> solids;
  std::vector<SheetStock> sheets;
  std::vector<BarStock> bars;
  std::vector<BandStock> bands;
  std::vector<Hardware> hardware;
  std::vector<Finish> finishes;
  std::vector<Glue> glues;
  std::vector<RackPiece> rack;
  Allowances allowances;
  Terms terms;
  Climate climate;
  double job_sigma = 0.12;     // how much whole jobs run long or short together, on the log scale
  Money consumables_per_hour;  // abrasives, glue, blades
  Money delivery_trip;         // van, beside the hours
  wood::SpeciesTable species;
  wood::PanelTable panels;
  wood::AdhesiveTable adhesives;
  wood::FinishTable finish_types;

  /// The entry with this id, or nullptr.
  const SolidStock* solid(std::string_view id) const;
  const SheetStock* sheet(std::string_view id) const;
  const BarStock* bar(std::string_view id) const;
  const BandStock* band(std::string_view id) const;
  const Hardware* fitting(std::string_view id) const;
  const Finish* finish(std::string_view id) const;
  const Glue* glue(std::string_view id) const;
  const Machine* machine(std::string_view id) const;
  const LabourStandard* standard(std::string_view id) const;

  /// Every id a part may be cut from, for "did you mean".
  std::vector<std::string> stock_ids() const;
  /// Ids of all fittings of `kind`, or of all when it is empty.
  std::vector<std::string> fitting_ids(std::string_view kind = {}) const;
};

}  // namespace plankwright::shop
