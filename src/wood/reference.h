#pragma once
// All reference tables of the trade in one value.

#include <functional>
#include <string>

#include "base/result.h"
#include "wood/adhesives.h"
#include "wood/board_faults.h"
#include "wood/board_measure.h"
#include "wood/ergonomics.h"
#include "wood/finishes.h"
#include "wood/grades.h"
#include "wood/panel.h"
#include "wood/proportions.h"
#include "wood/sag_rules.h"
#include "wood/sources.h"
#include "wood/species.h"
#include "wood/stability.h"

namespace plankwright::wood {

struct Reference {
  SourceTable sources;
  SpeciesTable species;
  PanelTable panels;
  ThicknessTable thicknesses;
  GradeTable grades;
  BoardFaultTable board_faults;
  SagLimitTable sag_limits;
  CreepTable creep;
  LoadTable loads;
  AdhesiveTable adhesives;
  ClampPressureTable clamp_pressures;
  FinishTable finishes;
  FinishTransferTable finish_transfers;
  UsualSizeTable usual_sizes;
  ProportionTable proportions;
  StorageRule storage_rule;
};

/// Reads every table through `text_of`, which is asked for file names such as `species.csv` and
/// hands out the text of it from wherever the data folder is. The first error of any of them; also
/// a panel whose creep row does not exist.
base::Result<Reference> read_reference(
    const std::function<base::Result<std::string>(const std::string& name)>& text_of);

}  // namespace plankwright::wood
