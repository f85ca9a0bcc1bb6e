#include "main/summary.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "main/calendar_text.h"
#include "main/settings_text.h"
#include "main/wrapped.h"
#include "measure/expression.h"
#include "papers/board_wording.h"
#include "papers/stock_wording.h"
#include "papers/wording.h"

namespace plankwright::cli {
namespace {

using measure::Money;

void heading(std::string& out, std::string_view text) {
  out += fmt::format("\n{}\n", text);
}

std::string hours(double h) {
  return fmt::format("{:.1f}", std::round(h * 2) / 2);  // half hours: more would be false precision
}

std::string money(const plan::Plan& plan, Money amount) {
  return measure::print_whole(amount, plan.shop.currency);
}

std::string signed_money(const plan::Plan& plan, Money amount) {
  return amount == Money{} ? "the same"
                           : fmt::format("{}{}", amount > Money{} ? "+" : "", money(plan, amount));
}

void write_piece(std::string& out, const plan::Plan& plan) {
  const auto unit = plan.commission.unit();
  const auto& size = plan.piece.overall.size;
  out +=
      fmt::format("{}  ({}revision {})\n",
                  plan.commission.name,
                  plan.commission.number.empty() ? "" : fmt::format("{}, ", plan.commission.number),
                  plan.commission.revision);
  out += fmt::format("{} wide, {} deep, {} high; {} parts in {} lines; {:.0f} kg ({:.0f} lb)\n",
                     measure::print_with_unit(size.x, unit),
                     measure::print_with_unit(size.y, unit),
                     measure::print_with_unit(size.z, unit),
                     plan.piece.parts.size(),
                     piece::part_lines(plan.piece).size(),
                     plan.piece.mass.count(),
                     plan.piece.mass.count() / 0.45359237);
}

void write_finding(std::string& out, const checks::Finding& finding) {
  out += fmt::format("  {:<9} {}\n", checks::word(finding.severity), wrapped(finding.title, 12));
  out += fmt::format(
      "            {}\n",
      wrapped(
          finding.figure + (finding.limit.empty() ? "" : fmt::format("; limit {}", finding.limit)),
          12));
  if (!finding.remedy.empty()) {
    out += fmt::format("            -> {}\n", wrapped(finding.remedy, 15));
  }
}

void write_findings(std::string& out, const plan::Plan& plan, std::size_t most) {
  const auto& open = plan.findings.open;
  heading(out, fmt::format("WHAT TO SETTLE BEFORE THE FIRST CUT ({})", open.size()));
  if (open.empty()) {
    out += "  Nothing found.\n";
  }
  for (std::size_t i = 0; i < std::min(most, open.size()); ++i) {
    write_finding(out, open[i]);
  }
  if (open.size() > most) {
    out += fmt::format(
        "  and {} more: plankwright check {}\n", open.size() - most, plan.commission.file);
  }
}

void write_sheets(std::string& out, const plan::Plan& plan) {
  for (const stock::SheetNeed& need : plan.stock.sheets) {
    const std::string rack =
        need.rack_pieces > 0 ? fmt::format(", {} of them out of the rack", need.rack_pieces) : "";
    out +=
        fmt::format("    {}: {} sheet{}{}; no layout can do with fewer than {}{}\n",
                    papers::stock_name(plan, need.stock),
                    need.sheets,
                    need.sheets == 1 ? "" : "s",
                    rack,
                    need.bound,
                    need.proven || need.rack_pieces > 0 ? "" : ", and none with so few was found");
  }
}

void write_bars(std::string& out, const plan::Plan& plan) {
  for (const stock::BarNeed& need : plan.stock.bars) {
    out += fmt::format("    {}: {}\n",
                       papers::stock_name(plan, need.stock),
                       wrapped(papers::bar_bound_text(plan, need), 6));
  }
  for (const stock::BandNeed& need : plan.stock.bands) {
    if (need.strips) {
      out += fmt::format("    {}: {}\n",
                         papers::stock_name(plan, need.stock),
                         wrapped(papers::bar_bound_text(plan, *need.strips), 6));
    }
  }
}

std::string paths_of(const plan::Plan& plan, const std::vector<piece::PartIndex>& parts) {
  std::string text;
  for (const piece::PartIndex part : parts) {
    text += (text.empty() ? "" : ", ") + plan.piece.parts[part].path;
  }
  return text;
}

void write_rack(std::string& out, const plan::Plan& plan) {
  if (!plan.stock.from_rack.empty()) {
    heading(out, "OUT OF THE RACK");
  }
  for (const stock::FromRack& each : plan.stock.from_rack) {
    out += fmt::format("  {:<8} {:<46.46} {:>16}\n",
                       each.label,
                       fmt::format("{}{}, {}",
                                   each.count > 1 ? fmt::format("{} of ", each.count) : "",
                                   papers::stock_name(plan, each.stock),
                                   papers::rack_size(plan, each.kind, each.length, each.width)),
                       money(plan, each.value));
    out += fmt::format("           for {}\n", wrapped(paths_of(plan, each.parts), 11));
  }
  if (!plan.stock.to_rack.empty()) {
    heading(out, "INTO THE RACK WHEN IT IS CUT");
  }
  for (const stock::ToRack& each : plan.stock.to_rack) {
    out += fmt::format("  {:>3} of {:<38.38} {:<20} {:>10}{}\n",
                       each.count,
                       papers::stock_name(plan, each.stock),
                       papers::rack_size(plan, each.kind, each.length, each.width),
                       money(plan, each.value),
                       each.from.empty() ? "" : fmt::format("   left of {}", each.from));
  }
}

/// Sizes that miss a saving by a hair.
void write_nudges(std::string& out, const plan::Plan& plan) {
  if (plan.nudges.empty()) {
    return;
  }
  heading(out, "WHAT A SMALL CHANGE WOULD SAVE");
  for (const stock::Nudge& nudge : plan.nudges) {
    out += fmt::format("  {}\n", wrapped(papers::nudge_text(plan, nudge), 4));
  }
}

void write_purchases(std::string& out, const plan::Plan& plan) {
  heading(out, "WHAT TO BUY");
  for (const stock::Purchase& purchase : plan.stock.purchases) {
    out += fmt::format("  {:<38.38} {:<30.30} {:>16}\n",
                       purchase.what,
                       purchase.quantity,
                       money(plan, purchase.price));
  }
  for (const stock::SolidNeed& need : plan.stock.solids) {
    const shop::SolidStock* stock = plan.shop.solid(need.stock);
    for (const stock::BoardAsk& ask : need.asks) {
      out += fmt::format("    ask for {} board{} of {} at least {} by {}, {}{}\n",
                         ask.count,
                         ask.count == 1 ? "" : "s",
                         stock != nullptr ? stock->name : need.stock,
                         measure::print_with_unit(ask.length, plan.commission.unit()),
                         measure::print_with_unit(ask.width, plan.commission.unit()),
                         ask.quality,
                         ask.spare ? " (spare)" : "");
    }
    for (const std::string& text :
         {papers::board_bound_text(plan, need), papers::odds_text(plan, need)}) {
      if (!text.empty()) {
        out += fmt::format("      {}\n", wrapped(text, 8));
      }
    }
  }
  write_sheets(out, plan);
  write_bars(out, plan);
  write_rack(out, plan);
  write_nudges(out, plan);
}

void write_hours(std::string& out, const plan::Plan& plan) {
  heading(out, "HOURS");
  for (const bench::PhaseHours& phase : plan.bench.phases) {
    out += fmt::format("  {:<12} {:>6}\n", phase.phase, hours(phase.hours.mean));
  }
  const bench::Spread& total = plan.bench.total;
  out += fmt::format(
      "  {:<12} {:>6}   half the time under {}, four times in five under {}, nine in "
      "ten under {}\n",
      "in all",
      hours(total.mean),
      hours(total.median),
      hours(total.p80),
      hours(total.p90));
  for (const std::string& operation : plan.bench.driven_by) {
    out += fmt::format("  least sure: {}\n", operation);
  }
}

void write_settings(std::string& out, const plan::Plan& plan) {
  if (const std::string text = settings_text(plan); !text.empty()) {
    heading(out, "SETTINGS");
    out += text;
  }
}

void write_glue_ups(std::string& out, const plan::Plan& plan) {
  const bench::Bench& bench = plan.bench;
  if (bench.glue_ups.empty()) {
    return;
  }
  heading(out, "GLUE-UPS");
  for (const bench::StageCard& card : bench.glue_ups) {
    out += fmt::format("  step {:>3}  {}: {} joint{}, about {:.0f} min",
                       card.operation + 1,
                       card.name,
                       card.glued,
                       card.glued == 1 ? "" : "s",
                       card.takes.count());
    out += card.has.count() > 0 ? fmt::format(" of {:.0f}", card.has.count()) : "";
    out += card.people > 1 ? fmt::format(" with {} people", card.people) : "";
    out += card.diagonal > measure::Length{}
               ? fmt::format("; diagonals {}",
                             measure::print_with_unit(card.diagonal, plan.commission.unit()))
               : "";
    out += "\n";
    for (const std::string& warning : card.warnings) {
      out += fmt::format("            {}\n", wrapped(warning, 12));
    }
  }
  out += fmt::format(
      "  {} in all; fewer than {} cannot be\n", bench.glue_ups.size(), bench.glue_ups_bound);
  for (const std::string& blocked : bench.cannot_assemble) {
    out += fmt::format("  {}\n", wrapped(blocked, 4));
  }
}

void write_calendar(std::string& out, const plan::Plan& plan) {
  if (plan.calendar) {
    out += calendar_summary(*plan.calendar,
                            {{&plan.commission, &plan.piece, &plan.stock, &plan.bench}});
    return;
  }
  out += "\nWHEN\n";
  for (const std::string& missing : plan.calendar_missing) {
    out += fmt::format("  no date: {}\n", wrapped(missing, 4));
  }
}

void write_price(std::string& out, const plan::Plan& plan) {
  const price::Price& price = plan.price;
  heading(out, "PRICE");
  const auto line = [&](std::string_view what, Money amount, const std::string& note = "") {
    out += fmt::format("  {:<26} {:>16}{}\n",
                       what,
                       money(plan, amount),
                       note.empty() ? "" : fmt::format("   {}", note));
  };
  line("material and bought in", price.materials);
  line("labour",
       price.labour,
       fmt::format("{} an hour, overhead in it", money(plan, plan.shop.hour.cost)));
  line("reserve for risky steps", price.reserve);
  line("cost", price.cost);
  line("price",
       price.price,
       fmt::format("margin {:.1f} % of the price = markup {:.1f} % on cost",
                   price.margin.count(),
                   price.markup.count()));
  line(plan.commission.terms.tax_name.empty() ? "tax" : plan.commission.terms.tax_name, price.tax);
  line("client pays", price.total);
  for (const price::Payment& payment : price.payments) {
    line(
        fmt::format("  {}", payment.event),
        payment.amount,
        fmt::format("{:.0f} %, {} with tax", payment.share.count(), money(plan, payment.with_tax)));
  }
  for (const price::Outcome& outcome : price.outcomes) {
    out += fmt::format("  at {} hours ({}): margin {:.1f} %\n",
                       outcome.name,
                       hours(outcome.hours),
                       outcome.margin.count());
  }
  out += fmt::format("  nothing is left above {} hours: a chance of {:.0f} %\n",
                     hours(price.hours_to_lose),
                     100 * price.chance_of_loss);
}

void write_effect(std::string& out, const plan::Plan& plan, const plan::ChoiceEffect& effect) {
  out += fmt::format("    {} {:<46.46}", effect.picked ? "*" : " ", effect.says);
  if (effect.picked) {
    out += "  as planned\n";
    return;
  }
  if (!effect.errors.empty()) {
    out += fmt::format("  cannot be built: {}\n", effect.errors.front().message);
    return;
  }
  out += fmt::format("  price {}, {:+.1f} h, {:+.0f} days lead, {:+.0f} kg",
                     signed_money(plan, effect.price_change),
                     effect.hours_change,
                     effect.days_change,
                     effect.mass_change.count());
  if (!effect.findings_new.empty() || !effect.findings_gone.empty()) {
    out +=
        fmt::format("; findings +{} -{}", effect.findings_new.size(), effect.findings_gone.size());
  }
  out += '\n';
}

void write_choices(std::string& out, const plan::Plan& plan) {
  if (plan.choices.empty()) {
    return;
  }
  heading(out, "CHOICES (* as planned; the others by what they change)");
  for (const commission::Choice& choice : plan.commission.choices) {
    out += fmt::format("  {}\n", choice.asks);
    for (const plan::ChoiceEffect& effect : plan.choices) {
      if (effect.choice == choice.id) {
        write_effect(out, plan, effect);
      }
    }
  }
  for (const price::MakeOrBuy& question : plan.make_or_buy) {
    out += fmt::format(
        "  Make or buy: making takes {:.0f} min for {}, and pays below {:.0f} min; {}\n",
        question.make_time.count(),
        question.pieces,
        question.break_even.count(),
        question.advice);
  }
}

}  // namespace

std::string summary(const plan::Plan& plan) {
  std::string out;
  constexpr std::size_t kFindingsShown = 6;
  write_piece(out, plan);
  write_findings(out, plan, kFindingsShown);
  write_purchases(out, plan);
  write_hours(out, plan);
  write_settings(out, plan);
  write_glue_ups(out, plan);
  write_calendar(out, plan);
  write_price(out, plan);
  write_choices(out, plan);
  return out;
}

std::string findings_text(const plan::Plan& plan) {
  std::string out;
  write_findings(out, plan, plan.findings.open.size());
  write_nudges(out, plan);
  heading(out, "WHERE THEY COME FROM");
  for (const checks::Finding& finding : plan.findings.open) {
    out += fmt::format("  {}: line {}, {}\n", finding.id, finding.from.line, finding.source);
  }
  for (const checks::Finding& finding : plan.findings.dismissed) {
    out += fmt::format("  dismissed {}: {}\n", finding.id, finding.dismissed);
  }
  return out;
}

std::string combinations_text(const std::vector<plan::Combination>& all, const plan::Plan& plan) {
  std::string out;
  heading(out, fmt::format("ALL {} COMBINATIONS (* none is both cheaper and quicker)", all.size()));
  for (const plan::Combination& one : all) {
    std::string picks;
    for (const auto& [choice, option] : one.picks) {
      picks += fmt::format("{}{}={}", picks.empty() ? "" : " ", choice, option);
    }
    out += fmt::format("{} {:>14}  {:>6} h  P80 {:>6} h  loss {:>3.0f} %  {} finding{}  {}\n",
                       one.undominated ? "*" : " ",
                       money(plan, one.price),
                       hours(one.hours_mean),
                       hours(one.hours_p80),
                       100 * one.chance_of_loss,
                       one.findings,
                       one.findings == 1 ? "" : "s",
                       picks);
  }
  return out;
}

}  // namespace plankwright::cli
