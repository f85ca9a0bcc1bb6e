#include "solid/body.h"

namespace plankwright::solid {

using measure::Length;

Outline polygon(const std::vector<OutlinePoint>& corners) {
  Outline outline;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    outline.edges.push_back({.to = corners[(i + 1) % corners.size()]});
  }
  return outline;
}

Outline circle(OutlinePoint centre, Length radius) {
  const OutlinePoint left{centre.u - radius, centre.v};
  const OutlinePoint right{centre.u + radius, centre.v};
  const OutlinePoint below{centre.u, centre.v - radius};
  const OutlinePoint above{centre.u, centre.v + radius};
  return {.edges = {{.to = right, .through = below}, {.to = left, .through = above}}};
}

Outline slot(OutlinePoint low, OutlinePoint high) {
  const Length wide = high.u - low.u;
  const Length tall = high.v - low.v;
  if (wide >= tall) {
    const Length r = tall / 2;
    const Length middle = low.v + r;
    return {.edges = {{.to = {high.u - r, low.v}},
                      {.to = {high.u - r, high.v}, .through = OutlinePoint{high.u, middle}},
                      {.to = {low.u + r, high.v}},
                      {.to = {low.u + r, low.v}, .through = OutlinePoint{low.u, middle}}}};
  }
  const Length r = wide / 2;
  const Length middle = low.u + r;
  return {.edges = {{.to = {high.u, high.v - r}},
                    {.to = {low.u, high.v - r}, .through = OutlinePoint{middle, high.v}},
                    {.to = {low.u, low.v + r}},
                    {.to = {high.u, low.v + r}, .through = OutlinePoint{middle, low.v}}}};
}

}  // namespace plankwright::solid
