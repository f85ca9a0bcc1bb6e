#pragma once
// What the trade knows about turning a piece into work, as two tables: which part, joint, cut or
// fitting asks for which labour standard, and which cautions go with which work.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::bench {

using measure::Length;

/// How many units of a labour standard one thing asks for.
enum class Units {
  kNone,        // the work is in another rule
  kOne,         // the thing itself
  kHalf,        // it takes two settings and this is one of them
  kTwice,       // both halves
  kCount,       // holes, hinges, sheets, hours
  kQuarter,     // one of the four corners of a box
  kThird,       // dowels, three to a joint, at least one joint
  kFeet,        // its length
  kSquareFeet,  // its area
  kBlanks       // boards or strips it is made of; short parts share a blank
};

/// What the machine is set to.
enum class SettingWay {
  kNone,
  kFence,      // width of the part
  kStop,       // length of the part
  kHeight,     // thickness of the part, of one layer when it is laminated
  kThickness,  // finished thickness of the part, in a jig
  kCutter,     // width and depth of the cut
  kBit,        // width of the mortise, diameter of the hole, and its depth
  kJig         // a jig, a template or a fitting, by its name
};

/// One row, for one kind of thing.
struct Rule {
  std::string stage;     // of the work: "rough", "panels", "width"
  std::size_t rank = 0;  // of the stage in working order; everything of a lower rank comes first on
                         // the same part
  std::string subject;   // "part", "feature", "joint", "fitting" ...
  std::string kind;      // "solid", "housing", "slide_pair"; "*" for all that have no row
  std::string standard;  // id of the labour standard; "" when no time is counted here
  Units units = Units::kNone;
  SettingWay setting = SettingWay::kNone;
  std::string name;  // what the work is called when not after its standard
  double fails = 0;  // chance, 0..1, that a piece is spoiled here
  std::string test;  // how the setting is proved
  std::string says;  // for the step card, or why no time is counted
  std::string source;
  base::Position at;
};

/// Figures the rules lean on, from the rows `limit`.
struct Limits {
  Length short_part;              // shorter parts are milled as one blank and cut up last
  int glue_lines_a_stage = 0;     // pressed together when boards are glued to panels
  double share_of_open_time = 0;  // of the glue's open and closed time that a stage may take
  double spreading_share = 0;     // of the time of a glue-up: glue on
  double assembling_share = 0;    // joints closed; the rest is clamps and squaring
  int joints_for_two = 0;         // a stage with more joints needs two people
  double board_feet_a_board = 0;  // of a usual board
  int bent_plies = 0;             // of a bent lamination
  Length wide_tenon;              // a wider tenon is a tongue across a panel
  Length clamp_spacing;           // of clamps along a joint
  Length join_settings_within;    // fences and stops this near become one; zero: never
  measure::Minutes walk;          // from one machine to another, with the pile
  measure::Minutes fetch;         // of a pile that was put aside
  measure::Celsius glue_halves;   // so much warmer than the table, and a glue's times are half
};

/// When a caution applies to a piece of work.
enum class When {
  kAlways,
  kShorterThan,   // a part shorter than the machine's shortest, or than `limit` mm
  kNarrowerThan,  // mm
  kThinnerThan,   // mm
  kWiderThan,     // mm
  kLongerThan,    // mm
  kHeavierThan,   // kg, of the heaviest thing lifted
  kMoreThan,      // pieces
  kSpecies,       // words of which one begins the id of the wood
  kMaterial,      // "solid" or "sheet"
  kFinish,        // ids of finish types
  kLoosePanel,    // a panel that must stay free in its frame
  kPeople         // so many people or more
};

/// A caution bound to work, material, size or machine.
struct Caution {
  std::string id;
  int severity = 1;  // 3: a person can be maimed; 2: hurt or fire; 1: work spoiled
  std::vector<std::string> standards;  // it belongs to; "*" for all
  When when = When::kAlways;
  double limit = 0;
  std::vector<std::string> words;  // of kSpecies, kMaterial, kFinish
  std::string says;
  std::string source;
};

struct Rules {
  std::vector<Rule> rules;  // in the order of the table
  Limits limits;
  std::vector<Caution> cautions;

  /// The rows for a kind of thing; those of `*` when it has none of its own.
  std::vector<const Rule*> rules_for(std::string_view subject, std::string_view kind) const;
  /// True when this kind has a row of its own.
  bool names(std::string_view subject, std::string_view kind) const;
};

struct ReadRules {
  Rules rules;
  base::Errors errors;
};

/// Reads data/operation_rules.csv. All errors with their places: unknown words (with the right one
/// offered), a stage whose rows stand apart, a row without a standard that does not say why, a
/// chance outside 0..1, a limit missing or unknown, no column of that name.
ReadRules read_rules(std::string_view csv_text, const std::string& file);

/// Reads data/cautions.csv into `rules.cautions`; the errors, with their places.
base::Errors read_cautions(std::string_view csv_text, const std::string& file, Rules& rules);

/// Labour standards the rules ask for that are not among `known`, with the place of the row.
base::Errors missing_standards(const Rules& rules, const std::vector<std::string>& known);

}  // namespace plankwright::bench
