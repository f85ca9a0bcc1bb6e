#pragma once
// Pictures and papers of plans, drawn once and remembered.

#include <memory>
#include <mutex>
#include <string>

#include "base/result.h"
#include "papers/page.h"
#include "papers/piece_drawing.h"
#include "server/planner.h"
#include "server/recent.h"
#include "solid/mesh.h"

namespace plankwright::server {

enum class PaperKind { kQuotation, kShopPacket };

/// Draws one thing at a time. What is drawn of a piece is remembered by its shape: an edit of a
/// price draws nothing anew, an edit of one part meshes one part.
class DrawingDesk {
 public:
  using Picture = std::shared_ptr<const papers::PiecePicture>;
  using Paper = std::shared_ptr<const papers::Paper>;
  using Mesh = std::shared_ptr<const solid::Mesh>;

  base::Result<Picture> picture(const plan::Plan& plan);
  /// One of the views of a picture as SVG.
  base::Result<std::string> view(const plan::Plan& plan, const std::string& name);
  Paper paper(const SharedPlan& planned, PaperKind kind);
  std::string pdf(const SharedPlan& planned, PaperKind kind);
  /// One page, counted from 1. Error when there is no such page.
  base::Result<std::string> page(const SharedPlan& planned, PaperKind kind, std::size_t number);
  /// Of a body that stands at the origin.
  base::Result<Mesh> mesh(const solid::Body& body);

 private:
  std::mutex drawing_;
  Recent<std::string, Picture> pictures_{4};
  Recent<std::pair<SharedPlan, PaperKind>, Paper> papers_{8};
  Recent<std::string, Mesh> meshes_{2000};
};

/// The plain values of a body in one line: equal bodies, equal lines.
std::string shape_of(const solid::Body& body);

}  // namespace plankwright::server
