#include "server/drawing_desk.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "papers/page_output.h"
#include "papers/paper_pages.h"
#include "papers/part_body.h"
#include "papers/three_views.h"

namespace plankwright::server {
namespace {

constexpr measure::Length kChord = measure::Length::from_nm(200'000);

void add(std::string& line, measure::Length length) {
  line += fmt::format("{},", length.nm());
}

void add(std::string& line, const measure::Box& box) {
  line += 'b';
  for (const measure::Point& p : {box.at, box.size}) {
    add(line, p.x);
    add(line, p.y);
    add(line, p.z);
  }
}

void add(std::string& line, const solid::Extrusion& drawn) {
  line += fmt::format("e{},", static_cast<int>(drawn.along));
  add(line, drawn.from);
  add(line, drawn.length);
  for (const solid::OutlineEdge& edge : drawn.outline.edges) {
    add(line, edge.to.u);
    add(line, edge.to.v);
    if (edge.through) {
      line += 't';
      add(line, edge.through->u);
      add(line, edge.through->v);
    }
  }
}

/// What decides the lines of a picture.
std::string shape_of_picture(const plan::Plan& plan) {
  std::string shape = fmt::format("{};", static_cast<int>(papers::projection_of(plan)));
  for (const piece::Part& part : plan.piece.parts) {
    shape += fmt::format("g{}", static_cast<int>(part.length_axis));
    shape += server::shape_of(papers::part_body(part));
  }
  for (const papers::DrawnPull& pull : papers::pulls_of(plan.piece, plan.shop)) {
    shape += server::shape_of(pull.body);
  }
  return shape;
}

base::Result<papers::ShownView> view_named(const std::string& name) {
  static const std::vector<std::string> kNames = {"front", "side", "top", "perspective"};
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    if (kNames[i] == name) {
      return static_cast<papers::ShownView>(i);
    }
  }
  const std::span<const std::string> names{kNames};
  return base::Error{base::ErrorCode::kBadInput,
                     fmt::format("found view `{}`, expected {}", name, base::list_words(names)),
                     std::nullopt,
                     base::nearest_word(name, names)};
}

}  // namespace

std::string shape_of(const solid::Body& body) {
  std::string line;
  for (const auto* lumps : {&body.wood, &body.cuts}) {
    line += lumps == &body.wood ? '+' : '-';
    for (const solid::Lump& lump : *lumps) {
      std::visit([&](const auto& one) { add(line, one); }, lump);
    }
  }
  return line;
}

base::Result<DrawingDesk::Picture> DrawingDesk::picture(const plan::Plan& plan) {
  const std::string shape = shape_of_picture(plan);
  const std::lock_guard lock{drawing_};
  if (const auto found = pictures_.find(shape)) {
    return *found;
  }
  auto drawn = papers::picture_of(plan);
  if (!drawn.ok()) {
    return drawn.error();
  }
  Picture picture = std::make_shared<const papers::PiecePicture>(std::move(drawn).value());
  pictures_.keep(shape, picture);
  return picture;
}

base::Result<std::string> DrawingDesk::view(const plan::Plan& plan, const std::string& name) {
  const auto shown = view_named(name);
  if (!shown.ok()) {
    return shown.error();
  }
  const auto drawn = picture(plan);
  if (!drawn.ok()) {
    return drawn.error();
  }
  const std::lock_guard lock{drawing_};
  return papers::to_svg(papers::view_page(shown.value(), *drawn.value(), plan));
}

DrawingDesk::Paper DrawingDesk::paper(const SharedPlan& planned, PaperKind kind) {
  const std::lock_guard lock{drawing_};
  const auto key = std::pair{planned, kind};
  if (const auto found = papers_.find(key)) {
    return *found;
  }
  Paper paper = std::make_shared<const papers::Paper>(
      kind == PaperKind::kQuotation ? papers::quotation_pages(*planned->plan)
                                    : papers::shop_packet_pages(*planned->plan));
  papers_.keep(key, paper);
  return paper;
}

std::string DrawingDesk::pdf(const SharedPlan& planned, PaperKind kind) {
  const Paper drawn = paper(planned, kind);
  const std::lock_guard lock{drawing_};
  return papers::to_pdf(*drawn);
}

base::Result<std::string> DrawingDesk::page(const SharedPlan& planned,
                                            PaperKind kind,
                                            std::size_t number) {
  const Paper drawn = paper(planned, kind);
  if (number < 1 || number > drawn->pages.size()) {
    return base::Error{base::ErrorCode::kBadInput,
                       fmt::format("found page {}, expected 1 to {}", number, drawn->pages.size())};
  }
  const std::lock_guard lock{drawing_};
  return papers::to_svg(drawn->pages[number - 1]);
}

base::Result<DrawingDesk::Mesh> DrawingDesk::mesh(const solid::Body& body) {
  const std::string shape = shape_of(body);
  if (const auto found = meshes_.find(shape)) {
    return *found;
  }
  const std::lock_guard lock{drawing_};
  auto made = solid::mesh_of(body, kChord);
  if (!made.ok()) {
    return made.error();
  }
  Mesh mesh = std::make_shared<const solid::Mesh>(std::move(made).value());
  meshes_.keep(shape, mesh);
  return mesh;
}

}  // namespace plankwright::server
